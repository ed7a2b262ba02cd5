"""What is done to lots from a screen: follow, edit, bid, won, lost, passed, removed; the budget."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from appraise.app import record_actions
from appraise.app.currency import with_currency
from appraise.app.fieldwords import Asked, Values, day_in, money_in
from appraise.app.form import FormField, fields_of
from appraise.app.lists.spec import Act
from appraise.app.lots.lotlines import JUDGING
from appraise.app.picker import Choice, Picker
from appraise.base.errors import InputError
from appraise.commands import lots, records
from appraise.commands.kinds import KINDS
from appraise.documents.lots import Now
from appraise.records.budget import PERIODS, Budget
from appraise.records.fields import changed
from appraise.records.lot import Lot
from appraise.records.lot_file import met_in, with_pieces
from appraise.records.piece import Piece
from appraise.records.stored import Stored
from appraise.store.venue_book import keep_budget, read_budget

if TYPE_CHECKING:
    from appraise.app.lists.sheet import RecordSheet
    from appraise.app.lots.page import LotPage
    from appraise.app.session import Session
    from appraise.app.sheet import Sheet

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
        fields = fields_of(begun, session.knowledge, shown, _venues(session))

        def take(values: Values) -> None:
            records.add(session, KIND, begun, values)

        record_actions.ask(sheet, "Mark a lot", fields, take, then)

    with_currency(sheet, ask)


def new(sheet: RecordSheet, here: None) -> None:
    """Mark another lot."""
    follow(sheet, then=sheet.read)


def edit(sheet: RecordSheet, held: Stored[Lot]) -> None:
    """A form with the lot's fields."""
    record_actions.edit(sheet, held, sheet.read, choices=_venues(sheet.session))


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
    if len(items) == 1:
        edit_piece(sheet, held, 1)
        return
    choices = [
        Choice(str(place), one.title, " ", one.plan) for place, one in enumerate(items, start=1)
    ]
    sheet.open(Picker("Which piece?", choices), lambda number: edit_piece(sheet, held, int(number)))


def edit_piece(sheet: RecordSheet, held: Stored[Lot], number: int) -> None:
    """A form with what is to become of a piece, and its worth."""
    session, lot = sheet.session, held.thing
    item = lot.items[number - 1]

    def take(values: Values) -> None:
        told = {f"piece.{number}.{name}": text for name, text in values.items()}
        try:
            records.edit(session, KIND, held, told)
        except InputError as error:
            raise InputError(error.what, error.where.rpartition(".")[2], error.mend) from None

    fields = fields_of(item, session.knowledge)
    record_actions.ask(sheet, f"Piece {number}: {item.title}", fields, take, sheet.read)


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

    session, lot = sheet.session, held.thing
    doubts, asked = list[str](), Asked()
    advice = sheet.maximum.advice if sheet.maximum else None
    chance = "" if lot.chance is None else str(lot.chance)
    fields = [
        FormField(
            "bid",
            "my bid",
            lot.bid.plain if lot.bid else "",
            f"In {lot.currency}. Empty: none.",
            amount=True,
        ),
        FormField("chance", "chance", chance, "Your estimate of the chance that it wins, in %."),
    ]

    def take(values: Values) -> None:
        money = money_in(values, "bid", lot.currency)
        told = changed(lot, {"chance": values["chance"]}, session.author())
        if money and advice is not None and money.currency == lot.currency:
            asked.once(above(advice, money), str(money), "bid")
        doubts.extend(lots.bid(session, held, money, told.chance, anew=True).notes)

    def done() -> None:
        sheet.read()
        if doubts:
            sheet.say(f"Recorded; {doubts[0]}", "warn")

    record_actions.ask(sheet, f"Bid: {lot.title}", fields, take, done)


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
    fields = [
        FormField(
            "amount", "amount", str(was.amount) if was else "", "Empty: no budget.", amount=True
        ),
        FormField(
            "per", "per", was.per if was else PERIODS[0], "Calendar periods.", PERIODS, True, True
        ),
    ]

    def take(values: Values) -> None:
        amount = money_in(values, "amount", session.settings.currency)
        per = values["per"].lower() or PERIODS[0]
        keep_budget(session.log, Budget(amount, per, session.as_of) if amount else None)

    with_currency(sheet, lambda: record_actions.ask(sheet, "Budget", fields, take, sheet.read))


def settle(sheet: LotPage, held: Stored[Lot], state: str) -> None:
    """Ask for the result of a lot, won or lost, and log what follows from it."""
    lot, several, verdicts = held.thing, len(held.thing.items) > 1, sheet.verdicts
    if not lot.open:
        sheet.say(f"It was {lot.state} on {lot.ended}; u: undo the last change.")
        return
    if verdicts is None:
        sheet.say(JUDGING)
        return
    fields = _result_fields(sheet.session, lot, state, several)
    unlogged: list[str] = []

    def take(values: Values) -> None:
        unlogged[:] = [_settled(sheet.session, held, verdicts, state, values).unlogged]

    def done() -> None:
        sheet.learn_prices()
        sheet.read()
        if unlogged[0]:
            sheet.say(unlogged[0])

    record_actions.ask(sheet, f"{state.capitalize()}: {lot.title}", fields, take, done)


def _result_fields(session: Session, lot: Lot, state: str, several: bool) -> list[FormField]:
    """The fields of a result."""
    shared = "Write 'equal' or shares such as 3 2 1 (default: by their worths)."
    alone = "Write shares, e.g. 3 2 1, to log the pieces anyway; empty logs none."
    fields = [
        FormField("hammer", "hammer", "", f"The hammer price, in {lot.currency}.", amount=True)
    ]
    if state == "won":
        note = "By the venue's terms (change it if the invoice differs)."
        fields.append(FormField("total", "paid in total", "", note, amount=True))
    if several:
        fields.append(FormField("share", "shares", "", shared if state == "won" else alone))
    fields.append(FormField("date", "day", session.as_of.isoformat(), "Example: 2026-11-25."))
    return fields


def _settled(
    session: Session, held: Stored[Lot], verdicts: Sequence[Any], state: str, values: Values
) -> lots.Result:
    """The result of a lot as typed."""
    hammer = money_in(values, "hammer", held.thing.currency)
    share, on = values.get("share", ""), day_in(values, "date", session.as_of)
    if state == "lost":
        return lots.lost(session, held, hammer, verdicts, share=share, on=on)
    if hammer is None:
        raise InputError("enter the hammer price", "hammer")
    total = money_in(values, "total", session.settings.currency)
    return lots.won(session, held, hammer, verdicts, total=total, share=share, on=on)


LOTS = {
    "new": Act(new, free=True),
    "edit": Act(edit),
    "remove": Act(record_actions.remove_here),
    "budget": Act(budget, free=True),
    "bid": Act(bid),
    "won": Act(lambda sheet, one: settle(sheet, one, "won")),
    "lost": Act(lambda sheet, one: settle(sheet, one, "lost")),
    "passed": Act(passed),
    "piece": Act(piece),
    "add_piece": Act(add_piece),
}
