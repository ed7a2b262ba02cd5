"""What opens from the Examine screen: why, find, details, bought, passed, drop."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from appraise.app import record_actions
from appraise.app.examine import closing
from appraise.app.examine.details import details_of, piece_with
from appraise.app.examine.question import cautions_of
from appraise.app.examine.state import of_kind
from appraise.app.form import Doubts, Texts, ask, fields_of
from appraise.app.lines import EMPTY, Line, fold, line
from appraise.app.marks import DOUBT, ORDER, UNSEEN, WARN
from appraise.app.page import FoundPage, Page, document_rows
from appraise.app.picker import Choice, Picker
from appraise.app.session import Session
from appraise.app.sheet import Sheet
from appraise.documents.verdict import why_document
from appraise.knowledge.records import Knowledge
from appraise.records.entry import Entry
from appraise.records.fields import changed
from appraise.records.piece import UNTOLD, Piece
from appraise.verdict import Verdict, next_steps
from appraise.verdict.behind import Behind

if TYPE_CHECKING:
    from textual.app import App

    from appraise.app.examine.sight import PieceScreen
    from appraise.app.examine.state import Examination
    from appraise.app.examine.view import Examine

WORKING = "Working out the evidence behind each figure ..."
Told = tuple["Behind", ...]


def why_page(session: Session, verdict: Verdict, knowledge: Knowledge) -> FoundPage[Told]:
    """Everything behind the verdict; each figure's follows, which takes 300 to 600 ms."""

    def seek(knowledge: Knowledge) -> Told:
        from appraise.verdict.behind import behind

        return behind(verdict.reading, knowledge)

    def write(told: Told | None, width: int) -> Sequence[Line]:
        steps = next_steps(verdict, knowledge)
        page = why_document(verdict, knowledge, steps, not session.discreet, told or ())
        wait = [line((WORKING, "quiet")), EMPTY] if told is None else []
        return [*wait, *document_rows(page, width, session.marks)]

    return FoundPage("Why", seek, write)


def care_lines(texts: Sequence[str], width: int) -> list[Line]:
    """Cautions, one under the other, with a line between."""
    if not texts:
        return [line("No cautions for this check.")]
    return [
        row for text in texts for row in (*fold(text, width, f"{WARN} ", lead_role="warn"), EMPTY)
    ]


BOUGHT = "Logged. u: undo. To add it to the pieces you own: h, then n."
PASSED = "Logged as not bought. u: undo."

FIELD = "field:"
"""How the ids begin of fields among the checks."""
WRITING = Choice(
    "inscription",
    "Is a date or inscription written on plate, seal, backing, mat or case?",
    group="writing",
)
"""What stands in the details and is looked for among the checks: caption, date, note, words."""


def why(view: PieceScreen) -> None:
    """A page with everything behind the verdict."""
    exam = view.exam
    if exam.verdict is None:
        view.say("The verdict is not ready yet.")
        return
    view.open(why_page(view.session, exam.verdict, exam.knowledge))


def care(view: Examine) -> None:
    """A page with every caution at the check and for the piece."""
    here = cautions_of(view.exam)
    verdict = view.exam.verdict
    texts = dict.fromkeys([*here, *(one.text for one in (verdict.cautions if verdict else ()))])
    view.open(Page("Cautions", partial(care_lines, list(texts))))


def find(view: Examine) -> None:
    """A list of every check of such a piece; taking one goes there."""

    def go(check: str) -> None:
        if check == WRITING.id:
            details(view)
        elif check.startswith(FIELD):
            details(view, check.removeprefix(FIELD))
        else:
            view.action_go_to_check(check)

    fields = details_of(view.exam.piece, view.exam.knowledge, view.session.author())
    found = [
        *choices(view.exam),
        replace(WRITING, note=_writing(view.exam)),
        *(
            Choice(
                f"{FIELD}{one.name}", f"{one.label}: {one.hint}", note=one.value, group="details"
            )
            for one in fields
        ),
    ]
    view.open(Picker("Find a check", found, view.exam.at), go)


def _writing(exam: Examination) -> str:
    """What is recorded of writing on the piece."""
    one = exam.piece.inscription
    return "" if one is None else str(one.date or one.text)


def choices(exam: Examination) -> list[Choice]:
    """Every check of the piece's kind with what was answered, or why it is not asked."""
    asked = {check.id for check in exam.checks}
    out = []
    for check in of_kind(exam.piece.kind, exam.knowledge):
        answer = exam.piece.found(check.id)
        place = check.index(answer)
        if answer:
            mark = DOUBT if answer == UNTOLD else ORDER
            note = check.answers[place].says if place >= 0 else "cannot tell"
        elif check.risk == "conservator":
            mark, note = UNSEEN, "for a conservator"
        else:
            mark, note = " ", "" if check.id in asked else "does not apply"
        part = exam.knowledge.parts[check.part].name
        out.append(Choice(check.id, check.ask, mark, note, part))
    return out


def details(view: Examine, at: str = "") -> None:
    """A form with what is known of the piece beside the checks, at a field of it."""
    before = view.exam.piece

    def done() -> None:
        piece = view.exam.piece
        if piece.channel != before.channel:
            view.session.meet(view.exam.draft, piece.channel)
        view.changed()

    ask_details(view, "If you change the kind, answers that do not apply are removed.", done, at)


def ask_details(view: PieceScreen, note: str, then: Callable[[], object], at: str = "") -> None:
    """A form with what is known of a piece under review beside the checks, at a field of it."""
    exam, by = view.exam, view.session.author()

    def take(texts: Texts) -> None:
        exam.change(piece_with(exam.piece, texts, exam.knowledge, by))

    fields = details_of(exam.piece, exam.knowledge, by)
    ask(view, "Details of the piece", fields, take, lambda _: then(), note, at)


def bid(view: PieceScreen) -> None:
    """The bill at a venue and the maximum bid; without a worth, why there is none."""
    verdict = view.exam.verdict
    if verdict is None or view.session.learnt is None:
        view.say("No bid yet: the log is being read ...")
        return
    from appraise.app.bid.view import BidPage  # 5 ms

    view.open(BidPage(view, verdict))


def bought(view: Examine) -> None:
    """Ask what was paid and log it."""
    _close(view, "Bought", closing.bought_form, closing.bought, BOUGHT)


def passed(view: Examine) -> None:
    """Ask what was asked and offered and log it."""
    _close(view, "Not bought", closing.passed_form, closing.passed, PASSED)


def _close(
    view: Examine,
    title: str,
    begin: Callable[[Piece, date], tuple[Entry, Sequence[str]]],
    make: Callable[[Verdict, Entry, str], Entry],
    says: str,
) -> None:
    """A form for the entry; it is logged, and said so on the screen one is back at."""
    exam, session, doubts = view.exam, view.session, Doubts()
    begun, names = begin(exam.piece, session.as_of)

    def take(texts: Texts) -> None:
        from appraise.commands.undo import log_piece
        from appraise.pricing.slips import slip
        from appraise.records.piece_file import write_piece  # 10 ms, first time

        bare = replace(exam.piece, pictures=())  # the entry lists them
        verdict = exam.verdict if exam.current else None
        verdict = verdict or session.judge(exam.piece)
        said = {name: text for name, text in texts.items() if text or name != "date"}
        told = changed(begun, said, session.author())
        entry = make(verdict, told, write_piece(bare))
        worth = verdict.worth.median if verdict.worth else None
        far = exam.knowledge.ratios.far
        doubt = slip(entry, worth, verdict.currency, far, session.book)
        doubts.once(doubt, str(entry.price), "paid" if entry.paid else "asked")
        log_piece(session, entry, exam.draft)
        session.leave(exam.draft)

    def done(_: None) -> None:
        app = view.app
        view.dismiss(None)
        app.call_after_refresh(_offer, app, says)

    fields = fields_of(begun, session.author(), only=names)
    named = exam.piece.title or "untitled piece"
    record_actions.ask(view, f"{title}: {named}", fields, take, done, "Enter logs it.")


def _offer(app: App[object], says: str) -> None:
    """Say on the screen one is back at how to go on with what was logged."""
    if isinstance(app.screen, Sheet):
        app.screen.say(says, "good")


def drop(view: Examine) -> None:
    """Drop the piece, once that was confirmed."""
    named = view.exam.piece.title or "untitled piece"
    discard(view, f"Discard {named}? Its answers will be lost.")


def discard(view: PieceScreen, asks: str) -> None:
    """Drop what is under review and leave it, once that was confirmed."""

    def done() -> None:
        if view.attempt(lambda: view.session.log.drop_draft(view.exam.draft)):
            view.dismiss(None)

    view.confirm(asks, done)


DOORS: Mapping[str, Callable[[Examine], None]] = {
    "why": why,
    "care": care,
    "find": find,
    "bid": bid,
    "details": details,
    "bought": bought,
    "passed": passed,
    "drop": drop,
}
"""What opens from the screen, by the name that its actions use."""
