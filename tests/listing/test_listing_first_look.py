"""First looks in one line, as they are typed at a stall."""

import pytest
from listing.listingkit import knowledge

from appraise.base.money import Money
from appraise.listing.first_look import understand
from appraise.reading.reading import read

LINES = [
    (
        "sixth ambro thermoplastic vine 45 hinge taped",
        "cased sixth ambrotype thermoplastic",
        "45.00 USD",
        "vine",
        {"hinge.tape": "1"},
    ),
    (
        "1/6 dag leather hook missing 55",
        "cased sixth daguerreotype leather-wood",
        "55.00 USD",
        "",
        {"clasp.missing": "2"},
    ),
    (
        "ninth tintype union case, chip, 35 usd",
        "cased ninth tintype thermoplastic",
        "35.00 USD",
        "",
        {"case.chip": "1"},
    ),
    (
        "quarter dagerreotype, cracked glass, no seal, £80",
        "cased quarter daguerreotype -",
        "80.00 GBP",
        "",
        {"glass.crack": "2", "seal.broken": "3", "seal.state": "none"},
    ),
    (
        "1/9 ferotype girl w/ basket leather spine split glass cracked 25",
        "cased ninth tintype leather-wood",
        "25.00 USD",
        "basket",
        {"hinge.split": "1", "glass.crack": "2"},
    ),
    (
        "no chips thermo sixth dag 150",
        "cased sixth daguerreotype thermoplastic",
        "150.00 USD",
        "",
        {"case.chip": "0"},
    ),
    (
        "¼ plate tintype uncased bent rust 20",
        "loose-plate quarter tintype -",
        "20.00 USD",
        "",
        {"plate.bend": "1", "plate.rust": "1"},
    ),
    ("cdv soldier 12", "card carte-de-visite - -", "12.00 USD", "", {}),
    ("gem tintype 5", "loose-plate gem tintype -", "5.00 USD", "", {}),
    (
        "lantern slide 4 x 3 1/4 cracked 3",
        "lantern-slide - lantern-slide -",
        "3.00 USD",
        "",
        {"slide.glass": "2"},
    ),
    (
        "thermo 1/6 ambro badly chipped 30",
        "cased sixth ambrotype thermoplastic",
        "30.00 USD",
        "",
        {"case.chip": "2"},
    ),
]


@pytest.mark.parametrize(("line", "frame", "asking", "motif", "findings"), LINES)
def test_a_line_becomes_a_piece(
    line: str, frame: str, asking: str, motif: str, findings: dict[str, str]
) -> None:
    look = understand(line, knowledge())
    piece = look.piece
    got = (
        piece.kind,
        piece.named_format or "-",
        piece.called or "-",
        piece.found("case.material") or "-",
    )
    assert " ".join(got) == frame
    assert piece.asking == Money.parse(asking)
    assert piece.motif == motif
    assert {check: piece.found(check) for check in findings} == findings
    assert look.not_understood == ()


def test_what_it_is_called_is_said_and_what_is_damaged_is_seen() -> None:
    piece = understand("online sixth ambrotype leather hinge split", knowledge()).piece
    assert piece.findings["claim.process"].known == "seller"
    assert piece.findings["hinge.split"].known == "photo"


def test_one_process_is_never_taken_for_another() -> None:
    """Words match one by one: token-set likeness finds these two alike to 83 in 100."""
    ambro = understand("sixth plate ambrotype", knowledge()).piece
    dag = understand("sixth plate daguerreotype", knowledge()).piece
    assert ambro.called == "ambrotype"
    assert dag.called == "daguerreotype"


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("abmrotype", "ambrotype"),
        ("daguerrotype", "daguerreotype"),
        ("tintpye", "tintype"),
        ("daguereotype", "daguerreotype"),
    ],
)
def test_slips_of_the_keys_are_understood(typed: str, meant: str) -> None:
    look = understand(f"sixth {typed}", knowledge())
    assert look.piece.called == meant
    assert (typed, f"process {meant}") in look.understood


def test_sizes_are_of_what_they_fit() -> None:
    known = knowledge()
    case = understand("ambro 95 x 82 x 20 mm thermoplastic 50", known).piece
    assert list(case.measured) == ["case"]
    plate = understand("sixth ambro 2 3/4 x 3 1/4", known).piece
    assert list(plate.measured) == ["plate"]
    opening = understand("quarter ambro 71 x 92 mm", known).piece
    assert list(opening.measured) == ["opening"]


def test_a_year_is_no_price_and_is_said_to_be_lost() -> None:
    look = understand("sixth ambro 1858 40", knowledge())
    assert look.piece.asking == Money.parse("40 USD")
    assert look.not_understood == ("1858",)


def test_a_named_currency_wins_over_a_bare_number() -> None:
    look = understand("sixth ambro 7 40 eur", knowledge())
    assert look.piece.asking == Money.parse("40 EUR")
    assert look.not_understood == ("7",)


@pytest.mark.parametrize("line", ["", "   ", "!!!", "?", "\n\n", "45", "🜨 🜨", "1/0", "x x x"])
def test_nothing_much_is_still_a_piece(line: str) -> None:
    assert understand(line, knowledge()).piece.kind == "cased"


def test_a_row_of_digits_too_long_for_money_is_none() -> None:
    assert understand("tintype 100000000000000000000000000", knowledge()).piece.asking is None


@pytest.mark.parametrize("place", ["market", "", "shop", "fair", "private", "online", "auction"])
@pytest.mark.parametrize(
    ("word", "family"),
    [("ambro", "ambrotype"), ("dag", "daguerreotype"), ("tintype", "tintype"), ("gem", "tintype")],
)
def test_a_word_typed_first_is_what_it_is_called_and_not_recognised(place, word, family):
    """Wherever it is met: a first impression or a label weighs less than one's own sure answer."""
    piece = understand(f"{word} thermoplastic 45 {place}", knowledge()).piece
    said = piece.findings["claim.process"]
    assert (said.answer, said.known) == (family, "seller")
    assert piece.called == family
    assert "own.process" not in piece.findings
    sure = piece.without_finding("claim.process").with_finding("own.process", family, "in-hand")
    bare = piece.without_finding("claim.process")

    def odds(one):
        chance = read(one, knowledge()).families[family]
        return chance / (1 - chance)

    typed, known = odds(piece) / odds(bare), odds(sure) / odds(bare)
    assert 1.5 < typed < 10
    assert known > 3 * typed
