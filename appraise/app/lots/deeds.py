"""What is done to lots from a screen: follow, edit, bid, won, lost, passed, removed; the budget."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from appraise.app import work
from appraise.app.fieldwords import Asked, Values, day_in, money_in
from appraise.app.form import Field, Form, fields_of
from appraise.app.prices.deeds import with_currency
from appraise.app.sheet import Question
from appraise.base.errors import InputError
from appraise.collection.lot_results import SEVERAL
from appraise.records.budget import PERIODS, Budget
from appraise.records.fields import changed
from appraise.records.lot import Lot
from appraise.records.lot_file import met_in, with_pieces
from appraise.records.piece import Piece
from appraise.records.stored import ChangeSet, Stored
from appraise.report.lots import Now
from appraise.store.records import change, commit, drop, keep
from appraise.store.venue_book import keep_budget, read_budget

if TYPE_CHECKING:
    from appraise.app.session import Session
    from appraise.app.sheet import Sheet
    from appraise.collection.lotworth import LotAdvice

Then = Callable[[], object]
MINUTE = 60.0  # seconds between two looks at the clock


def now_in(session: Session) -> Now:
    """From when and where one looks: this machine's zone."""
    return Now(session.moment(), None, session.as_of)


def follow(sheet: Sheet[Any], lot: Lot | None = None, then: Then = lambda: None) -> None:
    """A form for another lot, filled in as far as is known."""
    session = sheet.session

    def ask() -> None:
        begun = lot or Lot("new lot", session.as_of, session.settings.currency)
        fields = _fields(session, begun, {} if lot else {"title": ""})

        def take(values: Values) -> None:
            keep(session.log, changed(begun, values, session.author()))
            session.changes += 1

        _form(sheet, "Mark a lot", fields, take, then)

    with_currency(sheet, ask)


def edit(sheet: Sheet[Any], held: Stored[Lot], then: Then) -> None:
    """A form with the lot's fields."""
    session, lot = sheet.session, held.thing

    def take(values: Values) -> None:
        _keep(session, held, changed(lot, values, session.author()))

    _form(sheet, f"Edit: {lot.title}", _fields(session, lot, {}), take, then)


def _fields(session: Session, lot: Lot, shown: Values) -> list[Field]:
    session.read_book()
    houses = tuple(one.name for one in session.book.venues)
    return fields_of(lot, session.knowledge, shown, {"venue": houses})


def edit_piece(sheet: Sheet[Any], held: Stored[Lot], number: int, then: Then) -> None:
    """A form with what is to become of a piece, and its worth."""
    session, lot = sheet.session, held.thing
    item = lot.items[number - 1]

    def take(values: Values) -> None:
        told = {f"piece.{number}.{name}": text for name, text in values.items()}
        try:
            _keep(session, held, changed(lot, told, session.author()))
        except InputError as error:
            raise InputError(error.what, error.where.rpartition(".")[2], error.mend) from None

    fields = fields_of(item, session.knowledge)
    _form(sheet, f"Piece {number}: {item.title}", fields, take, then)


def add_piece(sheet: Sheet[Any], held: Stored[Lot], then: Then) -> None:
    """Take in one line what is seen of a further piece, and put it into the lot."""
    from appraise.app.firstlook import FirstLook  # 15 ms

    def done(piece: Piece | None) -> None:
        if piece is None:
            return
        lot = with_pieces(held.thing, [met_in(piece, held.thing)])
        if sheet.attempt(lambda: _keep(sheet.session, held, lot)):
            then()

    sheet.app.push_screen(FirstLook(), done)


def bid(sheet: Sheet[Any], held: Stored[Lot], advice: LotAdvice | None, then: Then) -> None:
    """Ask what was bid, once more where it is above the maximum; say what that does to the budget.

    `advice` is the lot's maximum, or None where that is not known.
    """
    from appraise.collection.budget_status import bid_warnings
    from appraise.collection.lotsteps import with_bid, without_bid
    from appraise.collection.lotworth import above
    from appraise.store.venue_book import read_purse

    session, lot = sheet.session, held.thing
    doubts, asked = list[str](), Asked()
    chance = "" if lot.chance is None else str(lot.chance)
    fields = [
        Field(
            "bid", "my bid", lot.bid.plain if lot.bid else "", f"In {lot.currency}. Empty: none."
        ),
        Field("chance", "chance", chance, "Your estimate of the chance that it wins, in %."),
    ]

    def take(values: Values) -> None:
        money = money_in(values, "bid", lot.currency)
        told = changed(lot, {"chance": values["chance"]}, session.author())
        if money and advice is not None and money.currency == lot.currency:
            asked.once(above(advice, money), str(money), "bid")
        after = with_bid(told, money, session.moment()) if money else without_bid(told)
        _keep(session, held, after)
        session.read_book()
        purse = read_purse(session.log, session.settings.currency, session.as_of)
        doubts.extend(bid_warnings(Stored(held.id, after), session.book, purse, session.as_of))

    def done() -> None:
        then()
        if doubts:
            sheet.say(f"Recorded; {doubts[0]}", "warn")

    _form(sheet, f"Bid: {lot.title}", fields, take, done)


def passed(sheet: Sheet[Any], held: Stored[Lot], then: Then) -> None:
    """Let a lot go; undo brings it back."""
    from appraise.collection.lot_results import passed_act

    if sheet.attempt(lambda: _write(sheet.session, passed_act(held, sheet.session.as_of))):
        then()
        sheet.say("Recorded as not bid on. u: undo.", "good")


def remove(sheet: Sheet[Any], held: Stored[Lot], then: Then) -> None:
    """Follow a lot no more, once that was confirmed."""

    def take() -> None:
        drop(sheet.session.log, (held.id,))
        sheet.session.changes += 1

    def done(yes: bool | None) -> None:
        if yes and sheet.attempt(take):
            then()

    asks = f"Remove {held.thing.title}? u: undo."
    sheet.app.push_screen(Question(asks, sheet.session.marks), done)


def budget(sheet: Sheet[Any], then: Then) -> None:
    """Ask what may be spent in a month or year; empty is no budget."""
    session = sheet.session
    now: list[Budget | None] = []
    if not sheet.attempt(lambda: now.append(read_budget(session.log))):
        return
    was = now[0]
    fields = [
        Field("amount", "amount", str(was.amount) if was else "", "Empty: no budget."),
        Field("per", "per", was.per if was else PERIODS[0], "Calendar periods.", PERIODS),
    ]

    def take(values: Values) -> None:
        amount = money_in(values, "amount", session.settings.currency)
        per = values["per"].lower() or PERIODS[0]
        keep_budget(session.log, Budget(amount, per, session.as_of) if amount else None)
        session.changes += 1

    with_currency(sheet, lambda: _form(sheet, "Budget", fields, take, then))


def settle(
    sheet: Sheet[Any], held: Stored[Lot], verdicts: Sequence[Any], state: str, then: Then
) -> None:
    """Ask for the result of a lot, won or lost, and log what follows from it."""
    lot, several = held.thing, len(held.thing.items) > 1
    shared = "Write 'equal' or shares such as 3 2 1 (default: by their worths)."
    alone = "Write shares, e.g. 3 2 1, to log the pieces anyway; empty logs none."
    fields = [Field("hammer", "hammer", "", f"The hammer price, in {lot.currency}.")]
    if state == "won":
        note = "By the venue's terms (change it if the invoice differs)."
        fields.append(Field("total", "paid in total", "", note))
    if several:
        fields.append(Field("share", "shares", "", shared if state == "won" else alone))
    fields.append(Field("date", "day", sheet.session.as_of.isoformat(), "Example: 2026-11-25."))

    unshared: list[bool] = []

    def take(values: Values) -> None:
        if several and state == "lost" and values["hammer"] and not values["share"]:
            unshared.append(True)
        make = _won if state == "won" else _lost
        _write(sheet.session, make(sheet.session, held, verdicts, values))

    def done() -> None:
        work.learn_prices(sheet.app, sheet.session)
        then()
        if unshared:
            sheet.say(SEVERAL)

    _form(sheet, f"{state.capitalize()}: {lot.title}", fields, take, done)


def _won(session: Session, held: Stored[Lot], verdicts: Sequence[Any], values: Values) -> ChangeSet:
    from appraise.collection.lot_results import whole_cost, won_act
    from appraise.collection.lotworth import all_valued, weights_of, worth_weights

    lot, code = held.thing, session.settings.currency
    on = day_in(values, "date", session.as_of)
    hammer = money_in(values, "hammer", lot.currency)
    if hammer is None:
        raise InputError("enter the hammer price", "hammer")
    session.read_book()
    total = money_in(values, "total", code) or whole_cost(lot, hammer, session.book, code, on)
    weights: Sequence[float] = (1.0,)
    if len(lot.items) > 1 and values["share"]:
        weights = weights_of(values["share"], len(lot.items))
    elif len(lot.items) > 1:
        pieces = all_valued(lot, verdicts, lambda one: session.book.turned(one, code, on))
        weights = worth_weights(pieces, lot.selling)
    return won_act(held, hammer, on, total, weights, verdicts)


def _lost(
    session: Session, held: Stored[Lot], verdicts: Sequence[Any], values: Values
) -> ChangeSet:
    from appraise.collection.lot_results import carriage_of, lost_act
    from appraise.collection.lotworth import weights_of

    lot = held.thing
    hammer = money_in(values, "hammer", lot.currency)
    share = values.get("share", "")
    weights = weights_of(share, len(lot.items)) if share else None
    session.read_book()
    posted = carriage_of(lot, session.book)
    return lost_act(held, hammer, day_in(values, "date", session.as_of), verdicts, weights, posted)


def _keep(session: Session, held: Stored[Lot], lot: Lot) -> None:
    change(session.log, replace(held, thing=lot), was=held.thing)
    session.changes += 1


def _write(session: Session, act: ChangeSet) -> None:
    commit(session.log, act)
    session.changes += 1


def _form(
    sheet: Sheet[Any],
    title: str,
    fields: Sequence[Field],
    take: Callable[[Values], None],
    then: Then,
) -> None:
    def done(kept: bool | None) -> None:
        if kept:
            then()

    sheet.app.push_screen(Form(title, fields, take), done)
