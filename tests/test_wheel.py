"""The wheel, installed and run away from the repository, with its knowledge and demo inside."""

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """A directory holding the unpacked wheel, built as an installer would build it."""
    place = tmp_path_factory.mktemp("wheel")
    code = f"from hatchling.build import build_wheel; print(build_wheel({str(place)!r}))"
    built = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True
    )
    wheel = place / built.stdout.split()[-1]
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(place / "site")
    return place / "site"


def run(site, home, *words):
    """A command of the installed package, from a directory that knows nothing of the repository."""
    env = {**os.environ, "PYTHONPATH": str(site), "APPRAISE_HOME": str(home)}
    return subprocess.run(
        [sys.executable, "-m", "appraise", *words],
        capture_output=True,
        text=True,
        cwd=home,
        env=env,
        check=False,
    )


def test_everything_ships(installed):
    assert (installed / "appraise" / "_data" / "weights.yaml").is_file()
    assert (installed / "appraise" / "_demo" / "prices.csv").is_file()
    shipped = {path.name for path in (installed / "appraise" / "_data").rglob("*.yaml")}
    assert shipped == {path.name for path in (ROOT / "data").rglob("*.yaml")}
    drawn = {path.name for path in (installed / "appraise" / "_data" / "figures").glob("*.svg")}
    assert drawn == {path.name for path in (ROOT / "data" / "figures").glob("*.svg")}


def test_it_runs_away_from_the_repository(installed, tmp_path):
    places = json.loads(run(installed, tmp_path, "paths", "--json").stdout)
    assert places["shipped_knowledge"] == str(installed / "appraise" / "_data")
    piece = Path(places["demo"]) / "pieces" / "married.yaml"
    told = run(installed, tmp_path, "verdict", str(piece), "--json", "--as-of", "2026-11-07")
    assert told.returncode == 0, told.stderr
    assert json.loads(told.stdout)["belonging"]["married"] > 0.5


def test_its_knowledge_is_sound(installed, tmp_path):
    assert run(installed, tmp_path, "knowledge", "check").returncode == 0
