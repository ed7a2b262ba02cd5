"""What else is wrong with a row that could not be used, so that all of it is told at once.

A reader stops at the first fault of a row. Here the fault is set right in a copy of the row, in
the plainest way there is, and the row is read again, until nothing is wrong or the fault is one
that cannot be set right so simply. Nothing but the faults found comes out of it.
"""

import re
from collections.abc import Callable

import yaml

from appraise.base.errors import InputError
from appraise.base.yamls import Row

MOST = 12  # faults told of one row
STOCK = """
ask: Which?
how: Look.
seconds: 5
risk: none
sort: form
basis: judgement
part: piece
kinds: cased
name: a name
steps: [none, slight, plain, grave]
stability: stable
reversible: slow
history: use
rates: {any: 1 0 0 0}
size: 10 x 20
tolerance: 1
text: a text
topic: storage
says: a text
why: a text
instead: a text
words: [a word]
title: a title
body: a body
side: piece
severity: note
question: Which?
weight: 1
synonyms: [a word]
flag: a flag
"""
SPARED = {
    *("source", "note", "ref", "group", "misleads", "innocent", "when", "only", "cautions"),
    *("decisive", "fit", "sizes", "safety", "structural", "recorded", "unacceptable", "graver"),
    *("non-archival", "do", "never", "materials", "channels", "unless", "brief", "also"),
    *("belonging", "package", "process", "housing", "copy", "altered", "formerly", "figure"),
}
"""Fields that a row can do without, whatever else it says."""

MISSING = re.compile(r"'([\w-]+)' is missing$")
UNKNOWN = re.compile(r"'(.+)' is not a known key$")


def further(error: InputError, row: Row, read: Callable[[Row], None]) -> list[InputError]:
    """The faults of a row beyond its first.

    Args:
        error: The first fault.
        row: The row, of which a copy is set right.
        read: Reads the row, and raises `InputError` at a fault.
    """
    node = row.twin()
    found = [error]
    while len(found) < MOST and _mended(node, found[-1], row.path):
        try:
            read(Row(node, row.file, row.path, row.line))
            break
        except InputError as other:
            if any((one.where, one.what) == (other.where, other.what) for one in found):
                break
            found.append(other)
    return found[1:]


def _pairs(node: yaml.MappingNode) -> list[tuple[str, yaml.Node]]:
    return [(str(key.value), value) for key, value in node.value]


def _leads(key: str, dotted: str) -> bool:
    return dotted == key or dotted.startswith(f"{key}.")


def _mended(node: yaml.MappingNode, error: InputError, base: str) -> bool:
    """Whether the fault could be set right, which is done in place."""
    dotted = error.where.partition(" ")[2].removeprefix(base).lstrip(".")
    missing, unknown = MISSING.match(error.what), UNKNOWN.match(error.what)
    if not dotted:
        wanted = missing[1] if missing else "basis" if "'basis'" in error.what else ""
        return _put(node, wanted)
    first = next((key for key, _ in _pairs(node) if _leads(key, dotted)), "")
    if unknown and dotted == first:
        return _drop(node, first)
    if first == "answers":
        return _plain_answer(node, dotted[len(first) + 1 :])
    if _put(node, first):
        return True
    if first == "source":
        _put(node, "basis")
    return first in SPARED and _drop(node, first)


def _put(node: yaml.MappingNode, key: str) -> bool:
    """Give a field its stock value; False where there is none."""
    stock = next((pair for pair in _stock().value if pair[0].value == key), None)
    if stock is None:
        return False
    _drop(node, key)
    node.value.append(stock)
    return True


def _drop(node: yaml.MappingNode, key: str) -> bool:
    kept = [pair for pair in node.value if pair[0].value != key]
    dropped = len(kept) < len(node.value)
    node.value[:] = kept
    return dropped


def _plain_answer(node: yaml.MappingNode, dotted: str) -> bool:
    """Make one answer a plain text; False where the fault is of all answers."""
    answers = next(value for key, value in node.value if key.value == "answers")
    if not isinstance(answers, yaml.MappingNode):
        return False
    for place, (key, _) in enumerate(answers.value):
        if dotted and _leads(str(key.value), dotted):
            answers.value[place] = (key, _stock().value[0][1])
            return True
    return False


def _stock() -> yaml.MappingNode:
    node = yaml.compose(STOCK, Loader=yaml.BaseLoader)
    assert isinstance(node, yaml.MappingNode)
    return node
