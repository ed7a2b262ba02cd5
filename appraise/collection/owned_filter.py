"""The filter of kept pieces: their fields, and whether care asks for something."""

import datetime as dt
from collections.abc import Sequence

from appraise.collection.upkeep import due
from appraise.knowledge.records import Knowledge
from appraise.records.fields import typed_fields
from appraise.records.filter import FilterTerm, fits, terms
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored
from appraise.records.values import FLAG

DUE = "due"


def filtered(
    pieces: Sequence[Stored[OwnedPiece]], query: str, knowledge: Knowledge | None, as_of: dt.date
) -> tuple[Stored[OwnedPiece], ...]:
    """The pieces that every term of a query fits.

    `dated=1858` or `dated=1850-1860` asks whether a piece may be of such a year; `due=yes` whether
    care asks for something now.

    `knowledge`: for `due`; None while it is being read: nothing is due.

    Raises:
        InputError: for an unknown field, or a year or answer that cannot be read.
    """
    asked = terms(query, (*typed_fields(OwnedPiece), DUE))

    def found(one: Stored[OwnedPiece], term: FilterTerm) -> bool:
        if term.field == DUE:
            now = [each.now for each in due(one.thing, knowledge, as_of)] if knowledge else []
            return FLAG.fits(any(now), term.value) != term.negated
        named = not term.field and len(term.value) > 3 and one.id.startswith(term.value)
        return fits(one.thing, term) or (named and not term.negated)

    return tuple(one for one in pieces if all(found(one, term) for term in asked))
