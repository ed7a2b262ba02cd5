"""Lines as people type them at a stall: 'no', parts, numbers, days, and what is left over.

The lines are invented. Ways of writing numbers and days follow common practice in the countries
concerned; names of months are those of the languages' own calendars.
"""

import datetime as dt

import pytest
from every import every
from listing.listingkit import day_in, knowledge

from appraise.base.money import Money
from appraise.listing.first_look import Look, understand
from appraise.listing.quick import QuickEntry, understand_entry

TODAY = dt.date(2026, 11, 25)  # a Wednesday


def look(line: str) -> Look:
    return understand(line, knowledge())


def quick(line: str, region: str = "unknown") -> QuickEntry:
    return understand_entry(line, knowledge(), "USD", TODAY, region)


# 'no' reaches one thing: the findings that must be there, and the checks of which nothing is said.
ONE_THING = [
    ("sixth ambro no chips hinge taped", {"case.chip": "0", "hinge.tape": "1"}, ()),
    ("sixth dag no seal glass cracked", {"seal.state": "none", "glass.crack": "2"}, ()),
    ("sixth dag glass cracked no seal", {"seal.state": "none", "glass.crack": "2"}, ()),
    ("ninth dag leather no clasp hinge split 64", {"clasp.missing": "2", "hinge.split": "1"}, ()),
    ("quarter ambro thermo no cracks clasp missing", {"clasp.missing": "2"}, ()),
    ("sixth tintype no bends rust 15", {"plate.bend": "0", "plate.rust": "1"}, ()),
    ("sixth tintype no rust bent 15", {"plate.bend": "1", "plate.rust": "0"}, ()),
    ("no preserver glass cracked sixth dag 90", {"glass.crack": "2"}, ()),
    ("ninth dag no wipes plate scratched 70", {"plate.wipe": "0", "plate.scratch": "1"}, ()),
    ("sixth dag no tarnish glass cracked 70", {"plate.tarnish": "0", "glass.crack": "2"}, ()),
    ("sixth ambro w/o seal hinge taped 40", {"seal.state": "none", "hinge.tape": "1"}, ()),
    ("sixth ambro without clasp, hinge taped", {"clasp.missing": "2", "hinge.tape": "1"}, ()),
    ("thermo sixth dag no chips, no cracks, hinge pin missing", {"case.chip": "0"}, ()),
    ("no tape hinge split sixth dag leather", {"hinge.split": "1"}, ()),
]


@pytest.mark.parametrize(("line", "there", "silent"), ONE_THING)
def test_no_reaches_one_thing(line: str, there: dict[str, str], silent: tuple[str, ...]) -> None:
    piece = look(line).piece
    assert {check: piece.found(check) for check in there} == there
    assert [check for check in silent if piece.found(check)] == []


PARTS = [
    ("ninth ambro thermo hinge 40", "hinge."),
    ("sixth dag leather clasp vine 80", "clasp."),
    ("sixth dag seal 80", "seal."),
    ("quarter tintype mat preserver 30", "mat."),
    ("sixth ambro glass 40", "glass."),
    ("sixth dag pad red velvet 90", "pad."),
    ("sixth dag leather lid eagle 90", "lid."),
    ("half ambro case, hinge, clasp 120", "case.c"),
]


@pytest.mark.parametrize(("line", "part"), PARTS)
def test_a_part_without_a_word_of_damage_has_none(line: str, part: str) -> None:
    known = knowledge().checks
    piece = look(line).piece
    assert [c for c in piece.findings if c.startswith(part) and known[c].defect] == []


NUMBERS = [
    ("sixth dag 1'250", "1250 USD"),
    ("sixth dag 1’250", "1250 USD"),
    ("sixth dag 1.250,00", "1250 USD"),
    ("sixth dag 1,250.00", "1250 USD"),
    ("sixth dag 1,250", "1250 USD"),
    ("sixth dag 1.250", "1250 USD"),
    ("sixth dag 1 250 usd", "1250 USD"),
    ("sixth dag 1,250.00 usd", "1250 USD"),
    ("sixth dag €1.250,50", "1250.50 EUR"),
    ("sixth dag 1'250.- chf", "1250 CHF"),
    ("sixth dag 1.2k", "1200 USD"),
    ("sixth dag $1.5k", "1500 USD"),
    ("sixth dag 2k usd", "2000 USD"),
    ("ninth tintype 12,50", "12.50 USD"),
    ("ninth tintype 12.50", "12.50 USD"),
    ("ninth tintype 12,50 €", "12.50 EUR"),
    ("ninth tintype 35.-", "35 USD"),
    ("ninth tintype £35", "35 GBP"),
    ("ninth tintype 35£", "35 GBP"),
    ("ninth tintype 35 quid", "35 GBP"),
    ("ninth tintype eur 35", "35 EUR"),
    ("ninth tintype C $45", "45 CAD"),
    ("ninth tintype AU $45", "45 AUD"),
    ("ninth tintype US $45", "45 USD"),
    ("ninth tintype US$45", "45 USD"),
    ("ask 48 eur ninth tintype", "48 EUR"),
    ("1858 sixth dag $95", "95 USD"),
    ("sixth dag 1858 $95", "95 USD"),
    ("sixth dag 1865 £12", "12 GBP"),
    ("sixth ambro dated 1861 45", "45 USD"),
    ("sixth ambro 45 8 x 7 cm", "45 USD"),
    ("sixth ambro 8 x 7 cm 45", "45 USD"),
]


@every(("line", "asking"), NUMBERS)
def test_numbers_as_they_are_written_in_many_countries(line: str, asking: str) -> None:
    got = look(line)
    assert got.piece.asking == Money.parse(asking)
    assert [word for word in got.not_understood if word not in ("1858", "1861", "1865")] == []


LOT_PRICES = [
    "two sixth ambros 30 the pair",
    "cdvs 30 the pair",
    "ninth tintypes 30 for the two",
    "two ninth ambros 30 both",
    "pair of cdvs 30",
    "30 the pair cdv soldier",
    "sixth ambros $30 for both",
    "tintypes 30 a pair",
]


@pytest.mark.parametrize("line", LOT_PRICES)
def test_a_price_for_a_pair_is_said_to_be_one(line: str) -> None:
    got = look(line)
    assert got.piece.asking == Money.parse("30 USD")
    assert any("two" in note and "30.00 USD" in note for note in got.notes)
    assert "pair" not in got.piece.motif
    assert "both" not in got.piece.motif
    assert got.not_understood == ()


def test_a_price_for_a_pair_is_kept_in_the_note() -> None:
    entry = quick("two ninth tintypes 30 the pair, quay market").entry
    assert entry.paid == Money.parse("30 USD")
    assert "30.00 USD" in entry.note
    assert entry.venue == "quay market"


@every(
    ("words", "region", "day"),
    [
        ("12.5.2026", "unknown", "2026-05-12"),
        ("12/5/2026", "unknown", "2026-05-12"),
        ("12/5/2026", "gb", "2026-05-12"),
        ("12/5/2025", "us", "2025-12-05"),
        ("5/12/2026", "us", "2026-05-12"),
        ("13/5/2026", "us", "2026-05-13"),  # there is no month 13
        ("5/13/2026", "gb", "2026-05-13"),
        ("12.05.26", "eu", "2026-05-12"),
        ("12-05-2026", "eu", "2026-05-12"),
        ("05/12/26", "us", "2026-05-12"),
        ("2026/05/12", "us", "2026-05-12"),
        ("3 Okt 2026", "eu", "2026-10-03"),
        ("3. Oktober 2026", "eu", "2026-10-03"),
        ("3 octobre 2026", "eu", "2026-10-03"),
        ("3 ottobre 2026", "eu", "2026-10-03"),
        ("3 de octubre de 2026", "eu", "2026-10-03"),
        ("3 oktober 2026", "eu", "2026-10-03"),
        ("1er mai 2026", "eu", "2026-05-01"),
        ("15 mei 2026", "eu", "2026-05-15"),
        ("15 août 2026", "eu", "2026-08-15"),
        ("7. März 2026", "eu", "2026-03-07"),
        ("7 maart", "eu", "2026-03-07"),
        ("7 marzo 2026", "eu", "2026-03-07"),
        ("2 giugno 2026", "eu", "2026-06-02"),
        ("2 juin 2026", "eu", "2026-06-02"),
        ("2 junio 2026", "eu", "2026-06-02"),
        ("Oct 3 2026", "us", "2026-10-03"),
        ("Oct. 3, 2026", "us", "2026-10-03"),
        ("24 déc. 2025", "eu", "2025-12-24"),
        ("9 Sept. 2026", "gb", "2026-09-09"),
        ("20 gennaio 2026", "eu", "2026-01-20"),
        ("20 enero 2026", "eu", "2026-01-20"),
        ("20 février 2026", "eu", "2026-02-20"),
    ],
)
def test_days_in_figures_and_in_six_languages(words: str, region: str, day: str) -> None:
    found = day_in(f"sixth ambro 40, {words}", TODAY, region)
    assert found is not None
    assert found.date.isoformat() == day
    got = quick(f"sixth ambro vine 40, {words}", region)
    assert got.entry.date.isoformat() == day
    assert got.entry.paid == Money.parse("40 USD")
    assert got.entry.motif == "vine"
    assert got.not_understood == ()


@pytest.mark.parametrize("words", ["31.2.2026", "12.5.2031", "31 June 2026", "32/13/2026"])
def test_a_day_that_cannot_be_is_said_not_to_be_understood(words: str) -> None:
    got = quick(f"sixth ambro 40, {words}")
    assert got.entry.date == TODAY
    assert got.entry.paid == Money.parse("40 USD")
    assert got.entry.motif == ""
    assert got.not_understood == (words,)


# What is left over: the motif, and what was not understood.
LEFT = [
    ("sixth ambro vine 45", "vine", ()),
    ("sixth ambro no sparkle vine 45", "vine", ("no sparkle",)),
    ("sixth dag leather eagle and shield 45", "eagle and shield", ()),
    ("ninth ambro thermo hinge 40", "", ("hinge",)),
    ("sixth ambro 45 1858", "", ("1858",)),
    ("sixth ambro 45 77", "", ("77",)),
    ("sixth ambro 45, mat bent", "", ("mat bent",)),
    ("sixth dag 90 hinge meh, vine", "vine", ("hinge meh",)),
    ("sixth ambro, man with a violin, 45", "violin", ()),
    ("sixth dag girl in plaid dress 64", "plaid dress", ()),
    ("sixth dag no maker vine 64", "vine", ("no maker",)),
    ("cdv no backmark 4", "", ("no backmark",)),
    ("sixth dag flower basket 64", "flower basket", ()),
    ("sixth ambro thermo roses clasp 40", "roses", ("clasp",)),
    ("sixth dag leather 60 foxed hinge split", "", ("foxed",)),
    ("sixth tintype, not sure of age, 20", "", ("not sure of age",)),
    ("sixth tintype without dog 20", "", ("without dog",)),
]


@pytest.mark.parametrize(("line", "motif", "lost"), LEFT)
def test_what_is_left_is_the_motif_or_is_said_not_to_be_understood(
    line: str, motif: str, lost: tuple[str, ...]
) -> None:
    got = look(line)
    assert got.piece.motif == motif
    assert got.not_understood == lost


@pytest.mark.parametrize(("line", "motif", "lost"), LEFT)
def test_an_entry_keeps_what_was_not_understood_in_its_note(
    line: str, motif: str, lost: tuple[str, ...]
) -> None:
    entry = quick(line).entry
    assert entry.motif == motif
    for words in lost:
        assert f"{words}?" in entry.note


SILENT = (
    *[row[0] for row in ONE_THING],
    *[row[0] for row in PARTS],
    *[row[0] for row in LEFT],
    *LOT_PRICES,
    "ninth dag w/ note inside and some other stuff 40 77 88",
    "sixth ambro fern, ok hinge, splits?, 40",
    "gem tin 3 no nothing",
    "thermo 1/6 ambro 2 3/4 x 3 1/4 hinge bad 12.5.2026 33 44 eur",
)


@every("line", SILENT)
def test_nothing_that_was_typed_is_lost_without_a_word(line: str) -> None:
    """Every word of a line is understood, or said not to be, or a small word."""
    small = knowledge_words()
    for got in (look(line), quick(line)):
        told = " ".join([*(words for words, _ in got.understood), *got.not_understood])
        shown = set(plain(told))
        lost = [word for word in plain(line) if word not in shown and word not in small]
        assert lost == [], got


def plain(text: str) -> list[str]:
    return [word.strip("?.") for word in text.replace(",", " ").split()]


def knowledge_words() -> set[str]:
    from appraise.listing.vocabulary import vocabulary

    return vocabulary(knowledge()).sets["filler"] | {"w/", "w/o", "x", "or", "for", "the", "of"}


# What lies there, in a word.
KINDS = [
    ("empty sixth thermo case vine 20", "empty-case"),
    ("sixth leather case empty 15", "empty-case"),
    ("no image sixth leather case 15", "empty-case"),
    ("sixth union case only 30", "empty-case"),
    ("case only, sixth, leather 10", "empty-case"),
    ("ninth case no image 12", "empty-case"),
    ("album of 30 cdvs 120", "album"),
    ("cdv album leather 80", "album"),
    ("lot of 12 tintypes 64", "lot"),
    ("job lot cdvs 25", "lot"),
    ("box lot of cartes 25", "lot"),
    ("miniature on ivory 90", "other"),
    ("painted miniature, lady, in case 90", "other"),
    ("postcard soldier 4", "postcard"),
    ("rppc soldier 8", "postcard"),
    ("real photo postcard farm 6", "postcard"),
    ("sixth ambro no case 20", "loose-plate"),
    ("sixth ambro leather case 20", "cased"),
    ("cdv soldier 12", "card"),
    ("cyano bridge 15", "cyanotype"),
]


@pytest.mark.parametrize(("line", "kind"), KINDS)
def test_words_name_what_lies_there(line: str, kind: str) -> None:
    assert look(line).piece.kind == kind
    assert quick(line).entry.kind == kind


@pytest.mark.parametrize("line", ["two ambros 90", "pair sixth dags 200"])
def test_a_price_for_two_pieces_is_told(line: str) -> None:
    got = look(line)
    assert any("two" in note for note in got.notes)
    assert got.not_understood == ()
    assert got.piece.motif == ""


@pytest.mark.parametrize("line", ["two ambros in one leather case 90", "pair dags in a case 200"])
def test_two_pictures_in_one_case_are_one_piece(line: str) -> None:
    got = look(line)
    assert len(got.piece.images) == 2
    assert got.piece.kind == "cased"
    assert any("two pictures in one case" in meaning for _, meaning in got.understood)
    assert got.notes == got.not_understood == ()
    assert got.piece.motif == ""


@pytest.mark.parametrize(
    ("line", "asking", "lost"),
    [
        ("album of 30 cdvs 120", "120 USD", ()),
        ("lot of 12 tintypes 64", "64 USD", ()),
        ("12 tintypes 64", "64 USD", ()),
        ("3 cdvs 15", "15 USD", ()),
    ],
)
def test_a_count_of_pieces_is_no_price(line: str, asking: str, lost: tuple[str, ...]) -> None:
    got = look(line)
    assert got.piece.asking == Money.parse(asking)
    assert got.not_understood == lost


def test_a_lot_keeps_its_process_though_no_check_is_asked_of_it() -> None:
    entry = quick("lot of 12 tintypes 64").entry
    assert (entry.kind, entry.process, entry.motif) == ("lot", "tintype", "")
    entry = quick("two ninth ambros 30 the pair").entry
    assert (entry.kind, entry.process, entry.format) == ("lot", "ambrotype", "ninth")
