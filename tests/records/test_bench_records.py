"""Parts, works and wishes: kept as they are, checked, written by field and read again."""

import datetime as dt
from dataclasses import replace

import pytest
from collection.benchkit import parts, wants, works
from every import every
from hypothesis import given

from appraise.base.errors import InputError
from appraise.collection import repairs
from appraise.knowledge import load
from appraise.records import record_types
from appraise.records.fields import changed, filled
from appraise.records.part import Part, Seen, Size
from appraise.records.repair import Repair, Stuff, StuffKind, TakenOut
from appraise.records.values import Author
from appraise.records.want import Want

KNOWLEDGE = load()
DAY = dt.date(2026, 11, 7)
BY = Author("USD", DAY, KNOWLEDGE)
MAT = Part("an oval mat", DAY, "mat", "brass", "sixth", seen=(Seen("mat.shape", "oval"),))
WORK = Repair("rehinged the vine case", DAY)


@given(parts | works | wants())
def test_a_record_comes_back_as_it_was_kept(thing):
    text = record_types.to_text(thing)
    assert record_types.from_text(text) == thing
    assert record_types.to_text(record_types.from_text(text)) == text


@every(
    ("make", "where"),
    [
        (lambda: Part("x", DAY, ""), "part"),
        (lambda: Part("x", DAY, "Brass Mat"), "part"),
        (lambda: Part("x", DAY, "mat", made="old"), "made"),
        (lambda: Part("x", DAY, "mat", region="fr"), "region"),
        (lambda: Part("x", DAY, "mat", count=-1), "count"),
        (lambda: Part("x", DAY, "mat", count=1000), "count"),
        (lambda: Part("x", DAY, "mat", sizes=(Size("recess", "1 x 2 cm"),) * 2), "measured"),
        (lambda: Part("x", DAY, "mat", seen=(Seen("mat.shape", "oval"),) * 2), "seen"),
        (lambda: Size("depth", "3 mm"), "measured"),
        (lambda: Size("recess", "73 x 86"), "recess"),
        (lambda: Seen("oval", "oval"), "seen"),
        (lambda: Seen("mat.shape", ""), "seen"),
        (lambda: Repair("x", DAY, done=dt.date(2026, 11, 6)), "done"),
        (lambda: Repair("x", DAY, by="nobody"), "by"),
        (lambda: Repair("x", DAY, reversible="perhaps"), "reversible"),
        (lambda: Repair("x", DAY, used=("abc",)), "used"),
        (lambda: Repair("x", DAY, minutes=-1), "minutes"),
        (lambda: Stuff(" "), "materials"),
        (lambda: Stuff("paste", "maybe"), "materials"),
        (lambda: TakenOut(""), "taken_out"),
        (lambda: Want("x", DAY, first=1860, last=1850), "years"),
        (lambda: Want("x", DAY, first=60), "years"),
        (lambda: Want("x", DAY, formats=("",)), "formats"),
        (lambda: Want("x", DAY, subject="cat"), "subject"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(make, where):
    with pytest.raises(InputError) as told:
        make()
    assert told.value.where == where


def test_stock_goes_down_and_comes_back():
    pair = replace(MAT, count=2)
    once = pair.taken("a" * 16)
    assert (once.count, once.used_in) == (1, "")
    twice = once.taken("a" * 16)
    assert (twice.count, twice.used_in) == (0, "a" * 16)
    with pytest.raises(InputError, match="none is left"):
        twice.taken("b" * 16)
    assert twice.given_back().given_back() == pair


@pytest.mark.parametrize(
    "texts",
    [
        {"recess": "2 7/8 x 3 3/8 in", "place": "box 2", "made": "own work", "cost": "3"},
        {"seen": "mat.shape oval; mat.surface pebbled", "count": "4", "from": "an empty case"},
        {"part": "half case", "material": "leather wood", "format": "ninth", "region": "gb"},
    ],
)
def test_a_part_by_its_fields(texts):
    part = changed(MAT, texts, BY)
    told = filled(part)
    assert changed(Part("", DAY, "mat"), told, replace(BY, currency="EUR")) == part
    emptied = {name: "" for name in texts if name != "part"}
    assert changed(part, emptied, BY).sizes == ()


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        ({"part": "matt"}, "Did you mean 'mat'?"),
        ({"format": "sixt"}, "Did you mean 'sixth'?"),
        ({"seen": "mat.shap oval"}, "Did you mean 'mat.shape'?"),
        ({"seen": "mat.shape ovol"}, "Did you mean 'oval'?"),
        ({"recess": "73 x 86"}, "has no unit"),
        ({"count": "many"}, "is not a whole number"),
        ({"cost": "much"}, "cost:"),
        ({"since": "soon"}, "Write 2026-11-25."),
        ({"plce": "box"}, "Did you mean 'place'?"),
    ],
)
def test_a_mistake_in_a_part_is_one_line(texts, told):
    with pytest.raises(InputError) as error:
        changed(MAT, texts, BY)
    assert told in str(error.value)
    assert "\n" not in str(error.value)


def test_a_work_by_its_fields():
    texts = {
        "piece": "the vine case",
        "materials": "Japanese paper; wheat-starch paste; walnut ink: no; ribbon",
        "taken-out": "old clasp in box 3; pad",
        "before": "a.jpg, b.jpg",
        "minutes": "150",
        "made-by-me": "yes",
        "reversible": "slow",
        "cost": "4 EUR",
        "done": "2026-11-08",
    }
    work = changed(WORK, texts, BY)
    assert work.materials == (
        Stuff("japanese-paper", "yes"),
        Stuff("starch-paste", "yes"),
        Stuff("walnut ink", "no"),
        Stuff("ribbon"),
    )
    assert work.taken_out == (TakenOut("old clasp", "box 3"), TakenOut("pad"))
    assert not work.in_hand
    assert changed(Repair("", DAY), filled(work), BY) == work


@pytest.mark.parametrize(
    ("did", "rows"),
    [
        ("opened the package and replaced the glass", {"unsealing", "new-glass"}),
        ("superglue on the chip", {"peeling"}),
        ("dusting the plate with a silk cloth", {"touching-image"}),
        ("leather dressing on the case", {"leather-dressing"}),
        ("new hinge of toned Japanese paper, wheat starch paste", set()),
    ],
)
def test_what_nobody_should_try_is_told_of_a_work(did, rows):
    found = repairs.refused(replace(WORK, did=did), KNOWLEDGE)
    assert {one.id for one in found} == rows


# Tape: Texas State Library and Archives, "Sticky tape is evil", 2017. Methyl cellulose and starch
# paste: Topics in Photographic Preservation 7, 1997. The rest is common practice.
@pytest.mark.parametrize(
    ("text", "archival"),
    [
        ("clear tape", "no"),
        ("masking tape", "no"),
        ("rubber cement", "no"),
        ("methyl cellulose", "yes"),
        ("wheat starch paste", "yes"),
        ("thin Japanese paper", "yes"),
        ("archival paper tape", "depends"),
        ("walnut ink", ""),
    ],
)
def test_materials_are_known_by_whether_they_keep(text, archival):
    assert StuffKind().read(text, BY).archival == archival
    work = replace(WORK, materials=(StuffKind().read(text, BY),))
    told = repairs.doubtful(work, KNOWLEDGE)
    assert bool(told) == (archival in ("no", "depends"))


@pytest.mark.parametrize(
    ("stuff", "text"),
    [
        (Stuff("paste"), "paste"),
        (Stuff("ink: walnut"), "ink: walnut:"),
        (Stuff("ink: walnut", "no"), "ink: walnut: no"),
    ],
)
def test_a_material_is_written_so_that_it_is_read_again(stuff, text):
    """A colon at the end says nothing; without it 'ink: walnut' would name ink and say walnut."""
    plain = Author("USD", DAY)
    assert StuffKind().write(stuff) == text
    assert StuffKind().read(text, plain) == stuff


def test_nothing_that_keeps_is_among_what_nobody_should_try():
    for row in KNOWLEDGE.materials.values():
        if row.archival == "yes":
            text = " ; ".join((row.name, *row.words))
            assert not [one.id for one in KNOWLEDGE.never.values() if one.named_in(text)]


def test_own_work_asks_for_its_mark_and_proposes_a_sentence():
    made = replace(WORK, made_by_me=True, did="put a loose plate into an empty case")
    assert "without mark and disclosure" in repairs.checked_mark(made)
    assert "2026" in repairs.proposed_disclosure(made)
    marked = replace(made, mark="pencil note under the pad", disclosure="Assembled in 2026.")
    assert repairs.checked_mark(marked) == repairs.checked_mark(WORK) == ""


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("1855..1862", 1855, 1862),
        ("1855..", 1855, None),
        ("..1862", None, 1862),
        ("1858", 1858, 1858),
        ("1855-1862", 1855, 1862),
        ("", None, None),
    ],
)
def test_a_wish_by_its_years(text, first, last):
    want = changed(Want("x", DAY), {"years": text}, BY)
    assert (want.first, want.last) == (first, last)
    assert changed(Want("", DAY), filled(want), BY) == want


@pytest.mark.parametrize("text", ["..", "then", "18555", "1862..1855"])
def test_years_that_are_none(text):
    with pytest.raises(InputError):
        changed(Want("x", DAY), {"years": text}, BY)
