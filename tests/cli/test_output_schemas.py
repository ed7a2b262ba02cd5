"""The published shapes of what `--json` prints: each command has one, records follow their types.

Validator: jsonschema of the Python package registry, JSON Schema draft 7.
"""

import json
import re
from pathlib import Path

import pytest
from cli.shapes import MAPS, RECORDS, learnt, outputs_of, published, wider
from jsonschema import Draft7Validator

from appraise.base.places import Home
from appraise.cli.demo import furnish
from appraise.cli.main import run
from appraise.exchange.record_schemas import record_schemas

ROOT = Path(__file__).parent.parent.parent
FILE = published()
OUTPUTS = outputs_of(FILE)
COMMANDS = [
    "verdict demo/pieces/sound.yaml --why", "verdict demo/pieces/two-images.yaml",
    "verdict demo/pieces/spare-case.yaml", "look sixth ambro thermoplastic vine 45",
    "listing demo/listings/knitting.txt", "bid demo/pieces/sound.yaml",
    "bid demo/lots/three-pieces.yaml", "record demo/pieces/sound.yaml",
    "report demo/pieces/sound.yaml", "checks", "card", "year 1858", "care albumen",
    "never dust the plate", "log list", "log check", "log backup", "log conflicts", "log currency",
    "kept list", "kept show 1", "kept care 3", "kept schedule", "stock list", "work list",
    "want list", "lots list", "budget", "track", "paths", "venues list", "rates",
    "knowledge check", "knowledge figure", "knowledge figure mat-octagon", "knowledge fields",
    "knowledge fields mat.shape", "stock fits demo/pieces/sound.yaml",
]  # fmt: skip


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    home = tmp_path_factory.mktemp("shapes") / "home"
    furnish(Home(home))
    return home


@pytest.mark.parametrize("line", COMMANDS)
def test_what_is_printed_has_its_published_shape(line, place, monkeypatch, capsys):
    monkeypatch.chdir(ROOT)
    assert run(["--home", str(place), *line.split(), "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    faults = [error.message for error in Draft7Validator(FILE).iter_errors(document)]
    assert faults == []
    assert document["schema"].removeprefix("appraise.").partition("/")[0] in OUTPUTS


def test_it_is_a_sound_schema():
    Draft7Validator.check_schema(FILE)


def test_records_are_as_their_types_are():
    assert {name: FILE["definitions"][name] for name in record_schemas()} == record_schemas()


def test_every_document_of_the_program_is_published():
    said = set()
    for path in (ROOT / "appraise").rglob("*.py"):
        said |= set(re.findall(r'"appraise\.([a-z-]+)/1"', path.read_text(encoding="utf-8")))
    assert said <= OUTPUTS.keys()


@pytest.mark.parametrize(
    "spoilt",
    [
        {"schema": "appraise.verdict/1"},
        {"schema": "appraise.paths/1", "home": 3},
        {"schema": "appraise.never/1", "asked": "x", "never": [], "more": 1},
        {"no": "schema"},
    ],
)
def test_what_is_not_of_that_shape_is_refused(spoilt):
    assert list(Draft7Validator(FILE).iter_errors(spoilt))


def test_a_schema_that_is_learnt_allows_what_it_was_learnt_of_and_only_gets_wider():
    first = {"a": 1, "b": [{"c": None}], "d": "x"}
    second = {"a": 1.5, "b": [{"c": "y"}], "e": True}
    made = wider(learnt(first, "some"), learnt(second, "some"))
    check = Draft7Validator(made)
    assert not list(check.iter_errors(first)) + list(check.iter_errors(second))
    assert list(check.iter_errors({"a": "one", "b": []}))
    assert list(check.iter_errors({**first, "f": 1}))
    assert MAPS.isdisjoint(RECORDS)
