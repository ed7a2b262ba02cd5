"""Piece files: what is written is what is read, and every mistake has its place."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.measures import Measure
from appraise.base.money import EXPONENTS, Money
from appraise.knowledge import load
from appraise.knowledge.records import CHANNELS, KNOWN, REGIONS
from appraise.records.piece import MEASURED, UNTOLD, Finding, Origin, Piece
from appraise.records.piece_file import parse_piece, read_piece, write_piece
from appraise.records.piece_words import SUBJECTS

KNOWLEDGE = load()
CASED = [check for check in KNOWLEDGE.checks.values() if "cased" in check.kinds]

WHOLE = """
piece: 1
title: girl with a basket, vine case
kind: cased
channel: market
region: unknown
asking: 45.00 USD
subject: single
motif: vine
appeal: 3
measured: {plate: 2 3/4 x 3 1/4 in, case: 95 x 82 x 20 mm}
conserved: false
portray: 1858
inscription: {text: "Feb 18", date: 1858-02-18}
sitter: {age: 25..35}
from: {who: "", where: "", receipt: ""}
not_shown: [back, spine]
findings:
  case.material: thermoplastic
  plate.magnet: {answer: no, known: photo}
images:
  - {side: left, findings: {plate.magnet: yes}}
"""


def test_the_whole_format_is_read():
    piece = parse_piece(WHOLE, "p.yaml", KNOWLEDGE)
    assert piece.asking == Money.parse("45 USD")
    assert piece.measured["plate"].sides == (Fraction(6985, 100), Fraction(8255, 100))
    assert piece.findings["plate.magnet"] == Finding("plate.magnet", "no", "photo")
    assert piece.findings["case.material"].known == "in-hand"
    assert piece.inscription.date.earliest.year == 1858
    assert piece.sitter_age == (25, 35)
    assert piece.images[0].findings["plate.magnet"].answer == "yes"


def test_online_pieces_are_known_by_photograph():
    piece = parse_piece("channel: online\nfindings: {case.material: shell}", "p", KNOWLEDGE)
    assert piece.findings["case.material"].known == "photo"


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("titel: x", "p.yaml:1 titel: 'titel' is not a known key. Did you mean 'title'?"),
        ("kind: cassed", "p.yaml:1 kind: 'cassed' is not known. Did you mean 'cased'?"),
        ("piece: 2", "format '2' is not known"),
        ("asking: much", "p.yaml:1 asking: 'much' is not an amount of money"),
        ("asking: 12", "has no currency"),
        ("measured: {plate: 70 x 83}", "p.yaml:1 measured.plate: '70 x 83' has no unit"),
        ("measured: {frame: 70 x 83 mm}", "'frame' is not a measure"),
        ("appeal: 6", "'6' is not a whole number of 1 to 5"),
        ("inscription: {date: c1850}", "p.yaml:1 inscription.date"),
        ("sitter: {age: old}", "p.yaml:1 sitter.age"),
        ("findings:\n  plate.magnit: yes", "p.yaml:2 findings.plate.magnit: 'plate.magnit' is no"),
        ("findings:\n  plate.magnet: maybe", "'maybe' is not an answer of plate.magnet"),
        ("findings: {plate.magnet: {answer: yes, knwon: photo}}", "Did you mean 'known'?"),
        ("findings: {plate.magnet: [yes]}", "key: value pairs are needed here"),
        ("images: left", "a list is needed here"),
        ("findings: {mount.printed-name: yes}", "is not asked of a cased piece"),
        ("conserved: perhaps", "is neither yes nor no"),
    ],
)
def test_mistakes_have_a_place(text, problem):
    with pytest.raises(InputError) as caught:
        parse_piece(text, "p.yaml", KNOWLEDGE)
    assert problem in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_missing_file_is_one_line(tmp_path):
    with pytest.raises(InputError, match="cannot be read"):
        read_piece(tmp_path / "none.yaml", KNOWLEDGE)


_lines = st.text(
    st.characters(blacklist_categories=("Cs", "Cc"), max_codepoint=0x2FFF), max_size=30
)


@st.composite
def pieces(draw):
    chosen = draw(st.lists(st.sampled_from(CASED), max_size=8, unique_by=lambda one: one.id))
    findings = {}
    for check in chosen:
        answer = draw(st.sampled_from([UNTOLD, *(one.id for one in check.answers)]))
        known, admitted = draw(st.sampled_from(KNOWN)), draw(st.booleans())
        findings[check.id] = Finding(check.id, answer, known, admitted)
    amount = draw(st.none() | st.integers(0, 10**8))
    code = draw(st.sampled_from(sorted(EXPONENTS)))
    sides = st.integers(10, 5000).map(lambda tenths: Fraction(tenths, 10))
    measured = {
        what: Measure.of_mm(draw(sides), draw(sides))
        for what in draw(st.lists(st.sampled_from(MEASURED), unique=True, max_size=3))
    }
    return Piece(
        title=draw(_lines).strip(),
        channel=draw(st.sampled_from(CHANNELS)),
        region=draw(st.sampled_from((*REGIONS, "unknown"))),
        asking=None if amount is None else Money.of_minor(amount, code),
        shipping=draw(st.none() | st.integers(0, 9_999).map(lambda n: Money.of_minor(n, code))),
        subjects=tuple(draw(st.lists(st.sampled_from(SUBJECTS), max_size=3, unique=True))),
        motif=draw(_lines).strip(),
        maker=draw(_lines).strip(),
        appeal=draw(st.none() | st.integers(1, 5)),
        measured=measured,
        conserved=draw(st.booleans()),
        portray=draw(st.none() | st.integers(1800, 2100)),
        origin=draw(st.none() | st.just(Origin("a neighbour", "quay market", ""))),
        not_shown=tuple(draw(st.lists(st.sampled_from(("back", "spine")), unique=True))),
        findings=findings,
    )


@given(pieces())
def test_written_and_read_back_it_is_the_same(piece):
    assert parse_piece(write_piece(piece), "p.yaml", KNOWLEDGE) == piece
