"""What a piece's findings tell the price model: image quality, identification, subjects."""

import pytest

from appraise.base.errors import InputError
from appraise.knowledge import load
from appraise.records.piece import Finding, Image, Piece
from appraise.records.piece_features import degree, identified_of, quality_of
from appraise.records.piece_file import parse_piece, write_piece
from appraise.records.piece_words import IDENTIFIED

KNOWLEDGE = load()


def piece(*told: str, known: str = "in-hand", **more: object) -> Piece:
    pairs = [one.split() for one in told]
    return Piece(findings={c: Finding(c, a, known) for c, a in pairs}, **more)  # type: ignore[arg-type]


def test_quality_is_the_mean_of_the_marks_as_far_as_they_are_believed() -> None:
    assert quality_of(piece(), KNOWLEDGE) is None
    assert quality_of(piece("image.sharpness usual"), KNOWLEDGE) == 3.0
    sharp = quality_of(piece("image.sharpness sharp"), KNOWLEDGE)
    both = quality_of(piece("image.sharpness sharp", "image.tones flat"), KNOWLEDGE)
    said = quality_of(piece("image.sharpness sharp", known="seller"), KNOWLEDGE)
    assert sharp is not None
    assert both is not None
    assert said is not None
    assert pytest.approx(both) == 3.0
    assert 3.0 < said < sharp <= 5.0


def test_of_several_images_all_count() -> None:
    found = {"image.sharpness": Finding("image.sharpness", "soft", "in-hand")}
    two = piece("image.sharpness sharp", images=(Image("left", found),))
    assert quality_of(two, KNOWLEDGE) == pytest.approx(3.0)


def test_the_answers_of_the_check_are_the_degrees_of_the_log() -> None:
    answers = [one.id for one in KNOWLEDGE.checks["sitter.identified"].answers]
    assert sorted(answers) == sorted(IDENTIFIED)
    for word in IDENTIFIED:
        assert identified_of(piece(f"sitter.identified {word}"), KNOWLEDGE) == word
    steps = [degree(word) for word in IDENTIFIED]
    assert steps == sorted(steps, key=lambda step: step or 0.0)
    assert (steps[0], steps[-1], degree("")) == (0.0, 1.0, None)


def test_writing_alone_identifies_nobody() -> None:
    told = parse_piece("piece: 1\ninscription: {text: for Ann from her friend}\n", "p", KNOWLEDGE)
    assert identified_of(told, KNOWLEDGE) == ""


def test_several_subjects_and_a_maker_go_out_and_in() -> None:
    text = "piece: 1\nsubject: [soldier, music]\nmaker: R. Quill\n"
    told = parse_piece(text, "p", KNOWLEDGE)
    assert (told.subjects, told.subject, told.maker) == (
        ("soldier", "music"),
        "soldier",
        "R. Quill",
    )
    assert parse_piece(write_piece(told), "p", KNOWLEDGE) == told


def test_a_piece_of_older_files_has_its_one_subject() -> None:
    assert parse_piece("piece: 1\nsubject: child\n", "p", KNOWLEDGE).subjects == ("child",)
    with pytest.raises(InputError, match="'cat' is not known"):
        parse_piece("piece: 1\nsubject: [child, cat]\n", "p", KNOWLEDGE)
