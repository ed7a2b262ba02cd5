"""The question: its answers, the drawing beside them, and what to know before one answers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from appraise.app.examine.figure import pictured, shown
from appraise.app.examine.state import ENOUGH, NUMBERED, Examination
from appraise.app.lines import EMPTY, Line, does, ends, fill, fold, line
from appraise.app.marks import WARN, Marks
from appraise.documents.own_rows import own_line
from appraise.documents.words import KNOWN
from appraise.knowledge.guidance import Caution
from appraise.knowledge.records import Check
from appraise.knowledge.yearly import known_for
from appraise.reading.applying import progress
from appraise.reading.reading import Reading
from appraise.records.piece import UNTOLD
from appraise.verdict import Verdict, cautions_at

CHOOSING = "Choosing the next question ..."
NO_CHECKS = "There are no checks for this kind of piece. i changes the kind."
LEAD = 5  # cells before an answer: its mark and its digit
BRIEF = 60  # letters of a list of answers in a note
NOTES = (("care", "how", "why", "but", "own"), ("care", "how", "but"), ("care", "how"))
"""What is told beside a question, from all of it to the least."""

Block = list[Line]


FEW = 6  # likely processes that are compared
TELLING = 2.0  # times as often with one as with the other
BEARS = {
    "belonging": "helps show whether the parts belong together.",
    "package": "it shows whether the package was opened.",
    "housing": "it tells what the housing is made of.",
    "copy": "helps show whether this is a copy of an older image.",
    "altered": "it shows whether something was added later.",
}


def why_now(check: Check, verdict: Verdict | None) -> str:
    """What an answer would bear on, in the light of what is open."""
    if check.safety:
        return "safety first: this could harm you or the piece."
    table = check.table("process")
    if table is not None and verdict is not None:
        pair = _told_apart(table.rows, verdict.reading)
        if pair:
            return f"it tells {pair[0]} from {pair[1]}."
    for over, says in BEARS.items():
        if check.table(over) is not None:
            return says
    if check.dates:
        return "it helps to date the piece."
    if check.defect is not None:
        return "it counts for condition and price."
    return "it says what the piece is."


def _told_apart(rows: Mapping[str, Sequence[float]], reading: Reading) -> tuple[str, str] | None:
    """The two likeliest families that the answers of a check tell apart."""
    chances = reading.processes
    family = {one.id: one.family for one in reading.joint.frame.processes}
    likely = sorted((word for word in chances if word in rows), key=lambda word: -chances[word])
    for place, one in enumerate(likely[:FEW]):
        for other in likely[place + 1 : FEW]:
            pairs = zip(rows[one], rows[other], strict=True)
            if family[one] != family[other] and any(max(p) > TELLING * min(p) for p in pairs):
                return family[one], family[other]
    return None


def question(
    exam: Examination, marks: Marks, width: int, height: int, apart: bool = False
) -> list[Line]:
    """The pane in lines of `width` cells, as much as has room in `height`.

    Question, answers, how to look and the first caution always stand there, in more lines if need
    be. `apart`: the drawing stands in a pane of its own.
    """
    if not exam.checks:
        return [EMPTY, EMPTY, *fold(NO_CHECKS, width, role="quiet")]
    if not exam.shown:
        return [EMPTY, EMPTY, line((CHOOSING, "quiet"))]
    rows: Block = []
    for rows in _forms(exam, marks, width, apart):
        if len(rows) <= height:
            break
    return rows


def _forms(exam: Examination, marks: Marks, width: int, apart: bool) -> Iterator[Block]:
    """The pane from its fullest form to its shortest."""
    head, told = _head(exam, width), _notes(exam, width)
    plain = _answers(exam, marks, width, pictured=apart)
    spare = [[row for name in names for row in told.get(name, ())] for names in NOTES]
    if not apart:
        for notes in spare[:2]:
            for answers in pictured(exam, lambda room: _answers(exam, marks, room), marks, width):
                yield [*head, *answers, *notes]
    for notes in spare:
        yield [*head, *plain, *notes]
    close = [row for row in (*head, *plain, *spare[-1]) if row]
    yield close
    yield close[1:]  # the strip below names the part as well


def _head(exam: Examination, width: int) -> Block:
    check = exam.check
    part = exam.knowledge.parts[check.part].name
    done, of = progress(exam.piece, exam.checks).get(check.part, (0, 0))
    told = f"{done} of {of} answered" if check in exam.checks else "does not apply now"
    stop = (ENOUGH if exam.enough else "", "good")
    head = ends(line((part, "head"), (f"  {told}", "quiet")), line(stop), width)
    role = "strong" if exam.asked else "quiet"
    return [head, EMPTY, *fold(check.ask, width, role=role), EMPTY]


def _answers(exam: Examination, marks: Marks, width: int, pictured: bool = True) -> Block:
    """The answers, each a place to click; without digits while the next question is chosen.

    `pictured`: the drawing of one of them is shown, which is marked by its ground.
    """
    finding = exam.piece.findings.get(exam.at)
    given = finding.answer if finding else ""
    known = KNOWN[finding.known] if finding else ""
    found = exam.answers
    drawn = shown(exam) if exam.asked and pictured else None
    rows: Block = []
    for number, answer in enumerate(found[:NUMBERED], start=1):
        told = answer.says, known if answer.id == given else ""
        under = drawn is not None and drawn[0] == str(number)
        rows += _answer(number if exam.asked else 0, told, under, marks, width)
    if not found:
        rows.append(line("   ", ("no matching answer", "doubt")))
    if exam.asked and (len(found) > NUMBERED or exam.typed):
        more = f"{len(found) - NUMBERED} more: " if len(found) > NUMBERED else ""
        row = line(("enter", "key"), (f"  {more}type to narrow", "quiet"))
        rows.append(line("  ", *does(row, "narrow")))
    if given and given not in {
        one.id for one in (*found[:NUMBERED], *exam.check.answers[:NUMBERED])
    }:
        place = exam.check.index(given)
        says = exam.check.answers[place].says if place >= 0 else ""
        rows += _answer(0, (says, known), False, marks, width) if says else []
    return [*rows, *_untold(exam, given, marks, width), EMPTY]


def _answer(number: int, told: tuple[str, str], under: bool, marks: Marks, width: int) -> Block:
    """An answer with its digit, and how it is known where it was given."""
    says, known = told
    sign = marks.here if known else " "
    note = f"  {known}" if known else ""
    role = "strong" if known else "" if number else "quiet"
    first, *rest = fold(says, max(1, width - LEAD - len(note)), role=role)
    digit = str(number) if number else " "
    row = line((f"{sign} ", "head"), (digit, "key"), "  ", *first, (note, "quiet"))
    rows = [fill(one, width) for one in (row, *(line(" " * LEAD, *one) for one in rest))]
    if under:
        rows = [tuple((words, f"{role} pointed".strip()) for words, role in one) for one in rows]
    return [does(one, f"answer({number})") for one in rows] if number else rows


def _untold(exam: Examination, given: str, marks: Marks, width: int) -> Block:
    sign = marks.here if given == UNTOLD else " "
    if not exam.asked:
        role = "strong" if given == UNTOLD else "quiet"
        row = line((f"{sign} ", "quiet"), (f"{'':<{LEAD - 2}}cannot tell", role))
        return [row, EMPTY, line((CHOOSING, "quiet"))]
    row = fill(line((f"{sign} ", "head"), ("space", "key"), "  cannot tell"), width)
    return [does(row, "untold")]


def _notes(exam: Examination, width: int) -> dict[str, Block]:
    """What to know beside a question, by name."""
    if not exam.asked:
        return {}
    check = exam.check
    own = exam.knowledge.own_row("checks", check.id)
    told = {"care": _care(exam, width)}
    for name, lead, text in (
        ("how", "How: ", check.how),
        ("why", "Why now: ", f"it {exam.why}." if exam.why else why_now(check, exam.verdict)),
        ("but", "But: ", " ".join(filter(None, (check.misleads, _known(check))))),
        ("own", "Own: ", own_line(own) if own else ""),
    ):
        if text:
            told[name] = fold(text, width, lead, role="quiet", lead_role="quiet")
    return told


def _known(check: Check) -> str:
    """For which region alone its years are known, in brief where that is said of many answers."""
    told = known_for(check)
    lead, _, names = told.partition(": ")
    return f"{lead}: the years of most answers." if len(names) > BRIEF else told


def _care(exam: Examination, width: int) -> Block:
    """The first caution: what to do, in a sentence, or whole where the answer given calls for it.

    How many more there are is said beside it; `c` shows all of them in full.
    """
    texts = cautions_of(exam)
    if not texts:
        return []
    called = any(_called(exam, one) for one in cautions_at(exam.check, exam.knowledge))
    first = texts[0] if called else f"{texts[0].partition('. ')[0].rstrip('.')}."
    rest = len(texts) - 1
    more = f"{rest} more: " if rest else "more: " if first != texts[0] else ""
    rows = fold(first, width, f"{WARN} ", lead_role="warn")
    return [*rows, line("  ", (more, "quiet"), ("c", "key@open('care')"))] if more else rows


def _called(exam: Examination, caution: Caution) -> bool:
    """Whether the answer given to the check that is asked calls for a caution."""
    return exam.piece.found(exam.at) in caution.when.get(exam.at, ())


def cautions_of(exam: Examination) -> list[str]:
    """The cautions at the check that is asked, those that its answers call for first."""
    if not exam.at:
        return []
    check = exam.check
    found = sorted(
        cautions_at(check, exam.knowledge),
        key=lambda one: (not _called(exam, one), check.id not in one.when, len(one.when)),
    )
    care = [one.text for one in found]
    if check.risk == "conservator":
        care.insert(0, "Only a conservator should make this check. Answer from a report.")
    return care
