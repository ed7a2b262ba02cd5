"""A listing opened: a text taken in, or one that was kept."""

from __future__ import annotations

from typing import Any

from appraise.app.currency import with_currency
from appraise.app.listing.review import BLANK, Review, Stand
from appraise.app.listing.text import BASIS, KEY, OPENED, cleaned, opened_in
from appraise.app.listing.view import ListingScreen
from appraise.app.sheet import Sheet
from appraise.base.yamls import compose
from appraise.records.piece_file import piece_of
from appraise.store.drafts import Draft

PREFIX = "listing "
"""How the names of listings kept in the log begin."""


def begin(sheet: Sheet[Any], text: str = "") -> None:
    """Take a text in and open it; a text that is given is opened at once."""
    from appraise.app.listing.slip import Slip  # 15 ms with the field of many lines

    def show(taken: str) -> None:
        knowledge = sheet.session.knowledge
        if taken and knowledge is not None:
            draft = f"{PREFIX}{sheet.session.log.now()}"
            sheet.open(ListingScreen(Review(knowledge, draft, Stand(taken, None))))

    def take() -> None:
        given = cleaned(text)
        if given and sheet.session.knowledge is not None:
            show(given)
        else:
            sheet.open(Slip(given), show)

    with_currency(sheet, take)


def resume(sheet: Sheet[Any], draft: Draft) -> None:
    """Go on with a listing that was kept.

    Raises:
        InputError: when the draft cannot be read.
    """
    row, knowledge = compose(draft.text, "the draft"), sheet.session.trade()
    text = cleaned(row.text(KEY))
    basis = cleaned(row.text(BASIS, text))
    opened = opened_in(row.text(OPENED, ""))
    piece = piece_of(row, knowledge)
    stand = Stand(text, None, None) if piece == BLANK else Stand(text, piece, basis or None)
    sheet.open(ListingScreen(Review(knowledge, draft.id, stand), opened))
