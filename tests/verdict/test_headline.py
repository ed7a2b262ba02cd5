"""The headline: one sentence that reads well, the same wherever a verdict is told."""

import json
import re
from dataclasses import replace

import pytest
from verdict.verdictkit import KNOWLEDGE, judged, once, steps_of, verdicts

from appraise.app.examine.screen import verdict_band
from appraise.app.examine.shown import Shown, names_in
from appraise.app.lines import words_of
from appraise.app.marks import PLAIN
from appraise.base.money import Money
from appraise.documents.reports.report import report_for
from appraise.documents.verdict import verdict_document
from appraise.documents.verdict_json import verdict_json
from appraise.documents.writers.lines import text
from appraise.reading.matter import bare
from appraise.records.piece import Image, Piece
from appraise.store.piece_record import PieceRecord
from appraise.verdict.naming import LIKELY, PERHAPS, about

SHARE = r"\((?:under |over )?\d\d?%\)"
YEARS = r"about \d{4}(?:-\d{2,4})?"
FINE = Piece().with_finding("plate.magnet", "yes").with_finding("case.material", "leather-wood")


def flat(words):
    return " ".join(words.split())


@once
def told(verdict):
    """The verdict as text and as JSON."""
    steps = steps_of(verdict)
    document = json.loads(json.dumps(verdict_json(verdict, steps, KNOWLEDGE)))
    return text(verdict_document(verdict, KNOWLEDGE, steps)), document


def test_the_pieces_are_of_every_sort():
    found = [one for _, one in verdicts()]
    assert len({one.piece.kind for one in found}) == 12
    assert sum(one.reading.modern >= LIKELY for one in found) >= 15
    assert sum(PERHAPS <= one.reading.modern < LIKELY for one in found) >= 5
    assert sum(one.reading.married >= LIKELY for one in found) >= 5
    assert sum(len(one.reading.named) == 2 for one in found) >= 30
    assert sum(len(one.reading.images) > 1 for one in found) >= 3
    assert any(bare(one.piece) for one in found)
    assert {one.headline.tone for one in found} == {"order", "doubtful", "stop"}


def test_it_is_a_sentence_in_plain_words():
    ids = {one.id for one in KNOWLEDGE.processes.values()} | set(KNOWLEDGE.housings)
    names = " ".join(
        one.name for one in (*KNOWLEDGE.processes.values(), *KNOWLEDGE.housings.values())
    )
    codes = {word for word in ids if "-" in word and word not in names}
    for name, verdict in verdicts():
        what = verdict.headline.what
        assert what == flat(what), name
        assert not what[0].islower(), name
        assert what.endswith("."), name
        assert not re.search(r"picture|photomechanical|\) ?\(|\.\.|,,| ,|\bNone\b", what), what
        assert not any(re.search(rf"\b{code}\b", what) for code in codes), what
        assert not re.search(r"authentic|fake|genuine", str(verdict.headline)), name
        assert not re.search(r"\bin 100\b|per cent|\b0%|\b100%", str(verdict.headline)), name


def test_its_form_is_what_when_and_the_main_doubt():
    for name, verdict in verdicts():
        what, reading = verdict.headline.what, verdict.reading
        if reading.modern >= LIKELY and reading.piece.kind not in ("part", "album", "lot", "other"):
            assert re.search(rf"[Pp]robably (?:a )?modern.*{SHARE}", what), what
            assert not re.search(YEARS, what), what
        elif what.endswith("No estimate."):
            assert not re.search(r"\d", what), what
        else:
            assert re.search(rf", {YEARS}(?: if of its time)?, (?:probably|perhaps) .*{SHARE}"
                             r"(?:, but not all findings are of its time)?\.$",
                             what), (name, what)  # fmt: skip


def test_every_place_shows_the_same_sentence():
    shown = Shown(PLAIN, tuple(KNOWLEDGE.parts), True, True, {}, names_in(KNOWLEDGE))
    for name, verdict in verdicts()[::7]:
        written, document = told(verdict)
        whole = str(verdict.headline)
        assert document["headline"] == whole, name
        assert whole in flat(written), name
        band = flat(" ".join(words_of(row) for row in verdict_band(verdict, shown, 150, 3)))
        assert band[2:] == whole, name

        def by_log(piece, priced, verdict=verdict):
            return verdict

        report = report_for("myself", PieceRecord(verdict.piece), KNOWLEDGE, by_log, {}, "")
        assert whole in flat(text(report)), name
        public = report_for("public", PieceRecord(verdict.piece), KNOWLEDGE, by_log, {}, "")
        assert verdict.headline.what in flat(text(public)), name


def test_the_years_told_are_one_combined_date():
    for name, verdict in verdicts():
        reading = verdict.reading
        written, document = told(verdict)
        joint = document["dates"]["joint"]
        assert (joint["from"], joint["to"]) == (reading.combined.first, reading.combined.last), name
        if re.search(YEARS, verdict.headline.what):
            assert about(reading.combined) in verdict.headline.what, name
            assert reading.combined.edtf in written, name


def test_a_process_is_named_with_years_in_which_it_was_made():
    """A tintype is not before 1856 (United States patent 14300, 19 February 1856)."""
    for name, verdict in verdicts():
        reading = verdict.reading
        if not re.search(YEARS, verdict.headline.what) or reading.piece.kind == "empty-case":
            continue
        rows = [one for one in KNOWLEDGE.processes.values() if one.family in reading.named]
        first = min((years.first for one in rows for years in one.years.values()), default=0)
        assert reading.combined.first >= first, name
        if reading.named == ("tintype",):
            assert reading.combined.first >= 1855, name


def test_a_sentence_tells_one_chance():
    """Two percentages beside each other are read as one thing, and of nobody knows what."""
    for name, verdict in verdicts():
        reading, what = verdict.reading, verdict.headline.what
        assert len(re.findall("%", what)) <= 1, (name, what)
        if len(reading.named) == 2 and "about" in what and not reading.images:
            form = r"(?:Active decay: [^.]*\. )?[A-Za-z][a-z ,-]* or [a-z -]*, "
            assert re.match(form, what), (name, what)


@pytest.mark.parametrize(
    ("findings", "wanted"),
    [
        ({"image.dots": "pattern"}, "modern printed reproduction"),
        ({"case.moulded-mark": "marked"}, "modern case"),
    ],
)
def test_what_is_modern_is_named(findings, wanted):
    piece = Piece()
    for check, answer in findings.items():
        piece = piece.with_finding(check, answer)
    assert wanted in judged(piece).headline.what


def test_of_a_case_that_nobody_saw_nothing_is_said():
    printed = Piece().with_finding("image.dots", "pattern")
    assert "case" not in judged(printed).headline.what
    seen = printed.with_finding("case.material", "leather-wood")
    assert "in an old case" in judged(seen).headline.what


def test_of_several_images_the_more_doubtful_leads_whichever_side_it_is_on():
    good = {"plate.magnet": FINE.findings["plate.magnet"]}
    bad = dict(Piece().with_finding("claim.process", "ambrotype", "seller").findings)
    one = replace(FINE, findings={}, images=(Image("left", good), Image("right", bad)))
    other = replace(FINE, findings={}, images=(Image("right", bad), Image("left", good)))
    first, second = judged(one), judged(other)
    assert first.headline == second.headline
    assert first.reading.belonging == second.reading.belonging
    assert re.match(r"Two images; the more doubtful \((left|right)\): ", first.headline.what)


def test_an_amount_asked_stands_beside_the_limit():
    piece = replace(FINE, asking=Money.parse("150 USD"))
    assert "Asked 150" in judged(piece).headline.money
    assert "Asked" not in judged(FINE).headline.money


def test_of_what_has_no_case_no_case_is_called_otherwise():
    seen = 0
    for name, verdict in verdicts():
        if "its case called otherwise" in verdict.headline.what:
            seen += 1
            assert verdict.reading.joint.frame.cased, name
            assert verdict.piece.found("claim.material"), name
    assert seen
    said = Piece(kind="loose-plate").with_finding("claim.process", "daguerreotype", "seller")
    assert "called" not in judged(said).headline.what


def test_what_an_estimate_leaves_aside_is_told_everywhere():
    piece = replace(FINE.with_finding("plate.mirror", "stays"), subjects=("post-mortem",))
    verdict = judged(piece)
    assert verdict.worth is not None
    (note,) = verdict.notes
    assert "post-mortem" in note
    written, document = told(verdict)
    assert note in flat(written)
    assert document["advice"]["notes"] == [note]
    report = report_for("myself", PieceRecord(verdict.piece), KNOWLEDGE, lambda *_: verdict, {}, "")
    assert note in flat(text(report))


def test_no_id_of_a_process_is_told_in_a_warning():
    piece = Piece(kind="loose-plate").with_finding("image.dots", "pattern")
    warned = judged(piece.with_finding("claim.process", "tintype", "seller")).warnings
    assert any(one.says == "called tintype, looks like printed reproduction" for one in warned)
    assert not any("photomechanical" in one.says for _, each in verdicts() for one in each.warnings)


def test_no_id_of_a_process_is_told_anywhere_in_the_text():
    ids = "|".join(
        re.escape(word)
        for one in KNOWLEDGE.processes.values()
        for word in (one.id, one.family)
        if word not in one.name
        and not any(word in each.name for each in KNOWLEDGE.processes.values())
    )
    assert "photomechanical" in ids
    for name, verdict in verdicts()[::5]:
        written, _ = told(verdict)
        found = re.search(rf"(?<![\w-])(?:{ids})(?![\w-])", flat(written))
        assert found is None, (name, found)


@pytest.mark.parametrize("kind", ["empty-case", "cased"])
def test_a_case_that_its_buyer_calls_resin_is_doubted(kind):
    """That a first look calls a period case resin once in 125 times is a judgement."""
    called = {"cased": "own.process", "empty-case": ""}[kind]
    piece = Piece(kind=kind, channel="market").with_finding("case.material", "resin")
    piece = piece.with_finding(called, "ambrotype") if called else piece
    said, document = told(judged(piece))
    assert "perhaps" in document["headline"] or "probably a modern" in document["headline"]
    assert "a modern reproduction" in flat(said)
    assert "no support" not in flat(said)
