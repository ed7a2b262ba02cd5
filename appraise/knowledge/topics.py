"""Rows other than checks: sources, parts, formats, offsets, cautions, care, the record."""

from collections.abc import Container

from appraise.base.yamls import Row
from appraise.knowledge.basis import read_basis, read_years
from appraise.knowledge.checks import STABILITY
from appraise.knowledge.citing import Keys
from appraise.knowledge.records import (
    CARE_TOPICS,
    CHANNELS,
    RECORD_FIELDS,
    RECORD_PARTS,
    Care,
    Category,
    Caution,
    Format,
    Never,
    Offset,
    PartRow,
    Plain,
    Ratios,
    Source,
    Span,
)

SIDES = ("image", "package", "housing", "piece")


def read_source(row: Row, key: str) -> Source:
    """A row of `sources:`; `formerly` holds the keys of the past that now mean it."""
    source = Source(
        key,
        row.text("title"),
        row.text("body"),
        row.text("year", "n.d."),
        row.text("address", ""),
        row.words("formerly", ()),
    )
    row.done()
    return source


def read_part(row: Row, key: str) -> PartRow:
    """A row of `parts:`."""
    part = PartRow(key, row.text("name"), row.choice("side", SIDES), row.flag("empty"))
    row.done()
    return part


def read_format(row: Row, key: str, sources: Keys) -> Format:
    """A row of `formats:`; `size` is one or several 'width x height' in mm, portrait way up."""
    sizes = []
    for text in row.texts("size"):
        try:
            width, height = (float(part) for part in text.lower().split("x"))
        except ValueError:
            raise row.error("size", f"'{text}' is not width x height in mm") from None
        sizes.append((min(width, height), max(width, height)))
    regions = row.row("regions") if "regions" in row else None
    form = Format(
        id=key,
        name=row.text("name"),
        sizes=tuple(sizes),
        tolerance=row.number("tolerance", low=0.1, high=50),
        kinds=row.words("kinds"),
        share=row.number("share", low=0, high=1),
        basis=read_basis(row, sources),
        regions={name: regions.number(name, low=0, high=1) for name in regions} if regions else {},
        form=row.text("form", ""),
        years=read_years(row),
        named=row.number("named", 0.9, 0.5, 0.999),
    )
    if form.form and form.years:
        raise row.error("years", "a format has a 'form' or 'years' of its own, not both")
    row.done()
    return form


def read_offset(row: Row, key: str, sources: Keys) -> Offset:
    """A row of `offsets:`: what a measurement adds to the nominal size, in mm."""
    add = row.numbers("add", -300, 300)
    if len(add) != 2:
        raise row.error("add", "two numbers are needed: width and height")
    offset = Offset(
        row.text("what", key.split("-")[0]),
        (add[0], add[1]),
        row.number("spread", low=0.1, high=200),
        read_basis(row, sources),
        row.text("material", ""),
        _by_format(row, row.number("spread", low=0.1, high=200)),
        _instead(row),
        row.number("usual", 0.0, 0, 1),
    )
    row.done()
    return offset


def _by_format(row: Row, spread: float) -> dict[str, tuple[float, float, float]]:
    """`formats` of an offset: width and height by format, and a spread where it differs."""
    if "formats" not in row:
        return {}
    inner, found = row.row("formats"), {}
    for name in inner:
        numbers = inner.numbers(name, -300, 300)
        if len(numbers) not in (2, 3) or (len(numbers) == 3 and numbers[2] <= 0):
            raise inner.error(name, "two or three numbers are needed: width, height, spread")
        found[name] = (numbers[0], numbers[1], numbers[2] if len(numbers) == 3 else spread)
    return found


def _instead(row: Row) -> dict[str, float]:
    """`instead` of an offset: how often another thing was measured under its name."""
    if "instead" not in row:
        return {}
    inner = row.row("instead")
    found = {what: inner.number(what, low=0, high=1) for what in inner}
    if sum(found.values()) >= 1:
        raise row.error("instead", "what is measured instead must be less than all")
    return found


def read_caution(row: Row, key: str, sources: Keys) -> Caution:
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
        row.words("channels", ()),
    )
    for channel in caution.channels:
        if channel not in CHANNELS:
            mend = f"Known: {', '.join(CHANNELS)}."
            raise row.error("channels", f"'{channel}' is not a channel", mend)
    row.done()
    return caution


def read_never(row: Row, key: str, sources: Keys) -> Never:
    """A row of `never:`; `words` are how a person might name the test, in any capitals."""
    never = Never(
        key,
        row.text("says"),
        tuple(word.lower() for word in row.texts("words")),
        row.text("why"),
        row.text("instead"),
        read_basis(row, sources),
    )
    row.done()
    return never


def read_care(row: Row, key: str, sources: Keys) -> Care:
    """A row of `care:`; temperature in degrees Celsius, humidity and alarm in per cent."""
    care = Care(
        key,
        row.choice("topic", CARE_TOPICS, "storage"),
        row.text("text"),
        row.words("materials", ()),
        read_basis(row, sources),
        _span(row, "temperature", -40, 40),
        _span(row, "humidity", 0, 100),
        row.number("alarm", low=0, high=100) if "alarm" in row else None,
        _span(row, "lux", 0, 100_000),
        row.number("lux-hours", low=0) if "lux-hours" in row else None,
        int(row.number("months", low=1, high=120)) if "months" in row else None,
        row.choice("stability", ("", *STABILITY), ""),
        row.words("damage", ()),
        row.flag("apart"),
        int(row.number("rest", low=1, high=1200)) if "rest" in row else None,
    )
    row.done(("temperature", "humidity", "alarm", "lux", "lux-hours", "months", "rest"))
    return care


def _span(row: Row, key: str, low: float, high: float) -> Span | None:
    """A span: `humidity: 30 40`, one figure alone, or open: `from 30`, `to 35`; None if absent."""
    if key not in row:
        return None
    words = row.words(key)
    figures = []
    for word in words[1:] if words[:1] in (("from",), ("to",)) else words:
        try:
            figures.append(float(word))
        except ValueError:
            raise row.error(key, f"'{word}' is not a number") from None
    if len(figures) not in (1, 2) or not low <= figures[0] <= figures[-1] <= high:
        raise row.error(key, f"a lowest and a highest figure from {low:g} to {high:g} are needed")
    first = None if words[0] == "to" else figures[0]
    return first, None if words[0] == "from" else figures[-1]


def read_plain(row: Row, key: str, sources: Keys, known: Container[str]) -> Plain:
    """A row of `plain:`; its key is a process family or a housing, which are `known`."""
    if key not in known:
        raise row.error("", f"'{key}' is neither a process family nor a housing")
    plain = Plain(key, row.text("text"), read_basis(row, sources))
    row.done()
    return plain


def read_record(row: Row, key: str, sources: Keys) -> Category:
    """A row of `record:`; `checks` names checks, or a whole part with `case.*`."""
    category = Category(
        key,
        row.text("name"),
        row.choice("part", RECORD_PARTS),
        row.text("ask"),
        row.words("fields", ()),
        row.words("checks", ()),
        read_basis(row, sources),
    )
    for name in category.fields:
        if name not in RECORD_FIELDS:
            raise row.error(
                "fields",
                f"'{name}' is nothing that a piece tells",
                f"Known: {', '.join(RECORD_FIELDS)}.",
            )
    row.done()
    return category


def read_ratios(row: Row, key: str, sources: Keys) -> Ratios:
    """The single row of `ratios:`."""
    read_basis(row, sources)
    formats = row.row("formats")
    ratios = Ratios(
        {name: formats.number(name, low=0.01, high=100) for name in formats},
        row.number("asking", low=0.1, high=10),
        row.number("decorative", 0.0, low=0, high=1),
        row.number("far", Ratios().far, low=1.5, high=1000),
    )
    row.done()
    return ratios
