"""More published statements on condition, prints, grades and law, judged as a whole.

Their numbers, and where the others are checked, stand at the head of test_condition_statements.py.
"""

import json

import pytest
from every import every
from external.kit import cautioned, fault, judged, odds, shipped, told, warned

from appraise.cli.main import run
from appraise.reading.condition import GRADES, NOT_SEEN
from appraise.reading.reading import read
from appraise.reading.words import word_for
from appraise.records.piece import Piece


@pytest.mark.parametrize("step", ["1", "2", "3"])
def test_red_rot_goes_on_and_gets_no_dressing(step):
    """T26. Powder, irreversible, can only be slowed. Red rot: CAMEO, Museum of Fine Arts Boston;
    Red rot, American Institute for Conservation wiki."""
    seen = judged("case.material leather-wood", f"case.redrot {step}")
    found = fault(seen.reading, "case.redrot")
    assert found.active
    assert found.defect.reversible == "slow"
    says = warned(seen)["active-decay"].says
    assert "slow" in says
    assert not any(word in says for word in ("oil", "wax", "dressing", "feed"))
    assert "red-rot" in cautioned(seen)


def test_a_white_film_on_leather_is_not_mould_by_default():
    """T27. Excess dressing can look like mould. Oleates on copper and "bloom", Australian War
    Memorial, MUSEUM-L, 1997."""
    dressed = judged("case.material leather-wood", "case.greasy 2")
    assert "mould" not in cautioned(dressed)
    assert not fault(dressed.reading, "case.greasy").active
    growing = judged("case.material leather-wood", "case.mould 2")
    assert "mould" in cautioned(growing)
    offered = {check.id for check in told("case.material leather-wood").checks}
    assert {"case.greasy", "case.mould"} <= offered


def test_a_faded_cyanotype_in_a_buffered_mat(tmp_path, monkeypatch, capsys):
    """T28. Light fading recovers in the dark with air, alkali bleaches. Cyanotypes, Worcester Art
    Museum, p. 36; Care and Identification of 19th-Century Photographic Prints, quoted 1996."""
    seen = judged("image.blue yes", "print.light 2", "print.alkali 2", kind="cyanotype")
    assert "unbuffered" in warned(seen)["active-decay"].says
    light = fault(seen.reading, "print.light")
    assert not light.active
    assert "in the dark, with air" in light.defect.do
    assert "airtight" in light.defect.never
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    assert run(("care", "cyanotype", "--json")) == 0
    rows = json.loads(capsys.readouterr().out)["care"]
    assert any("unbuffered" in row["text"].lower() for row in rows)


def test_a_faded_card_is_told_to_be_kept_dry_and_not_restored():
    """T29. Damp drives fading, most of it early. Albumen prints and water, Boston photo-archives
    course (on a study of 1982); Foxing on photographs, Conservation DistList, 1996."""
    found = fault(told("print.fade 2", kind="card"), "print.fade")
    assert found.stability == "conditional"
    assert found.defect.history == ("environment",)
    assert not any(word in found.defect.do.lower() for word in ("restor", "bleach", "intensif"))


def test_foxing_is_not_to_be_bleached():
    """T30. No safe removal for albumen prints. Foxing on photographs, DistList, 1996."""
    seen = judged("print.foxing 3", kind="card")
    found = fault(seen.reading, "print.foxing")
    assert found.defect.reversible == "no"
    assert "bleach" not in found.defect.do.lower()
    assert "bleach" in found.defect.never


LOW = GRADES.index("Fair")
DEFECTS = sorted(name for name, check in shipped().checks.items() if check.defect)


@every("name", DEFECTS)
def test_a_low_grade_always_names_its_defect(name):
    """T31. Damage types are mandatory from Poor down. Condition, Wellcome Collection
    documentation."""
    kind = shipped().checks[name].kinds[0]
    for step in ("1", "2", "3"):
        piece = Piece(kind=kind).with_finding(name, step)
        for side in read(piece, shipped()).condition.sides.values():
            if side.grade != NOT_SEEN and GRADES.index(side.grade) >= LOW:
                assert side.worst is not None
                assert side.worst.defect.name in side.says
                assert side.worst.check.id == name


@pytest.mark.parametrize("kind", ["cased", "loose-plate", "card", "lantern-slide", "cyanotype"])
def test_without_a_defect_there_is_no_low_grade(kind):
    """T31, its reverse. Condition, Wellcome Collection documentation."""
    piece = Piece(kind=kind)
    for name in DEFECTS:
        if kind in shipped().checks[name].kinds:
            piece = piece.with_finding(name, "0")
    reading = read(piece, shipped())
    assert reading.condition.factor == 1.0
    for side in reading.condition.sides.values():
        assert side.grade in ("Excellent", "Good", NOT_SEEN)
    seen = [side.grade for side in reading.condition.sides.values() if side.of]
    assert "Excellent" in seen


def test_a_shell_lid_brings_the_notice_for_trade_and_for_borders():
    """T34. Worked before 3 March 1947, no certificate for trade within the UK. Check if your item
    is a worked specimen, UK government (APHA)."""
    seen = judged("case.material shell", region="gb", channel="auction")
    (text,) = (one.text for one in seen.cautions if one.id == "tortoiseshell")
    assert "3 March 1947" in text
    assert "border" in text
    assert "tortoiseshell" not in cautioned(judged("case.material leather-wood", region="gb"))


def test_a_daguerreotype_is_warned_of_show():
    """T36. 25 plates damaged in about ten weeks on show. Nanoscientists attempt to save
    disintegrating artworks, Scientific American."""
    assert "display" in cautioned(judged("plate.mirror flips"))
    assert "display" not in cautioned(judged("plate.magnet yes", "plate.mirror stays"))


def test_a_leather_case_called_union_case_is_a_slip_of_words():
    """T37. The name is used of hinged cases in general. Understanding Early Photography,
    Smithsonian Museum Conservation Institute; Cased Photographs, American Antiquarian Society."""
    before = told("case.material leather-wood")
    after = judged("case.material leather-wood", "claim.material thermoplastic seller")
    warning = warned(after)["claim-doubted"]
    assert warning.says.endswith("looks like leather over wood")
    assert any("no deceit" in text for text in warning.innocent)
    assert not warning.strong
    assert "reproduction" not in warned(after)
    for state in ("married", "modern-case"):
        assert word_for(odds(after.reading, state) / odds(before, state)) == "no"


@pytest.mark.parametrize("channel", ["online", "auction"])
def test_a_buy_now_sale_is_told_to_be_no_auction(channel):
    """T40. Internet auction sites and marketplaces, Business Companion (UK Trading Standards)."""
    seen = judged(region="gb", channel=channel)
    (text,) = (one.text for one in seen.cautions if one.id == "sales-gb")
    assert "fixed-price sale on an auction site is not an auction" in " ".join(text.split())
    assert "sales-gb" not in cautioned(judged(region="gb", channel="market"))
