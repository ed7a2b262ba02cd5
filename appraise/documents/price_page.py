"""A log entry as a page: its fields, what was estimated when it was logged, what came of it."""

from collections.abc import Iterator
from itertools import chain

from appraise.base.percents import percent
from appraise.documents.document import Document, Facts, Paragraph, section
from appraise.knowledge.statewords import STATES
from appraise.pricing.outcomes import outcome_of
from appraise.records.entry import Entry
from appraise.store.changes import words

APART = ("belonging", "estimate", "piece", "extra")
"""Fields that are told apart, or not on the page."""
SHOWN = 0.005  # states less likely than that are not listed


def entry_page(entry: Entry, check: str = "") -> Document:
    """An entry field by field, what was estimated when it was logged, and what came of it.

    `check`: why its price should be checked; empty where it fits.
    """
    fields = ((one.title, words(entry, one)) for one in entry.FIELDS if one.name not in APART)
    parts = (
        section("check", "", Paragraph(check, "doubt")),
        section("entry", "", Facts.of(fields)),
        section("estimate", "Estimate when it was logged", Facts.of(_estimate(entry))),
        section("outcome", "Outcome", Paragraph(_outcome(entry))),
    )
    title = entry.title or entry.motif or "(untitled entry)"
    return Document(title, tuple(chain(*parts)), entry.id)


def _estimate(entry: Entry) -> Iterator[tuple[str, str]]:
    if entry.estimate:
        low, high = entry.estimate.low.plain, entry.estimate.high.plain
        yield "price", f"about {entry.estimate.median} ({low}-{high})"
    for state, chance in entry.belonging:
        if chance >= SHOWN:
            yield STATES.get(state, state), percent(chance)


def _outcome(entry: Entry) -> str:
    """What became of the piece; '' where nothing was told."""
    known = outcome_of(entry)
    if known is None:
        return ""
    by = f" by {known.by}" if known.by else ""
    found = f"found {known.found} ({known.sure}){by}" if known.found else ""
    price = f"fetched {known.price}" if known.price else ""
    return ", ".join(one for one in (found, price, f"recorded {known.on.isoformat()}") if one)
