"""The drawings that ship: sound, within their box, each named by a row, and none missing."""

import re
import shutil

import pytest
from every import every

from appraise.base.drawing import HEIGHT, WIDTH, strokes
from appraise.base.errors import InputError
from appraise.base.places import shipped_data
from appraise.knowledge import load
from appraise.knowledge.figures import drawing, figure_problems, named, names

KNOWLEDGE = load()
SHAPES = (
    "mat.shape", "mat.surface", "mat.position", "preserver.form", "preserver.corners", "case.build",
    "case.outline", "case.sleeve", "case.pictures", "mount.form", "mount.corners", "mount.edge",
    "mount.stereo-corners", "mount.stereo-bend", "mount.decoration", "hinge.kind", "clasp.kind",
    "clasp.meets", "case.halves", "package.size-match", "package.fit", "seal.state", "seal.paper",
    "plate.mirror", "plate.magnet", "plate.outline", "plate.curved-glass", "image.dots",
    "case.detail", "case.well", "case.hinge-hardware", "slide.frame", "print.postcard-border",
)  # fmt: skip
"""The checks whose answers are shapes, so that each of them can be drawn."""
SHAPELESS = {("case.build", "hidden")}
"""Answers of those that say that there is nothing to see."""


def test_there_are_at_least_sixty():
    assert len(names()) >= 60


@every("name", names())
def test_a_drawing_is_sound_and_lies_within_its_box(name):
    found = drawing(name)
    assert found
    for x, y in (point for stroke in found for point in stroke):
        assert 0 <= x <= WIDTH
        assert 0 <= y <= HEIGHT


@every("name", names())
def test_a_drawing_fills_a_fair_part_of_its_box(name):
    found = [point for stroke in drawing(name) for point in stroke]
    tall = max(y for _, y in found) - min(y for _, y in found)
    wide = max(x for x, _ in found) - min(x for x, _ in found)
    assert max(tall / HEIGHT, wide / WIDTH) > 0.5


def test_every_answer_of_a_check_of_shapes_has_its_own():
    for check in (KNOWLEDGE.checks[name] for name in SHAPES):
        drawn = {answer: name for name, answer, _ in named(check) if answer}
        shapes = [
            a.id for a in check.answers if not a.unnamed and (check.id, a.id) not in SHAPELESS
        ]
        missing = [answer for answer in shapes if answer not in drawn]
        assert not missing, f"{check.id}: {missing}"
        assert len(set(drawn.values())) == len(drawn), f"{check.id} shows one drawing twice"


def test_no_two_drawings_are_the_same():
    assert len({drawing(name) for name in names()}) == len(names())


def size(name):
    found = [point for stroke in drawing(name) for point in stroke]
    wide, tall = ([point[n] for point in found] for n in (0, 1))
    return max(wide) - min(wide), max(tall) - min(tall)


def test_cards_are_drawn_at_one_scale_in_their_own_proportions():
    for form in ("carte", "cabinet", "stereo"):
        wide, tall = size(f"mount-{form}")
        row = next(one for one in KNOWLEDGE.formats.values() if one.form == form)
        lying = form == "stereo"
        real = [sorted(one, reverse=lying) for one in row.sizes]
        assert any(
            wide / w == pytest.approx(0.46, abs=0.005)
            and tall / t == pytest.approx(0.46, abs=0.005)
            for w, t in real
        )


def test_plates_side_by_side_are_drawn_at_one_scale():
    # Five units to the inch; the sizes are those of the formats, which cite their sources.
    text = (shipped_data() / "figures" / "plate-sizes.svg").read_text(encoding="utf-8")
    found = re.findall(r'width="([\d.]+)" height="([\d.]+)"', text)
    plates = ("whole", "half", "quarter", "sixth", "ninth", "sixteenth")
    assert len(found) == len(plates)
    for name, drawn in zip(plates, found, strict=True):
        sizes = KNOWLEDGE.formats[name].sizes
        inches = [float(one) / 5 for one in drawn]
        near = [
            all(abs(i * 25.4 - mm) < 1.6 for i, mm in zip(inches, one, strict=True))
            for one in sizes
        ]
        assert any(near), name


def test_thicknesses_of_cards_are_drawn_at_the_scale_of_the_paper_beside_them():
    # Ten sheets are 1 mm and 40 units high; the answers' own words give the bounds in mm.
    table = 74
    for answer, low, high in [
        ("thin", 0, 0.5), ("middling", 0.5, 0.75), ("thick", 0.75, 1), ("very-thick", 1, 2),
    ]:  # fmt: skip
        top = min(y for stroke in drawing(f"card-{answer}") for x, y in stroke if x > 60)
        assert low < (table - top) / 40 <= high


def test_a_drawing_that_is_not_there_is_told_with_the_nearest():
    with pytest.raises(InputError, match="mat-octagon"):
        drawing("mat-octagom")


def test_missing_and_unused_drawings_are_problems(tmp_path):
    data = tmp_path / "data"
    shutil.copytree(shipped_data(), data)
    (data / "figures" / "mat-octagon.svg").rename(data / "figures" / "mat-eight.svg")
    told = [str(one) for one in load(data=data).problems]
    assert any("mat.shape.octagon: there is no drawing 'mat-octagon'" in one for one in told)
    assert any("mat-eight.svg: no check or answer names it" in one for one in told)
    assert len(told) == 2


def test_the_shipped_knowledge_has_no_such_problem():
    assert figure_problems(KNOWLEDGE, shipped_data()) == []


def test_a_row_of_ones_own_may_name_a_drawing_that_ships(tmp_path):
    row = "keyhole: {says: a keyhole, years: {us: 1846 1850 1856 1862 low}, share: .1, "
    (tmp_path / "mine.yaml").write_text(
        f"answers:\n  mat.shape:\n    {row}figure: mat-arched, basis: practice}}\n"
    )
    found = load(overlay=tmp_path)
    assert not found.problems
    shown = {answer: name for name, answer, _ in named(found.checks["mat.shape"])}
    assert shown["keyhole"] == "mat-arched"


def test_every_drawing_is_written_by_hand_in_few_lines():
    for name in names():
        text = (shipped_data() / "figures" / f"{name}.svg").read_text(encoding="utf-8")
        assert strokes(text, name)
        assert text.count("\n") <= 48
