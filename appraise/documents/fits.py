"""What fits what, in words and as JSON."""

from collections.abc import Iterable
from typing import Any

from appraise.base.dates import years as edtf_years
from appraise.base.jsonvalues import picked
from appraise.collection.fits import Fit
from appraise.collection.sizing import UNKNOWN, Sizing
from appraise.reading.spans import Span

NARROW = 0.05  # mm that nobody measures
SIZE_SAYS = {
    "too small": "too small",
    "tight": "tight, perhaps too small",
    "fits": "fits by size",
    "loose": "loose, needs packing",
    "too large": "too large",
    UNKNOWN: "size not known: measure both",
}
YEARS_SAY = {
    "fits": "the years go together",
    "early": "early for the image",
    "late": "late for the image",
    "undated": "nothing dates it",
    "dates nothing": "not of the period: it dates nothing and must be disclosed",
}


def size_says(size: Sizing) -> str:
    """How a part and a plate go together by size, in a sentence with the mm."""
    if size.room is None:
        return SIZE_SAYS[size.word]
    told = f"{SIZE_SAYS[size.word]}: made for a plate {_room(size.room)}"
    by = "by format names only, so measure both"
    if size.by != ("format", "format"):
        by = f"{size.by[0]} against {size.by[1]}"
    return f"{told}, plus or minus {size.spread:.1f} mm ({by})"


def _room(room: tuple[float, float]) -> str:
    across, along = room
    if max(abs(across), abs(along)) < NARROW:
        return "of the same size"
    parts = [
        f"{abs(gap):.1f} mm {more if gap > 0 else less}"
        for gap, more, less in ((across, "wider", "narrower"), (along, "taller", "shorter"))
        if abs(gap) >= NARROW
    ]
    return " and ".join(parts)


def years_say(fit: Fit) -> str:
    """How their years go together, in a sentence with the years and the region."""
    years = fit.years
    told = YEARS_SAY[years.word]
    if years.part is not None:
        told += f": part {_span(years.part)}, image {_span(years.picture)}"
    region = {"same": "; the same region", "other": "; another region"}.get(years.region, "")
    return told + region


def _span(span: Span) -> str:
    return f"{span.first}-{span.last}"


def fit_lines(fits: Iterable[Fit], *, plates: bool) -> list[str]:
    """Three lines for each: what it is, its size, its years.

    `plates`: whether the plates are named, else the parts.
    """
    out = []
    for one in fits:
        name, record = (one.plate, one.plate_id) if plates else (one.part.title, one.part_id)
        out.append(f"{record[:8] or 'the file':<8}  {name}")
        out.append(f"          {size_says(one.size)}")
        out.append(f"          {years_say(one)}")
    return out


def fit_json(fit: Fit) -> dict[str, Any]:
    """One fit as JSON values; mm, and years as EDTF."""
    size, years = fit.size, fit.years
    return {
        "part": fit.part_id,
        "plate": fit.plate_id,
        "title": fit.part.title,
        "plate_title": fit.plate,
        "size": {
            **picked(size, "word by", chance=round(size.chance, 3), spread=round(size.spread, 1)),
            "room": [round(gap, 1) for gap in size.room] if size.room else None,
        },
        "years": {
            **picked(years, "word region", ratio=round(years.ratio, 2)),
            "part": edtf_years(years.part.first, years.part.last) if years.part else None,
            "picture": edtf_years(years.picture.first, years.picture.last),
        },
        "score": round(fit.score, 3),
    }
