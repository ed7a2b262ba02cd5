"""What a row rests on: every row names a source, or says practice, judgement or memory."""

from typing import get_args

from appraise.base.yamls import Row
from appraise.knowledge.citing import Keys
from appraise.knowledge.records import Basis, Mark, Years

MARKS: tuple[Mark, ...] = get_args(Mark)
CONFIDENCE = ("mark", "high", "medium", "low", "weak")


def read_basis(row: Row, sources: Keys, inherited: Basis | None = None) -> Basis:
    """The row's `source`, `basis`, `note` and `ref`; one of the first two is obligatory.

    Args:
        row: The row to read.
        sources: The keys that a row may cite.
        inherited: The enclosing row's basis, for rows within rows.

    Raises:
        InputError: when the row rests on nothing, or on a source that is not listed.
    """
    keys = sources.read(row)
    mark = row.choice("basis", MARKS, "source" if keys else "") if ("basis" in row or keys) else ""
    note, ref = row.text("note", ""), row.text("ref", "")
    if not mark:
        if inherited is None:
            raise row.error(
                "",
                "no 'source' and no 'basis'",
                "Name a source, or say practice, judgement or memory.",
            )
        return (
            inherited if not (note or ref) else Basis(inherited.mark, inherited.sources, note, ref)
        )
    return Basis(mark, keys, note, ref)  # type: ignore[arg-type]


def read_years(row: Row, key: str = "years", confidence: str = "") -> dict[str, Years]:
    """Four years, or four years by region: `years: 1840 1842 1850 1857` or `years: {us: ...}`.

    Each quadruple may end in its own confidence (high, medium, low, weak), else the row's holds.

    Raises:
        InputError: when they are not four whole years in order, or no confidence is given.
    """
    usual = confidence or row.text("confidence", "")
    if key not in row:
        return {}
    if not row.is_row(key):
        return {"": _quadruple(row, key, usual)}
    inner = row.row(key)
    return {region: _quadruple(inner, region, usual) for region in inner}


def _quadruple(row: Row, key: str, usual: str) -> Years:
    words = row.words(key)
    confidence = words[4] if len(words) == 5 else usual
    if confidence not in CONFIDENCE:
        raise row.error(key, f"confidence '{confidence}' is not high, medium, low or weak")
    try:
        years = [int(word) for word in words[:4]]
    except ValueError:
        years = []
    if len(years) != 4 or years != sorted(years) or not (1800 <= years[0] <= years[-1] <= 2100):
        raise row.error(key, "four years in order are needed: first, start, end, last")
    return Years(years[0], years[1], years[2], years[3], confidence)
