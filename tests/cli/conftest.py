"""Every document that a command shows in these tests is held against the published schemas.

With DOCUMENTS=FILE in the environment they are written to that file, a line each, and not checked:
`tests/cli/shapes.py` learns from it what is new.
"""

import json
import os
from functools import cache
from pathlib import Path

import pytest
from jsonschema import Draft7Validator

from appraise.cli.context import Context

PUBLISHED = Path(__file__).parent.parent.parent / "data/schemas/outputs.json"
SHOW = Context.show


@cache
def validator():
    return Draft7Validator(json.loads(PUBLISHED.read_text(encoding="utf-8")))


class NotPublishedError(BaseException):
    """A document without a published shape; no command takes it for a fault of its own."""


def show(context, document, text):
    """As ever, after the check."""
    if "DOCUMENTS" in os.environ:
        with open(os.environ["DOCUMENTS"], "a", encoding="utf-8") as file:
            file.write(json.dumps(document, ensure_ascii=False) + "\n")
    elif "schema" in document:
        told = json.loads(json.dumps(document))
        faults = [f"{list(e.absolute_path)}: {e.message}" for e in validator().iter_errors(told)]
        if faults:
            raise NotPublishedError("\n".join([document["schema"], *faults[:3], "see shapes.py"]))
    return SHOW(context, document, text)


@pytest.fixture(autouse=True)
def held_against_the_schemas(monkeypatch):
    """In the tests of this folder alone."""
    monkeypatch.setattr(Context, "show", show)
