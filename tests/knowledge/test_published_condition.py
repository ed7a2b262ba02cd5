"""What museums, libraries and conservators published on damage and repair, against the rows.

The source of each statement stands in the test's own docstring.
"""

from conditionkit import DEFECTS, KNOWLEDGE, defect


def test_haze_on_the_glass_is_replaceable_and_no_damage_to_the_plate():
    """Haze on the cover glass need not mean a damaged plate. Mirrors with Memory, Part II, LAC."""
    haze = DEFECTS["glass.haze"]
    assert haze.part == "glass"
    assert defect("glass.haze").reversible == "replaceable"
    assert defect("glass.haze").stability[3] == "active"
    assert "does not prove" in haze.misleads
    assert "lac-mirrors-2" in haze.basis.sources


def test_weeping_glass_is_active_comes_of_the_surroundings_and_must_not_be_touched():
    """Alkaline drops after high humidity. Lingua Franca, ch. 2, Library and Archives Canada."""
    weep = defect("glass.weep")
    assert weep.stability[1:] == ("active",) * 3
    assert weep.history == ("environment",)
    assert "touch" in weep.never
    assert "alkaline" in KNOWLEDGE.cautions["weeping-glass"].text
    assert set(KNOWLEDGE.cautions["weeping-glass"].when["glass.weep"]) == {"1", "2", "3"}


def test_a_tarnish_halo_is_never_cleaned():
    """Tarnish at the opening, in many colours. Lingua Franca, ch. 2, Library and Archives Canada;
    blue whites are over-exposure: Heritage Science 2018."""
    assert "Never clean" in defect("plate.halo").never
    assert "over-exposure" in DEFECTS["plate.halo"].misleads


def test_web_like_growth_is_a_conservators_matter():
    """Beige tendrils, raised centre. Lingua Franca, ch. 2, Library and Archives Canada."""
    growth = defect("plate.mouldspider")
    assert growth.history == ("environment",)
    assert "conservators" in growth.do
    assert "brush" in growth.never


def test_a_lost_or_renewed_seal_is_recorded_and_not_graded():
    """Seal lacking, damaged or replaced in almost every case. Bancroft Library, treatment."""
    for name in ("seal.broken", "seal.archival", "glass.replaced", "backing.renewed"):
        assert defect(name).recorded
        assert min(defect(name).worth) >= 0.94
        assert not any(table.over == "belonging" for table in DEFECTS[name].tables)
    assert defect("seal.broken").rates["any"][0] < 0.25
    assert "bancroft-treatment" in DEFECTS["seal.broken"].basis.sources


def test_household_tape_waits_for_worse_and_is_never_peeled():
    """Tapes stain, migrate, may be stronger than the object. Texas State Library; NYU Libraries."""
    for name in ("hinge.tape", "seal.bad-tape"):
        assert defect(name).stability[1:] == ("conditional",) * 3
        assert "peel" in defect(name).never
        assert {"texas-tape", "nyu-tape"} <= set(DEFECTS[name].basis.sources)


def test_a_glued_glass_plate_may_be_a_conservators_work():
    """Epoxy joins glass plates. Lingua Franca, ch. 3, Library and Archives Canada."""
    assert any("conservator" in text for text in DEFECTS["plate.crack"].innocent)
    assert not defect("plate.crack").non_archival


def test_an_early_piece_is_whole_without_a_preserver():
    """Preservers widely used in the 1850s. Glossary of Terms, Library of Congress."""
    check = DEFECTS["preserver.missing"]
    assert check.answers[0].says == "there, or never had one"
    assert "loc-glossary" in check.basis.sources
    assert not check.tables


def test_red_rot_can_only_be_slowed():
    """Powder, irreversible. Red rot: CAMEO, Museum of Fine Arts Boston; AIC wiki."""
    rot = defect("case.redrot")
    assert rot.reversible == "slow"
    assert rot.stability[1:] == ("active",) * 3
    assert "dressing" in rot.never


def test_old_dressing_may_look_like_mould():
    """Excess dressing can come out as a white deposit. Australian War Memorial, MUSEUM-L, 1997."""
    assert "mould" in DEFECTS["case.greasy"].misleads
    assert "dressing" in DEFECTS["case.mould"].misleads


def test_cyanotypes_rest_in_the_dark_with_air_and_off_alkali():
    """Light fading recovers; alkali bleaches. Cyanotypes, Worcester Art Museum, p. 36."""
    assert "in the dark, with air" in defect("print.light").do
    assert "airtight" in defect("print.light").never
    assert defect("print.light").reversible == "slow"
    assert defect("print.alkali").reversible == "no"
    assert "unbuffered" in defect("print.alkali").do


def test_faded_and_foxed_albumen_is_not_restored():
    """Damp drives fading, most of it early; no safe removal of foxing. DistList 1996, albumen."""
    assert defect("print.fade").history == ("environment",)
    assert defect("print.fade").stability[3] == "conditional"
    assert defect("print.foxing").reversible == "no"
    assert "bleaching" in defect("print.foxing").never


def test_rust_feeds_on():
    """Rust does not protect. Visual glossary, Australian Institute for the Conservation of
    Cultural Material."""
    assert defect("plate.rust").stability[1:] == ("active",) * 3
    assert "aiccm-glossary" in DEFECTS["plate.rust"].basis.sources
