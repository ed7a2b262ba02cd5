"""What follows from a record's fields, what its mistakes say, and how a piece is written."""

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest
from every import every

from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.knowledge import load
from appraise.knowledge.records import UNJUDGED
from appraise.records.budget import Budget
from appraise.records.entry import Entry
from appraise.records.entry_piece import piece_of, with_words
from appraise.records.fields import Field, changed, filled, pair, parted, written
from appraise.records.filter import FilterTerm
from appraise.records.filter import written as filter_line
from appraise.records.holds import UNREAD, holds_of, no_maximum
from appraise.records.lot import Lot, LotItem
from appraise.records.lot_file import bare, met_in, piece_in, title_of, with_pieces, write_lot
from appraise.records.owned import (
    GONE,
    STATUSES,
    ConditionCheck,
    OwnedPiece,
    Showing,
)
from appraise.records.part import Part, Seen, is_id
from appraise.records.picture_file import PictureFile
from appraise.records.piece import Inscription, Origin, Piece
from appraise.records.piece_features import identified_of
from appraise.records.piece_file import on_record, parse_piece, write_piece
from appraise.records.quantities import (
    AmountRangeKind,
    CountKind,
    DatedKind,
    NumberKind,
    YearRangeKind,
)
from appraise.records.rate import Rate
from appraise.records.record_types import amount_of, from_text, to_text
from appraise.records.repair import Repair, Stuff, StuffKind
from appraise.records.terms import within
from appraise.records.values import Author, CodeKind, FlagKind, PageKind, SeveralKind, WordKind
from appraise.records.venue import Venue
from appraise.records.want import Want

D = Decimal
DAY = dt.date(2026, 11, 7)
KNOWLEDGE = load()
BY = Author("USD", DAY)


def usd(amount):
    return Money(D(amount), "USD")


def entry(**more):
    return Entry(**{"record": "bought", "date": DAY, **more})


@every("status", STATUSES)
def test_a_piece_that_is_lent_or_missing_is_owned_still(status):
    assert OwnedPiece("x", status=status).owned is (status not in ("sold", "given", "returned"))
    assert set(GONE) == {"sold", "given", "returned"}


def test_what_an_owned_piece_tells_beside_its_fields():
    looks = (ConditionCheck(DAY.replace(day=1), found=("a.b 0", "c.d 3")), ConditionCheck(DAY))
    piece = OwnedPiece("x", looks=looks, acquired="2019")
    assert piece.last_look is looks[1]
    assert OwnedPiece("x").last_look is None
    assert piece.acquired_on == dt.date(2019, 1, 1)
    assert OwnedPiece("x").acquired_on is None
    assert looks[0].steps == {"a.b": 0, "c.d": 3}
    assert Showing(DAY, 30, 50).lux_hours == 1500
    with pytest.raises(InputError, match="answered twice"):
        ConditionCheck(DAY, found=("a.b 0", "a.b 1"))


@every(
    "told",
    [{"kind": "card"}, {"process": "tintype"}, {"housing": "shell"}, {"motif": "vine"},
     {"formats": ("ninth",)}, {"subject": "child"}, {"first": 1850}, {"last": 1850}],
)  # fmt: skip
def test_each_of_these_alone_tells_what_is_looked_for(told):
    want = Want("x", DAY, **told)
    assert want.names
    assert want.telling() is want
    silent = Want("x", DAY, most=usd(9), note="soon")
    assert not silent.names
    with pytest.raises(InputError, match="nothing to match on"):
        silent.telling()


def test_a_repair_in_words():
    work = Repair("rehinged", DAY, did="", materials=(Stuff("paste"), Stuff("paper")), note="slow")
    assert work.text == "rehinged ; paste ; paper ; slow"
    assert work.in_hand
    assert not replace(work, done=DAY).in_hand


def test_what_is_an_id_and_what_are_words():
    assert is_id("0123456789abcdef")
    for words in ("0123456789abcde", "0123456789abcdef0", "0123456789abcdeg", "a case"):
        assert not is_id(words)


# What mistakes say, with their figures.
@every(
    ("make", "told"),
    [(lambda: Rate("EUR", "USD", D(200_000), DAY),
      "rate of EUR: '200000' is not a rate of 0.00001 to 100000. Write how many USD"),
     (lambda: within("tax", D("1.5"), D(1)), "tax: 150% is above 100%"),
     (lambda: within("premium", D(25), D(10)), "premium: 2500% is above 1000%"),
     (lambda: within("fee", D(10) ** 10, D(10) ** 9), "fee: 10000000000 is above 1000000000"),
     (lambda: CountKind(1, 100_000).read("0", BY), "'0' is not a whole number of 1 to 100,000"),
     (lambda: NumberKind(1, 5).read("6", BY), "'6' is not a number from 1 to 5"),
     (lambda: NumberKind(0, 10, above=True).read("0", BY), "'0' is not a number above 0, up to 10"),
     (lambda: changed(Venue("x", "USD"), {"premium": "20 to 10, 5 to 9"}, BY),
      "premium: step 2 does not end above the one before"),
     (lambda: changed(Venue("x", "USD"), {"premium": "20, 5 to 9"}, BY),
      "premium: step 1 has no end but is not the last"),
     (lambda: changed(Lot("x", DAY, "USD", items=(LotItem("a"),)), {"piece.2.plan": "keep"}, BY),
      "piece.2.plan: there is no piece 2. The lot holds 1 piece."),
     (lambda: changed(Lot("x", DAY, "USD"), {"piece.1.plan": "keep"}, BY),
      "piece.1.plan: there is no piece 1. The lot holds 0 pieces."),
     (lambda: Part("x", DAY, "mat", count=0).taken("a"),
      "x: none is left in stock. Raise its count if there is."),
     (lambda: AmountRangeKind().check("estimate", (usd(2), usd(1))),
      "estimate: 2.00 USD to 1.00 USD is not an estimate"),
     (lambda: YearRangeKind().check("years", (1851, 1850)), "years: 1851 to 1850 runs backwards"),
     (lambda: pair("place"), "'place' is not FIELD=VALUE. Write place='box 3'."),
     (lambda: CodeKind().check("currency", "USX"), "currency: currency 'USX' is not known"),
     (lambda: FlagKind().read("perhaps", BY), "'perhaps' is neither yes nor no. Known: no, yes"),
     (lambda: Seen("mat.shape", ""), "seen: mat.shape has no answer"),
     (lambda: Budget(usd(0), "month", DAY),
      "amount: a budget must be above 0. Remove it: appraise budget --none.")],
    ids=lambda case: case[1],
)  # fmt: skip
def test_a_mistake_is_told_with_its_figures(make, told):
    with pytest.raises(InputError) as caught:
        make()
    assert str(caught.value).startswith(told)


@every(
    ("year", "known"), [("1", True), ("9999", True), ("0", False), ("10000", False), ("-1", False)]
)
def test_a_year_has_one_to_four_digits(year, known):
    kind, value = YearRangeKind(), (1855, 1862)
    if known:
        kind.fits(value, f"{year}..")
        DatedKind().fits("1855", f"..{year}")
    else:
        with pytest.raises(InputError, match="is not a year"):
            kind.fits(value, f"{year}..")


# How a piece is written and which findings it keeps.
@every(
    ("kind", "kinds", "kept"),
    [("empty-case", ("cased",), True), ("empty-case", ("card",), False),
     ("card", ("cased",), False), ("cased", ("card",), False),
     *[(kind, ("cased",), True) for kind in UNJUDGED]],
)  # fmt: skip
def test_what_is_not_asked_of_a_kind_stays_on_the_record_of_some(kind, kinds, kept):
    assert on_record(kind, kinds) is kept
    check = next(one for one in KNOWLEDGE.checks.values() if one.kinds == kinds)
    text = f"kind: {kind}\nfindings: {{{check.id}: {check.answers[0].id}}}"
    if kept:
        assert check.id in parse_piece(text, "p", KNOWLEDGE).findings
    else:
        with pytest.raises(InputError, match=f"is not asked of a {kind} piece"):
            parse_piece(text, "p", KNOWLEDGE)


def test_one_writing_is_a_mapping_and_several_are_a_list():
    one = Inscription("for Ann", Dating.parse("1861"), "plate")
    piece = Piece(inscription=one)
    assert "inscription:\n  text: for Ann\n" in write_piece(piece)
    two = replace(piece, more_writing=(Inscription("Ann", None, "note"),))
    assert "inscription:\n- text: for Ann\n" in write_piece(two)
    for written_ in (piece, two, Piece()):
        assert parse_piece(write_piece(written_), "p", KNOWLEDGE) == written_
    assert two.writings == (one, *two.more_writing)


@every(("ages", "text"), [((25, 35), "25..35"), ((30, 30), "'30'"), (None, None)])
def test_an_age_is_written_once_where_it_is_one(ages, text):
    piece = Piece(sitter_age=ages)
    assert (f"age: {text}" in write_piece(piece)) is bool(text)
    assert parse_piece(write_piece(piece), "p", KNOWLEDGE) == piece


@every(
    ("known", "admitted", "written_"),
    [("in-hand", False, "plate.magnet: 'no'"), ("photo", False, "known: photo"),
     ("in-hand", True, "admitted: 'yes'"), ("seller", True, "known: seller")],
)  # fmt: skip
def test_how_a_finding_is_known_is_written_where_it_is_not_the_usual_way(known, admitted, written_):
    piece = Piece().with_finding("plate.magnet", "no", known, admitted)
    text = write_piece(piece)
    assert written_ in text
    assert ("known:" in text) is (known != "in-hand")
    assert ("admitted:" in text) is admitted
    assert parse_piece(text, "p", KNOWLEDGE) == piece


def test_a_piece_tells_what_was_found_and_what_it_is_called():
    piece = Piece().with_finding("claim.process", "tintype").with_finding("plate.magnet", "yes")
    assert (piece.called, piece.subject) == ("tintype", "")
    owned = piece.with_finding("own.process", "ambrotype")
    assert owned.called == "ambrotype"
    revised = piece.with_finding("claim.process", "ambrotype", "photo")
    assert list(revised.findings) == ["claim.process", "plate.magnet"]
    assert revised.findings["claim.process"].known == "photo"
    assert [Piece(channel=one).default_known for one in ("online", "auction", "fair")] == [
        "photo", "photo", "in-hand",
    ]  # fmt: skip
    assert piece.without_finding("plate.magnet").found("plate.magnet") == ""


def test_the_piece_of_an_entry_is_that_of_its_file_or_what_it_tells():
    text = write_piece(Piece(title="girl").with_finding("plate.magnet", "no"))
    pictures = (PictureFile("a" * 64, "a.jpg"),)
    told = piece_of(entry(title="boy", piece=text, pictures=pictures), KNOWLEDGE)
    assert (told.title, told.found("plate.magnet"), told.pictures) == ("girl", "no", pictures)
    plain = piece_of(entry(title="boy"), KNOWLEDGE)
    assert (plain.title, plain.findings) == ("boy", {})
    with pytest.raises(InputError, match="the piece of entry"):
        piece_of(entry(piece="titel: x"), KNOWLEDGE)
    first = KNOWLEDGE.checks["case.material"].answers[0].id
    assert with_words(Piece(), "", first, KNOWLEDGE).found("case.material") == first


def test_who_is_identified_best_counts_of_several_images():
    text = "images:\n- {side: left, findings: {sitter.identified: name}}\n"
    text += "- {side: right, findings: {sitter.identified: initials}}\n"
    assert identified_of(parse_piece(text, "p", KNOWLEDGE), KNOWLEDGE) == "name"
    assert identified_of(Piece().with_finding("sitter.identified", "no-such"), KNOWLEDGE) == ""
    assert identified_of(Piece().with_finding("sitter.identified", "no"), KNOWLEDGE) == "no"


# Holds.
@every("kind", UNREAD)
def test_a_kind_without_a_reading_is_told_why(kind):
    assert holds_of(Piece(kind=kind), KNOWLEDGE) == (UNREAD[kind],)


def test_an_answer_may_hold_wherever_it_stands_among_those_of_its_check():
    check = KNOWLEDGE.checks["claim.age"]
    for place, answer in enumerate(check.answers):
        answers = tuple(
            replace(one, holds="it is held" if n == place else "")
            for n, one in enumerate(check.answers)
        )
        known = replace(
            KNOWLEDGE, checks={**KNOWLEDGE.checks, check.id: replace(check, answers=answers)}
        )
        piece = Piece().with_finding(check.id, answer.id, "seller")
        assert holds_of(piece, known) == ("it is held",)
        assert holds_of(replace(piece, kind="lot"), known) == (UNREAD["lot"], "it is held")
        assert holds_of(piece.with_finding(check.id, answer.id, "photo"), known) == ()
    assert no_maximum(["a", "b"]) == "No maximum is given: a; b."


# Lots.
def test_lots_are_called_by_their_pieces():
    items = tuple(LotItem(name) for name in ("girl", "boy", "case"))
    told = [title_of(items[:n]) for n in range(4)]
    assert told == ["untitled lot", "girl", "girl and 1 more", "girl and 2 more"]


def test_a_piece_seen_in_a_lot_is_known_as_things_are_known_there():
    lot = Lot("x", DAY, "USD", channel="online")
    piece = Piece(asking=usd(5), shipping=usd(1)).with_finding("plate.magnet", "no", "in-hand")
    piece = piece.with_finding("case.material", "shell", "seller")
    met = met_in(piece, lot)
    assert (met.channel, met.asking, met.shipping) == ("online", None, None)
    assert [one.known for one in met.findings.values()] == ["photo", "seller"]
    more = with_pieces(lot, [piece, Piece(title=" a  girl ")])
    assert [one.title for one in more.items] == ["untitled piece", "a girl"]
    assert [bool(one.piece) for one in more.items] == [True, False]
    assert bare(Piece(title="x", channel="fair"))
    assert not bare(Piece(title="x", motif="vine"))
    assert "channel: online" in write_lot(more)


@every(
    ("texts", "venue", "code"),
    [({"currency": "eur"}, "", "EUR"), ({"venue": "the hall"}, "", "GBP"), ({}, "the hall", "USD"),
     ({"venue": "a barn"}, "", "USD"), ({"currency": "GBP"}, "the hall", "GBP"),
     ({"currency": "USD"}, "the hall", "GBP"), ({"currency": ""}, "", "USD")],
)  # fmt: skip
def test_a_lot_is_in_the_currency_of_its_venue_or_as_written(texts, venue, code):
    by = replace(BY, sells=lambda name: "GBP" if name == "the hall" else "")
    lot = Lot("x", DAY, "USD", venue=venue, asking=usd(4))
    told = changed(lot, texts, by)
    assert told.currency == code
    assert told.asking == (usd(4) if code == "USD" else None)


def test_a_currency_that_its_venue_does_not_sell_in_is_refused():
    by = replace(BY, sells=lambda _: "GBP")
    with pytest.raises(InputError, match="the hall sells in GBP"):
        changed(Lot("x", DAY, "USD"), {"venue": "the hall", "currency": "EUR"}, by)


# Texts of fields.
def test_pages_are_typed_in_one_line():
    kind = PageKind()
    assert kind.read("a | b|c || d", BY) == "a\nb\nc | d"
    assert kind.write("a\nb | c") == "a | b || c"


def test_what_is_typed_among_words_and_what_says_something():
    want = Want("x", DAY, motif="vine")
    assert filled(want) == {"title": "x", "motif": "vine", "since": "2026-11-07"}
    assert written(want)["kind"] == ""
    line, texts = parted(["kind=card", "=x", "most", "note=a=b"], Want)
    assert (line, texts) == ("=x most", {"kind": "card", "note": "a=b"})
    assert pair("a = b=c ") == ("a", "b=c")
    assert Field("a_b", "what it is").hint == "What it is."
    assert Field("a_b").title == "a b"


@every(
    ("terms", "line"),
    [([FilterTerm("", "a b")], '"a b"'), ([FilterTerm("x", "a", True)], "-x:a"),
     ([FilterTerm("", "a:b"), FilterTerm("y", "c=d")], '"a:b" y:"c=d"')],
)  # fmt: skip
def test_a_filter_is_written_as_it_is_read(terms, line):
    assert filter_line(terms) == line


@every(
    ("text", "stuff"),
    [("walnut ink: no", Stuff("walnut ink", "no")), ("walnut ink:", Stuff("walnut ink")),
     ("walnut ink: dark", Stuff("walnut ink: dark")), ("a: b: yes", Stuff("a: b", "yes"))],
)  # fmt: skip
def test_what_is_said_of_a_material_behind_a_colon(text, stuff):
    assert StuffKind().read(text, replace(BY, knowledge=KNOWLEDGE)) == stuff


@every(
    ("text", "words"),
    [("child", ("child",)), ("child single", ("child", "single")), ("own work", ("own-work",)),
     ("Own work, child", ("own-work", "child")), ("child; own work", ("child", "own-work"))],
)  # fmt: skip
def test_words_of_a_list_may_stand_with_blanks_alone_unless_they_are_one_word(text, words):
    kind = SeveralKind(WordKind(("child", "single", "own-work")))
    assert kind.read(text, BY) == words
    with pytest.raises(InputError, match="'cat' is not known"):
        kind.read("child cat", BY)


@every(
    ("subjects", "text"),
    [(("child",), "subject: child\n"), (("child", "single"), "subject:\n- child\n- single\n")],
)
def test_one_word_is_written_by_itself_and_several_as_a_list(subjects, text):
    piece = Piece(subjects=subjects)
    assert text in write_piece(piece)
    assert parse_piece(write_piece(piece), "p", KNOWLEDGE) == piece


@every(("told", "kept"), [("3", 3), ("3.5", 3.5), ("true", None), ('"3"', None), ("null", None)])
def test_a_figure_of_the_log_is_a_whole_number_or_one_with_a_point(told, kept):
    text = f'{{"date":"2026-11-07","quality":{told},"record":"bought"}}'
    found = from_text(text)
    assert found.quality == kept
    assert ("quality" in found.rest) is (kept is None and told != "null")


@every(("channel", "met"), [("online", "online"), ("", "market")])
def test_a_piece_of_which_nothing_is_known_is_met_where_its_lot_is(channel, met):
    lot = Lot("x", DAY, "USD", channel=channel)
    assert piece_in(LotItem("girl"), lot, KNOWLEDGE) == Piece(title="girl", channel=met)
    noted = LotItem("girl", write_piece(Piece(channel="fair", motif="vine")))
    assert piece_in(noted, lot, KNOWLEDGE).channel == (channel or "fair")


@every("amount", ["0", "999999999999", "1.5", "1.50", "0.125"])
def test_an_amount_in_the_log_has_up_to_three_decimals(amount):
    code = "KWD" if amount == "0.125" else "USD"
    assert amount_of(amount, code) == Money(D(amount), code)


def test_an_origin_and_a_budget_come_back():
    piece = Piece(origin=Origin("a neighbour", "", "7"))
    assert parse_piece(write_piece(piece), "p", KNOWLEDGE) == piece
    budget = Budget(usd("20"), "year", DAY)
    assert from_text(to_text(budget)) == budget
