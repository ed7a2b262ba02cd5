"""The Bid page of the piece under examination; venues are chosen and noted from here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from appraise.app.discretion import HIDDEN
from appraise.app.examine.sight import PieceScreen
from appraise.app.form import ask_values
from appraise.app.lines import EMPTY, Line, fold
from appraise.app.page import Page, document_rows
from appraise.app.picker import Choice, Picker
from appraise.app.venue_actions import ask_terms
from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.documents.bid import bid_document, of_verdict, of_worth
from appraise.pricing.money import in_currency_of, terms_of
from appraise.records.fields import Field
from appraise.records.piece import Origin
from appraise.records.quantities import AmountKind
from appraise.records.venue import AUCTIONS, Venue
from appraise.records.venuebook import sale_of
from appraise.verdict import Verdict, at_venue, pay_of
from appraise.verdict.pay import LIMIT, MAXIMUM

OWN = (
    Field("worth", "what it is worth to you; empty: by your log", AmountKind(above=True),
          label="value"),
)  # fmt: skip
YOUR_OWN = "y: give a value of your own, and the bill is worked out from it."
NOWHERE = "(none chosen: the usual venue of its channel, or none)"


class BidPage(Page):
    """One maximum."""

    AREA = "bid"

    def __init__(self, view: PieceScreen, verdict: Verdict) -> None:
        super().__init__(f"Bid: {view.exam.piece.title or 'untitled piece'}", self.lines)
        self._view = view
        self._verdict = verdict

    @property
    def _own(self) -> Money | None:
        """The value that the user gave; it stays with the piece under review."""
        return self._view.own_worth

    @property
    def house(self) -> Venue | None:
        """Where the piece is bought, if that is a venue whose terms are noted."""
        sale = sale_of(self._view.exam.piece)
        return self.session.book.for_sale(sale.venue, sale.channel)

    def lines(self, width: int) -> Sequence[Line]:
        """The page in lines of a width; it is all amounts."""
        if self.session.discreet:
            return fold(HIDDEN, width)
        session, piece, house = self.session, self._view.exam.piece, self.house
        settings, channel = session.settings, (house.channel if house else "") or piece.channel
        try:
            venue = session.book.venue_for(sale_of(piece), settings.currency, session.as_of)
        except InputError as error:
            return fold(f"No bid yet: {error}", width, role="warn")
        terms, held = terms_of(settings, channel), self._refused
        above = fold(held, width, role="warn") if held else []
        if self._own is not None:
            name = MAXIMUM if channel in AUCTIONS else LIMIT
            maximum = of_worth(self._own, 0.0, terms, house, venue, name)
            maximum = replace(maximum, asked=in_currency_of(venue, piece.asking))
        elif held:
            return [*above, EMPTY, *fold(YOUR_OWN, width)]
        else:
            verdict = at_venue(self._verdict, settings, venue, channel)
            maximum = of_verdict(verdict, house, terms.bidders)
        told = document_rows(bid_document(maximum, session.as_of), width, session.marks)
        return [*above, *([EMPTY] if above else []), *told]

    @property
    def _refused(self) -> str:
        """Why the log tells no maximum; '' where it does."""
        verdict = self._verdict
        return pay_of(verdict).reason if verdict.worth is None or verdict.holds_back else ""

    def action_value(self) -> None:
        home = self.session.settings.currency

        def take(told: Mapping[str, Any]) -> None:
            own = told["worth"]
            if own is not None and own.currency != home:
                raise InputError(f"{own} is not in {home}", "worth", f"Write it in {home}.")
            self._view.own_worth = own

        shown, note = {"worth": str(self._own or "")}, "Enter works it out."
        ask_values(
            self, "Your own value", OWN, take, lambda _: self.redraw(), shown=shown, note=note
        )

    def action_venue(self) -> None:
        houses = self.session.book.venues
        choices = [Choice("", NOWHERE)]
        choices += [Choice(one.name, one.name, " ", one.channel) for one in houses]

        at = self.house.name if self.house else ""
        self.open(Picker("Where is it bought?", choices, at), self._at)

    def _at(self, name: str) -> None:
        """Let the piece be met at a venue."""
        exam = self._view.exam
        origin = replace(exam.piece.origin or Origin(), where=name)
        exam.change(replace(exam.piece, origin=origin))
        self._view.changed()
        self.redraw()

    def action_terms(self) -> None:
        house = self.house
        if house is None:
            self.action_new()
        else:
            self._form(house, f"Terms: {house.name}")

    def action_new(self) -> None:
        piece = self._view.exam.piece
        name = piece.origin.where if piece.origin else ""
        house = Venue(name or "new venue", self.session.settings.currency)
        self._form(replace(house, channel=piece.channel), "New venue: terms", name)

    def action_follow(self) -> None:
        from appraise.app.lots.actions import (
            follow,  # 10 ms
            lot_from,
        )

        def done() -> None:
            self.say("Lot marked. To see it: o on the desk.", "good")

        follow(self, lot_from(self.session, self._view.exam.piece, worth=self._own), done)

    def _form(self, venue: Venue, title: str, name: str | None = None) -> None:
        ask_terms(self, venue, title, self._at, name)
