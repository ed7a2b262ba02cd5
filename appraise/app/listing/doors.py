"""What opens from the Listing screen, and how one comes to it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from appraise.app.examine import doors
from appraise.app.lines import EMPTY, Line, fold
from appraise.app.listing.items import letter, questions_of
from appraise.app.listing.review import Review, rebased
from appraise.app.marks import ORDER
from appraise.app.page import Page
from appraise.app.picker import Choice, Picker
from appraise.records.piece import Piece
from appraise.records.piece_file import parse_piece

if TYPE_CHECKING:
    from appraise.app.listing.view import ListingScreen
    from appraise.records.lot import Lot

UNCHECKED = "There is nothing to check in the photos for this line."
PIECEWISE = "Photos are checked one piece at a time: enter opens this piece."
WAIT = "The text is still being read ..."
ASIDE = "If your terminal cannot copy, select the lines below with the mouse."


def waits(view: ListingScreen) -> bool:
    """Whether the text is still being read, which is then said."""
    if view.review.reading:
        view.say(WAIT)
    return view.review.reading


def copy(view: ListingScreen) -> None:
    """Copy the questions as the terminal allows it."""
    if waits(view):
        return
    questions = _questions(view.review)
    if not questions:
        view.say("There are no questions to ask.")
        return
    view.app.copy_to_clipboard(letter(questions))
    many = "1 question" if len(questions) == 1 else f"{len(questions)} questions"
    view.say(f"{many} copied. If the clipboard stays empty: Y shows them.", "good")


def show_questions(view: ListingScreen) -> None:
    """The questions as a page, for terminals that cannot copy."""

    def write(width: int) -> list[Line]:
        questions = _questions(view.review)
        rows = [*fold(ASIDE, width, role="quiet"), EMPTY]
        return rows + [row for one in questions for row in (*fold(one, width), EMPTY)]

    view.open(Page("Questions to the seller", write))


def _questions(review: Review) -> tuple[str, ...]:
    if review.listing is None:
        return ()
    return questions_of(review.listing, review.piece, review.knowledge)


def pick(view: ListingScreen) -> None:
    """Every answer that pictures can give to the item's check."""
    review = view.review
    item = review.here
    if item is None or not item.check:
        view.say(PIECEWISE if review.lot else UNCHECKED)
        return
    check = review.knowledge.checks[item.check]
    given = review.piece.found(item.check)
    choices = [Choice(one.id, one.says, ORDER if one.id == given else " ") for one in check.answers]

    def take(answer: str) -> None:
        if review.see(item.check, answer):
            view.changed()

    view.open(Picker(check.ask, choices, given), take)


def details(view: ListingScreen) -> None:
    """A form with what is known of the piece beside the checks."""
    if not waits(view):
        doors.ask_details(view, "What you enter here overrides the seller.", view.changed)


def bid(view: ListingScreen) -> None:
    """The bill of the piece, or of the lot where several are offered."""
    if not view.review.lot:
        doors.bid(view)
        return
    from appraise.app.lots.page import lot_sight  # 10 ms

    view.open(lot_sight(view.session, view.review.offers, _lot(view)))


def follow(view: ListingScreen) -> None:
    """Follow what is listed as a lot, with its piece or pieces as they stand."""
    review = view.review
    if waits(view):
        return
    if review.unrelated:
        view.say("There is no piece to mark.")
        return
    from appraise.app.lots.actions import follow as take_up  # 10 ms

    def done() -> None:
        view.say("Lot marked. To see it: o on the desk; u there: undo.", "good")

    take_up(view, _lot(view), done)


def _lot(view: ListingScreen) -> Lot:
    """What is listed as a lot, its pieces met where the listing is."""
    from appraise.app.lots.actions import lot_from
    from appraise.listing.offered import lot_piece
    from appraise.listing.sale import told_of_lot

    whole, listing = view.review.piece, view.review.listing
    listed = listing.parts if listing else ()
    parts = [replace(lot_piece(one), channel=whole.channel) for one in listed]
    lot = lot_from(view.session, whole, parts, view.own_worth)
    return replace(lot, **told_of_lot(view.review.text, lot.since, lot.currency))


def examine(view: ListingScreen) -> None:
    """Open the piece in Examine, as the seller says and as pictures showed; twice is one piece."""
    from appraise.app.examine.view import Examine  # 40 ms with the reading

    review, session = view.review, view.session
    piece, part = review.subject, review.part
    opened = view.opened.get(part)
    if opened is None:
        draft = session.new_draft()
    else:
        draft, was = opened
        kept = _kept(view, draft)
        piece = kept if kept is not None and was is None else rebased(kept, was, piece)

    if view.attempt(partial(session.keep, draft, piece)):
        view.opened[part] = (draft, review.subject)
        view.keep()
        view.open(Examine(piece, review.knowledge, draft))


def _kept(view: ListingScreen, draft: str) -> Piece | None:
    """A piece that was opened before, as it stands in the log; None when it was closed."""
    found = next((one for one in view.session.log.drafts() if one.id == draft), None)
    return parse_piece(found.text, "the draft", view.review.knowledge) if found else None


def edit(view: ListingScreen) -> None:
    """Edit the text, where that is no wait."""
    from appraise.app.listing.slip import Slip
    from appraise.app.listing.text import EDITABLE

    if len(view.review.text) > EDITABLE:
        view.say("The text is too long to edit here: edit its file and read that.")
        return

    view.open(Slip(view.review.text), view.take_text)


def drop(view: ListingScreen) -> None:
    """Drop the listing, once that was confirmed; a piece that was opened from it stays."""
    doors.discard(view, "Discard this listing? Pieces opened from it stay.")


DOORS: Mapping[str, Callable[[ListingScreen], None]] = {
    "answers": pick,
    "copy": copy,
    "questions": show_questions,
    "why": doors.why,
    "bid": bid,
    "follow": follow,
    "details": details,
    "edit": edit,
    "drop": drop,
}
"""What opens from the screen, by the name that its actions use."""
