"""Published descriptions of processes, re-told as answers, that must come out as published.

Each case is a statement from a published key or catalogue, named beside it. They were known when
the numbers were set, so they check consistency and prove nothing.
"""

from math import prod

import pytest
from cuekit import COLUMNS, PICTURED, chance, knowledge
from every import every

NEDCC = "Types of Photographs, Northeast Document Conservation Center"
PADUA = "Aid to identification of historical photographic process and supports, University of Padua"
WAM = "Appendix 7: Photographic Processes (2017), Western Australian Museum"
SWARTHMORE = "Cased photographs collection PA-107, Friends Historical Library, Swarthmore College"
AIC = "PMG Cased Photographs, American Institute for Conservation"
CONNECTICUT = "Tiny precious objects (2013), Connecticut Historical Society"
NPR = "Photo Mystery Solved, Then Doubted, Then Deciphered (2012), NPR"
LAC = "Treasures Revealed ep. 2: Pannotype Puzzle, Library and Archives Canada"
DENVER = "Historic photographic processes in a nutshell, Denver Public Library"
IPI = "Graphics Atlas, Albumen (magnification), Image Permanence Institute"
VHS = "Double Take (2014), Virginia Historical Society"
CAROLINA = "Your Photographs: How to Help Them Survive Over Time, State Archives of North Carolina"

FLIPS, STAYS = ("plate.mirror", "flips"), ("plate.mirror", "stays")
PULLS, DOES_NOT = ("plate.magnet", "yes"), ("plate.magnet", "no")
CASED = ("piece.housed", "yes")
BACKED, GLASS = ("plate.dark-backing", "yes"), ("plate.glass-edge", "yes")
MILKY, BROWN = ("image.whites", "yes"), ("image.warm-brown", "yes")
FIBRES, CRACKED = ("print.fibres", "yes"), ("print.crackle", "yes")
UNCRACKED, UNCOATED = ("print.crackle", "no"), ("print.smooth", "no")
YELLOWED, CLEAN = ("print.yellow-whites", "yes"), ("print.yellow-whites", "no")
EVEN = ("image.dots", "even")

CASES = [
    (
        "mirror, cased, tarnish",
        [FLIPS, CASED, ("plate.outline", "follows")],
        "daguerreotype",
        NEDCC,
    ),
    ("negative and positive in raking light", [FLIPS, CASED], "daguerreotype", PADUA),
    ("positive when a dark field is mirrored", [FLIPS], "daguerreotype", SWARTHMORE),
    ("on highly polished silver", [FLIPS, DOES_NOT], "daguerreotype", WAM),
    (
        "two of one sitter, the copy reads right",
        [FLIPS, ("image.reversal", "right")],
        "daguerreotype",
        VHS,
    ),
    (
        "dull picture on varnished iron",
        [("plate.metal-edge", "dark"), MILKY, STAYS],
        "tintype-plain",
        WAM,
    ),
    (
        "tiny coloured plate in a carte-size mount",
        [("plate.metal-edge", "dark"), ("image.tint", "yes"), ("mount.printed-name", "yes"), STAYS],
        "tintype",
        CONNECTICUT,
    ),
    (
        "cased soldier, initials reversed",
        [PULLS, ("image.reversal", "reversed"), CASED, STAYS],
        "tintype-plain",
        NPR,
    ),
    ("on glass, positive by a dark ground", [BACKED, GLASS, MILKY, STAYS], "ambrotype", WAM),
    (
        "clear glass backed with cloth or paint",
        [BACKED, GLASS, ("plate.coloured-glass", "no")],
        "ambrotype",
        AIC,
    ),
    (
        "dark glass, red in transmitted light",
        [("plate.coloured-glass", "yes"), CASED, ("plate.dark-backing", "no")],
        "ambrotype-ruby",
        AIC,
    ),
    (
        "backed with iron, yet with depth",
        [PULLS, ("plate.depth", "yes"), BACKED, CASED, STAYS],
        "ambrotype-clear",
        AIC,
    ),
    ("seen from all angles, needs a backing", [STAYS, BACKED], "ambrotype", CAROLINA),
    ("positive on opal glass", [("plate.white-glass", "white-glass")], "opalotype", WAM),
    ("collodion on oil cloth", [("plate.cloth-base", "yes"), STAYS], "pannotype", WAM),
    ("on leather, among cased pieces", [("plate.cloth-base", "yes"), CASED], "pannotype", LAC),
    (
        "uncoated, fibres clear, yellow at the edges",
        [FIBRES, BROWN, YELLOWED, UNCRACKED, ("mount.printed-name", "no")],
        "salted-paper",
        WAM,
    ),
    (
        "fibres part of the picture, matt",
        [FIBRES, BROWN, UNCRACKED, UNCOATED, EVEN],
        "salted-paper",
        DENVER,
    ),
    ("yellow whites, cracked binder", [CRACKED, BROWN, YELLOWED], "albumen", WAM),
    ("thin paper under a cracked layer", [FIBRES, CRACKED], "albumen", IPI),
    (
        "neutral grey, no fading",
        [FIBRES, ("print.neutral", "yes"), CLEAN, EVEN],
        "platinum",
        WAM,
    ),
    ("single layer, bright blue", [("image.blue", "yes"), FIBRES], "cyanotype", WAM),
    ("regular pattern under magnification", [("image.dots", "pattern")], "photomechanical", WAM),
    ("coated, fibres hidden", [("print.smooth", "yes"), BROWN, EVEN], "printing-out", PADUA),
    (
        "relief in the darks, no fading",
        [("print.relief", "yes"), BROWN, CLEAN, EVEN],
        "carbon",
        "common practice",
    ),
]


def weigh(answers: list[tuple[str, str]]) -> dict[str, float]:
    """Chances of the sixteen processes, all as likely before, every answer in full."""
    weights = {
        process: prod(chance(name, answer, process) for name, answer in answers)
        for process in COLUMNS.values()
    }
    total = sum(weights.values())
    return {process: weight / total for process, weight in weights.items()}


@every(("told", "answers", "expected", "source"), CASES, ids=[c[0] for c in CASES])
def test_published_description_comes_out_as_published(
    told: str, answers: list[tuple[str, str]], expected: str, source: str
) -> None:
    weights = weigh(answers)
    best = max(weights, key=lambda process: weights[process])
    family = knowledge().processes[best].family
    assert expected in (best, family), f"{told}: {source}"


def test_white_enamel_on_copper_is_no_opalotype() -> None:
    # Western Australian Museum, Appendix 7: a picture on white enamelled copper is a photo-ceramic.
    weights = {name: chance("plate.white-glass", "enamel", name) for name in knowledge().processes}
    assert max(weights, key=lambda name: weights[name]) == "other"
    assert weights["opalotype"] < weights["other"] / 3


def test_iron_behind_glass_pulls_a_magnet_too() -> None:
    # University of Padua: hold the magnet over the glass; American Institute for Conservation:
    # some ambrotypes are backed with metal. The magnet leads, but does not decide.
    magnet = weigh([PULLS, CASED, STAYS])
    assert max(magnet, key=lambda name: magnet[name]) == "tintype-plain"
    assert magnet["tintype-plain"] < 0.9
    both = weigh([PULLS, CASED, STAYS, ("plate.depth", "yes"), BACKED])
    ambrotypes = sum(weight for name, weight in both.items() if name.startswith("ambrotype"))
    assert max(both, key=lambda name: both[name]) == "ambrotype-clear"
    assert ambrotypes > 0.6 > 0.3 > both["tintype-plain"]


def test_a_clear_pattern_of_dots_leaves_no_original() -> None:
    # Letterpress/Half-tone, American Institute for Conservation: dots show at about 15x or by eye.
    # That one is all but proof of ink on any original, where an uneven texture says little, is a
    # judgement.
    ink = {name for name, one in knowledge().processes.items() if one.family == "photomechanical"}
    assert ink == {"ink-print", "printed-metal", "printed-glass"}
    for process in set(COLUMNS.values()) - ink:
        for name in ink:
            pattern, texture = (
                chance("image.dots", answer, name) / chance("image.dots", answer, process)
                for answer in ("pattern", "texture")
            )
            assert pattern > 1000
            assert texture < 10


def test_sources_that_disagree_make_a_weak_cue() -> None:
    # University of Padua says that ambrotypes never glint negative, an intern at the Cincinnati
    # Museum Center says that they can: no process may rest on that.
    cells = [chance("plate.negative-glint", "yes", name) for name in COLUMNS.values()]
    assert max(cells) <= 0.25


def test_a_modern_tintype_on_aluminium_does_not_pull() -> None:
    # Tintype, American Institute for Conservation: period plates are iron. That today's plates are
    # often coated aluminium is common practice.
    row = knowledge().processes["tintype-aluminium"]
    assert (row.family, row.modern_image, dict(row.years)) == ("tintype", 0.995, {})
    none = [chance("plate.magnet", "no", name) for name in ("tintype-aluminium", "tintype-plain")]
    assert 15 < none[0] / none[1] < 35


def test_of_a_bare_plate_iron_that_does_not_pull_is_all_but_ruled_out() -> None:
    # A magnet on the plate itself: nothing lies between. Common practice; the figures are ours.
    check = knowledge().checks["plate.magnet"]
    bare = next(one for one in check.kind_tables["loose-plate"] if one.over == "process").rows
    no = check.index("no")
    assert bare["tintype-aluminium"][no] / bare["tintype-plain"][no] > 200


def test_shares_of_processes_sum_to_one() -> None:
    for kind in PICTURED:
        shares = [process.shares.get(kind, 0) for process in knowledge().processes.values()]
        assert sum(shares) == pytest.approx(1), kind
