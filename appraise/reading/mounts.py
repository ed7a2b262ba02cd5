"""What the size of a card's mount says of its years.

A mount that measures as a carte has the years of a carte, as it has when somebody answers so. The
likelihood is the mean of the formats' lines over the years, each brought to a mean of 1 under the
prior, weighed by P(format | measures); a format that has no years says nothing.
"""

from dataclasses import dataclass
from functools import lru_cache

from appraise.knowledge.crossing import MOUNT_FORM, trapezoid
from appraise.knowledge.records import Format, Knowledge, Years
from appraise.piece.records import UNTOLD, Finding, Piece
from appraise.reading.evidence import Evidence
from appraise.reading.factors import Dated, answer_years
from appraise.reading.formats import FormatReading, read_formats
from appraise.reading.frame import SPAN, Frame, Vector, frame_for, relative

KNOWN, SORT = "in-hand", "form"  # a ruler is believed as something that one sees in hand
LEAST = 1e-4  # chances below it are left out of the line


@dataclass(frozen=True, slots=True)
class MountForm:
    """A card's form as its size tells it.

    Attributes:
        part: The part that it dates, as the check does.
        form: The likeliest format.
        chance: P(that format).
        says: It in words, for the timeline.
        line: Relative likelihood over `YEARS`.
        years: The four years of that format, or None.
    """

    part: str
    form: str
    chance: float
    says: str
    line: Vector
    years: Years | None


def mount_years(piece: Piece, knowledge: Knowledge) -> Vector | None:
    """Relative likelihood over `YEARS` of a card's measured or named format.

    None for another kind of piece, where nothing that dates was measured or named, and where the
    form was answered, since then the answer says it.
    """
    found = mount_form(piece, knowledge)
    return found.line if found else None


def mount_form(
    piece: Piece, knowledge: Knowledge, formats: FormatReading | None = None
) -> MountForm | None:
    """The same with the form that it comes from; `formats` spares reading the sizes again."""
    check = knowledge.checks.get(MOUNT_FORM)
    if check is None or piece.kind not in check.kinds:
        return None
    if piece.found(MOUNT_FORM) not in ("", UNTOLD):
        return None
    told = formats or read_formats(piece, knowledge)
    if not told.best:
        return None
    lines = _lines(knowledge, frame_for(piece, knowledge))
    line = [0.0] * SPAN
    for name, chance in told.probabilities.items():
        if chance >= LEAST:
            weighed = zip(line, lines[name], strict=True)
            line = [total + chance * value for total, value in weighed]
    belief = knowledge.weights.reliability[KNOWN][SORT]
    best = knowledge.formats[told.best]
    return MountForm(
        part=check.part,
        form=best.id,
        chance=told.probabilities[best.id],
        says=f"{best.name}, by its size",
        line=tuple([belief * value + 1 - belief for value in line]),
        years=_four(best, piece, knowledge),
    )


def mount_dated(found: MountForm | None, knowledge: Knowledge) -> Dated | None:
    """It as a dated finding, as if the form had been answered; it counts where the check does."""
    if found is None:
        return None
    check, form = knowledge.checks[MOUNT_FORM], knowledge.formats[found.form].form
    place = max(0, check.index(form))
    finding = Finding(MOUNT_FORM, check.answers[place].id, KNOWN)
    return Dated(Evidence(check, place, finding, found.chance), found.line)


@lru_cache(maxsize=16)
def _lines(knowledge: Knowledge, frame: Frame) -> dict[str, Vector]:
    """The years over `YEARS` of each format of a kind, with a mean of 1 under the prior."""
    check, region = knowledge.checks[MOUNT_FORM], frame.region
    found = {}
    for form in knowledge.formats.values():
        if frame.kind in form.kinds:
            line = (
                answer_years(check, check.index(form.form), frame, region)
                if form.form
                else trapezoid(form.years, region, frame.weights)
            )
            found[form.id] = relative(frame.years, line)
    return found


def _four(form: Format, piece: Piece, knowledge: Knowledge) -> Years | None:
    """A format's four years in the region of a piece, or None."""
    check = knowledge.checks[MOUNT_FORM]
    years = check.answers[check.index(form.form)].years if form.form else form.years
    return years.get(piece.region) or years.get("") or next(iter(years.values()), None)
