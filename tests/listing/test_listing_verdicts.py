"""What a seller says against themselves moves the verdict: the same listing with and without it.

The texts are invented; the figures are the tool's own and are printed side by side.
"""

from datetime import date

import pytest
from listing.listingkit import knowledge, listing

from appraise.verdict import Verdict, judge

DAY = date(2026, 11, 25)
LISTING = "Sixth plate ambrotype of a lady in a leather case, about 1858. $85, shipping $6."
MODERN = ("modern-image", "all-modern")
EXCHANGED = ("married", "modern-case", "modern-image", "all-modern")
SAID = (
    ("It is a reprint.", MODERN),
    ("This is a modern reproduction.", MODERN),
    ("The image is not original to the case.", EXCHANGED),
    ("It is a marriage.", EXCHANGED),
    ("The mat is a replacement.", EXCHANGED),
)


def verdict(text: str) -> Verdict:
    return judge(listing(text).piece, knowledge(), None, DAY)


def share(found: Verdict, states: tuple[str, ...]) -> float:
    return sum(found.reading.belonging[state] for state in states)


@pytest.mark.parametrize(("words", "states"), SAID)
def test_an_admission_moves_the_verdict(
    words: str, states: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    without, told = verdict(LISTING), verdict(f"{LISTING} {words}")
    before, after = share(without, states), share(told, states)
    with capsys.disabled():
        print(f"\n{words} {before:.1%} without, {after:.1%} with it")
        print(f"    without: {without.headline}\n    with:    {told.headline}")
    assert after > before


@pytest.mark.parametrize(("words", "states"), SAID[:4])
def test_modern_work_and_a_swap_hold_the_maximum_back(words: str, states: tuple[str, ...]) -> None:
    assert states
    assert not verdict(LISTING).holds_back
    assert listing(f"{LISTING} {words}").holds_back
