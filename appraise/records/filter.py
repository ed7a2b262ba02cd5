"""The filter line over records: words, field=value and ranges.

girl vine                 both words, anywhere in a record
"brass mat"               the words as they stand
process=amb,tin           any of these, from their beginning; a colon does as well
price=20-50  date=2019..2021-06  appeal=4..
housing=?                 not recorded
-soldier  -venue=fair     not that
"""

import re
from collections.abc import Iterable, Sequence

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError, placed
from appraise.base.oneline import folded
from appraise.base.spelling import did_you_mean
from appraise.records.fields import Record, typed_fields

_TERM = re.compile(
    r'(?P<minus>-)?(?:(?P<field>[A-Za-z_.]+)[:=])?(?:"(?P<quoted>[^"]*)"?|(?P<bare>\S*))'
)
NOTHING = "?"


@dataclass(frozen=True, slots=True)
class FilterTerm:
    """One condition of a filter.

    Attributes:
        field: A field's name; empty for a word that may stand anywhere.
        value: What was written after the sign, or the word, folded.
        negated: Whether it must not hold.
    """

    field: str
    value: str
    negated: bool = False


def terms(text: str, fields: Iterable[str]) -> tuple[FilterTerm, ...]:
    """Take a filter line apart.

    Raises:
        InputError: when a field is not among those known.
    """
    out, known = [], tuple(fields)
    text = text.encode(errors="ignore").decode()  # a shell may hand on bytes that are no text
    for match in _TERM.finditer(text):
        field = (match["field"] or "").lower()
        value = folded(match["quoted"] if match["quoted"] is not None else match["bare"])
        if field and field not in known:
            raise InputError(f"the filter has no field '{field}'", mend=did_you_mean(field, known))
        if value:
            out.append(FilterTerm(field, value, match["minus"] is not None))
    return tuple(out)


def written(conditions: Sequence[FilterTerm]) -> str:
    """The filter line that says these terms."""
    return " ".join(_written(term) for term in conditions)


def _written(term: FilterTerm) -> str:
    field = f"{term.field}:" if term.field else ""
    value = f'"{term.value}"' if re.search("[ :=]", term.value) else term.value
    return f"{'-' * term.negated}{field}{value}"


def fits(thing: Record, term: FilterTerm) -> bool:
    """Whether a record fits one condition on its fields, or has a word anywhere in them.

    Raises:
        InputError: when a year, an amount or an answer cannot be understood.
    """
    known = typed_fields(type(thing))
    if not term.field:
        words = folded(" ".join(each.text(thing) for each in known.values()))
        return (term.value in words) != term.negated
    field = known[term.field]
    if term.value == NOTHING:
        return field.told(thing) == term.negated
    with placed(term.field):
        found = field.kind.fits(field.value(thing), term.value)
    return found != term.negated
