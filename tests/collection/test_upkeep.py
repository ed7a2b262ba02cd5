"""What care asks for: looks, loans, returns, conservators, air and light."""

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.collection.air import Air, exposure, hours_left, outside
from appraise.collection.transitions import happened, looked, moved, shown
from appraise.collection.upkeep import (
    advice,
    drift,
    due,
    essentials,
    interval,
    months_on,
    not_looked_for_again,
    patients,
    stops,
)
from appraise.knowledge import load
from appraise.records.owned import STATUSES, ConditionCheck, Event, OwnedPiece, Showing

KNOWLEDGE = load()
DAY = dt.date(2026, 11, 7)


def day(text):
    return dt.date.fromisoformat(text)


def piece(*found, on="2026-05-01", **more):
    """A kept ambrotype that was looked at once."""
    look = (ConditionCheck(day(on), found=found),) if on else ()
    return OwnedPiece("a girl", kind="cased", process="ambrotype", looks=look, **more)


@pytest.mark.parametrize(
    ("start", "months", "end"),
    [
        ("2026-05-01", 12, "2027-05-01"),
        ("2024-02-29", 12, "2025-02-28"),
        ("2024-02-29", 48, "2028-02-29"),
        ("2026-01-31", 1, "2026-02-28"),
        ("2024-01-31", 1, "2024-02-29"),
        ("2026-11-30", 3, "2027-02-28"),
        ("2026-12-31", 6, "2027-06-30"),
        ("1999-12-01", 1, "2000-01-01"),
        ("2100-01-31", 1, "2100-02-28"),  # no leap year
        ("9999-12-31", 12, "9999-12-31"),
    ],
)
def test_months_on_keep_the_day_or_take_the_last(start, months, end):
    assert months_on(day(start), months) == day(end)


@given(st.dates(max_value=dt.date(9000, 1, 1)), st.integers(1, 120), st.integers(1, 120))
def test_more_months_are_never_earlier(start, one, two):
    assert start < months_on(start, min(one, two)) <= months_on(start, max(one, two))


# How often to look again is this tool's judgement: yearly, twice a year where damage may wake,
# every three months where it goes on by itself. No body publishes a figure for a home.
@pytest.mark.parametrize(
    ("found", "process", "months"),
    [
        ((), "ambrotype", 12),
        (("hinge.tape 0",), "ambrotype", 12),
        (("hinge.tape 2",), "ambrotype", 6),  # tape is conditional, not active
        (("glass.weep 1",), "ambrotype", 3),
        (("slide.tape 1",), "lantern-slide", 6),
        ((), "cyanotype", 6),
        ((), "albumen", 6),
        (("glass.weep 1",), "cyanotype", 3),
    ],
)
def test_looks_come_sooner_where_damage_goes_on(found, process, months):
    stability = {
        name: KNOWLEDGE.checks[name.split()[0]].defect.stability[int(name[-1])] for name in found
    }
    kept = replace(piece(*found), process=process)
    got, row = interval(kept, KNOWLEDGE)
    assert got == months, stability
    assert row.basis.mark == "judgement"


@pytest.mark.parametrize(
    ("kept", "told"),
    [
        (piece(on="2026-05-01"), [("look", "2027-05-01", 175)]),
        (piece(on="2025-11-07"), [("look", "2026-11-07", 0)]),
        (piece(on="2024-02-29"), [("look", "2025-02-28", -617)]),
        (piece(on="", acquired="2026-11-01"), [("look", None, 0)]),
        (piece(on="", acquired="2026"), [("look", None, 0)]),
        (piece(on=""), [("look", None, 0)]),
        (piece(status="sold"), []),
        (piece(status="given"), []),
        (piece(status="returned"), []),
        (piece(status="stolen"), []),
        (piece(status="ordered", return_by=day("2026-11-10")), [("return", "2026-11-10", 3)]),
        (piece(status="ordered", return_by=day("2026-11-07")), [("return", "2026-11-07", 0)]),
        (piece(status="ordered", return_by=day("2026-11-06")), []),
        (piece(status="lent"), [("loan", None, 0)]),
    ],
)
def test_what_is_due_and_when(kept, told):
    got = [(one.sort, one.on and one.on.isoformat(), one.left) for one in due(kept, KNOWLEDGE, DAY)]
    assert got == told


@pytest.mark.parametrize("status", STATUSES)
def test_every_status_is_understood(status):
    for one in due(replace(piece(on=""), status=status), KNOWLEDGE, DAY):
        assert one.says


def test_a_loan_is_due_back_and_then_home():
    lent = happened(piece(), Event(DAY, "lent", "the town museum", day("2026-12-01")))
    assert lent.status == "lent"
    (loan,) = due(lent, KNOWLEDGE, day("2026-12-03"))
    assert (loan.sort, loan.left, loan.now) == ("loan", -2, True)
    assert "the town museum" in loan.says
    home = happened(lent, Event(day("2026-12-04"), "back"))
    assert home.status == "kept"
    assert [one.sort for one in due(home, KNOWLEDGE, day("2026-12-04"))] == ["look"]
    with pytest.raises(InputError, match="is not away"):
        happened(home, Event(day("2026-12-05"), "back"))
    with pytest.raises(InputError, match="no name given"):
        happened(home, Event(day("2026-12-05"), "lent"))


def test_a_move_keeps_the_old_place():
    there = moved(piece(place="box 1"), DAY, "box 2")
    assert there.place == "box 2"
    assert there.events[-1].note == "from box 1"
    assert there.status == "kept"
    with pytest.raises(InputError, match="no place given"):
        moved(there, DAY, " ")


def test_what_is_noted_late_does_not_undo_what_came_after():
    lent = happened(piece(), Event(day("2026-05-01"), "lent", "a club"))
    home = happened(lent, Event(day("2026-06-01"), "back"))
    late = happened(home, Event(day("2026-04-01"), "on-show", "a fair"))
    assert late.status == "kept"
    assert [one.sort for one in late.events] == ["on-show", "lent", "back"]
    after_a_move = moved(piece(), day("2026-05-05"), "box 3")
    out = happened(after_a_move, Event(day("2026-05-01"), "lent", "a club"))
    assert out.status == "lent"


def test_what_is_gone_stays_gone_and_what_is_found_comes_back():
    gone = happened(piece(), Event(DAY, "sold", "a friend"))
    with pytest.raises(InputError, match="is sold"):
        happened(gone, Event(DAY, "lent", "a museum"))
    lost = happened(piece(), Event(DAY, "stolen"))
    assert happened(lost, Event(DAY, "found")).status == "kept"
    with pytest.raises(InputError, match="is not missing"):
        happened(piece(), Event(DAY, "found"))


def test_the_conservator_sees_what_is_at_work_first():
    kept = piece("seal.bad-tape 2", "case.redrot 2", "glass.weep 1", "case.crack 2", "hinge.tape 1")
    told = [one.check.id for one in patients(kept, KNOWLEDGE)]
    assert told[0] == "glass.weep"
    assert "case.crack" not in told  # it goes nowhere by itself
    assert told.index("case.redrot") < told.index("seal.bad-tape")
    assert patients(piece("glass.weep 0"), KNOWLEDGE) == ()
    assert patients(piece(on=""), KNOWLEDGE) == ()


def test_a_museum_number_says_stop_until_its_origin_is_noted():
    text = "piece: 1\nfindings: {note.institution: %s}\n"
    asked = piece(piece=text % "erased")
    assert [one.id for one in stops(asked, KNOWLEDGE)] == ["due-diligence"]
    assert due(asked, KNOWLEDGE, DAY)[0].sort == "origin"
    noted = replace(asked, provenance="sold by the library in 1994, letter in the file")
    assert [one.sort for one in due(noted, KNOWLEDGE, DAY)] == ["look"]
    assert stops(piece(piece=text % "none"), KNOWLEDGE) == ()
    assert stops(piece(), KNOWLEDGE) == ()


def test_drift_tells_what_is_worse_and_what_was_not_looked_for():
    one = ConditionCheck(day("2025-05-01"), found=("glass.weep 1", "hinge.tape 1", "case.crack 2"))
    two = ConditionCheck(
        DAY, found=("glass.weep 2", "hinge.tape 1", "plate.flaking 1", "case.mould 0")
    )
    told = {each.check: (each.before, each.after) for each in drift(one, two)}
    assert told == {"glass.weep": (1, 2), "plate.flaking": (None, 1)}
    assert [each.check for each in not_looked_for_again(one, two)] == ["case.crack"]
    assert drift(one, one) == ()


@given(st.dictionaries(st.sampled_from(["a.b", "c.d", "e.f"]), st.integers(0, 3)))
def test_nothing_drifts_where_nothing_changed(steps):
    look = ConditionCheck(DAY, found=tuple(f"{name} {step}" for name, step in steps.items()))
    assert drift(look, look) == not_looked_for_again(look, look) == ()


# ------------------------------------------------------------------------------- air and light


def told(kept, **measured):
    found = outside([("a", kept)], KNOWLEDGE, Air(**measured))
    return {(one.row.id, one.measure, one.side, one.alarm) for one in found}


# Each row: what it is, what was measured, the row of care, the side. The figures' sources:
# photographs 20 C and 30 to 40 per cent (Library of Congress, home care); prints 18 to 21 C and 35
# to 50 (US National Archives, family archives); daguerreotypes not under 30 (Conservation
# DistList); collodion never below 5 C (Museums and Galleries Commission fact sheet, quoted in
# Conservation DistList; the writer's own 14 to 18 C is no figure to hold a home against); albumen
# under 18 C (Boston photograph course); altered glass 35 to 42 (Conservation Science, textbook);
# cyanotypes on show 43 to 54 lux (Worcester Art Museum).
PUBLISHED = [
    ("ambrotype", (), {"humidity": 41}, "photographs", "above"),
    ("ambrotype", (), {"humidity": 29}, "photographs", "below"),
    ("daguerreotype", (), {"humidity": 29}, "daguerreotypes", "below"),
    ("ambrotype", (), {"temperature": 4.5}, "collodion", "below"),
    ("tintype", (), {"temperature": 4}, "collodion", "below"),
    ("albumen", (), {"temperature": 18.5}, "albumen-prints", "above"),
    ("ambrotype", ("glass.crizzle 1",), {"humidity": 43}, "altered-glass", "above"),
    ("ambrotype", ("glass.weep 1",), {"humidity": 34}, "altered-glass", "below"),
    ("cyanotype", (), {"lux": 55}, "cyanotypes-on-show", "above"),
]


@pytest.mark.parametrize(("process", "found", "measured", "row", "side"), PUBLISHED)
def test_air_outside_the_published_figures_is_told(process, found, measured, row, side):
    kept = replace(piece(*found), process=process)
    ((name, _),) = measured.items()
    assert (row, name, side, False) in told(kept, **measured)


WITHIN = [
    ("ambrotype", (), {"humidity": 40}, "photographs"),
    ("ambrotype", (), {"humidity": 30}, "photographs"),
    ("daguerreotype", (), {"humidity": 30}, "daguerreotypes"),
    ("ambrotype", (), {"temperature": 19}, "collodion"),
    ("ambrotype", (), {"temperature": 5}, "collodion"),
    ("ambrotype", ("glass.weep 1",), {"humidity": 42}, "altered-glass"),
    ("ambrotype", ("glass.weep 0",), {"humidity": 50}, "altered-glass"),  # sound glass
    ("ambrotype", (), {"temperature": 40, "humidity": 90}, "nitrate-film"),
    ("daguerreotype", (), {"temperature": 40}, "collodion"),
    ("cyanotype", (), {"lux": 10}, "cyanotypes-on-show"),  # less light is no harm
    ("cyanotype", (), {"humidity": 30}, "cyanotypes-on-show"),  # no light, so not on show
]


@pytest.mark.parametrize(("process", "found", "measured", "row"), WITHIN)
def test_air_within_them_is_not(process, found, measured, row):
    kept = replace(piece(*found), process=process)
    assert row not in {name for name, *_ in told(kept, **measured)}


def test_glass_is_alarmed_at_55_and_mould_at_60():
    """Alarms: glass negatives decay from 55 per cent in still air (Conservation DistList, 2000);
    above 60 per cent decay is faster (Library of Congress, home care)."""
    alarms = [
        {row for row, _, _, alarm in told(piece(), humidity=h) if alarm} for h in (54, 58, 61)
    ]
    assert alarms == [set(), {"watch-glass"}, {"watch-glass", "watch-mould"}]


def test_alarms_come_first_and_pieces_elsewhere_are_left_out():
    here, away = piece(), piece(status="lent")
    found = outside([("a", here), ("b", away)], KNOWLEDGE, Air(humidity=65))
    assert found[0].alarm
    assert all(one.pieces == ("a",) for one in found)
    assert outside([("b", away)], KNOWLEDGE, Air(humidity=65)) == ()
    assert outside([("a", here)], KNOWLEDGE, Air()) == ()


@pytest.mark.parametrize("bad", [{"humidity": 101}, {"humidity": -1}, {"temperature": 900}])
def test_a_measure_that_cannot_be_is_refused(bad):
    with pytest.raises(InputError, match="Give"):
        Air(**bad)


# 50,000 lux-hours a year at most for the very sensitive, then three years of rest: Guidelines for
# Exhibition Light Levels, Topics in Photographic Preservation 9, 2001.
def test_light_is_summed_over_twelve_months():
    kept = piece()
    for start, hours in (("2025-06-01", 300), ("2025-11-08", 200), ("2026-03-01", 500)):
        kept = shown(kept, Showing(day(start), hours, 50))
    light = exposure(kept, KNOWLEDGE, DAY)
    assert light.row.id == "light"
    assert (light.year, light.ever) == (700 * 50, 1000 * 50)
    assert light.left == 50_000 - 35_000
    # In the twelve months up to March 2026 it had 300 + 200 + 500 hours: 50,000 lux-hours.
    assert light.rest_until == day("2029-03-01")
    assert exposure(kept, KNOWLEDGE, day("2029-03-01")).rest_until is None


def test_light_below_the_figure_calls_for_no_rest():
    kept = shown(piece(), Showing(DAY, 999, 50))
    light = exposure(kept, KNOWLEDGE, DAY)
    assert (light.left, light.rest_until) == (50, None)
    assert exposure(kept, KNOWLEDGE, DAY - dt.timedelta(days=1)).year == 0


def test_light_on_what_no_row_is_for_is_only_summed():
    kept = shown(replace(piece(), process="platinum", kind="card"), Showing(DAY, 10, 50))
    light = exposure(kept, KNOWLEDGE, DAY)
    assert (light.row, light.ever, light.left) == (None, 500, None)


def test_hours_until_a_year_of_light_is_used_up():
    row = KNOWLEDGE.care["light"]
    assert hours_left(row, 50) == 1000  # 50,000 lux-hours at 50 lux
    assert hours_left(row, 0) is None


def test_looks_are_put_in_order():
    kept = looked(piece(on="2026-05-01"), ConditionCheck(day("2025-01-01")))
    assert [one.day.year for one in kept.looks] == [2025, 2026]


@pytest.mark.parametrize(
    ("found", "topic", "rows"),
    [
        ((), "storage", ["one-box"]),
        (("glass.weep 1",), "storage", ["one-box", "altered-glass"]),
        (("hinge.tape 1",), "enclosure", ["keep-package"]),
        (("plate.crack 1",), "storage", ["one-box", "broken-glass"]),
    ],
)
def test_beside_a_piece_stands_what_names_it_most_exactly(found, topic, rows):
    assert [row.id for row in essentials(piece(*found), KNOWLEDGE, topic)] == rows


@pytest.mark.parametrize("topic", ["storage", "enclosure", "handling", "light"])
@pytest.mark.parametrize("process", ["daguerreotype", "ambrotype", "tintype", "albumen"])
def test_of_each_topic_one_row_stands_beside_a_sound_piece(process, topic):
    kept = replace(piece(), process=process)
    every = advice(kept, KNOWLEDGE, topic)
    if not every:
        assert essentials(kept, KNOWLEDGE, topic) == ()
        return
    (one,) = essentials(kept, KNOWLEDGE, topic)
    assert one in every
    if topic != "storage" and any(process in row.materials for row in every):
        assert process in one.materials
