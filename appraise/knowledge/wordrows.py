"""Rows of the topics `terms` and `phrases`."""

from appraise.base.yamls import Row
from appraise.knowledge.basis import read_basis
from appraise.knowledge.wordings import FIELDS, SEVERITIES, Phrase, Term


def read_term(row: Row, key: str, sources: frozenset[str]) -> Term:
    """A row of `terms:`."""
    also = row.row("also") if "also" in row else None
    term = Term(
        id=key,
        field=row.choice("field", FIELDS),
        value=row.text("value", ""),
        synonyms=row.texts("synonyms"),
        kind=row.text("kind", ""),
        also={name: also.text(name) for name in also} if also else {},
        exact=row.flag("exact"),
        basis=read_basis(row, sources),
    )
    row.done()
    return term


def read_phrase(row: Row, key: str, sources: frozenset[str]) -> Phrase:
    """A row of `phrases:`."""
    phrase = Phrase(
        id=key,
        flag=row.text("flag"),
        severity=row.choice("severity", SEVERITIES),
        says=row.text("says"),
        why=row.text("why"),
        question=row.text("question", ""),
        synonyms=row.texts("synonyms"),
        unless=row.texts("unless", ()),
        denied=row.flag("denied"),
        basis=read_basis(row, sources),
    )
    row.done()
    return phrase
