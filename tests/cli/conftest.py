"""Every document that a command shows in these tests is held against the published schemas."""

import json
from functools import cache
from pathlib import Path

from jsonschema import Draft7Validator

from appraise.cli.context import Context

PUBLISHED = Path(__file__).parent.parent.parent / "data/schemas/outputs.json"
SHOW = Context.show


@cache
def validator():
    return Draft7Validator(json.loads(PUBLISHED.read_text(encoding="utf-8")))


def show(context, document, text):
    """As ever, after the check; a JSON of its own has been through JSON once."""
    if "schema" in document:
        told = json.loads(json.dumps(document))
        faults = [f"{list(e.absolute_path)}: {e.message}" for e in validator().iter_errors(told)]
        assert not faults, "\n".join(faults[:3])
    return SHOW(context, document, text)


Context.show = show
