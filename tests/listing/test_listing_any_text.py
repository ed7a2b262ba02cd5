"""Whatever the text: no exception, and every span inside it."""

import random
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from listing.hostile import SHAPES, hostile, sound
from listing.listingkit import knowledge, listing
from thorough import times, tries

from appraise.base.dates import Dating
from appraise.base.measures import Measure
from appraise.base.money import Money
from appraise.listing.first_look import understand
from appraise.listing.records import FIELDS, Listing
from appraise.listing.words import cut, sentence_ends
from appraise.records.piece_file import parse_piece, write_piece

CORPUS = Path(__file__).parent / "corpus"
SENTENCE = "Sixth plate ambrotype, 70 x 83 mm, hinge taped, £45 plus £4 post. "
BITS = st.sampled_from(
    [
        "ambrotype", "sixth plate", "1/6", "½", "not", "no", "unlike", "crack", "glass", "hinge",
        "taped", "$45", "€", "1.250,00", "c. 1855", "1850s", "2 3/4 x 3 1/4", '"', "“", "”", "(",
        ")", ".", ",", "\n", "- ", "1) ", "my aunt said", "union case", "union army", "missing",
        "of the", "reads", "stamped", "S. Peck", "two", "lot of", "replaced", "never opened",
        "e\u0301", "銀板", "🜨", "\u202e", "\x00", "'", "x", "/", "kr", "shipping", "free shipping",
    ]
)  # fmt: skip
TEXTS = st.one_of(st.text(max_size=300), st.lists(BITS, max_size=60).map(" ".join))


def check(found: Listing) -> None:
    for claim in found.claims:
        assert 0 <= claim.start < claim.end <= len(found.text)
        assert found.text[claim.start : claim.end] == claim.text
        assert claim.field in FIELDS
        assert 0 < claim.score <= 1
        if claim.field in ("asking", "postage"):
            Money.parse(claim.value)
        if claim.field == "date":
            Dating.parse(claim.value)
        if claim.field == "measured":
            Measure.parse(claim.value.split(" ", 1)[1])
    for flag in found.flags:
        if flag.start is not None and flag.end is not None:
            assert 0 <= flag.start < flag.end <= len(found.text)
    starts = [claim.start for claim in found.claims]
    assert starts == sorted(starts)


@tries(150)
@given(TEXTS)
def test_any_text_is_read(text: str) -> None:
    found = listing(text)
    check(found)
    assert listing(text) == found


@tries(75)
@given(TEXTS)
def test_any_line_is_understood(line: str) -> None:
    look = understand(line, knowledge())
    for words, meaning in look.understood:
        assert words in line or not words
        assert meaning
    for finding in look.piece.findings.values():
        assert knowledge().checks[finding.check].index(finding.answer) >= 0


@tries(50)
@given(st.lists(BITS, max_size=40).map(" ".join))
def test_the_piece_of_any_listing_survives_its_file(text: str) -> None:
    piece = listing(text.replace("\x00", "")).piece
    assert parse_piece(write_piece(piece), "made", knowledge()) == piece


@tries(100)
@given(TEXTS)
def test_words_lie_in_their_text_in_order(text: str) -> None:
    words = cut(text)
    assert len(sentence_ends(text, words)) == len(words)
    place = 0
    for word in words:
        assert place <= word.start < word.end <= len(text)
        assert text[word.start : word.end] == word.text
        place = word.end


@pytest.mark.parametrize("path", sorted(CORPUS.glob("*.yaml")), ids=lambda path: path.stem)
def test_a_whole_file_of_listings_is_read(path: Path) -> None:
    check(listing(path.read_text(encoding="utf-8")))


@pytest.mark.parametrize("bit", SHAPES.values(), ids=SHAPES)
def test_monotonous_texts_are_read(bit: str) -> None:
    text = bit * (9000 // len(bit))
    found = listing(text)
    check(found)
    assert sound(found)


@pytest.mark.parametrize("seed", range(8))
def test_hostile_and_foreign_texts_are_read(seed: int) -> None:
    """A sample of the 20,000 that the benchmark reads, of every shape and many scripts."""
    rng = random.Random(seed)
    for _ in range(60):
        text = hostile(rng)[:20_000]
        found = listing(text)
        check(found)
        assert sound(found)
        assert found.text == text


def test_a_very_long_text_is_read() -> None:
    length = times(200_000, 1_000_000)
    text = (SENTENCE * 16_000)[:length]
    found = listing(text)
    assert sound(found)
    assert found.said("process") == ("ambrotype",)


def calls(text: str) -> int:
    """How many functions are called to read a text, which depends on no clock."""
    count = 0

    def tick(_frame: object, event: str, _what: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(tick)
    try:
        listing(text)
    finally:
        sys.setprofile(before)
    return count


def test_four_times_the_text_takes_four_times_the_work() -> None:
    listing(SENTENCE)
    assert calls(SENTENCE * 800) < 4.4 * calls(SENTENCE * 200)
