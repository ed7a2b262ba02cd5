"""Signs of modern cases and pictures, of copies and of later additions: the ratios as judged.

No source gives any of them; they stand here a second time so that a slip of the pen in the YAML
shows. No museum, journal or standard that describes cast copies of moulded cases was found.
"""

from math import isclose

import pytest
from conditionkit import KNOWLEDGE, OURS, SIGNS, in_vain, ratio
from every import every

from appraise.knowledge.records import BELONGING, YES_NO

CASE, PICTURE = ("modern-case", "all-modern"), ("modern-image", "all-modern")
CASE_SIGNS = [  # check, answer, ratio seen, ratio looked for in vain (None: says next to nothing)
    ("case.seam", "seam", 8, 1 / 3),
    ("case.bubbles", "bubbles", 15, 1 / 3),
    ("case.sprue", "stub", 20, 0.6),
    ("case.layer-lines", "lines", 25, None),
    ("case.detail", "soft", 5, None),
    ("case.twin-flaw", "same", 30, None),
    ("case.size-against-design", "smaller", 4, None),
    ("case.well", "one-piece", 6, None),
    ("case.broken-edge", "pale", 15, None),
    ("case.broken-edge", "dark", 1 / 5, None),
    ("case.weight", "light", 4, None),
    ("case.odour", "sharp", 6, None),
    ("case.sheen", "even", 3, None),
    ("case.wear", "none", 3, None),
    ("case.new-covering", "new", 6, None),
    ("case.hinge-hardware", "modern", 4, None),
    ("case.label", "letterpress", 1 / 8, None),
    ("case.label", "machine", 15, None),
    ("case.moulded-mark", "marked", 2400, None),
]
PICTURE_SIGNS = [
    ("plate.modern-signature", "signed", 3000, None),
    ("sitter.anachronism", "modern", 4000, None),
    ("sitter.anachronism", "costume", 3, None),
    ("plate.back-coating", "modern", 15, None),
    ("plate.stamp", "stamped", 1 / 6, None),
    ("plate.hallmark", "seen", 1 / 4, None),
    ("plate.flat-glass", "new", 4, None),
    ("plate.condition-against-package", "fresh", 3, None),
    # Brighteners do not belong in papers made before about 1950 (Fakes, American Institute for
    # Conservation): as good as proof of a later paper, and their absence halves the suspicion.
    ("print.glow", "yes", 1000 / 3, 1 / 2),
]
LATER_SIGNS = [
    ("image.copy-signs", "copy", "frame", 1125, 0.55),
    ("case.hinge-hardware", "altered", "modern", 10, None),
    ("case.new-covering", "altered", "new", 8, None),
    ("note.ballpoint", "altered", "modern", 50, None),
    ("note.over-dirt", "altered", "over", 8, 1 / 2),
    ("note.fresh-scratch", "altered", "bright", 6, None),
    ("note.glow", "altered", "glows", 8, None),
    ("note.anachronism", "altered", "impossible", 20, None),
    ("image.insignia", "altered", "added", 8, None),
    ("image.fresh-colour", "altered", "over", 3, None),
]
DECISIVE = {
    "case.moulded-mark", "plate.modern-signature", "sitter.anachronism", "note.ballpoint",
    "image.copy-signs",
}  # fmt: skip


def says(name: str, over: str, answer: str, state: str, seen: float, unseen: float | None) -> bool:
    absence = in_vain(name, over, answer, state)
    # where only "seen" is judged, the base rate stays low enough for absence to say little
    quiet = unseen is None and 0.6 <= absence <= 1.35
    weighed = unseen is not None and isclose(absence, unseen, rel_tol=0.01)
    return isclose(ratio(name, over, answer, state), seen, rel_tol=0.01) and (quiet or weighed)


@pytest.mark.parametrize(("name", "answer", "seen", "unseen"), CASE_SIGNS)
def test_signs_of_a_modern_case(name, answer, seen, unseen):
    assert all(says(name, "belonging", answer, state, seen, unseen) for state in CASE)
    assert ratio(name, "belonging", answer, "married") == 1
    assert ratio(name, "belonging", answer, "modern-image") == 1


def test_a_missing_label_says_next_to_nothing():
    assert isclose(ratio("case.label", "belonging", "none", "modern-case"), 1.2, rel_tol=0.01)


@pytest.mark.parametrize(("name", "answer", "seen", "unseen"), PICTURE_SIGNS)
def test_signs_of_a_modern_picture(name, answer, seen, unseen):
    assert all(says(name, "belonging", answer, state, seen, unseen) for state in PICTURE)
    assert ratio(name, "belonging", answer, "married") == 1
    assert ratio(name, "belonging", answer, "modern-case") == 1


@pytest.mark.parametrize(("name", "over", "answer", "seen", "unseen"), LATER_SIGNS)
def test_signs_of_copies_and_later_additions(name, over, answer, seen, unseen):
    assert says(name, over, answer, "yes", seen, unseen)


@pytest.mark.parametrize(("name", "answer"), [("image.foil", "foil"), ("image.film", "film")])
def test_foil_and_film_speak_for_a_print_behind_glass_and_less_for_any_other_print(name, answer):
    modern = ratio(name, "belonging", answer, "modern-image")
    assert isclose(modern * ratio(name, "process", answer, "printed-glass"), 250)
    assert isclose(modern * ratio(name, "process", answer, "ink-print"), 31.25)
    assert ratio(name, "belonging", answer, "modern-case") == 1


def test_paper_under_glass_speaks_thirty_to_one_against_a_plate_and_not_against_a_print():
    assert isclose(ratio("image.paper-edge", "process", "paper", "ink-print"), 30)
    for print_on_paper in ("salted-paper", "albumen"):  # in cases they do exist: P
        assert isclose(ratio("image.paper-edge", "process", "paper", print_on_paper), 30)


def test_only_the_named_signs_pass_thirty():
    assert {name for name, check in OURS.items() if check.decisive} == DECISIVE
    for name in OURS.keys() - DECISIVE:
        for table in (t for t in OURS[name].tables if t.over != "process"):
            for column in zip(*table.rows.values(), strict=True):
                assert max(column) <= 30.001 * min(column)


@every("name", SIGNS)
def test_each_sign_offers_an_innocent_explanation(name):
    assert SIGNS[name].innocent


@every("name", SIGNS)
def test_tables_cover_all_states(name):
    for table in SIGNS[name].tables:
        states = {"belonging": BELONGING, "copy": YES_NO, "altered": YES_NO}.get(table.over)
        assert set(table.rows) == set(states or KNOWLEDGE.processes)
        assert all(isclose(sum(row), 1, abs_tol=1e-9) for row in table.rows.values())
