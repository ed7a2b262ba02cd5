"""The loader is strict row by row, and whole whatever one row does."""

import shutil

import pytest

from appraise.base.errors import KnowledgeError
from appraise.base.places import shipped_data
from appraise.knowledge import load

MAT = """
checks:
  mat.border:
    ask: Is there a border?
    how: Look.
    seconds: 3
    risk: none
    basis: judgement
    answers: {yes: it is, no: it is not}
    belonging: {yes: {married: x3 x0.8, any: x1}}
"""


@pytest.fixture
def overlay(tmp_path):
    def write(text, name="own.yaml"):
        (tmp_path / name).write_text(text, encoding="utf-8")
        return load(overlay=tmp_path)

    return write


def told(knowledge):
    return [str(problem) for problem in knowledge.problems if "sources." not in problem.where]


def test_the_shipped_knowledge_is_sound():
    assert load().problems == ()


def test_a_row_of_ones_own_is_asked(overlay):
    knowledge = overlay(MAT)
    assert told(knowledge) == []
    check = knowledge.checks["mat.border"]
    # A pair of ratios says the base rate: (1 - 0.8) / (3 - 0.8).
    assert check.table("belonging").rows["together"][0] == pytest.approx(0.2 / 2.2)
    assert check.table("belonging").rows["married"][0] == pytest.approx(0.6 / 2.2)
    assert sum(check.table("belonging").rows["all-modern"]) == pytest.approx(1)


def test_a_row_of_the_same_id_replaces_the_shipped_one(overlay):
    text = MAT.replace("mat.border", "plate.magnet")
    knowledge = overlay(text)
    assert knowledge.overridden == ("plate.magnet",)
    assert knowledge.checks["plate.magnet"].ask == "Is there a border?"


@pytest.mark.parametrize(
    ("change", "problem"),
    [
        (("ask:", "asks:"), "own.yaml:3 checks.mat.border: 'ask' is missing"),
        (("risk: none", "risk: nonne"), "Did you mean 'none'?"),
        (("basis: judgement", "basis: guess"), "'guess' is not known here"),
        (("    basis: judgement\n", ""), "no 'source' and no 'basis'"),
        (("basis: judgement", "source: [nowhere]"), "'nowhere' is no key of the sources"),
        (("married: x3 x0.8", "maried: x3 x0.8"), "Did you mean 'married'?"),
        (("x3 x0.8", "x3 x1.8"), "a pair of ratios lies on both sides of 1"),
        (("x3 x0.8", "3 of 4"), "is neither a probability nor a ratio"),
        (("x3 x0.8", "x300 x0.9"), "passes 30"),
        (("{yes: {married: x3 x0.8, any: x1}}", "{yes: {any: .4}, no: {any: .4}}"), "sum to 0.8"),
        (("mat.border", "brass.border"), "'brass' is not known here"),
        (("answers: {yes: it is, no: it is not}", "answers: {yes: it is}"), "two answers or more"),
        (("    seconds: 3", "    seconds: 3\n    colour: red"), "'colour' is not a known key"),
        (("seconds: 3", "seconds: soon"), "'soon' is not a number"),
    ],
)
def test_a_bad_row_is_named_and_the_rest_works(overlay, change, problem):
    assert change[0] in MAT
    knowledge = overlay(MAT.replace(*change))
    found = told(knowledge)
    assert len(found) == 1
    assert problem in found[0]
    assert "own.yaml:" in found[0]
    assert "mat.shape" in knowledge.checks


def test_half_a_file_is_named_and_the_rest_works(overlay):
    knowledge = overlay("checks:\n  mat.border:\n    ask: [")
    assert "own.yaml:" in told(knowledge)[0]
    assert "mat.shape" in knowledge.checks


def test_dangling_references_are_named(overlay):
    text = MAT + "    when: {case.materiel: [thermoplastic]}\n    cautions: [gass]\n"
    found = told(overlay(text))
    assert any("'case.materiel' is no check. Did you mean 'case.material'?" in one for one in found)
    assert any("'gass' is no caution" in one for one in found)


def test_without_settings_of_the_model_nothing_can_be_computed(tmp_path):
    data = tmp_path / "data"
    shutil.copytree(shipped_data(), data)
    (data / "weights.yaml").unlink()
    with pytest.raises(KnowledgeError, match="no 'weights:'"):
        load(data)


def test_a_bad_setting_is_one_line(tmp_path):
    data = tmp_path / "data"
    shutil.copytree(shipped_data(), data)
    path = data / "weights.yaml"
    path.write_text(path.read_text().replace("[.30, .22", "[.40, .22"))
    with pytest.raises(KnowledgeError, match=r"weights\.lags: these sum to 1\.1, not to 1"):
        load(data)


def test_shares_leave_something_for_the_rest():
    knowledge = load()
    for check in knowledge.checks.values():
        if check.dates:
            assert sum(answer.share for answer in check.answers) > 0
            rest = [answer for answer in check.answers if not answer.share]
            assert rest, check.id
