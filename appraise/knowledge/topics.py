"""Rows other than checks: sources, parts, processes, housings, formats, offsets, cautions."""

from appraise.base.yamls import Row
from appraise.knowledge.basis import read_basis, read_years
from appraise.knowledge.records import (
    KINDS,
    Caution,
    Format,
    Housing,
    Offset,
    Part,
    Process,
    Ratios,
    Source,
)

SIDES = ("image", "package", "housing", "piece")


def read_source(row: Row, key: str) -> Source:
    """A row of `sources:`."""
    source = Source(
        key, row.text("title"), row.text("body"), row.text("year", "n.d."), row.text("address", "")
    )
    row.done()
    return source


def read_part(row: Row, key: str) -> Part:
    """A row of `parts:`."""
    part = Part(key, row.text("name"), row.choice("side", SIDES))
    row.done()
    return part


def read_process(row: Row, key: str, sources: frozenset[str]) -> Process:
    """A row of `processes:`: `share` by kind, `years` by region, chance of a modern picture."""
    shares = row.row("share")
    process = Process(
        id=key,
        name=row.text("name"),
        family=row.text("family", key),
        shares={kind: shares.number(kind, low=0, high=1) for kind in shares},
        years=read_years(row),
        modern_image=row.number("modern-image", 0.02, 0, 0.999),
        basis=read_basis(row, sources),
    )
    for kind in process.shares:
        if kind not in KINDS:
            raise shares.error(kind, f"'{kind}' is no kind of piece", f"Known: {', '.join(KINDS)}.")
    row.done()
    return process


def read_housing(row: Row, key: str, sources: frozenset[str]) -> Housing:
    """A row of `housings:`."""
    married = row.row("married")
    worth = row.row("worth")
    housing = Housing(
        id=key,
        name=row.text("name"),
        share=row.number("share", low=0, high=1),
        years=read_years(row),
        married={word: married.number(word, low=0, high=1) for word in married},
        before=_range(row, "before"),
        modern_case=row.number("modern-case", low=0, high=0.999),
        image=worth.number("image", low=0, high=1),
        case=worth.number("housing", low=0, high=1),
        bond=worth.number("bond", low=0, high=1),
        basis=read_basis(row, sources),
    )
    if "any" not in housing.married:
        raise row.error("married", "'any' is missing")
    if abs(housing.image + housing.case + housing.bond - 1) > 1e-6:
        raise row.error("worth", "image, housing and bond must sum to 1")
    worth.done()
    row.done()
    return housing


def _range(row: Row, key: str) -> tuple[float, float]:
    values = row.numbers(key, 0, 1)
    if len(values) != 2 or values[0] > values[1]:
        raise row.error(key, "two numbers in order are wanted")
    return values[0], values[1]


def read_format(row: Row, key: str, sources: frozenset[str]) -> Format:
    """A row of `formats:`; `size` is one or several 'width x height' in mm, portrait way up."""
    sizes = []
    for text in row.texts("size"):
        try:
            width, height = (float(part) for part in text.lower().split("x"))
        except ValueError:
            raise row.error("size", f"'{text}' is not width x height in mm") from None
        sizes.append((min(width, height), max(width, height)))
    form = Format(
        id=key,
        name=row.text("name"),
        sizes=tuple(sizes),
        tolerance=row.number("tolerance", low=0.1, high=50),
        kinds=row.words("kinds"),
        share=row.number("share", low=0, high=1),
        basis=read_basis(row, sources),
    )
    row.done()
    return form


def read_offset(row: Row, key: str, sources: frozenset[str]) -> Offset:
    """A row of `offsets:`: what a measurement adds to the nominal size, in mm."""
    add = row.numbers("add", -300, 300)
    if len(add) != 2:
        raise row.error("add", "two numbers are wanted: width and height")
    offset = Offset(
        row.text("what", key.split("-")[0]),
        (add[0], add[1]),
        row.number("spread", low=0.1, high=200),
        read_basis(row, sources),
        row.text("material", ""),
    )
    row.done()
    return offset


def read_caution(row: Row, key: str, sources: frozenset[str]) -> Caution:
    """A row of `cautions:`; a legal one needs the day on which it was checked."""
    when = {}
    if "when" in row:
        inner = row.row("when")
        when = {check: inner.words(check) for check in inner}
    law = row.flag("law")
    caution = Caution(
        key,
        row.text("text"),
        when,
        row.words("materials", ()),
        read_basis(row, sources),
        row.text("checked-on", "" if not law else None),
    )
    row.done()
    return caution


def read_ratios(row: Row, key: str, sources: frozenset[str]) -> Ratios:
    """The single row of `ratios:`."""
    read_basis(row, sources)
    formats = row.row("formats")
    ratios = Ratios(
        {name: formats.number(name, low=0.01, high=100) for name in formats},
        row.number("asking", low=0.1, high=10),
    )
    row.done()
    return ratios
