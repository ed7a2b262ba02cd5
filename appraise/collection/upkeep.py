"""What care asks for now: looks that are due, loans, returns, and what a conservator should see."""

import datetime as dt
from calendar import monthrange
from collections.abc import Iterator

from appraise.base.dataclass import dataclass
from appraise.knowledge.inquiry import Defect
from appraise.knowledge.records import Care, Caution, Check, Knowledge, Never
from appraise.records.owned import AWAY, MISSING, ConditionCheck, OwnedPiece

DUE_SORTS = ("return", "loan", "look", "origin")
DILIGENCE = "due-diligence"
"""The caution that says to stop and ask where a piece came from."""
HOME = "one-box"
"""The row of `care:` that chooses between the storage figures of the sources."""


@dataclass(frozen=True, slots=True)
class Due:
    """Something that care asks for.

    Attributes:
        sort: 'return', 'loan', 'look' or 'origin'.
        on: The day by which, or None where it is now.
        left: Days from the day asked about; below 0 when it is over; 0 where it is now.
    """

    sort: str
    on: dt.date | None
    says: str
    left: int

    @property
    def now(self) -> bool:
        """Whether it is due, or over."""
        return self.left <= 0


@dataclass(frozen=True, slots=True)
class Patient:
    """Damage that is a conservator's to see.

    Attributes:
        rank: 0 for what comes first; by the rows of topic `urgent`, then the rest.
        step: 1 to 3.
        active: Whether it goes on by itself.
    """

    rank: int
    check: Check
    defect: Defect
    step: int
    why: str
    active: bool


@dataclass(frozen=True, slots=True)
class Worse:
    """How one fault changed between two looks.

    Attributes:
        before: Its step then; None where nobody looked for it.
        after: Its step now; None where nobody looked for it.
    """

    check: str
    before: int | None
    after: int | None


def months_on(day: dt.date, months: int) -> dt.date:
    """The same day so many months on; the last of the month where there is no such day.

    31 January and one month: 28 or 29 February. 29 February and twelve: 28 February.
    """
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    if year > dt.MAXYEAR:
        return dt.date.max
    return dt.date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def words_of(kept: OwnedPiece, knowledge: Knowledge) -> frozenset[str]:
    """The words for what a piece is: kind, process, its family, housing."""
    process = knowledge.processes.get(kept.process)
    family = process.family if process else ""
    return frozenset({kept.kind, kept.process, family, kept.housing} - {""})


def fits(row: Care, words: frozenset[str], look: ConditionCheck | None) -> bool:
    """Whether a row of care is for a piece: by what it is, and by the damage found."""
    if row.apart or (row.materials and not words & set(row.materials)):
        return False
    return not row.damage or any(look and look.steps.get(name, 0) > 0 for name in row.damage)


def stability(look: ConditionCheck | None, knowledge: Knowledge) -> frozenset[str]:
    """The stabilities of the damage found."""
    return frozenset(defect.stability[step] for _, defect, step in _damage(look, knowledge))


def _damage(
    look: ConditionCheck | None, knowledge: Knowledge
) -> Iterator[tuple[Check, Defect, int]]:
    for name, step in (look.steps if look else {}).items():
        check = knowledge.checks.get(name)
        if step > 0 and check is not None and check.defect is not None:
            yield check, check.defect, step


def advice(kept: OwnedPiece, knowledge: Knowledge, topic: str) -> tuple[Care, ...]:
    """The rows of care of one topic that are for a piece."""
    words, look = words_of(kept, knowledge), kept.last_look
    rows = knowledge.care.values()
    return tuple(row for row in rows if row.topic == topic and fits(row, words, look))


def essentials(kept: OwnedPiece, knowledge: Knowledge, topic: str) -> tuple[Care, ...]:
    """What is enough of one topic beside a piece: rows for damage that it has, else one row.

    That one names the piece most exactly: by process before family, kind or housing, before rows
    for every piece. Of storage figures the tool's own choice between those published stands first.
    """
    rows = advice(kept, knowledge, topic)
    exact = tuple(row for row in rows if row.damage)
    own = tuple(row for row in rows if row.id == HOME)
    narrow = sorted(rows, key=lambda row: (kept.process not in row.materials, not row.materials))
    return own + exact or tuple(narrow[:1])


def interval(kept: OwnedPiece, knowledge: Knowledge) -> tuple[int, Care] | None:
    """After how many months to look again, and the row that says so: the shortest that fits."""
    words, look = words_of(kept, knowledge), kept.last_look
    worst = stability(look, knowledge)
    rows = [
        (row.months, row)
        for row in knowledge.care.values()
        if row.months is not None
        and fits(row, words, look)
        and (not row.stability or row.stability in worst)
    ]
    return min(rows, key=lambda one: one[0]) if rows else None


def due(kept: OwnedPiece, knowledge: Knowledge, as_of: dt.date) -> tuple[Due, ...]:
    """What care asks for of one piece, the most pressing first; nothing of a piece that is gone.

    A piece that nobody looked at yet is to be looked at now, however long ago it came.
    """
    if not kept.owned or kept.status in MISSING:
        return ()
    found = [*_return(kept, as_of), *_loan(kept, as_of), *_origin(kept, knowledge)]
    if kept.status not in ("ordered", "lent", "with-conservator"):
        found += _look(kept, knowledge, as_of)
    return tuple(sorted(found, key=lambda one: (one.left, DUE_SORTS.index(one.sort))))


def _return(kept: OwnedPiece, as_of: dt.date) -> Iterator[Due]:
    if kept.return_by is not None and kept.return_by >= as_of:
        left = (kept.return_by - as_of).days
        yield Due("return", kept.return_by, "last day to send it back", left)


def _loan(kept: OwnedPiece, as_of: dt.date) -> Iterator[Due]:
    if kept.status not in AWAY:
        return
    out = next((one for one in reversed(kept.events) if one.sort == kept.status), None)
    if out is None or out.until is None:
        yield Due("loan", None, "away without a return date", 0)
    else:
        left = (out.until - as_of).days
        yield Due("loan", out.until, f"back from {out.to}", left)


def _origin(kept: OwnedPiece, knowledge: Knowledge) -> Iterator[Due]:
    if not kept.provenance.strip() and stops(kept, knowledge):
        yield Due("origin", None, "ask where it came from, and record the answer", 0)


def _look(kept: OwnedPiece, knowledge: Knowledge, as_of: dt.date) -> Iterator[Due]:
    found = interval(kept, knowledge)
    if found is None:
        return
    last = kept.last_look
    if last is None:
        yield Due("look", None, "first condition check due", 0)
        return
    day = months_on(last.day, found[0])
    yield Due("look", day, "condition check due", (day - as_of).days)


def patients(kept: OwnedPiece, knowledge: Knowledge) -> tuple[Patient, ...]:
    """Damage for a conservator, what is at work on the piece first."""
    urgent = [row for row in knowledge.care.values() if row.topic == "urgent"]
    out = []
    for check, defect, step in _damage(kept.last_look, knowledge):
        place = next((n for n, row in enumerate(urgent) if check.id in row.damage), len(urgent))
        active = defect.stability[step] == "active"
        if active or (place < len(urgent) and defect.stability[step] != "stable"):
            why = urgent[place].text if place < len(urgent) else "Active: it will get worse."
            out.append(Patient(place, check, defect, step, why, active))
    return tuple(sorted(out, key=lambda one: (not one.active, one.rank, -one.step)))


def stops(kept: OwnedPiece, knowledge: Knowledge) -> tuple[Caution, ...]:
    """What says to stop and ask where a piece came from: the answers that call for due diligence.

    The piece file is read only where it names one of those questions.
    """
    row = knowledge.cautions.get(DILIGENCE)
    if row is None or not any(check in kept.piece for check in row.when):
        return ()
    from appraise.records.piece_file import parse_piece  # 10 ms with yaml

    piece = parse_piece(kept.piece, kept.title, knowledge)
    calls = any(piece.found(check) in answers for check, answers in row.when.items())
    return (row,) if calls else ()


def drift(before: ConditionCheck, after: ConditionCheck) -> tuple[Worse, ...]:
    """What became worse, or is new, between two looks; what was only not looked for is told apart.

    A fault that nobody had looked for before may have been there: its `before` is None.
    """
    both = ((name, before.steps.get(name), step) for name, step in after.steps.items())
    return tuple(Worse(name, was, step) for name, was, step in both if step > (was or 0))


def not_looked_for_again(before: ConditionCheck, after: ConditionCheck) -> tuple[Worse, ...]:
    """Faults of an earlier look that the later one says nothing of."""
    return tuple(
        Worse(name, step, None)
        for name, step in before.steps.items()
        if step > 0 and name not in after.steps
    )


def unfit(place: str, knowledge: Knowledge) -> tuple[Never, ...]:
    """The rows of `never:` that a place names, as a cellar, a window sill or a cold store does."""
    return tuple(row for row in knowledge.never.values() if place and row.named_in(place))


def unfit_words(row: Never) -> str:
    """Why a place is unfit, and which is better."""
    return f"{row.why} Instead: {row.instead}"
