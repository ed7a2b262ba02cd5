"""Findings that speak against a piece are never passed over: named, not ticked, and not denied."""

from functools import cache

import pytest
from thorough import times
from verdictkit import DAY, KNOWLEDGE, verdicts

from appraise.documents.document import Paragraph
from appraise.documents.reports.doubts import NOTHING, doubts
from appraise.documents.reports.report_input import ReportInput
from appraise.inquiry.outside import KEPT
from appraise.knowledge.records import BELONGING
from appraise.reading.applying import applying
from appraise.reading.reading import read
from appraise.records.piece import UNTOLD, Piece
from appraise.verdict import doubted_parts, judge
from appraise.verdict.against import OUT_OF_TIME
from appraise.verdict.headline import ORDER

BASES = (
    ("cased", "us", ("own.process daguerreotype", "plate.mirror flips")),
    ("cased", "us", ("own.process tintype", "plate.magnet yes", "piece.revenue-stamp other")),
    ("cased", "us", ("own.process ambrotype", "plate.magnet no", "case.material thermoplastic")),
    ("cased", "gb", ("own.process ambrotype", "plate.magnet no", "case.material thermoplastic")),
    ("loose-plate", "us", ("own.process daguerreotype", "plate.mirror flips")),
    ("loose-plate", "us", ("own.process tintype-aluminium", "plate.magnet no")),
    ("card", "us", ("mount.form carte", "mount.thickness thin")),
    ("card", "us", ("own.process developing-out",)),
    ("postcard", "us", ("own.process developing-out",)),
    ("print", "us", ("own.process developing-out",)),
    ("print", "us", ("own.process salted-paper",)),
)


def with_findings(kind, region, findings):
    piece = Piece(kind=kind, region=region)
    for one in findings:
        check, answer = one.split()
        found = KNOWLEDGE.checks.get(check)
        if found is not None and found.index(answer) >= 0:
            piece = piece.with_finding(check, answer)
    return piece


@cache
def judged(piece_key):
    return judge(with_findings(*piece_key), KNOWLEDGE, None, DAY)


def dated_answers(kind, region):
    """Every answer with years that hold in a region, to a check of a kind."""
    for check in KNOWLEDGE.checks.values():
        if kind in check.kinds and check.dates:
            for answer in check.answers:
                years = answer.years.get(region) or answer.years.get("")
                if years is not None and answer.share:
                    yield check, answer, years


def beside(base):
    """The dated answers beside a base: check, answer, years, and the base's own combined years."""
    kind, region, findings = base
    reading = judged(base).reading
    asked = {check.id for check in applying(reading.piece, KNOWLEDGE, {})}
    for check, answer, years in dated_answers(kind, region):
        if check.id in asked and not any(one.startswith(f"{check.id} ") for one in findings):
            yield check, answer, years, reading.combined


def apart():
    for base in BASES:
        for check, answer, years, told in beside(base):
            if years.last + KEPT + 1 < told.first or years.first > told.last + KEPT + 1:
                yield base, check, answer


def test_every_dated_answer_of_wholly_other_years_than_the_image_is_named():
    tried, missed = set(), []
    for base, check, answer in apart():
        kind, region, findings = base
        verdict = judged((kind, region, (*findings, f"{check.id} {answer.id}")))
        warned = next((one for one in verdict.warnings if one.id == OUT_OF_TIME), None)
        tried.add((check.id, answer.id))
        if (
            warned is None
            or check.id not in warned.look_next
            or not warned.innocent
            or verdict.headline.tone == ORDER
            or check.part not in doubted_parts(verdict.reading, verdict.warnings, KNOWLEDGE)
        ):
            missed.append((base, check.id, answer.id))
    assert not missed
    assert len(tried) > 40


def test_a_dated_answer_that_holds_all_the_years_of_the_image_is_not_named_and_lowers_nothing():
    tried, wrong = set(), []
    for base in BASES:
        for check, answer, years, told in beside(base):
            if not (years.start <= told.first and told.last <= years.end):
                continue
            kind, region, findings = base
            verdict = judged((kind, region, (*findings, f"{check.id} {answer.id}")))
            tried.add((check.id, answer.id))
            lost = judged(base).reading.states[0] - verdict.reading.states[0]
            if any(one.id == OUT_OF_TIME for one in verdict.warnings) or lost > 0.005:
                wrong.append((base, check.id, answer.id, lost))
    assert not wrong
    assert len(tried) > 8


HALVING = 2.0


def open_answers():
    """Every answer to every check, beside the bases on which it makes sense."""
    for base in BASES[: times(4, 11)]:
        reading = judged(base).reading
        for check in applying(reading.piece, KNOWLEDGE, {}):
            if check.id not in reading.piece.findings:
                for answer in check.answers:
                    if answer.id != UNTOLD:
                        yield base, check, answer


def doubt_sentences(verdict):
    told = doubts(ReportInput(verdict, KNOWLEDGE, None))
    return [one.text for one in told if isinstance(one, Paragraph)]


def odds(reading, state):
    place = BELONGING.index(state)
    return reading.states[place] / reading.states[0]


@pytest.mark.parametrize("base", BASES[:4], ids=lambda base: f"{base[1]}-{base[2][0].split()[1]}")
def test_what_halves_the_trust_is_of_a_part_in_doubt_and_no_sentence_denies_it(base):
    kind, region, findings = base
    before = judged(base).reading
    for own, check, answer in open_answers():
        if own != base or check.part == "claim" or check.table("housing") is not None:
            continue  # what the case is made of is where one starts from
        verdict = judged((kind, region, (*findings, f"{check.id} {answer.id}")))
        after = verdict.reading
        halved = odds(after, "married") > 1.05 * HALVING * odds(before, "married")
        parts = doubted_parts(after, verdict.warnings, KNOWLEDGE)
        if halved:
            assert check.part in parts, (check.id, answer.id)
        if NOTHING in doubt_sentences(verdict):
            assert not halved, (check.id, answer.id)
            assert max(after.states) == after.states[0]


@pytest.mark.parametrize("process", ["ambrotype", "daguerreotype", "tintype"])
@pytest.mark.parametrize("region", ["us", "gb", "unknown"])
def test_what_a_case_is_made_of_is_not_held_against_the_piece(process, region):
    told = (f"own.process {process}", "case.material thermoplastic", "mat.shape nonpareil")
    verdict = judged(("cased", region, told))
    assert "case" not in doubted_parts(verdict.reading, verdict.warnings, KNOWLEDGE)


def test_the_answer_named_is_never_the_less_likely_one():
    for name, verdict in verdicts():
        reading, what = verdict.reading, verdict.headline.what
        if not reading.joint.frame.cased or reading.piece.kind == "empty-case":
            continue
        if " together (" in what:
            assert reading.states[0] >= reading.married, name
            assert reading.states[0] >= reading.modern, name
        elif "perhaps a modern" in what:
            assert reading.modern >= reading.married or reading.states[0] >= reading.married, name


def test_a_pad_that_leaves_a_gap_is_named_by_the_likelier_word():
    piece = with_findings(
        "cased", "us", ("own.process tintype", "case.material thermoplastic", "pad.match differs")
    )
    verdict = judge(piece, KNOWLEDGE, None, DAY)
    assert read(piece, KNOWLEDGE).married > verdict.reading.states[0]
    assert "married piece" in verdict.headline.what
    assert "pad" in doubted_parts(verdict.reading, verdict.warnings, KNOWLEDGE)
    assert NOTHING not in doubt_sentences(verdict)
