"""One gate before every limit: what is told of what to pay is the same wherever it is told."""

import re

import pytest
from verdict.test_headline import flat, told
from verdict.verdictkit import KNOWLEDGE, at_random, judged, once, steps_of, verdicts

from appraise.app.examine.panel import panel
from appraise.app.examine.purse import money_lines
from appraise.app.examine.shown import Shown, names_in
from appraise.app.lines import words_of
from appraise.app.marks import PLAIN
from appraise.base.percents import percent
from appraise.base.settings import Settings
from appraise.documents.reports.report import report_for
from appraise.documents.verdict import why_document
from appraise.documents.writers.lines import text
from appraise.knowledge.records import UNJUDGED
from appraise.reading.matter import judged as whole
from appraise.records.piece import Piece
from appraise.records.venue import Venue
from appraise.store.piece_record import PieceRecord
from appraise.verdict import at_venue, held_back, pay_of
from appraise.verdict.naming import LIKELY
from appraise.verdict.pay import short

SHOWN = Shown(PLAIN, tuple(KNOWLEDGE.parts), True, True, {}, names_in(KNOWLEDGE))
LIMIT = re.compile(r"(?:limit|maximum bid)(?: of)? (\d[\d,.]*\d|\d)")
OFFER = re.compile(r"\boffer (\d[\d,.]*\d|\d)")


@once
def places(verdict):
    """Everything a buyer reads of a verdict, by where they read it."""
    written, _ = told(verdict)

    def by_log(piece, priced):
        return verdict

    report = text(report_for("myself", PieceRecord(verdict.piece), KNOWLEDGE, by_log, {}, ""))
    rows = [*panel(verdict, SHOWN, 48, 40), *money_lines(verdict, SHOWN, 48, 6)]
    reasons = why_document(verdict, KNOWLEDGE, steps_of(verdict))
    return {
        "headline": str(verdict.headline),
        "command": flat(written),
        "report": flat(report),
        "panel": flat(" ".join(map(words_of, rows))),
        "why": flat(text(reasons)),
    }


def amount(money):
    return short(money, "USD")


def test_every_outcome_is_met():
    found = [pay_of(one) for _, one in verdicts()]
    assert sum(one.limit is not None and not one.missing for one in found) >= 3
    assert sum(one.limit is not None and bool(one.missing) for one in found) >= 10
    assert sum(bool(one.outcomes) for one in found) >= 10
    assert sum(bool(one.reason) for one in found) >= 10


def test_no_place_shows_a_limit_or_an_offer_that_does_not_stand():
    for name, verdict in verdicts():
        pay = pay_of(verdict)
        limits = {amount(one.limit) for one in pay.outcomes if one.limit is not None}
        limits |= {amount(pay.limit)} if pay.limit is not None else set()
        offers = {amount(pay.opening)} if pay.opening is not None else set()
        assert not offers or (pay.limit is not None and not pay.missing)
        for place, words in places(verdict).items():
            for pattern, wanted in ((LIMIT, limits), (OFFER, offers)):
                seen = {one.rstrip(".,").replace(".00", "") for one in pattern.findall(words)}
                assert seen <= wanted, (name, place, seen, wanted)


def test_a_limit_on_a_condition_says_so_everywhere():
    for name, verdict in verdicts():
        pay = pay_of(verdict)
        if pay.limit is not None and pay.missing:
            for place, words in places(verdict).items():
                assert "in order" in words, (name, place)


def test_json_goes_through_the_gate():
    for name, verdict in verdicts():
        _, document = told(verdict)
        advice, pay = document["advice"], pay_of(verdict)
        stands = pay.limit is not None
        assert (advice["walk_away"] is not None) == stands, name
        assert (advice["ceiling"] is not None) == stands, name
        assert (advice["opening"] is not None) == (pay.opening is not None), name
        assert bool(advice["outcomes"]) == bool(pay.outcomes), name
        assert bool(advice["why_not"]) == bool(pay.reason), name
        assert advice["plain"] in ((stands and not pay.missing), None), name
        assert stands or not advice["bill"], name


def test_the_chance_of_a_doubt_is_the_same_everywhere():
    """Headline, warning, panel, reasons, report and outcomes tell one share of modern work."""
    met = 0
    for name, verdict in verdicts():
        reading, pay = verdict.reading, pay_of(verdict)
        if reading.images or not whole(verdict.piece):
            continue
        share = percent(reading.modern)
        for one in verdict.warnings:
            if one.id == "reproduction":
                assert f"({share})" in one.says, name
        if reading.modern >= LIKELY:
            assert f"({share})" in verdict.headline.what, name
        modern = [one for one in pay.outcomes if one.brief in ("modern", "of its time")]
        if modern:
            met += 1
            good, bad = modern
            assert percent(bad.chance) == share, name
            assert good.chance + bad.chance == pytest.approx(1)
            for place, words in places(verdict).items():
                assert f"({share})" in words or (place == "headline" and share in words), place
        rows = "\n".join(words_of(row) for row in panel(verdict, SHOWN, 48, 40))
        assert re.search(rf"\bmodern +{share}", rows, re.MULTILINE), name
    assert met >= 8


def test_chances_of_marriage_and_process_are_those_of_the_reading():
    met = set()
    for name, verdict in verdicts():
        for one in pay_of(verdict).outcomes:
            if one.brief == "not together":
                assert one.chance == verdict.reading.married, name
                met.add("married")
            elif one.brief in verdict.reading.families:
                assert one.chance == verdict.reading.families[one.brief], name
                met.add("process")
    assert "process" in met


@pytest.mark.parametrize("kind", UNJUDGED)
def test_what_is_not_judged_has_no_number(kind):
    verdict = judged(Piece(kind=kind))
    for place, words in places(verdict).items():
        assert not LIMIT.search(words), place
        assert not re.search(r"USD|worth about \d", words), place
    assert "No estimate" in verdict.headline.what


def test_a_piece_of_which_nothing_is_recorded_has_no_number_either():
    verdict = judged(Piece(motif="a teapot", title="a teapot"))
    assert verdict.headline.what == "Nothing recorded yet says what it is. No estimate."
    for place, words in places(verdict).items():
        assert not re.search(r"USD|limit \d|about \d{4}|\d%", words), (place, words)
    told_more = judged(Piece().with_finding("plate.magnet", "no"))
    assert "about" in told_more.headline.what


def test_a_held_back_piece_names_no_maximum_in_its_headline():
    verdict = held_back(
        judged(Piece().with_finding("plate.magnet", "yes")), ("so it is",), KNOWLEDGE
    )
    assert verdict.headline.money == "No maximum is given: so it is."
    for place, words in places(verdict).items():
        assert not LIMIT.search(words), place


def test_another_venue_goes_through_the_same_gate():
    there = Venue("rooms", "USD")
    for name, verdict in verdicts()[::3]:
        before, after = pay_of(verdict), pay_of(at_venue(verdict, Settings(), there, "auction"))
        if verdict.worth is None:
            assert after == before, name
            continue
        assert bool(after.outcomes) == bool(before.outcomes), name
        assert after.missing == before.missing, name
        assert after.opening is None, name
        assert [one.chance for one in after.outcomes] == [one.chance for one in before.outcomes]


def test_random_pieces_are_the_same_each_time():
    assert at_random(3) == at_random(3)
