"""What the size of a card's mount says of its years.

A mount that measures as a carte has the years of a carte, as it has when somebody answers so. The
likelihood is the mean of the formats' lines over the years, each brought to a mean of 1 under the
prior, weighed by P(format | measures); a format that has no years says nothing.
"""

from functools import lru_cache

import numpy as np

from appraise.base.dataclass import dataclass
from appraise.knowledge.crossing import MOUNT_FORM, trapezoid
from appraise.knowledge.records import Format, Knowledge, Years
from appraise.reading.factors import answer_years
from appraise.reading.formats import FormatReading
from appraise.reading.frame import SPAN, Array, Frame, frame_for, mean_of
from appraise.records.piece import UNTOLD, Piece

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
    line: Array
    years: Years | None


def mount_form(piece: Piece, knowledge: Knowledge, formats: FormatReading) -> MountForm | None:
    """A card's form as measured or named, with what it says of the years.

    None for another kind of piece, where nothing that dates was measured or named, and where the
    form was answered, since then the answer says it.
    """
    check = knowledge.checks.get(MOUNT_FORM)
    if check is None or piece.kind not in check.kinds:
        return None
    if piece.found(MOUNT_FORM) not in ("", UNTOLD):
        return None
    if not formats.best:
        return None
    lines = _lines(knowledge, frame_for(piece, knowledge))
    line = np.zeros(SPAN)
    for name, chance in formats.probabilities.items():
        if chance >= LEAST:
            line = line + chance * lines[name]
    belief = knowledge.weights.reliability[KNOWN][SORT]
    best = knowledge.formats[formats.best]
    return MountForm(
        part=check.part,
        form=best.id,
        chance=formats.probabilities[best.id],
        says=f"{best.name}, by its size",
        line=belief * line + 1 - belief,
        years=_four(best, piece, knowledge),
    )


@lru_cache(maxsize=16)
def _lines(knowledge: Knowledge, frame: Frame) -> dict[str, Array]:
    """The years over `YEARS` of each format of a kind, with a mean of 1 under the prior."""
    check, region = knowledge.checks[MOUNT_FORM], frame.region
    found = {}
    for form in knowledge.formats.values():
        if frame.kind in form.kinds:
            line = (
                answer_years(frame, MOUNT_FORM)[check.index(form.form)]
                if form.form
                else np.array(trapezoid(form.years, region, frame.weights))
            )
            found[form.id] = line / mean_of(frame, line)
    return found


def _four(form: Format, piece: Piece, knowledge: Knowledge) -> Years | None:
    """A format's four years in the region of a piece, or None."""
    check = knowledge.checks[MOUNT_FORM]
    years = check.answers[check.index(form.form)].years if form.form else form.years
    return years.get(piece.region) or years.get("") or next(iter(years.values()), None)
