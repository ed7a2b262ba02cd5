"""The shape of all that `--json` prints: learnt from documents, records by their types.

    DOCUMENTS=/tmp/told.jsonl python -m pytest tests/cli tests/test_readme.py
    PYTHONPATH=.:tests python tests/cli/shapes.py /tmp/told.jsonl

What is published can only get wider, so that a key once printed stays allowed; a key that is meant
to go is taken out of the file by hand. Records come from `exchange/record_schemas` alone.
"""

import json
import sys
from pathlib import Path

from appraise.exchange.record_schemas import record_schemas

PUBLISHED = Path(__file__).parent.parent.parent / "data/schemas/outputs.json"
DRAFT = "http://json-schema.org/draft-07/schema#"
MAPS = {
    "verdict.belonging", "verdict.format.probabilities", "verdict.process.families",
    "verdict.process.probabilities", "verdict.pictures[].process.families", "verdict.progress",
    "verdict.pictures[].process.probabilities", "verdict.pictures[].belonging", "log.check",
    "import.columns", "import.samples", "import.currencies", "listing.piece.findings",
    "listing.lot.pieces[].findings", "venues.without_terms", "figures.figures", "topics.topics",
    "fields.keys", "knowledge.counts", "knowledge.by_basis", "knowledge.checks_by_basis",
    "rates.rates", "kept-care.measured", "listing.piece.measured", "entry.check", "card.parts",
    "import.words", "import.left_out", "track.by",
}  # fmt: skip
"""Where the keys are words of the trade or of a file and not names of ours."""
RECORDS = {
    "entry.entry": "price", "log.entries[]": "price", "kept.kept": "kept", "stock.stock": "stock",
    "want.want": "want", "work.work": "work", "lot.entries[]": "price", "parts.parts[]": "stock",
    "wants.wants[]": "want", "works.works[]": "work", "history.versions[].record": "price",
}  # fmt: skip
"""Where a record stands as a whole, and its type in the log."""


def name_of(document):
    """The short name of a document: 'verdict' of 'appraise.verdict/1'."""
    return document["schema"].removeprefix("appraise.").partition("/")[0]


def learnt(value, path):
    """The schema of one value."""
    if path in RECORDS:
        return {"$ref": f"#/definitions/{RECORDS[path]}"}
    if isinstance(value, dict) and value.keys() == {"amount", "currency"}:
        return {"$ref": "#/definitions/money"}
    if isinstance(value, dict) and path in MAPS:
        made = {"type": "object"}
        for one in value.values():
            made["additionalProperties"] = wider(
                made.get("additionalProperties"), learnt(one, f"{path}.*")
            )
        return made
    if isinstance(value, dict):
        properties = {key: learnt(one, f"{path}.{key}") for key, one in value.items()}
        return {
            "type": "object", "properties": properties, "required": sorted(value),
            "additionalProperties": False,
        }  # fmt: skip
    if isinstance(value, list):
        items = None
        for one in value:
            items = wider(items, learnt(one, f"{path}[]"))
        return {"type": "array", **({"items": items} if items else {})}
    if isinstance(value, bool):
        return {"type": "boolean"}
    if isinstance(value, int):
        return {"type": "integer"}
    if isinstance(value, float):
        return {"type": "number"}
    return {"type": "string"} if isinstance(value, str) else {"type": "null"}


def wider(one, two):
    """The schema that allows what either allows."""
    if not one or one == two:
        return two
    choices = {**by_type(one)}
    for sort, schema in by_type(two).items():
        choices[sort] = joined(choices[sort], schema) if sort in choices else schema
    if "number" in choices:
        choices.pop("integer", None)
    simple = [sort for sort, schema in choices.items() if schema == {"type": sort}]
    rest = [choices[sort] for sort in choices if sort not in simple]
    if simple:
        rest.append({"type": simple[0] if len(simple) == 1 else sorted(simple)})
    return rest[0] if len(rest) == 1 else {"anyOf": rest}


def by_type(schema):
    """The alternatives of a schema, one for each type of value."""
    if "anyOf" in schema:
        return {key: value for one in schema["anyOf"] for key, value in by_type(one).items()}
    if "$ref" in schema:
        return {schema["$ref"]: schema}
    sorts = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    return {sort: {**schema, "type": sort} for sort in sorts}


def joined(one, two):
    """The same for two schemas of one type."""
    if one == two:
        return one
    if one["type"] == "array":
        items = wider(one.get("items"), two["items"]) if "items" in two else one.get("items")
        return {"type": "array", **({"items": items} if items else {})}
    if one["type"] == "object" and "properties" in one and "properties" in two:
        first, second = one["properties"], two["properties"]
        properties = {
            key: wider(first.get(key), second[key]) if key in second else first[key]
            for key in {**first, **second}
        }
        needed = sorted({*one["required"]} & {*two["required"]})
        return {**one, "properties": properties, "required": needed}
    if one["type"] == "object":
        told = [
            each["additionalProperties"] for each in (one, two) if "additionalProperties" in each
        ]
        values = wider(*told) if len(told) == 2 else (told or [None])[0]
        return {"type": "object", **({"additionalProperties": values} if values else {})}
    return one


def published():
    """What is published today; nothing where there is none."""
    return json.loads(PUBLISHED.read_text(encoding="utf-8")) if PUBLISHED.exists() else {}


def widened(known, documents):
    """By name, the schemas after further documents."""
    found = dict(known)
    for document in documents:
        name = name_of(document)
        made = learnt(document, name)
        made["properties"]["schema"] = {"const": document["schema"]}
        found[name] = wider(found.get(name), made)
    return found


def whole(outputs):
    """The file: every output by its `schema`, and the records that they hold."""
    definitions = {**record_schemas(), **{f"{name} output": outputs[name] for name in outputs}}
    return {
        "$schema": DRAFT,
        "title": "What appraise prints with --json",
        "type": "object",
        "required": ["schema"],
        "allOf": [
            {
                "if": {"properties": {"schema": outputs[name]["properties"]["schema"]}},
                "then": {"$ref": f"#/definitions/{name} output"},
            }
            for name in sorted(outputs)
        ],
        "definitions": dict(sorted(definitions.items())),
    }


def outputs_of(file):
    """The outputs of a published file, by name."""
    return {
        name.removesuffix(" output"): schema
        for name, schema in file.get("definitions", {}).items()
        if name.endswith(" output")
    }


def main():
    lines = Path(sys.argv[1]).read_text(encoding="utf-8").split("\n") if sys.argv[1:] else []
    told = [document for document in map(json.loads, filter(None, lines)) if "schema" in document]
    file = whole(widened(outputs_of(published()), told))
    text = json.dumps(file, ensure_ascii=False, indent=1)
    PUBLISHED.write_text(f"{text}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
