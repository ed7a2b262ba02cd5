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
        (("basis: judgement", "source: [nowhere]"), "'nowhere' is not a key of the sources"),
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
    first, *others = told(knowledge)
    assert problem in first
    assert "own.yaml:" in first
    # A misspelt key is two faults: one is missing, and one is not known.
    assert len(others) == (change[1] == "asks:")
    assert "mat.shape" in knowledge.checks


MANY = """
checks:
  mat.border:
    ask: Is there a border?
    hwo: Look.
    seconds: soon
    risk: nonne
    source: [nowhere]
    colour: red
    when: {mat.shpae: [oval]}
    answers:
      oval: {says: oval, years: 1850 1840 1860 1870 low, share: .3}
      square: {says: square, years: 1850 1855 1860 1870 low}
      other: another
  mat.lines:
    ask: Are there lines?
  mat.dots: none
cautions:
  own:
    text: Mind it.
    materials: [lether]
never:
  own: {says: this, words: [this], why: that, basis: guess}
termz: {}
"""


def test_every_fault_is_told_at_once_with_its_line(overlay):
    found = [str(one) for one in overlay(MANY).problems if "own.yaml" in one.where]
    lines = [int(one.split("own.yaml:")[1].split()[0]) for one in found]
    assert lines == sorted(lines)
    for line, told_of in [
        (3, "'how' is missing"),
        (5, "'hwo' is not a known key. Did you mean 'how'?"),
        (6, "'soon' is not a number"),
        (7, "'nonne' is not known here. Did you mean 'none'?"),
        (8, "'nowhere' is not a key of the sources"),
        (9, "'colour' is not a known key"),
        (12, "four years in order are needed"),
        (13, "an answer with years needs its share"),
        (15, "no 'source' and no 'basis'"),
        (15, "'answers' is missing"),
        (17, "key: value pairs are needed here"),
        (19, "no 'source' and no 'basis'"),
        (23, "'guess' is not known here"),
        (23, "'instead' is missing"),
        (24, "'termz' is not a topic. Did you mean 'terms'?"),
    ]:
        assert any(f"own.yaml:{line} " in one and told_of in one for one in found), (
            f"{line}: {told_of} not in {found}"
        )


def test_references_in_vain_are_told_with_their_line(overlay):
    text = (
        MAT
        + "cautions:\n  own:\n    text: Mind it.\n    materials: [lether]\n    basis: practice\n"
    )
    (found,) = told(overlay(text))
    assert "own.yaml:12 cautions.own: 'lether' is not a material" in found


def test_a_bad_row_of_ones_own_leaves_the_shipped_one_in_force(overlay):
    knowledge = overlay("processes:\n  daguerreotype:\n    name: dag\n    basis: practice\n")
    assert "'share'" in told(knowledge)[0]
    assert len(told(knowledge)) == 1
    assert knowledge.processes["daguerreotype"].name == "daguerreotype"
    assert knowledge.own == ()


def test_bad_settings_of_ones_own_leave_the_shipped_ones_in_force(overlay):
    knowledge = overlay("weights: {basis: judgement}")
    assert "own.yaml:1 weights" in told(knowledge)[0]
    assert knowledge.weights == load().weights


def test_one_id_twice_among_ones_own_rows_is_told(overlay, tmp_path):
    (tmp_path / "first.yaml").write_text(MAT.replace("a border", "a rim"), encoding="utf-8")
    knowledge = overlay(MAT)
    assert "'mat.border' is there already" in told(knowledge)[0]
    assert knowledge.checks["mat.border"].ask == "Is there a rim?"


def test_rows_of_ones_own_say_where_they_stand_and_over_what(overlay):
    knowledge = overlay(MAT + MAT.replace("checks:", "").replace("mat.border", "plate.magnet"))
    added, over = sorted(knowledge.own, key=lambda one: one.id)
    assert (added.topic, added.id, added.over) == ("checks", "mat.border", "")
    assert "own.yaml:3" in added.where
    assert "process-plates.yaml:" in over.over
    assert knowledge.own_row("checks", "plate.magnet") == over
    assert knowledge.own_row("cautions", "plate.magnet") is None


def test_half_a_file_is_named_and_the_rest_works(overlay):
    knowledge = overlay("checks:\n  mat.border:\n    ask: [")
    assert "own.yaml:" in told(knowledge)[0]
    assert "mat.shape" in knowledge.checks


def test_dangling_references_are_named(overlay):
    text = MAT + "    when: {case.materiel: [thermoplastic]}\n    cautions: [gass]\n"
    found = told(overlay(text))
    assert any(
        "'case.materiel' is not a check. Did you mean 'case.material'?" in one for one in found
    )
    assert any("'gass' is not a caution" in one for one in found)


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


KEYHOLE = """
answers:
  mat.shape:
    keyhole: {says: a keyhole, years: {us: 1846 1850 1856 1862 low}, share: .1, basis: practice}
"""


def test_one_answer_more_is_asked_and_dates(overlay):
    knowledge = overlay(KEYHOLE)
    assert told(knowledge) == []
    check, shipped = knowledge.checks["mat.shape"], load().checks["mat.shape"]
    assert [one.id for one in check.answers[-2:]] == ["keyhole", "other"]
    assert len(check.answers) == len(shipped.answers) + 1
    assert check.answers[-2].years["us"].start == 1850
    assert knowledge.own_row("checks", "mat.shape").over == ""


def test_one_answer_is_put_for_the_shipped_one(overlay):
    text = KEYHOLE.replace("keyhole:", "octagon:").replace("a keyhole", "eight-sided")
    knowledge = overlay(text)
    check = knowledge.checks["mat.shape"]
    assert "mats.yaml:" in knowledge.own_row("checks", "mat.shape").over
    assert len(check.answers) == len(load().checks["mat.shape"].answers)
    assert check.answers[check.index("octagon")].says == "eight-sided"


@pytest.mark.parametrize(
    ("change", "problem"),
    [
        (
            ("mat.shape", "mat.shpae"),
            "own.yaml:3 answers.mat.shpae: 'mat.shpae' is not a check. Did you",
        ),
        (("mat.shape", "plate.magnet"), "whose answers carry years"),
        ((", basis: practice", ""), "own.yaml:4 answers.mat.shape.keyhole: no 'source'"),
        ((", share: .1", ""), "needs its share"),
        (("1846 1850", "1850 1846"), "four years in order"),
        (("years: {us: 1846 1850 1856 1862 low}, ", ""), "'years' is missing"),
    ],
)
def test_a_bad_answer_is_named_and_the_check_stays_as_shipped(overlay, change, problem):
    knowledge = overlay(KEYHOLE.replace(*change))
    assert problem in told(knowledge)[0]
    assert len(knowledge.checks["mat.shape"].answers) == len(load().checks["mat.shape"].answers)


FORMAT = """
formats:
  tile:
    name: tile
    size: [50 x 60]
    tolerance: 1
    kinds: [card]
    share: .01
    basis: judgement
"""
OFFSET = """
offsets:
  sleeve:
    add: 2 3
    spread: 1
    basis: judgement
"""


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        (FORMAT + "    form: carta\n", "'carta' is not an answer of mount.form"),
        (FORMAT + "    form: carte\n    years: 1850 1860 1870 1880 low\n", "not both"),
        (FORMAT + "    regions: {us: 2}\n", "outside 0 to 1"),
        (FORMAT + "    named: 1.2\n", "outside 0.5 to 0.999"),
        (OFFSET + "    formats: {sixt: 1 1}\n", "'sixt' is not known here"),
        (OFFSET + "    formats: {sixth: 1}\n", "two or three numbers are needed"),
        (OFFSET + "    instead: {platte: .2}\n", "'platte' is not known here"),
        (OFFSET + "    instead: {plate: .6, case: .5}\n", "must be less than all"),
    ],
)
def test_rows_on_sizes_that_do_not_hold(overlay, text, problem):
    assert [one for one in told(overlay(text)) if problem in one]


def test_rows_on_sizes_that_hold(overlay):
    text = (
        OFFSET + "    formats: {sixth: 1 2, half: 3 4 5}\n    instead: {plate: .2}\n    usual: .1\n"
    )
    knowledge = overlay(FORMAT + "    years: 1850 1860 1870 1880 low\n" + text)
    assert told(knowledge) == []
    offset = knowledge.offsets["sleeve"]
    assert offset.of("sixth") == (1, 2, 1)
    assert offset.of("half") == (3, 4, 5)
    assert offset.of("ninth") == (2, 3, 1)
    assert (offset.instead, offset.usual) == ({"plate": 0.2}, 0.1)
    assert knowledge.formats["tile"].years[""].start == 1860
