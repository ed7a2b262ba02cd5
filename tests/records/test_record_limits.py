"""Every limit of every record: what stands at it is taken, and what lies one step beyond is not."""

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest
from every import every

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.knowledge import load
from appraise.records.budget import Budget
from appraise.records.entry import Entry, LoggedEstimate
from appraise.records.entry_piece import own_entries, plain_piece
from appraise.records.fields import changed
from appraise.records.lot import Lot, LotItem
from appraise.records.owned import ConditionCheck, Event, OwnedPiece, Showing
from appraise.records.part import Part, Size
from appraise.records.picture_file import PictureFile
from appraise.records.piece import Piece
from appraise.records.piece_features import degree, quality_of
from appraise.records.piece_file import parse_piece, write_piece
from appraise.records.rate import Rate
from appraise.records.record_types import from_text, to_text
from appraise.records.repair import Repair, Stuff
from appraise.records.terms import (
    PLAIN_LADDER,
    Band,
    BandsKind,
    Bounds,
    LadderKind,
    Rung,
    Tax,
    TaxForm,
    number,
    read_steps,
)
from appraise.records.values import Author, LabelKind, RowsKind, SeveralKind, WordKind, parts_of
from appraise.records.venue import Venue, check_usual
from appraise.records.want import Want

D = Decimal
DAY = dt.date(2026, 11, 7)
NEXT = DAY + dt.timedelta(days=1)
KNOWLEDGE = load()
BY = Author("USD", DAY)
CHECK = "plate.magnet"


def usd(amount):
    return Money(D(amount), "USD")


def venue(**more):
    return Venue(**{"name": "the hall", "currency": "USD", **more})


def entry(**more):
    return Entry(**{"record": "bought", "date": DAY, **more})


def ids(count):
    return tuple(f"{n:016x}" for n in range(count))


LIMITS = {
    "budget": (lambda v: Budget(usd(v), "month", DAY), ["0.01"], ["0"]),
    "condition": (lambda v: entry(condition_factor=v), [1e-6, 10, 10.0], [0, 0.0, 10.01, -1]),
    "quality": (lambda v: entry(quality=v), [1, 5, 1.0, 5.0], [0.99, 5.01]),
    "appeal": (lambda v: entry(appeal=v), [1, 5], [0, 6, 3.0]),
    "id of an entry": (lambda v: entry(id=v), ["a" * 16], ["a" * 15, "a" * 17, "g" * 16]),
    "belonging": (lambda v: entry(belonging=(("married", v),)), [0, 0.0, 1, 1.0], [-0.01, 1.01]),
    "subjects": (lambda v: entry(subjects=v), [("child", "single")], [("child",) * 2, ("",)]),
    "sha": (lambda v: PictureFile("a" * v, "a.jpg"), [64], [63, 65]),
    "estimate": (
        lambda v: LoggedEstimate(*map(usd, v)), ["111", "123", "112", "122"], ["212", "132", "321"],
    ),
    "pieces of a lot": (
        lambda v: Lot("x", DAY, "USD", items=(LotItem("a"),) * v), [0, 500], [501],
    ),
    "selling": (lambda v: Lot("x", DAY, "USD", selling=v), [0, 100], [-1, 101]),
    "chance": (lambda v: Lot("x", DAY, "USD", chance=v), [0, 100], [-1, 101]),
    "estimate of a lot": (
        lambda v: Lot("x", DAY, "USD", low=usd(v[0]), high=usd(v[1])), ["11", "12"], ["21"],
    ),
    "hours": (lambda v: Showing(DAY, v, 50), [1, 100_000], [0, 100_001]),
    "lux": (lambda v: Showing(DAY, 1, v), [0, 100_000], [-1, 100_001]),
    "until": (lambda v: Event(DAY, "lent", until=v), [DAY, NEXT], [DAY - dt.timedelta(days=1)]),
    "severity": (
        lambda v: ConditionCheck(DAY, found=(f"hinge.tape {v}",)), ["0", "3"], ["4", "-1", "22"],
    ),
    "answers of a look": (
        lambda v: ConditionCheck(DAY, found=tuple(f"a.b{n} 1" for n in range(v))), [9_999, 10_000],
        [10_001],
    ),
    "looks in order": (
        lambda v: OwnedPiece("x", looks=tuple(ConditionCheck(DAY.replace(day=d)) for d in v)),
        [(1, 2), (2, 2)], [(2, 1)],
    ),
    "count": (lambda v: Part("x", DAY, "mat", count=v), [0, 999], [-1, 1_000]),
    "minutes": (lambda v: Repair("x", DAY, minutes=v), [0, 100_000], [-1, 100_001]),
    "done": (lambda v: Repair("x", DAY, done=v), [DAY, NEXT], [DAY - dt.timedelta(days=1)]),
    "used": (lambda v: Repair("x", DAY, used=ids(v)), [0, 500], [501]),
    "materials": (lambda v: Repair("x", DAY, materials=(Stuff("a"),) * v), [500], [501]),
    "photos before": (lambda v: Repair("x", DAY, before=("a",) * v), [500], [501]),
    "formats": (lambda v: Want("x", DAY, formats=("ninth",) * v), [50], [51]),
    "years of a wish": (
        lambda v: Want("x", DAY, first=v[0], last=v[1]), [(1800, 2100), (1850, 1850)],
        [(1799, 1850), (1850, 2101), (1851, 1850)],
    ),
    "rate": (lambda v: Rate("EUR", "USD", D(v), DAY), ["100000", "0.00001"], ["100000.1", "0"]),
    "premium": (lambda v: venue(bands=(Band(None, D(v)),)), ["0", "10"], ["-0.01", "10.01"]),
    "surcharge": (lambda v: venue(surcharge=D(v)), ["0", "1"], ["-0.01", "1.01", "NaN"]),
    "fee": (lambda v: venue(fee=D(v)), ["0", "1e9"], ["-1", "1000000000.01"]),
    "step of a ladder": (lambda v: venue(ladder=(Rung(None, D(v)),)), ["0.01", "1e9"], ["0", "-1"]),
    "bands": (
        lambda v: venue(bands=tuple(Band(D(one), D(0)) for one in v)), ["1", "12"],
        ["0", "11", "21"],
    ),
    "bounds": (
        lambda v: venue(bounds={"premium": Bounds(D(v[0]), D(v[1]))}), ["00", "11", "12"], ["21"],
    ),
    "portrait": (
        lambda v: parse_piece(f"portray: {v}", "p", KNOWLEDGE), [1800, 2100], [1799, 2101],
    ),
    "appeal of a piece": (lambda v: parse_piece(f"appeal: {v}", "p", KNOWLEDGE), [1, 5], [0, 6]),
}  # fmt: skip


@every("make, taken, refused", LIMITS.values(), ids=LIMITS)
def test_each_limit_is_taken_and_one_step_beyond_it_is_not(make, taken, refused):
    for value in taken:
        make(value)
    for value in refused:
        with pytest.raises(InputError):
            make(value)


USUAL = {"premium": 50, "surcharge": 20, "tax": 50, "insurance": 20, "payment": 20}


@every(("name", "most"), USUAL.items())
def test_a_rate_far_above_the_usual_is_taken_for_a_slip(name, most):
    """The bounds are judgements: no premium above half of the price, no other fee above a fifth."""
    by = Author("USD", DAY)
    told = f"{most} on all" if name == "tax" else str(most)
    check_usual(changed(venue(), {name: told}, by))
    with pytest.raises(InputError, match=f"Write 0 to {most}"):
        check_usual(changed(venue(), {name: told.replace(str(most), f"{most}.1")}, by))


def test_a_fee_for_exchanging_above_a_fifth_is_taken_for_a_slip():
    abroad = Venue("abroad", "EUR", exchange_fee=D("0.2"))
    check_usual(abroad)
    with pytest.raises(InputError, match="exchange-fee"):
        check_usual(replace(abroad, exchange_fee=D("0.201")))


@every(("text", "value"), [("0", D(0)), ("999999999.99", D("999999999.99"))])
def test_a_number_is_of_nothing_up_to_a_thousand_million(text, value):
    assert number(text) == value
    for beyond in ("1000000000", "-0.01", "NaN", "Infinity", "few"):
        with pytest.raises(InputError, match="number of 0 or more"):
            number(beyond)


def test_steps_are_read_and_written_in_per_cent():
    assert read_steps("25 % to 1000, 12") == [(D(1000), D(25)), (None, D(12))]
    assert read_steps("none") == []
    bands = (Band(D(1000), D("0.25")), Band(None, D("0.12")))
    assert BandsKind().read("25 % to 1000, 12", BY) == bands
    assert BandsKind().write(bands) == "25 to 1000, 12"
    assert BandsKind().read("0", BY) == ()
    assert BandsKind().read("0 to 100", BY) == (Band(D(100), D(0)),)
    ladder = (Rung(D(50), D(1)), Rung(None, D("2.50")))
    assert LadderKind().read("1 to 50, 2.50", BY) == ladder
    assert LadderKind().write(ladder) == "1 to 50, 2.5"
    assert (LadderKind().write(PLAIN_LADDER), LadderKind().write(())) == ("plain", "none")


def test_the_plain_ladder_goes_in_steps_of_one_two_and_five():
    """From a half below ten to two hundred above two thousand; an invention."""
    assert LadderKind().read("plain", BY) == tuple(
        Rung(None if below is None else D(below), D(step))
        for below, step in [
            (10, "0.5"), (20, 1), (50, 2), (100, 5), (200, 10), (500, 20), (1000, 50), (2000, 100),
            (None, 200),
        ]
    )  # fmt: skip


@every(
    ("text", "rate", "form", "more"),
    [("none", "0", TaxForm.NONE, ()), ("20 % on premium", "0.2", TaxForm.PREMIUM, ()),
     ("8.25 on all", "0.0825", TaxForm.HAMMER | TaxForm.PREMIUM | TaxForm.SURCHARGE, ()),
     ("5 on hammer, 20 on premium and shipping", "0.05", TaxForm.HAMMER,
      (Tax(D("0.2"), TaxForm.PREMIUM | TaxForm.SHIPPING),)),
     ("7 on fees + insurance", "0.07", TaxForm.SURCHARGE | TaxForm.FEE | TaxForm.INSURANCE, ())],
)  # fmt: skip
def test_taxes_are_read_and_come_back(text, rate, form, more):
    told = changed(venue(), {"tax": text}, BY)
    assert (told.tax, told.tax_form, told.taxes) == (D(rate), form, more)
    again = {"tax": Venue.FIELDS[7].text(told)}
    assert changed(venue(), again, BY).all_taxes == told.all_taxes
    assert len(told.all_taxes) == (0 if text == "none" else 1 + len(more))


def test_bounds_hold_an_amount_from_both_sides():
    held = Bounds(D(10), D(20)).held
    assert [held(D(n)) for n in (9, 10, 11, 19, 20, 21)] == [10, 10, 11, 19, 20, 20]
    assert (Bounds().held(D(5)), Bounds(D(6)).held(D(99))) == (5, 99)
    told = changed(venue(), {"premium": "25 at least 10 at most 900"}, BY)
    assert told.bounds == {"premium": Bounds(D(10), D(900))}
    assert told.held("premium", D(1000)) == 900
    assert told.held("payment", D(1000)) == 1000
    bare = changed(told, {"premium": "25"}, BY)
    assert bare.bounds == {}
    both = changed(told, {"exchange-fee": "3 at most 5"}, BY)
    assert set(both.bounds) == {"premium", "exchange_fee"}
    assert set(both.in_base("USD", None).bounds) == {"premium"}


def test_a_list_holds_so_many_of_its_kind():
    several = SeveralKind(WordKind(), 2)
    several.check("x", ("a", "b"))
    for beyond in (("a", "b", "c"), ["a"], ("A",)):
        with pytest.raises(InputError, match="x"):
            several.check("x", beyond)
    with pytest.raises(InputError, match="more than 1"):
        RowsKind(1).check("x", ("a", "b"))
    RowsKind(1).check("x", ("a",))


@every(
    ("text", "parts"),
    [('a; "b; c"; d', ("a", "b; c", "d")), ('5" wide; oval', ('5" wide', "oval")),
     ('"say ""so"""; x', ('say "so"', "x")), ('"a', ('"a',)), ('x"y', ('x"y',)),
     ('a "b"; c', ('a "b"', "c")), ("; a ;; b", ("a", "b")), (" a ,, b ", ("a", "b"))],
)  # fmt: skip
def test_a_list_is_taken_apart_where_it_should_be(text, parts):
    """A quote amid a part stands for itself, and blanks between signs are no part."""
    assert parts_of(text) == parts


def test_words_and_labels_are_looked_for_as_they_are_meant():
    assert WordKind().fits("ambrotype", "amb")
    assert WordKind().fits("ambrotype", "tin,amb")
    assert not WordKind().fits("ambrotype", "bro")
    assert not WordKind().fits("ambrotype", ",")
    assert LabelKind().fits("Box 12", "box 12")
    assert not LabelKind().fits("Box 12", "box 1")


# The piece of an entry, and which entries are of one very piece.
TEXT = write_piece(Piece(title="girl").with_finding(CHECK, "no"))
PIECE = parse_piece(TEXT, "p", KNOWLEDGE)


def of(place, **more):
    told = {"title": "girl", "format": "sixth", "process": "tintype", **more}
    return entry(id=ids(20)[place], **told)


LOG = {
    "logged from its file": of(1, piece=TEXT),
    "sold under its name": of(2, record="sold"),
    "sent back under its name": of(3, record="returned"),
    "asked under its name": of(4, record="asking"),
    "another size": of(5, record="sold", format="ninth"),
    "another process": of(6, record="sold", process="ambrotype"),
    "another title": of(7, record="sold", title="boy"),
    "without a title": of(8, record="sold", title=""),
}


def own(piece, purchase=None):
    found = own_entries(piece, LOG.values(), purchase)
    return {name for name, one in LOG.items() if one.id in found}


def test_the_entries_of_a_piece_are_its_purchase_its_file_and_where_it_went():
    went = {"sold under its name", "sent back under its name"}
    assert own(PIECE) == {"logged from its file"} | went
    assert own(PIECE.without_finding(CHECK)) == set()  # of nothing seen there is no file
    bought = of(9)
    assert own(PIECE.without_finding(CHECK), bought) == went
    assert own(Piece(), LOG["another title"]) == {"another title"}
    assert own(Piece(), LOG["without a title"]) == {"without a title"}


def test_what_an_entry_tells_of_its_piece():
    told = plain_piece(of(1, housing="leather-wood", channel="", subjects=("child",)), KNOWLEDGE)
    assert (told.kind, told.channel, told.named_format) == ("cased", "market", "sixth")
    assert (told.found("claim.process"), told.found("case.material")) == ("tintype", "leather-wood")
    card = plain_piece(of(1, kind="card", housing="leather-wood"), KNOWLEDGE)
    assert card.found("case.material") == ""
    odd = plain_piece(of(1, process="no-such", housing="no-such"), KNOWLEDGE)
    assert not odd.findings


@every(
    ("told", "subjects", "identified"),
    [({"subject": "child single"}, ("child", "single"), ""), ({"subject": ""}, (), ""),
     ({"identified": True}, (), "name"), ({"identified": False}, (), "no"),
     ({"identified": "full"}, (), "full"),
     ({"subjects": ["child"], "subject": "x"}, ("child",), ""),
     ({"subject": "child", "identified": True}, ("child",), "name")],
)  # fmt: skip
def test_an_older_price_is_read_under_the_names_of_today(told, subjects, identified):
    read = Entry.of_today({"record": "bought", "date": "2026-11-07", **told})
    assert tuple(read.get("subjects", ())) == subjects
    assert read.get("identified", "") == identified


def test_an_entry_under_another_id_is_the_same_in_all_else():
    here = of(1, note="a", extra={"x": 1})
    there = here.named("f" * 16)
    assert replace(there, id=here.id) == here
    assert there.id == "f" * 16
    assert here.named("").id == ""
    with pytest.raises(InputError, match="hexadecimal"):
        here.named("f" * 15)
    assert from_text(to_text(here), "e" * 16) == here.named("e" * 16)


def test_the_price_is_the_amount_that_says_most():
    amounts = {"offered": usd(1), "asked": usd(2), "hammer": usd(3), "paid": usd(4)}
    told = {}
    for name, amount in amounts.items():
        told[name] = amount
        assert entry(**told).price == amount
    assert entry().price is None


# Marks of a picture, and what stock does.
@every(
    ("known", "believed"),
    [(one, KNOWLEDGE.weights.reliability[one]) for one in ("in-hand", "photo", "seller")],
)
def test_a_mark_is_drawn_to_the_usual_as_far_as_it_is_not_believed(known, believed):
    """5 for a sharp picture, 3 for the usual one: 3 and twice the belief; of two marks the mean."""
    check = KNOWLEDGE.checks["image.sharpness"]
    mark = check.answers[check.index("sharp")].mark
    r = believed[check.sort]
    sharp = Piece().with_finding("image.sharpness", "sharp", known)
    assert quality_of(sharp, KNOWLEDGE) == round(3 + r * (mark - 3), 2)
    both = sharp.with_finding("image.tones", "usual", known)
    assert quality_of(both, KNOWLEDGE) == round(3 + r * (mark - 3) / 2, 2)


def test_degrees_of_identification_are_equal_steps():
    words = ("no", "initials", "name", "full", "proven")
    assert [degree(word) for word in words] == [0.0, 0.25, 0.5, 0.75, 1.0]


def test_stock_comes_back_up_to_its_most():
    assert Part("x", DAY, "mat", count=998).given_back().count == 999
    assert Part("x", DAY, "mat", count=999).given_back().count == 999
    assert [Part("x", DAY, "mat", made=one).dates for one in ("", "period", "modern")] == [
        True, True, False,
    ]  # fmt: skip
    sized = Part("x", DAY, "mat", sizes=(Size("recess", "73 x 86 mm"),))
    assert [float(side) for side in sized.measure("recess").sides] == [73.0, 86.0]
    assert sized.measure("outside") is None


@every(
    ("state", "more", "open_", "standing"),
    [("followed", {}, True, None), ("bid", {"bid": 3}, True, 3),
     ("passed", {"ended": 1}, False, None), ("lost", {"ended": 1, "bid": 3}, False, None),
     ("won", {"ended": 1, "hammer": 2}, False, None)],
)  # fmt: skip
def test_a_lot_by_its_state(state, more, open_, standing):
    told = {name: DAY if name == "ended" else usd(value) for name, value in more.items()}
    lot = Lot("x", DAY, "USD", state=state, **told)
    assert (lot.open, lot.standing) == (open_, None if standing is None else usd(standing))
    for name in more:
        if (name, state) not in (("bid", "lost"),):
            with pytest.raises(InputError):
                replace(lot, **{name: None})
    if state in ("followed", "bid"):
        with pytest.raises(InputError, match="only a result"):
            replace(lot, ended=DAY)
