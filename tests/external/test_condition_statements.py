"""Published statements on damage, repair and hazard, told as findings and judged as a whole.

The rows behind them are checked in tests/knowledge; here it is what a user is told. T01 to T40 are
their numbers in the notes on condition, where T05, T09, T13, T17, T19, T21, T25, T33 and T38 are
not in use. Each is checked once:

    T01 to T04, T06 to T08, T11, T12     here
    T15, T18, T20, T22 to T24            here
    T26 to T31, T34, T36, T37, T40       test_condition_statements_prints_and_law.py, beside this
    T10                                  tests/reading/test_named_pieces.py, tape on the hinge
    T14, T16, T35                        tests/knowledge/test_never_and_care.py, harmful tests
    T32                                  test_records.py, beside this
    T39                                  tests/cli/test_advice.py, glass alarms before mould
"""

import json

import pytest
from external.kit import cautioned, fault, judged, odds, only_opened, shipped, told, warned

from appraise.cli.main import run
from appraise.listing.reader import read as read_listing
from appraise.reading.condition import NOT_SEEN
from appraise.reading.reading import existed_by

DAGUERREOTYPE = ("case.material leather-wood", "claim.process daguerreotype", "plate.mirror flips")
AMBROTYPE = (
    "case.material leather-wood", "claim.process ambrotype", "plate.mirror stays",
    "plate.dark-backing yes",
)  # fmt: skip


def test_haze_on_the_glass_leaves_the_plate_unknown():
    """T01. Haze need not mean a damaged plate. Mirrors with Memory, Part II (2016), Library and
    Archives Canada."""
    seen = judged(*DAGUERREOTYPE, "glass.haze 3")
    sides = seen.reading.condition.sides
    assert sides["image"].grade == NOT_SEEN
    assert sides["image"].worst is None
    assert (sides["package"].grade, sides["package"].stability) == ("Poor", "active")
    assert "conservator" in warned(seen)["active-decay"].says


@pytest.mark.parametrize("step", ["1", "2", "3"])
def test_droplets_are_active_and_not_to_be_touched(step, tmp_path, monkeypatch, capsys):
    """T02. Alkaline drops after high humidity, a fault of the glass. Lingua Franca, ch. 2, Library
    and Archives Canada. As the command line says it."""
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    path = tmp_path / "piece.yaml"
    path.write_text(f'piece: 1\nfindings:\n  glass.weep: "{step}"\n', encoding="utf-8")
    assert run(("verdict", str(path), "--json")) == 0
    document = json.loads(capsys.readouterr().out)
    (row,) = document["condition"]["active"]
    assert row["id"] == "glass.weep"
    assert "touch" in row["never"]
    assert "weeping-glass" in {one["id"] for one in document["cautions"]}
    assert fault(told(f"glass.weep {step}"), "glass.weep").defect.history == ("environment",)


def test_a_coloured_band_at_the_opening_is_tarnish_and_stays():
    """T03. Tarnish in many colours at the mat's opening. Lingua Franca, ch. 2, Library and Archives
    Canada."""
    before = told("case.material leather-wood")
    after = told("case.material leather-wood", "plate.outline follows", "plate.halo 2")
    assert [one.check.id for one in after.condition.faults] == ["plate.halo"]
    assert after.families["daguerreotype"] > before.families["daguerreotype"]
    assert after.joint.altered == pytest.approx(before.joint.altered)
    assert "Never clean" in fault(after, "plate.halo").defect.never


def test_web_like_growth_is_told_as_growth_and_left_to_a_conservator():
    """T04. Beige tendrils from a raised centre. Lingua Franca, ch. 2, Library and Archives
    Canada."""
    growth = fault(told(*DAGUERREOTYPE, "plate.mouldspider 2"), "plate.mouldspider")
    assert growth.stability == "conditional"
    assert growth.defect.history == ("environment",)
    assert growth.defect.reversible == "slow"
    assert "brush" in growth.defect.never


@pytest.mark.parametrize("blue", ["no", "yes"])
def test_a_blue_shirt_front_is_neither_tarnish_nor_a_cyanotype(blue):
    """T06. Solarisation gives blue tones. Exploring tarnished daguerreotypes with synchrotron
    light, Heritage Science, 2018."""
    reading = told(*DAGUERREOTYPE, f"image.blue {blue}", "plate.tarnish 0")
    assert reading.family == "daguerreotype"
    assert reading.condition.faults == ()
    assert reading.condition.factor == 1.0


@pytest.mark.parametrize(
    "seal", [("seal.state none", "seal.broken 3"), ("seal.state conservator", "seal.archival 1")]
)
def test_a_lost_or_renewed_seal_says_opened_and_not_married(seal):
    """T07. Seal lacking, damaged or replaced in almost every case of about 440. Conservation
    Treatment Procedures, Bancroft Library."""
    before, after = told(*DAGUERREOTYPE), judged(*DAGUERREOTYPE, *seal)
    assert odds(after.reading) / odds(before) <= 1.5
    assert only_opened(after)
    assert after.reading.disturbed > before.disturbed
    assert "opened" in after.reading.condition.faults[0].defect.history
    assert after.reading.condition.sides["package"].grade == NOT_SEEN


def test_new_glass_under_conservators_tape_takes_next_to_nothing_away():
    """T08. A library replaced broken glass by new. Preservation of the Daguerreotype Collection,
    Library of Congress."""
    before = told(*DAGUERREOTYPE)
    after = judged(
        *DAGUERREOTYPE, "glass.make new", "glass.replaced 1", "seal.state conservator",
        "seal.archival 1",
    )  # fmt: skip
    assert after.reading.modern == pytest.approx(before.modern, rel=0.05)
    assert odds(after.reading) == pytest.approx(odds(before), rel=0.05)
    assert after.reading.condition.factor >= 0.95
    assert {"opened", "treated"} <= set(fault(after.reading, "seal.archival").defect.history)
    assert only_opened(after)


def test_a_clear_join_in_a_broken_plate_is_no_verdict_on_who_made_it():
    """T11. Conservators join glass plates with epoxy. Lingua Franca, ch. 3, Library and Archives
    Canada."""
    seen = judged(*AMBROTYPE, "plate.crack 2")
    assert fault(seen.reading, "plate.crack").step == 2
    assert "repair-not-archival" not in warned(seen)


def test_new_black_paper_behind_an_ambrotype_is_no_sign_of_a_copy():
    """T12. Backings renewed with black photographic paper, the old ones kept. Conservation
    Treatment Procedures, Bancroft Library."""
    before, after = (
        told(*AMBROTYPE),
        judged(*AMBROTYPE, "backing.material modern", "backing.renewed 1"),
    )
    assert after.reading.modern == pytest.approx(before.modern, rel=0.05)
    assert after.reading.joint.copy == pytest.approx(before.joint.copy, rel=0.05)
    assert after.reading.condition.factor >= 0.97
    assert set(warned(after)) <= {"opened", "late-material"}
    assert not any(one.strong for one in after.warnings)


@pytest.mark.parametrize("words", ["professionally dipped", "silver dipped years ago"])
def test_a_dipped_plate_is_asked_about(words):
    """T15. Cyanide and thiourea dissolve image and tarnish alike. The Cleaning of Daguerreotypes,
    Journal of the American Institute for Conservation 22(1), 1982."""
    listing = read_listing(f"Sixth plate daguerreotype, {words}, leather case", shipped())
    assert "cleaned-words" in {flag.id for flag in listing.flags}
    assert "plate.cleaned" in {check.id for check in told(*DAGUERREOTYPE).checks}
    seen = judged(*DAGUERREOTYPE, "plate.cleaned 2")
    assert "treated" in fault(seen.reading, "plate.cleaned").defect.history
    assert "cyanide" in cautioned(seen)
    worse = told(*DAGUERREOTYPE, "plate.cleaned 3").condition.factor
    assert worse < seen.reading.condition.factor < 0.9


def test_an_early_plate_without_a_preserver_is_complete():
    """T18. Preservers widely used in the 1850s. Glossary of Terms, Library of Congress."""
    before = told(*DAGUERREOTYPE, region="us")
    after = judged(*DAGUERREOTYPE, "preserver.state none", "preserver.missing 0", region="us")
    assert after.reading.condition.sides["package"].completeness == "complete"
    assert after.reading.modern <= before.modern
    assert after.warnings == ()
    assert after.reading.together.median <= before.together.median


def test_no_thermoplastic_case_is_of_1849():
    """T20. Moulded from May 1852: Encyclopedia of Nineteenth-Century Photography, p. 1421; in use
    from 1854: Glossary of Terms, Library of Congress."""
    reading = told("case.material thermoplastic", "claim.process daguerreotype", region="us")
    assert reading.housing.first >= 1852
    leather = told("case.material leather-wood", "claim.process daguerreotype", region="us")
    assert existed_by(reading, 1849) < existed_by(leather, 1849) / 2
    claimed = read_listing("Sixth plate daguerreotype in a union case, dated 1849", shipped())
    (flag,) = (one for one in claimed.flags if one.id == "date-before-case")
    assert flag.severity == "warn"
    possible = read_listing("Sixth plate daguerreotype in a union case, dated 1854", shipped())
    assert "date-before-case" not in {one.id for one in possible.flags}


def test_a_tintype_of_the_twentieth_century_contradicts_nothing():
    """T22. Tintypes were made into the 20th century, gelatin ones late. Tintype, American Institute
    for Conservation."""
    plain = judged("claim.process tintype", "plate.magnet yes", kind="loose-plate", region="us")
    assert plain.warnings == ()
    assert 1 - existed_by(plain.reading, 1900) > 0.05
    mirror = told("claim.process daguerreotype", "plate.mirror flips", kind="loose-plate")
    assert 1 - existed_by(mirror, 1900) < 0.02
    late = told("claim.process tintype", "plate.magnet yes", kind="loose-plate", region="gb")
    assert late.together.last > plain.reading.together.last


@pytest.mark.parametrize("damage", ["plate.crack 2", "plate.flaking 2"])
def test_a_broken_ambrotype_carries_its_poison_and_its_glass(damage):
    """T23. Whitened with mercuric chloride or fixed with cyanide at times. Ambrotype; Tintype,
    American Institute for Conservation."""
    seen = judged(*AMBROTYPE, damage)
    assert "mercury-collodion" in cautioned(seen)
    assert ("broken-glass" in cautioned(seen)) == (damage == "plate.crack 2")


@pytest.mark.parametrize("material", ["leather-wood", "thermoplastic"])
def test_dots_speak_against_the_picture_and_leave_the_case_alone(material):
    """T24. Half-tone dots show at about 15x. Letterpress/Half-tone (2012), American Institute for
    Conservation."""
    case = f"case.material {material}"
    before = told(case, "claim.process daguerreotype seller")
    after = judged(case, "claim.process daguerreotype seller", "image.dots pattern")
    assert after.reading.family == "photomechanical"
    # A printed picture in a moulded case makes one thing likelier: both made together of late.
    room = {"leather-wood": 0.01, "thermoplastic": 0.07}[material]
    assert odds(after.reading, "modern-case") == pytest.approx(
        odds(before, "modern-case"), abs=room
    )
    tilted = judged(
        case, "claim.process daguerreotype seller", "image.dots pattern", "plate.mirror stays"
    )
    assert "looks like printed reproduction" in warned(tilted)["claim-doubted"].says
