"""What is done to lots from a screen: follow, edit, bid, won, lost, passed, removed; the budget."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from appraise.app import record_actions
from appraise.app.currency import with_currency
from appraise.app.form import Doubts, Texts, fields_of
from appraise.app.lists.spec import Act
from appraise.app.lots.lotlines import JUDGING
from appraise.app.picker import Choice, choose
from appraise.app.session import Session
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.commands import lots, records
from appraise.commands.kinds import KINDS
from appraise.documents.lots import Now
from appraise.records.budget import PERIODS, Budget
from appraise.records.fields import Field
from appraise.records.lot import Lot
from appraise.records.lot_file import item_of, met_in, with_pieces
from appraise.records.piece import Piece
from appraise.records.quantities import DAY, AmountKind, CountKind
from appraise.records.stored import Stored
from appraise.records.values import WordKind
from appraise.store.venue_book import keep_budget, read_budget

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.app.lots.page import LotPage
    from appraise.app.session import Session
    from appraise.app.sheet import Sheet

BUDGET = (
    Field("amount", "empty: no budget", AmountKind(above=True)),
    Field("per", "calendar periods", WordKind(PERIODS, needed=True)),
)
TOTAL = Field(
    "total",
    "by the venue's terms (change it if the invoice differs)",
    AmountKind(above=True),
    label="paid in total",
)
SHARES = {
    "won": "write 'equal' or shares such as 3 2 1 (default: by their worths)",
    "lost": "write shares, e.g. 3 2 1, to log the pieces anyway; empty logs none",
}
Then = Callable[[], object]
KIND = KINDS["lot"]
MINUTE = 60.0  # seconds between two looks at the clock


def now_in(session: Session) -> Now:
    """From when and where one looks: this machine's zone."""
    return Now(session.moment(), None, session.as_of)


def follow(sheet: Sheet[Any], lot: Lot | None = None, then: Then = lambda: None) -> None:
    """A form for another lot, filled in as far as is known."""
    session = sheet.session

    def ask() -> None:
        begun = lot or Lot("new lot", session.as_of, session.settings.currency)
        shown = {} if lot else {"title": ""}
        record_actions.add(
            sheet, begun, "Mark a lot", lambda _: then(), shown=shown, choices=_venues(session)
        )

    with_currency(sheet, ask)


def new(sheet: RecordSheet, here: None) -> None:
    """Mark another lot."""
    follow(sheet, then=sheet.read)


def edit(sheet: RecordSheet, held: Stored[Lot]) -> None:
    """A form with the lot's fields."""
    record_actions.edit(sheet, held, choices=_venues(sheet.session))


def _venues(session: Session) -> dict[str, tuple[str, ...]]:
    """The venues that the user has terms of, offered for a lot's."""
    session.read_book()
    return {"venue": tuple(one.name for one in session.book.venues)}


def piece(sheet: RecordSheet, held: Stored[Lot]) -> None:
    """Choose what is to become of a piece."""
    items = held.thing.items
    if not items:
        sheet.say("No pieces recorded. a adds one.")
        return
    choices = [
        Choice(str(place), one.title, " ", one.plan) for place, one in enumerate(items, start=1)
    ]
    choose(sheet, "Which piece?", choices, lambda number: edit_piece(sheet, held, int(number)))


def edit_piece(sheet: RecordSheet, held: Stored[Lot], number: int) -> None:
    """A form with what is to become of a piece, and its worth."""
    session, lot = sheet.session, held.thing
    item = lot.items[number - 1]

    def take(texts: Texts) -> None:
        told = {f"piece.{number}.{name}": text for name, text in texts.items()}
        try:
            records.edit(session, KIND, held, told)
        except InputError as error:
            raise InputError(error.what, error.where.rpartition(".")[2], error.mend) from None

    title, fields = f"Piece {number}: {item.title}", fields_of(item, session.author())
    record_actions.ask(sheet, title, fields, take)


def add_piece(sheet: RecordSheet, held: Stored[Lot]) -> None:
    """Take in one line what is seen of a further piece, and put it into the lot."""
    from appraise.app.firstlook import FirstLook  # 15 ms

    def done(piece: Piece) -> None:
        def into(lot: Lot) -> Lot:
            return with_pieces(lot, [met_in(piece, lot)])

        if sheet.attempt(lambda: records.edit(sheet.session, KIND, held, {}, then=into)):
            sheet.changed()

    sheet.open(FirstLook(), done)


def bid(sheet: LotPage, held: Stored[Lot]) -> None:
    """Ask what was bid, once more where it is above the maximum; tell what it costs."""
    from appraise.collection.lotworth import above

    session, lot, doubts = sheet.session, held.thing, Doubts()
    advice = sheet.maximum.advice if sheet.maximum else None
    fields = (
        Field("bid", f"in {lot.currency}; empty: none", _amount(lot.currency), label="my bid"),
        Field("chance", "your estimate of the chance that it wins, in %", CountKind(percent=True)),
    )

    def take(told: Mapping[str, Any]) -> Sequence[str]:
        money = told["bid"]
        if money and advice is not None and money.currency == lot.currency:
            doubts.once(above(advice, money), str(money), "bid")
        return lots.bid(session, held, money, told["chance"], anew=True).notes

    def done(notes: Sequence[str]) -> None:
        sheet.read()
        if notes:
            sheet.say(f"Recorded; {notes[0]}", "warn")

    chance = "" if lot.chance is None else str(lot.chance)
    shown = {"bid": lot.bid.plain if lot.bid else "", "chance": chance}
    record_actions.ask_values(sheet, f"Bid: {lot.title}", fields, take, done, shown=shown)


def _amount(currency: str) -> AmountKind:
    return AmountKind(above=True, currency=currency)


def passed(sheet: RecordSheet, held: Stored[Lot]) -> None:
    """Let a lot go; undo brings it back."""
    if sheet.attempt(lambda: lots.passed(sheet.session, held, sheet.session.as_of)):
        sheet.changed()
        sheet.say("Recorded as not bid on. u: undo.", "good")


def budget(sheet: RecordSheet, here: object) -> None:
    """Ask what may be spent in a month or year; empty is no budget."""
    session = sheet.session
    now = sheet.tried(lambda: (read_budget(session.log),))
    if now is None:
        return
    was = now[0]

    def take(told: Mapping[str, Any]) -> None:
        amount = told["amount"]
        keep_budget(session.log, Budget(amount, told["per"], session.as_of) if amount else None)

    def ask() -> None:
        shown = {"amount": str(was.amount) if was else "", "per": was.per if was else PERIODS[0]}
        record_actions.ask_values(sheet, "Budget", BUDGET, take, shown=shown)

    with_currency(sheet, ask)


def settle(sheet: LotPage, held: Stored[Lot], state: str) -> None:
    """Ask for the result of a lot, won or lost, and log what follows from it."""
    lot, verdicts = held.thing, sheet.verdicts
    if not lot.open:
        sheet.say(f"It was {lot.state} on {lot.ended}; u: undo the last change.")
        return
    if verdicts is None:
        sheet.say(JUDGING)
        return

    def take(told: Mapping[str, Any]) -> lots.Result:
        shares, on = told.get("share") or "", told["date"] or sheet.session.as_of
        if state == "lost":
            return lots.lost(sheet.session, held, told["hammer"], verdicts, share=shares, on=on)
        if told["hammer"] is None:
            raise InputError("enter the hammer price", "hammer")
        hammer, total = told["hammer"], told["total"]
        return lots.won(sheet.session, held, hammer, verdicts, total=total, share=shares, on=on)

    def done(result: lots.Result) -> None:
        sheet.learn_prices()
        sheet.read()
        if result.unlogged:
            sheet.say(result.unlogged)

    title, shown = f"{state.capitalize()}: {lot.title}", {"date": sheet.session.as_of.isoformat()}
    record_actions.ask_values(sheet, title, _result(lot, state), take, done, shown=shown)


def _result(lot: Lot, state: str) -> list[Field]:
    """The fields of a result."""
    fields = [Field("hammer", f"the hammer price, in {lot.currency}", _amount(lot.currency))]
    if state == "won":
        fields.append(TOTAL)
    if len(lot.items) > 1:
        fields.append(Field("share", SHARES[state], label="shares"))
    return [*fields, Field("date", "example: 2026-11-25", DAY, label="day")]


def lot_from(
    session: Session, piece: Piece, parts: Sequence[Piece] = (), worth: Money | None = None
) -> Lot:
    """A lot from what is under review: where it is met, and what is asked for it.

    Args:
        session: This run.
        piece: What is reviewed, as one piece.
        parts: The pieces, where it is listed piece by piece.
        worth: Of one piece, what the user said that it is worth.
    """
    venue = piece.origin.where if piece.origin else ""
    asked = piece.asking.currency if piece.asking else ""
    currency = asked or session.book.sells(venue) or session.settings.currency
    title = f"{len(parts)} pieces: {parts[0].title}" if parts else piece.title
    return Lot(
        title=" ".join(title.split()) or "untitled lot",
        since=session.as_of,
        currency=currency,
        venue=venue,
        channel=piece.channel,
        asking=piece.asking,
        shipping=piece.shipping,
        items=tuple(map(item_of, parts)) or (replace(item_of(piece), worth=worth),),
    )


LOTS = {
    "new": Act(new, free=True),
    "edit": Act(edit),
    "remove": Act(record_actions.remove),
    "budget": Act(budget, free=True),
    "bid": Act(bid),
    "won": Act(lambda sheet, one: settle(sheet, one, "won")),
    "lost": Act(lambda sheet, one: settle(sheet, one, "lost")),
    "passed": Act(passed),
    "piece": Act(piece),
    "add_piece": Act(add_piece),
}
