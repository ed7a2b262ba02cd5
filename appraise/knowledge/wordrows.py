"""Rows of the topics `terms`, `phrases`, `gaps` and `sheets`."""

from appraise.base.yamls import Row
from appraise.knowledge.basics import CHANNELS, KINDS, REGIONS
from appraise.knowledge.basis import read_basis
from appraise.knowledge.citing import Keys
from appraise.knowledge.wordings import (
    ANSWERS,
    FIELDS,
    SEVERITIES,
    SHEET_PLACES,
    Gap,
    Phrase,
    SheetRow,
    Term,
)

_CLOSED = {"kind": KINDS, "ware": KINDS, "channel": CHANNELS, "region": REGIONS}
_TWO = 2


def read_term(row: Row, key: str, sources: Keys) -> Term:
    """A row of `terms:`."""
    also = row.row("also") if "also" in row else None
    term = Term(
        id=key,
        field=row.choice("field", FIELDS),
        value=row.text("value", ""),
        synonyms=row.texts("synonyms", () if "brief" in row else None),
        brief=row.texts("brief", ()),
        kind=row.text("kind", ""),
        also={name: also.text(name) for name in also} if also else {},
        only=row.words("only", ()),
        tight=row.flag("tight"),
        denied=row.text("denied", ""),
        admits=row.flag("admits"),
        basis=read_basis(row, sources),
    )
    if term.field in _CLOSED:
        row.choice("value", _CLOSED[term.field])
    for name, value in (("value", term.value), ("denied", term.denied or "- -")):
        if term.field in ANSWERS and len(value.split()) != _TWO:
            raise row.error(name, f"'{value}' is not a check and its answer")
    if term.field == "count" and not term.value.isdecimal():
        raise row.error("value", f"'{term.value}' is not a number")
    if term.kind not in ("", *KINDS):
        raise row.error(
            "kind", f"'{term.kind}' is not a kind of piece", f"Known: {', '.join(KINDS)}."
        )
    for pattern in term.synonyms:
        pair = pattern.split()
        whole = len(pair) == _TWO and all(word[0] == "<" and word[-1] == ">" for word in pair)
        if pattern.startswith("<") and not whole:
            raise row.error("synonyms", f"'{pattern}' is not <part> <state>")
    row.done()
    return term


def read_phrase(row: Row, key: str, sources: Keys) -> Phrase:
    """A row of `phrases:`."""
    phrase = Phrase(
        id=key,
        flag=row.text("flag"),
        severity=row.choice("severity", SEVERITIES),
        says=row.text("says"),
        why=row.text("why"),
        question=row.text("question", ""),
        synonyms=row.texts("synonyms", ()),
        unless=row.texts("unless", ()),
        said=row.texts("said", ()),
        holds=row.text("holds", ""),
        basis=read_basis(row, sources),
    )
    row.done()
    return phrase


def read_gap(row: Row, key: str, sources: Keys) -> Gap:
    """A row of `gaps:`."""
    gap = Gap(
        id=key,
        says=row.text("says"),
        question=row.text("question"),
        weight=row.number("weight", low=0, high=1),
        kinds=row.words("kinds", KINDS),
        only=row.words("only", ()),
        told=row.words("told", ()),
        basis=read_basis(row, sources),
    )
    row.done()
    return gap


def read_sheet(row: Row, key: str, sources: Keys) -> SheetRow:
    """A row of `sheets:`."""
    words = SheetRow(
        id=key,
        of=row.choice("of", SHEET_PLACES),
        words=row.texts("words"),
        value=row.text("value", ""),
        field=row.text("field", ""),
        basis=read_basis(row, sources),
    )
    row.done()
    return words
