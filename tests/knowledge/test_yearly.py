"""What was usual in a year: every dated row that reaches into it, and no other."""

import json

import pytest
from every import every

from appraise.cli.main import run
from appraise.knowledge import load
from appraise.knowledge.records import KINDS, REGIONS, YEARS, Knowledge
from appraise.knowledge.yearly import COMING, GOING, USUAL, known_for, usual_in


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load()


def processes(year: int, knowledge: Knowledge, region: str = "us") -> dict[str, str]:
    found = usual_in(year, knowledge, "cased", region)
    return {one.says: one.state for one in found if one.part == "process"}


@every("year", [*YEARS[::7], YEARS[-1]])
@every("kind", KINDS)
def test_every_row_holds_the_year_and_says_on_which_side_of_its_common_years(knowledge, year, kind):
    for one in usual_in(year, knowledge, kind):
        assert one.years.first <= year <= one.years.last
        assert one.years.weight(year) > 0
        wanted = {USUAL: 1.0}.get(one.state)
        assert wanted is None or one.years.weight(year) == wanted
        assert (one.state == COMING) == (year < one.years.start)
        assert (one.state == GOING) == (year > one.years.end)


def test_no_dated_answer_is_left_out(knowledge):
    year = 1858
    wanted = {
        (check.id, answer.says, region)
        for check in knowledge.checks.values()
        if "cased" in check.kinds
        for answer in check.answers
        for region, years in answer.years.items()
        if years.weight(year) > 0
    }
    by_ask = {check.ask: check for check in knowledge.checks.values()}
    found = {
        (by_ask[one.ask].id, one.says, one.region)
        for one in usual_in(year, knowledge, "cased")
        if one.ask in by_ask
    }
    assert len(found) == len(wanted)
    assert {name for name, _, _ in found} == {name for name, _, _ in wanted}


def test_a_region_takes_its_own_years_and_those_that_hold_everywhere(knowledge):
    for region in REGIONS:
        assert {one.region for one in usual_in(1858, knowledge, region=region)} <= {region, ""}
    assert {one.region for one in usual_in(1858, knowledge)} > {"", "us", "gb"}


def test_the_processes_of_a_few_years(knowledge):
    # Announced to the French Academy on 19 August 1839; the tintype patent is of 19 February 1856
    # (US patent 14,300). Both dates are those of the published record.
    assert processes(1838, knowledge) == {}
    assert "daguerreotype" in processes(1840, knowledge)
    assert not any("tintype" in name for name in processes(1854, knowledge))
    assert any("tintype" in name for name in processes(1857, knowledge))


def test_the_command(tmp_path, capsys):
    assert run(["--home", str(tmp_path), "year", "1858", "--region", "us", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["schema"] == "appraise.year/1"
    assert {"process", "housing", "mat"} <= {row["part"] for row in told["rows"]}
    assert run(["--home", str(tmp_path), "year", "1858"]) == 0
    text = capsys.readouterr().out
    assert "In use in 1858" in text
    assert "going out: daguerreotype" in text


def test_without_a_kind_every_kind_is_covered_and_each_row_says_for_what(tmp_path, capsys):
    assert run(["--home", str(tmp_path), "year", "1890"]) == 0
    text = capsys.readouterr().out
    for told in (
        "cabinet card (about 108 x 165 mm)",
        "lantern slide (1872-1938, outer limits 1849-1960; source): ",
        "What style is the cabinet card? (cards)",
        "How is the slide held together? (slides)",
        "How are a man's hair and beard worn? (any image)",
        "boudoir mount",
    ):
        assert told in " ".join(text.split()), told
    assert run(["--home", str(tmp_path), "year", "1890", "--kind", "cased"]) == 0
    assert "cabinet card" not in capsys.readouterr().out


def test_what_is_known_for_one_region_only_says_so(knowledge):
    def said(check: str) -> str:
        return known_for(knowledge.checks[check])

    assert said("mat.surface") == "Its years are known for the United States only."
    assert said("case.covering") == (
        "Known for the United States only: the years of 'leather, embossed all over'."
    )
    assert said("mount.corners") == said("case.material") == ""
    for check in knowledge.checks.values():
        only = [answer for answer in check.answers if set(answer.years) == {"us"}]
        assert bool(only) <= bool(known_for(check))


@pytest.mark.parametrize("text", ["18x8", "1830", "2024", "-1", "١٨٥٨", ""])
def test_what_is_no_year_of_photography(tmp_path, capsys, text):
    assert run(["--home", str(tmp_path), "year", "--", text]) == 1
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "is not a year from 1835 to 1960" in told
