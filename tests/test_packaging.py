"""What a stranger's machine needs to know of the package: licence, bounds, versions, habits."""

import re
import tomllib
from importlib.metadata import metadata
from pathlib import Path

import pytest
import yaml

from appraise import __version__
from appraise.cli.main import run

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def lower_bounds(requirements):
    """Name and lowest version of each requirement; those for one system alone are left out."""
    found = (re.match(r"([\w-]+)>=([\d.]+)", one) for one in requirements if ";" not in one)
    return {match[1]: match[2] for match in found if match}


def test_the_oldest_packages_are_those_that_are_allowed():
    lines = (ROOT / ".github/lower-bounds.txt").read_text(encoding="utf-8").splitlines()
    pinned = dict(line.split("==") for line in lines if not line.startswith("#"))
    bounds = lower_bounds(PROJECT["dependencies"])
    assert pinned.keys() == bounds.keys()
    for name, version in pinned.items():
        assert (version + ".0").startswith(bounds[name] + "."), name


def test_the_licence_is_named_by_its_identifier():
    # SPDX License List, identifier "MIT"; PEP 639 for where it stands.
    assert PROJECT["license"] == metadata("appraise")["License-Expression"] == "MIT"
    assert "MIT" in (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_version_has_one_place():
    assert "version" in PROJECT["dynamic"]
    assert re.fullmatch(r"\d+\.\d+\.\d+", __version__)


def test_the_versions_name_all_that_a_report_of_a_fault_needs(capsys):
    assert run(["--version"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == f"appraise {__version__}"
    assert re.search(r"Python \d+\.\d+\.\d+", lines[1])
    named = {line.split(" ")[0].lower() for line in lines[3:]}
    assert {name.lower() for name in lower_bounds(PROJECT["dependencies"])} <= named
    assert not any("not installed" in line for line in lines)


@pytest.mark.parametrize(
    "path",
    [*(ROOT / ".github").rglob("*.yml"), ROOT / ".pre-commit-config.yaml"],
    ids=lambda path: path.name,
)
def test_the_habits_are_well_formed(path):
    assert isinstance(yaml.safe_load(path.read_text(encoding="utf-8")), dict)


def test_every_python_of_the_classifiers_is_tested():
    said = [
        one.rsplit(" ", 1)[1] for one in PROJECT["classifiers"] if re.search(r":: 3\.\d+$", one)
    ]
    jobs = yaml.safe_load((ROOT / ".github/workflows/tests.yml").read_text(encoding="utf-8"))[
        "jobs"
    ]
    assert jobs["tests"]["strategy"]["matrix"]["python"] == said
    assert PROJECT["requires-python"] == f">={said[0]}"
