"""The published schemas: sound by a reference validator, up to date, and true of what we write.

Validator: jsonschema of the Python package registry, JSON Schema draft 7 (IETF draft
handrews-json-schema-01), which YAML editors read.
"""

import datetime as dt
import json
from pathlib import Path

import pytest
import shipped
import yaml
from every import every
from jsonschema import Draft7Validator

from appraise.base.settings import Settings
from appraise.cli.main import run
from appraise.exchange.schemas import piece_schema, schema, settings_schema
from appraise.records.piece_file import parse_piece, write_piece

ROOT = Path(__file__).parent.parent.parent
FILES = ("piece", "lot", "settings")
PIECES = [
    *(ROOT / "demo/pieces").glob("*.yaml"),
    *(ROOT / "tests/external/pieces").glob("*-*.yaml"),
]
LOTS = [*(ROOT / "demo/lots").glob("*.yaml")]


def plain(value):
    """What an editor sees: YAML 1.2 knows no dates."""
    if isinstance(value, dict):
        return {str(key): plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    return str(value) if isinstance(value, dt.date) else value


def read_both_ways(text):
    """As text alone, and with flags and numbers as YAML 1.1 takes them."""
    return yaml.load(text, Loader=yaml.BaseLoader), plain(yaml.safe_load(text))


def faults(name, text):
    validator = Draft7Validator(schema(name, shipped.load()))
    return [
        f"{list(error.path)}: {error.message[:120]}"
        for document in read_both_ways(text)
        for error in validator.iter_errors(document)
    ]


@pytest.mark.parametrize("name", FILES)
def test_each_is_a_sound_schema(name):
    Draft7Validator.check_schema(schema(name, shipped.load()))


@pytest.mark.parametrize("name", FILES)
def test_what_is_published_is_up_to_date(name, capsys):
    assert run(["--home", "/nowhere/at/all", "knowledge", "schema", name]) == 0
    published = ROOT / "data/schemas" / f"{name}.json"
    command = f"appraise knowledge schema {name} > data/schemas/{name}.json"
    assert capsys.readouterr().out == published.read_text(encoding="utf-8"), f"run: {command}"


@every("path", PIECES, ids=lambda path: path.stem)
def test_piece_files_that_are_read_are_valid_and_so_is_what_is_written_of_them(path):
    text = path.read_text(encoding="utf-8")
    piece = parse_piece(text, path.name, shipped.load())
    assert faults("piece", text) == faults("piece", write_piece(piece)) == []


@pytest.mark.parametrize("path", LOTS, ids=lambda path: path.stem)
def test_lot_files_are_valid(path):
    assert faults("lot", path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "text",
    [
        "piece: 2",
        "kind: casket",
        "findings: {mat.shap: oval}",
        "findings: {mat.shape: ovale}",
        "findings: {mat.shape: {answer: oval, known: heard}}",
        "subject: [single, spouse]",
        "colour: red",
        "appeal: 9",
    ],
)
def test_a_slip_is_marked(text):
    validator = Draft7Validator(piece_schema(shipped.load()))
    assert list(validator.iter_errors(plain(yaml.safe_load(text))))


def test_every_setting_is_known():
    assert set(settings_schema()["properties"]) == set(Settings.__dataclass_fields__)


def test_the_users_own_checks_are_in_it(tmp_path, capsys):
    own = tmp_path / "knowledge"
    own.mkdir(parents=True)
    (own / "mine.yaml").write_text(
        "answers:\n  mat.shape:\n    keyhole: {says: a keyhole, share: .1, basis: practice, "
        "years: {us: 1846 1850 1856 1862 low}}\n",
        encoding="utf-8",
    )
    assert run(["--home", str(tmp_path), "knowledge", "schema", "piece"]) == 0
    told = json.loads(capsys.readouterr().out)
    shapes = told["definitions"]["findings"]["properties"]["mat.shape"]["anyOf"][0]["enum"]
    assert "keyhole" in shapes
