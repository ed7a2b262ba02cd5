"""What one owns as a list, and the page of a piece."""

from __future__ import annotations

from collections.abc import Sequence

from appraise.app.kept import actions
from appraise.app.kept.album import owned_album
from appraise.app.lines import EMPTY, Line, line
from appraise.app.lists.spec import ListView, RecordSpec
from appraise.app.marks import WARN
from appraise.app.page import document_rows
from appraise.app.photos import Album
from appraise.app.session import READING, Session
from appraise.app.widgets.columns import Column
from appraise.app.widgets.reading import Write
from appraise.base.dates import year_range
from appraise.collection.owned_filter import filtered
from appraise.collection.upkeep import Due, due
from appraise.documents.owned_page import PageInput, owned_document
from appraise.documents.timeline import between
from appraise.pricing.cost_basis import all_in_price
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored
from appraise.store.owned_pieces import every, number_key
from appraise.store.piece_record import entry_behind

SOON = 90  # days within which something that is due is shown in the table
DUE_WORDS = {"look": "look", "loan": "back", "return": "return", "origin": "origin"}


def years(dated: str) -> str:
    """The years of a date in few cells: '1855-62'."""
    if not dated:
        return ""
    first, last = year_range(dated, 0)
    if first == last:
        return str(first)
    if first and last:
        return between(first, last)
    return f"{first or ''}-{last or ''}"


def due_word(dues: Sequence[Due]) -> str:
    """What presses most, in few cells; empty where nothing is due soon."""
    if not dues or dues[0].left > SOON:
        return ""
    first = dues[0]
    word = DUE_WORDS[first.sort]
    if first.on is None:
        return f"{word} now"
    return f"{word} now" if first.left <= 0 else f"{word} in {first.left} d"


LATE = 10**6  # days: nothing is due
SHORT = {"on-show": "exhibited", "with-conservator": "conserv.", "for-sale": "for sale"}


def _dues(session: Session) -> dict[str, tuple[Due, ...]]:
    """What is due of each piece, by its id; nothing before the knowledge has been read."""
    known = session.knowledge
    pieces = every(session.log) if known else ()
    return {one.id: due(one.thing, known, session.as_of) for one in pieces if known}


def _of(view: ListView, one: Stored[OwnedPiece]) -> tuple[Due, ...]:
    found: tuple[Due, ...] = (view.more or {}).get(one.id, ())
    return found


def _mark(view: ListView, one: Stored[OwnedPiece]) -> tuple[str, str]:
    dues = _of(view, one)
    return (WARN if dues and dues[0].now else "", "" if one.thing.owned else "quiet")


def _matches(
    view: ListView, records: Sequence[Stored[OwnedPiece]], query: str
) -> Sequence[Stored[OwnedPiece]]:
    return filtered(records, query, view.session.knowledge, view.session.as_of)


def _facts(session: Session, one: Stored[OwnedPiece]) -> Write:
    """Everything that its owner, an heir or an insurer would ask."""
    if session.knowledge is None:
        return lambda width: [EMPTY, line((READING, "quiet"))]
    entry = entry_behind(session.log, one.thing)
    session.read_book()
    cost = all_in_price(entry, session.settings.currency, session.book) if entry else None
    told = PageInput(one.id, one.thing, entry, cost, session.knowledge, session.as_of)
    document, marks = owned_document(told), session.marks
    return lambda width: document_rows(document, width, marks)


def _album(session: Session, one: Stored[OwnedPiece]) -> Album | None:
    """The photos of its purchase beside its own."""
    entry = entry_behind(session.log, one.thing)
    return owned_album(session, one, entry) if session.knowledge else None


def _totals(view: ListView) -> Line:
    """How many there are, and how many want something."""
    gone = sum(1 for one in view.shown if not one.thing.owned)
    now = sum(1 for one in view.shown if any(each.now for each in _of(view, one)))
    told = view.counted(*SPEC.nouns) + (f", {gone} no longer owned" if gone else "")
    return line(f" {told}", (f"   {now} with something due" if now else "", "doubt"))


SPEC: RecordSpec[OwnedPiece] = RecordSpec(
    name="kept",
    title="Kept",
    area="kept",
    page_area="owned",
    nouns=("piece", "pieces"),
    columns=(
        Column("number", "no.", 5, 36, whole=True),
        Column("title", "title"),
        Column("place", "place", 14, 72),
        Column("status", "status", 9, 44),
        Column("made", "made", 9, 56, whole=True),
        Column("due", "due", 12, 28, whole=True),
    ),
    acts=actions.KEPT,
    empty="Nothing here yet. n adds a purchase from the log, N any other piece.",
    hint="/ filters: girl vine place=box status=lent dated=1858 due=yes",
    cells={
        "made": lambda view, one: years(one.thing.dated),
        "due": lambda view, one: due_word(_of(view, one)),
        "status": lambda view, one: SHORT.get(one.thing.status, one.thing.status),
    },
    facts=_facts,
    totals=_totals,
    orders=("number", "due", "place"),
    rank={
        "number": lambda view, one: (not one.thing.owned, number_key(one.thing.number)),
        "due": lambda view, one: _of(view, one)[0].left if _of(view, one) else LATE,
    },
    mark=_mark,
    load=_dues,
    matches=_matches,
    album=_album,
)
