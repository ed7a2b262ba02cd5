"""Words for dated features: what a listing says, and what a typed line says, answers their checks.

How sellers word it is common practice.
"""

import pytest

from appraise.knowledge import load
from appraise.listing.first_look import understand
from appraise.listing.reader import read

KNOWLEDGE = load()
SAID = [  # a listing, the finding
    ("Cabinet card of a lady, scalloped edges, $12", "mount.edge scalloped"),
    ("Cabinet card of a man, maroon mount with gilt edges", "mount.colour dark"),
    ("CDV of a boy, rounded corners, albumen print", "mount.corners round"),
    ("CDV of a girl, albumen, thin card", "mount.thickness thin"),
    ("Cabinet card, woman in leg of mutton sleeves, 1890s", "sitter.womens-sleeve leg-of-mutton"),
    ("Cabinet card of a soldier in a spiked helmet", "sitter.helmet helmet"),
    ("Sixth plate ambrotype in an octagonal union case", "case.outline octagonal"),
    ("Sixth plate ambrotype in a union case, Peck label inside", "case.mark peck"),
    (
        "Sixth plate ambrotype in union case, Holmes Booth & Haydens label",
        "case.maker holmes-booth",
    ),
    ("Sixth plate relievo ambrotype in a leather case", "plate.relievo yes"),
    ("Japanese ambrotype in kiri wood case", "claim.material kiri-wood"),
    ("Cabinet card of a couple with a penny farthing", "sitter.setting high-wheel"),
]


@pytest.mark.parametrize(("text", "finding"), SAID)
def test_a_listing_answers_the_check(text: str, finding: str) -> None:
    check, answer = finding.split()
    assert read(text, KNOWLEDGE).piece.found(check) == answer


TYPED = [
    ("cabinet card scalloped edge 12", "mount.edge scalloped"),
    ("rppc woman azo triangles up 4", "print.stamp-box azo-up"),
    ("postcard man divided back 3", "print.postcard-back divided"),
    ("kiri ambro woman 80", "case.material kiri-wood"),
    ("cdv round corners 5", "mount.corners round"),
    ("gelatin silver print of a mill 15", "claim.process developing-out"),
    ("glass negative farm 6", "claim.process glass-negative"),
    ("autochrome garden 40", "claim.process autochrome"),
]


@pytest.mark.parametrize(("text", "finding"), TYPED)
def test_a_typed_line_answers_the_check(text: str, finding: str) -> None:
    check, answer = finding.split()
    assert understand(text, KNOWLEDGE).piece.found(check) == answer


def test_a_famous_sitter_is_a_subject() -> None:
    # Famous sitters are copied more often: common practice.
    assert understand("sixth tintype famous outlaw 900", KNOWLEDGE).piece.subject == "famous"
