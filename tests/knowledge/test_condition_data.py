"""Damage as shipped: form, base rates, grading rules, and what it says about the process.

Rates, worth and tables are judgements of the makers of the tool and have no source.
"""

from math import isclose

import pytest
from conditionkit import DEFECTS, KNOWLEDGE, OURS, SIGN_FILES, defect
from every import every


def test_no_row_of_these_topics_is_refused():
    files = ("data/defects/", "data/sources/condition", "data/cautions", "data/never", "data/care")
    problems = map(str, KNOWLEDGE.problems)
    assert [one for one in problems if one.startswith((*files, *SIGN_FILES))] == []


@every("check", OURS.values(), ids=lambda check: check.id)
def test_texts_fit_a_narrow_screen(check):
    assert len(check.ask) < 90
    assert 0 < len(check.how) < 200
    assert all(len(answer.says) < 46 for answer in check.answers)


@every("name", DEFECTS)
def test_each_defect_says_what_to_do_or_never_to_do(name):
    assert defect(name).do or defect(name).never


@every("name", DEFECTS)
def test_rates_sum_to_one_and_sound_comes_before_ruin(name):
    for rates in defect(name).rates.values():
        assert isclose(sum(rates), 1, abs_tol=1e-9)
        assert rates[3] <= rates[0] or name == "seal.broken"  # most seals are gone: S, see below


@pytest.mark.parametrize("name", [n for n, c in DEFECTS.items() if c.only == ("tintype",)])
def test_what_only_a_tintype_can_have_is_rare_elsewhere(name):
    if (tells := DEFECTS[name].table("process")) is None:
        assert defect(name).rates["any"] == (0.997, 0.001, 0.001, 0.001)
    else:  # what tells processes apart is as rare on the others as its table says
        others = [row for word, row in tells.rows.items() if not word.startswith("tintype")]
        lowest, highest = min(row[0] for row in others), max(row[0] for row in others)
        assert 0.9 < lowest <= defect(name).rates["any"][0] <= highest
    assert "tintype" in defect(name).rates


@pytest.mark.parametrize("name", ["plate.rust", "glass.weep", "plate.flaking"])
def test_worse_damage_is_rarer_whatever_the_process(name):
    for row in DEFECTS[name].table("process").rows.values():
        assert list(row) == sorted(row, reverse=True)


def test_aluminium_does_not_rust():
    rows = DEFECTS["plate.rust"].table("process").rows
    assert rows["tintype-aluminium"][0] > 0.97 > rows["tintype-gem"][0]


def test_pad_clasp_mat_and_preserver_do_not_carry_the_piece():
    for name, check in DEFECTS.items():
        assert not (check.part in {"pad", "clasp", "mat", "preserver"} and defect(name).structural)


@every("name", DEFECTS)
def test_what_goes_on_by_itself_and_cannot_be_replaced_is_unacceptable_at_last(name):
    """The rule of the grades: 3 and active, unless the part can simply be replaced (J)."""
    if defect(name).stability[3] == "active" and defect(name).reversible != "replaceable":
        assert defect(name).unacceptable <= 3


@pytest.mark.parametrize("name", ["case.mould", "case.woodworm", "glass.weep", "glass.shards"])
def test_live_growth_weeping_on_the_plate_and_loose_shards_are_unacceptable(name):
    """Unacceptable: actively deteriorating or affecting other objects, insects or mould.

    S: Condition, Wellcome Collection documentation. Loose shards are J.
    """
    assert defect(name).unacceptable == 3


def test_safety_is_asked_first_where_hands_or_lungs_are_at_risk():
    first = {name for name, check in OURS.items() if check.safety}
    assert first == {
        "glass.crack", "glass.shards", "glass.weep", "case.mould", "hinge.split", "hinge.torn",
        "plate.crack", "slide.glass",
    }  # fmt: skip
    assert all(OURS[name].cautions or name.startswith("hinge") for name in first)


AMATEUR = {"hinge.tape", "seal.bad-tape", "case.glue", "pad.felt", "backing.unsuitable"}


def test_repairs_that_are_not_archival():
    assert {name for name in DEFECTS if defect(name).non_archival} == AMATEUR
