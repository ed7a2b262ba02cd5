"""The left column: the question, its answers, what to know beside it, and the warnings below."""

from collections.abc import Iterator, Sequence

from appraise.app.examine.figure import pictured
from appraise.app.examine.order import place_in_part
from appraise.app.examine.state import NUMBERED, Examination
from appraise.app.examine.waiting import waiting
from appraise.app.examine.whynow import why_now
from appraise.app.lines import EMPTY, Line, clip, ends, fold, line
from appraise.app.marks import DOUBT, UNSEEN, WARN, Marks
from appraise.documents.own_rows import own_line
from appraise.documents.words import KNOWN
from appraise.knowledge.yearly import known_for
from appraise.records.piece import UNTOLD
from appraise.verdict import cautions_at

LEAST, FEWEST = 3, 1  # lines kept for warnings, and where notes need the room
CARE = "care"  # how the names of cautions begin
SPARE = {"why", "own"}  # notes that give way to a drawing
MUST = {"care 0", "how"}  # notes for which blank lines are given up

Block = list[Line]


def question(
    exam: Examination, marks: Marks, width: int, height: int, alone: bool = False
) -> list[Line]:
    """The column in `height` lines: question above, warnings below, notes as far as they fit.

    Cautions go before everything else; then how to look, why now, and what misleads. While the
    next question is chosen there is none to answer.
    """
    if not exam.asked:
        return _between(exam, marks, width, height, alone)
    head, told = _head(exam, width), _notes(exam, width)
    below = warnings(exam, marks, width, alone=alone)
    room = height - len(head) - min(len(below), LEAST) - 1
    answers = _shown(exam, marks, width, told, room)
    room -= len(answers)
    must = MUST & set(told)
    if not must <= _fit(told, room):
        head = [row for row in head if row]
        room = height - len(head) - len(answers) - min(len(below), FEWEST)
    if not must <= _fit(told, room - 1):
        answers = [row for row in answers if row]
        room = height - len(head) - len(answers)
    if not must <= _fit(told, room - 1):
        head = head[1:]  # the strip below names the part as well
        room += 1
    top = [*head, *answers, *_written(told, room)]
    left = max(0, height - len(top))
    left -= left > LEAST
    if len(below) > left:
        below = warnings(exam, marks, width, short=True, alone=alone)
    below = _fitting(below, left)
    gap = height - len(top) - len(below)
    return [*top, *[EMPTY] * max(0, gap), *below][:height]


def _between(exam: Examination, marks: Marks, width: int, height: int, alone: bool) -> Block:
    top = waiting(exam, marks, width)[:height]
    below = _fitting(warnings(exam, marks, width, alone=alone), max(0, height - len(top) - 1))
    return [*top, *[EMPTY] * (height - len(top) - len(below)), *below]


def top_half(exam: Examination, marks: Marks, width: int) -> list[Line]:
    """Question, answers and every note, for a screen that has room."""
    if not exam.asked:
        return waiting(exam, marks, width)
    notes = [row for block in _notes(exam, width).values() for row in block]
    return [*_head(exam, width), *next(_pictured(exam, marks, width)), *notes]


def _head(exam: Examination, width: int) -> Block:
    check = exam.check
    part = exam.knowledge.parts[check.part].name
    place, of = place_in_part(check, exam.checks)
    told = f"{place} of {of}" if place else "does not apply now"
    stop = ("seen enough   " if exam.enough else "", "good")
    head = ends(line((part, "head")), line(stop, (told, "quiet")), width)
    return [head, EMPTY, *fold(check.ask, width, role="strong"), EMPTY]


def _shown(exam: Examination, marks: Marks, width: int, told: dict[str, Block], room: int) -> Block:
    """The answers, with a drawing where no note of importance has to give way to it."""
    answers = _answers(exam, marks, width)
    wanted = (_fit(told, room - len(answers)) | MUST & set(told)) - SPARE
    fitting = (
        one for one in _pictured(exam, marks, width) if wanted <= _fit(told, room - len(one))
    )
    return next(fitting, answers)


def _pictured(exam: Examination, marks: Marks, width: int) -> Iterator[Block]:
    """The answers with a drawing beside them, the largest first, and last without one."""
    return pictured(exam, lambda room: _answers(exam, marks, room), marks, width)


def _answers(exam: Examination, marks: Marks, width: int) -> Block:
    finding = exam.piece.findings.get(exam.at)
    given = finding.answer if finding else ""
    known = KNOWN[finding.known] if finding else ""
    shown = exam.answers
    rows: Block = []
    for number, answer in enumerate(shown[:NUMBERED], start=1):
        sign = marks.here if answer.id == given else " "
        note = f"  {known}" if answer.id == given else ""
        role = "strong" if answer.id == given else ""
        first, *rest = fold(answer.says, max(1, width - 6 - len(note)), role=role)
        rows.append(line(f" {sign} ", (str(number), "key"), "  ", *first, (note, "quiet")))
        rows += [line("      ", *row) for row in rest]
    if not shown:
        rows.append(line("   ", ("no matching answer", "doubt")))
    if len(shown) > NUMBERED or exam.typed:
        more = f"{len(shown) - NUMBERED} more: " if len(shown) > NUMBERED else ""
        rows.append(line("   ", ("enter", "key"), (f"  {more}type to narrow", "quiet")))
    sign = marks.here if given == UNTOLD else " "
    rows.append(line(f" {sign} ", ("space", "key"), "  cannot tell"))
    return [*rows, EMPTY]


def _notes(exam: Examination, width: int) -> dict[str, Block]:
    """What to know beside a question, in the order in which it matters."""
    check = exam.check
    care = cautions_of(exam)
    own = exam.knowledge.own_row("checks", check.id)
    told = {
        f"{CARE} {n}": fold(text, width, f"{WARN} ", lead_role="warn")
        for n, text in enumerate(care)
    }
    for name, lead, text in (
        ("how", "How: ", check.how),
        ("why", "Why now: ", f"it {exam.why}." if exam.why else why_now(check, exam.verdict)),
        ("but", "But: ", " ".join(filter(None, (check.misleads, known_for(check))))),
        ("own", "Own: ", own_line(own) if own else ""),
    ):
        if text:
            told[name] = fold(text, width, lead, lead_role="quiet")
    return told


def cautions_of(exam: Examination) -> list[str]:
    """The cautions at the check that is asked, those that its answers call for first."""
    if not exam.at:
        return []
    check = exam.check
    found = sorted(
        cautions_at(check, exam.knowledge),
        key=lambda one: (check.id not in one.when, len(one.when)),
    )
    care = [one.text for one in found]
    if check.risk == "conservator":
        care.insert(0, "Only a conservator should make this check. Answer from a report.")
    return care


def _fit(told: dict[str, Block], room: int) -> set[str]:
    """The notes that fit, each whole; how to look goes before a second caution."""
    kept: set[str] = set()
    for name in sorted(told, key=lambda name: (name not in MUST, list(told).index(name))):
        if len(told[name]) + sum(len(told[one]) for one in kept) <= room:
            kept.add(name)
    return kept


def _written(told: dict[str, Block], room: int) -> Block:
    """The notes that fit, and how many cautions do not."""
    kept = _fit(told, room)
    if all(name in kept for name in told if name.startswith(CARE)):
        return [row for name, block in told.items() if name in kept for row in block]
    kept = _fit(told, room - 1)
    left = sum(name.startswith(CARE) and name not in kept for name in told)
    many = "1 more caution: " if left == 1 else f"{left} more cautions: "
    more = line((f"{WARN} ", "warn"), many, ("c", "key"))
    rows = [row for name, block in told.items() if name in kept for row in block]
    return [*rows, more] if left and room > 0 else rows


def warnings(
    exam: Examination, marks: Marks, width: int, short: bool = False, alone: bool = False
) -> Block:
    """The warnings, strong ones first, and what was not looked at.

    `short`: a line for each; `alone`: no panel stands beside, which shows the warnings itself.
    """
    rows: list[Block] = []
    verdict = exam.verdict if alone else None
    for one in verdict.warnings if verdict else ():
        mark, role = (WARN, "warn") if one.strong else (DOUBT, "doubt")
        says = clip(one.says, width - 2, marks) if short else one.says
        rows.append(fold(says, width, f"{mark} ", lead_role=role))
    told = clip(_unseen(exam), width - 2, marks)
    if told:
        rows.append([line((f"{UNSEEN} ", "quiet"), (told, "quiet"))])
    return [row for block in rows for row in block]


def _unseen(exam: Examination) -> str:
    """The parts of which nothing was looked at; once enough was seen, the checks not made too."""
    progress = dict.fromkeys(exam.parts, 0)
    for check in exam.checks:
        progress[check.part] += check.id in exam.piece.findings
    parts = ", ".join(part for part, done in progress.items() if not done)
    if not exam.checks:
        return ""
    if exam.enough and exam.steps:
        many = len(exam.steps.enough.not_looked)
        return f"{many} checks not done: {parts or 'some of each part'}"
    return f"not checked: {parts}" if parts else ""


def _fitting(rows: Sequence[Line], room: int) -> list[Line]:
    """The lines that fit; the last place says how many do not."""
    if len(rows) <= room:
        return list(rows)
    if room < 1:
        return []
    left = len(rows) - room + 1
    return [*rows[: room - 1], line((f"  and {left} more: ", "quiet"), ("w", "key"))]
