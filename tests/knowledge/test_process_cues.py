"""Process cues: the tables as judged, their form, and what a tarnished outline says.

The probabilities are judgements of the makers of the tool and have no source; they stand here a
second time, cell by cell, so that a slip of the pen in the data shows.
"""

import re
from functools import cache
from math import prod, sqrt

import pytest
from cuekit import COLUMNS, PICTURED, chance, knowledge, own_checks
from every import every

# P(a careful observer reports the cue | process), nothing opened, the cue looked for. Judgement.
JUDGED = """
cue                       DAG AMC AMR AMD TIN OPL PAN CRY SAL ALB CAR POP PLA CYA LAN REP
2 weak_negative_glint     .10 .25 .15 .20 .12 .03 .08 .02 .02 .03 .02 .06 .02 .02 .15 .03
3 depth_parallax          .25 .60 .10 .45 .06 .08 .05 .45 .02 .02 .02 .02 .02 .02 .15 .03
4 light_through           .02 .35 .25 .25 .02 .55 .02 .35 .05 .05 .04 .04 .04 .05 .97 .05
5 colour_by_transmission  .02 .04 .55 .04 .02 .03 .02 .15 .02 .02 .02 .02 .02 .02 .08 .03
6 dark_backing_seen       .03 .65 .08 .50 .08 .03 .06 .03 .02 .02 .02 .02 .02 .02 .03 .04
8 rust                    .04 .06 .03 .04 .45 .02 .03 .02 .02 .02 .02 .02 .02 .02 .02 .08
10 tarnish_halo           .70 .08 .08 .04 .05 .02 .03 .02 .02 .03 .02 .08 .02 .02 .08 .05
11 buff_or_wipe_lines     .40 .04 .04 .03 .06 .02 .02 .02 .02 .02 .02 .02 .02 .02 .02 .04
12 glass_weeping          .40 .20 .18 .12 .20 .05 .15 .08 .05 .04 .04 .04 .04 .03 .15 .04
13 pour_lines_or_tide     .02 .25 .30 .20 .35 .05 .15 .02 .02 .02 .02 .02 .02 .02 .08 .06
14 layer_flaking          .03 .20 .15 .12 .25 .20 .60 .15 .02 .05 .12 .06 .02 .02 .10 .03
15 fern_or_resin_stain    .02 .03 .02 .35 .02 .02 .02 .05 .02 .02 .02 .02 .02 .02 .03 .02
16 milky_highlights       .08 .60 .60 .60 .50 .15 .45 .05 .05 .12 .05 .05 .05 .03 .08 .12
17 warm_brown_image       .06 .15 .20 .15 .25 .25 .20 .15 .80 .90 .55 .85 .20 .02 .20 .45
18 lateral_reversal       .45 .30 .42 .30 .50 .04 .40 .03 .04 .04 .06 .04 .04 .04 .06 .12
19 tint_touches           .35 .50 .45 .35 .40 .55 .35 .30 .20 .12 .06 .06 .06 .03 .12 .15
20 full_painted_colour    .03 .03 .03 .02 .05 .35 .03 .95 .12 .05 .05 .03 .03 .02 .25 .20
21 white_glass_base       .02 .02 .02 .02 .02 .93 .02 .06 .02 .02 .02 .02 .02 .02 .02 .03
22 curved_glass_pair      .02 .03 .02 .02 .02 .06 .02 .85 .03 .04 .02 .02 .02 .02 .02 .05
23 cloth_or_leather_base  .01 .02 .01 .015 .01 .01 .85 .01 .01 .01 .01 .01 .01 .01 .01 .03
24 paper_fibres_in_image  .02 .02 .02 .02 .02 .02 .03 .05 .90 .45 .15 .06 .85 .85 .02 .45
25 fine_crackle_gloss     .02 .02 .02 .02 .02 .02 .02 .08 .03 .60 .06 .12 .02 .02 .02 .03
26 yellow_highlights      .02 .04 .03 .04 .05 .05 .08 .10 .55 .75 .03 .25 .06 .03 .06 .12
27 smooth_coated_no_fibre .02 .02 .02 .02 .02 .02 .02 .02 .02 .10 .25 .88 .02 .02 .02 .35
28 blue_image             .06 .02 .02 .02 .02 .02 .02 .02 .02 .02 .04 .02 .02 .97 .06 .05
29 neutral_and_matte      .02 .02 .02 .02 .02 .05 .02 .02 .05 .02 .20 .05 .75 .03 .02 .25
30 raking_relief          .02 .02 .02 .02 .02 .10 .02 .03 .02 .03 .60 .05 .02 .02 .06 .06
32 bound_transparency     .10 .10 .06 .20 .03 .04 .02 .25 .02 .02 .02 .02 .02 .02 .95 .03
33 case_or_brass_mat      .92 .88 .85 .88 .45 .12 .60 .03 .12 .06 .03 .02 .02 .02 .02 .20
34 card_mount_imprint     .04 .03 .03 .02 .25 .03 .08 .02 .25 .80 .40 .75 .45 .08 .06 .25
35 heavy_for_size         .30 .55 .45 .80 .12 .60 .15 .60 .02 .02 .02 .02 .02 .02 .45 .08
36 glass_edge_seen        .12 .30 .30 .45 .08 .60 .08 .60 .02 .02 .02 .02 .02 .02 .90 .06
"""

# The same where the processes stand alike but for the named ones.
NEARLY_PROOF = {
    1: {"any": .006, "DAG": .96, "AMC": .004, "AMR": .004, "AMD": .004, "TIN": .002, "LAN": .01},
    7: {"any": .02, "DAG": .003, "AMC": .03, "AMR": .02, "AMD": .03, "TIN": .94, "OPL": .03,
        "PAN": .04, "CRY": .03, "REP": .03},
    9: {"any": .009, "DAG": .81, "TIN": .873, "PAN": .026, "REP": .026},
    31: {"any": .0161, "CAR": .0261, "LAN": .0341, "REP": .88},
}  # fmt: skip

# Check and the answers that report the cue. Rust, weeping glass and flaking are damage, whose steps
# 1 to 3 report it.
CHECKS = {
    1: ("plate.mirror", ["flips"]),
    2: ("plate.negative-glint", ["yes"]),
    3: ("plate.depth", ["yes"]),
    4: ("plate.light-through", ["yes"]),
    5: ("plate.coloured-glass", ["yes"]),
    6: ("plate.dark-backing", ["yes"]),
    7: ("plate.magnet", ["yes"]),
    8: ("plate.rust", ["1", "2", "3"]),
    9: ("plate.metal-edge", ["dark", "copper", "pale"]),
    10: ("plate.outline", ["follows", "second"]),
    11: ("plate.buff-lines", ["yes"]),
    12: ("glass.weep", ["1", "2", "3"]),
    13: ("plate.pour-lines", ["yes"]),
    14: ("plate.flaking", ["1", "2", "3"]),
    15: ("plate.resin-stain", ["yes"]),
    16: ("image.whites", ["yes"]),
    17: ("image.warm-brown", ["yes"]),
    18: ("image.reversal", ["reversed"]),
    19: ("image.tint", ["yes"]),
    20: ("image.full-colour", ["yes"]),
    21: ("plate.white-glass", ["white-glass"]),
    22: ("plate.curved-glass", ["pair"]),
    23: ("plate.cloth-base", ["yes"]),
    24: ("print.fibres", ["yes"]),
    25: ("print.crackle", ["yes"]),
    26: ("print.yellow-whites", ["yes"]),
    27: ("print.smooth", ["yes"]),
    28: ("image.blue", ["yes"]),
    29: ("print.neutral", ["yes"]),
    30: ("print.relief", ["yes"]),
    31: ("image.dots", ["pattern", "specks", "texture"]),
    32: ("slide.bound", ["yes"]),
    33: ("piece.housed", ["yes"]),
    34: ("mount.printed-name", ["yes"]),
    35: ("plate.heavy", ["yes"]),
    36: ("plate.glass-edge", ["yes"]),
}
HALVED = (33, 34)  # housings can be swapped, so these count with half their log-odds
DAMAGE = (8, 12, 14)
GROUPS = {
    "mirror": {1, 11},
    "seal-failure": {10, 12},
    "glass": {3, 4, 6, 32, 35, 36},
    "iron": {7, 8},
    "metal-edge": {9},
    "collodion": {13, 14, 16},
    "paper-surface": {24, 25, 26, 27, 29},
    "housing": {33, 34},
}


@cache
def judged() -> dict[int, dict[str, float]]:
    """P(cue | process) by number of the cue."""
    header, *lines = JUDGED.strip().splitlines()
    columns = header.split()[1:]
    found = {}
    for line in lines:
        number, _, *cells = line.split()
        found[int(number)] = dict(zip(columns, map(float, cells), strict=True))
    for cue, few in NEARLY_PROOF.items():
        found[cue] = {column: few.get(column, few["any"]) for column in columns}
    return found


def shipped(cue: int, process: str) -> float:
    """P(cue seen | process) as the data have it."""
    name, seen = CHECKS[cue]
    return sum(chance(name, answer, process) for answer in seen)


def test_every_cue_is_asked() -> None:
    assert sorted(CHECKS) == sorted(judged()) == list(range(1, 37))


@every("cue", sorted(set(CHECKS) - set(HALVED)))
def test_cells_are_the_judged_ones(cue: int) -> None:
    for column, value in judged()[cue].items():
        assert shipped(cue, COLUMNS[column]) == pytest.approx(value, abs=1e-6), column


@pytest.mark.parametrize("cue", HALVED)
def test_housing_cues_count_with_half_their_log_odds(cue: int) -> None:
    for column, value in judged()[cue].items():
        half = sqrt(value) / (sqrt(value) + sqrt(1 - value))
        assert shipped(cue, COLUMNS[column]) == pytest.approx(half, abs=0.0051), column


@every("cue", sorted(set(CHECKS) - {*HALVED, *DAMAGE, *NEARLY_PROOF}))
def test_a_process_not_named_stands_at_the_average(cue: int) -> None:
    cells = list(judged()[cue].values())
    assert shipped(cue, "other") == pytest.approx(sum(cells) / len(cells), abs=0.0051)


@pytest.mark.parametrize("cue", NEARLY_PROOF)
def test_of_what_is_nearly_proof_a_process_not_named_stays_well_between(cue: int) -> None:
    lowest, *_, highest = sorted(judged()[cue].values())
    assert 3 * lowest < shipped(cue, "other") < highest / 5


def test_rows_sum_to_one() -> None:
    checked = 0
    for check in own_checks():
        for table in check.tables:
            for state, row in table.rows.items():
                assert sum(row) == pytest.approx(1), (check.id, table.over, state)
                assert min(row) > 0
                checked += 1
    assert checked > 700


@pytest.mark.parametrize(("group", "cues"), GROUPS.items())
def test_cues_of_one_fact_share_a_group(group: str, cues: set[int]) -> None:
    checks = knowledge().checks
    assert {n for n, (name, _) in CHECKS.items() if checks[name].group == group} == cues


def test_questions_fit_the_screen() -> None:
    for check in own_checks():
        assert len(check.ask) < 90, check.id
        assert len(check.how) < 200, check.id
        assert all(len(answer.says) < 46 for answer in check.answers), check.id


def test_no_question_asks_for_what_harms() -> None:
    # PMG Cased Photographs, American Institute for Conservation, and Preservation of the
    # Daguerreotype Collection, Library of Congress: packages stay closed, plates stay untouched.
    harm = r"\b(unseal|wipe|wet|breathe|scrape|scratch|prise|pry|heat|acetone|alcohol|flex|bend) "
    for check in own_checks():
        assert not re.search(harm, check.how.lower()), check.id
        assert check.risk in ("none", "handling")


@pytest.mark.parametrize("name", ["plate.metal-edge", "plate.light-through", "plate.glass-edge"])
def test_what_a_closed_case_hides_is_not_asked_of_a_cased_piece(name: str) -> None:
    assert "cased" not in knowledge().checks[name].kinds


@pytest.mark.parametrize("name", ["piece.housed", "mount.printed-name"])
def test_a_cased_piece_is_not_asked_whether_it_is_cased(name: str) -> None:
    assert set(knowledge().checks[name].kinds) == {"loose-plate", "card"}


def test_every_kind_has_cues_of_its_own() -> None:
    for kind in PICTURED:
        assert sum(kind in check.kinds for check in own_checks()) >= 7, kind


# --- the tarnished outline ------------------------------------------------------------------------


def outline(process: str, package: str = "undisturbed", belonging: str = "together") -> list[float]:
    """P(follows, second, none) of the three tables multiplied and brought back to sum to 1."""
    check = knowledge().checks["plate.outline"]
    tables = {table.over: table for table in check.tables}
    rows = [
        tables["process"].rows[process],
        tables["package"].rows[package],
        tables["belonging"].rows[belonging],
    ]
    values = [prod(column) for column in zip(*rows, strict=True)]
    return [values[check.index(answer)] / sum(values) for answer in ("follows", "second", "none")]


def test_outline_leaves_the_process_table_as_it_stands() -> None:
    for process in COLUMNS.values():
        seen = judged()[10][next(k for k, v in COLUMNS.items() if v == process)]
        assert sum(outline(process)[:2]) == pytest.approx(seen, abs=0.001)


def test_outline_bears_on_the_package_by_the_judged_ratios() -> None:
    # Judgement: a second outline 8 times, its absence 0.6 times, an even one 0.3 times as often.
    first, later = outline("daguerreotype"), outline("daguerreotype", package="disturbed")
    assert later[1] / first[1] == pytest.approx(8, rel=0.02)
    assert (1 - later[1]) / (1 - first[1]) == pytest.approx(0.6, rel=0.02)
    assert later[0] / first[0] == pytest.approx(0.3, rel=0.02)


@pytest.mark.parametrize("state", ["modern-image", "all-modern"])
def test_outline_is_a_sixth_as_often_on_a_modern_daguerreotype(state: str) -> None:
    old, new = outline("daguerreotype"), outline("daguerreotype", belonging=state)
    assert new[0] / old[0] == pytest.approx(1 / 6, rel=0.02)
    assert new[1] / old[1] == pytest.approx(1, rel=0.02)


@pytest.mark.parametrize("state", ["married", "modern-case"])
def test_outline_says_nothing_of_the_case(state: str) -> None:
    assert outline("daguerreotype", belonging=state) == outline("daguerreotype")
