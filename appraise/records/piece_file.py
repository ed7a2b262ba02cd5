"""Piece files: YAML in and out, with every mistake placed by file, line and key."""

from pathlib import Path

from appraise.base.ages import parse_ages
from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.measures import Measure
from appraise.base.money import Money
from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row, compose, read
from appraise.knowledge.formerly import today
from appraise.knowledge.records import CHANNELS, KINDS, KNOWN, REGIONS, UNJUDGED, Knowledge
from appraise.records.piece import (
    DEFAULT_KNOWN,
    MEASURED,
    SUBJECTS,
    UNTOLD,
    WRITTEN_ON,
    Finding,
    Image,
    Inscription,
    Origin,
    Piece,
)

VERSION = "1"


def read_piece(path: Path, knowledge: Knowledge) -> Piece:
    """A piece from its file.

    Raises:
        InputError: one line with file, line, key and the nearest valid spelling.
    """
    return piece_of(read(path), knowledge)


def parse_piece(text: str, name: str, knowledge: Knowledge) -> Piece:
    """A piece from YAML text; `name` stands for the file in messages."""
    return piece_of(compose(text, name), knowledge)


def piece_of(row: Row, knowledge: Knowledge, met: str = "market") -> Piece:
    """A piece from the top mapping of its file; `met` is its channel where it names none."""
    version = row.text("piece", VERSION)
    if version != VERSION:
        raise row.error("piece", f"format '{version}' is not known", f"This tool writes {VERSION}.")
    channel = row.choice("channel", CHANNELS, met)
    kind = row.choice("kind", KINDS, "cased")
    usual = DEFAULT_KNOWN.get(channel, "in-hand")
    writings = _inscriptions(row)
    piece = Piece(
        title=row.text("title", ""),
        kind=kind,
        channel=channel,
        region=row.choice("region", (*REGIONS, "unknown"), "unknown"),
        asking=_money(row, "asking"),
        shipping=_money(row, "shipping"),
        subjects=_subjects(row),
        motif=row.text("motif", ""),
        maker=row.text("maker", ""),
        appeal=int(row.number("appeal", low=1, high=5)) if "appeal" in row else None,
        measured=_measured(row),
        conserved=row.flag("conserved"),
        portray=int(row.number("portray", low=1800, high=2100)) if "portray" in row else None,
        inscription=next(iter(writings), None),
        more_writing=writings[1:],
        sitter_age=_sitter(row),
        origin=_origin(row),
        not_shown=row.words("not_shown", ()),
        named_format=row.choice("format", ("", *knowledge.formats), ""),
        findings=_findings(row, knowledge, kind, usual),
        images=_images(row, knowledge, kind, usual),
    )
    row.done()
    return piece


def _subjects(row: Row) -> tuple[str, ...]:
    """One subject as a word, several as a list of them."""
    found = tuple(word for word in row.words("subject", ()) if word)
    for word in found:
        if word not in SUBJECTS:
            raise row.error("subject", f"'{word}' is not known here", did_you_mean(word, SUBJECTS))
    return tuple(dict.fromkeys(found))


def _placed(row: Row, key: str, error: InputError) -> InputError:
    return row.error(key, error.what, error.mend)


def _money(row: Row, key: str) -> Money | None:
    if key not in row:
        return None
    try:
        return Money.parse(row.text(key))
    except InputError as error:
        raise _placed(row, key, error) from None


def _measured(row: Row) -> dict[str, Measure]:
    if "measured" not in row:
        return {}
    inner = row.row("measured")
    found = {}
    for what in inner:
        if what not in MEASURED:
            raise inner.error(what, f"'{what}' is not a measure", did_you_mean(what, MEASURED))
        try:
            found[what] = Measure.parse(inner.text(what))
        except InputError as error:
            raise _placed(inner, what, error) from None
    return found


def _inscriptions(row: Row) -> tuple[Inscription, ...]:
    """One inscription as a mapping, or several as a list of them."""
    if "inscription" not in row:
        return ()
    inner = row.rows("inscription") if row.is_list("inscription") else [row.row("inscription")]
    return tuple(_inscription(one) for one in inner)


def _inscription(inner: Row) -> Inscription:
    try:
        written = inner.text("date", "")
        found = Inscription(
            inner.text("text", ""),
            Dating.parse(written) if written else None,
            inner.choice("where", ("", *WRITTEN_ON), ""),
        )
    except InputError as error:
        raise _placed(inner, "date", error) from None
    inner.done()
    return found


def _sitter(row: Row) -> tuple[int, int] | None:
    if "sitter" not in row:
        return None
    inner = row.row("sitter")
    try:
        ages = parse_ages(inner.text("age"))
    except InputError as error:
        raise _placed(inner, "age", error) from None
    inner.done()
    return ages


def _origin(row: Row) -> Origin | None:
    if "from" not in row:
        return None
    inner = row.row("from")
    found = Origin(inner.text("who", ""), inner.text("where", ""), inner.text("receipt", ""))
    inner.done()
    return found


def _findings(row: Row, knowledge: Knowledge, kind: str, usual: str) -> dict[str, Finding]:
    if "findings" not in row:
        return {}
    inner = row.row("findings")
    found: dict[str, Finding] = {}
    for name in inner:
        one = _finding(inner, name, knowledge, kind, usual)
        if one.check == name or one.check not in found:  # a finding under its own name counts
            found[one.check] = one
    return found


def on_record(kind: str, kinds: tuple[str, ...]) -> bool:
    """Whether a finding that is not asked of a kind is kept on its record, where it moves nothing.

    What is not judged keeps whatever was noted, and an empty case what was noted of a whole one.
    """
    return kind in UNJUDGED or (kind == "empty-case" and "cased" in kinds)


def _finding(row: Row, name: str, knowledge: Knowledge, kind: str, usual: str) -> Finding:
    """A finding, under the names of today where check or answer were renamed."""
    told, known, admitted = _told(row, name, usual)
    now, answer = today(knowledge.former, name, told).split(" ", 1)
    check = knowledge.checks.get(now)
    if check is None:
        raise row.error(name, f"'{name}' is not a check", did_you_mean(name, knowledge.checks))
    if kind not in check.kinds and not on_record(kind, check.kinds):
        raise row.error(name, f"'{name}' is not asked of a {kind} piece", "Remove it.")
    known_answers = [UNTOLD, *(one.id for one in check.answers)]
    if answer not in known_answers:
        mend = did_you_mean(answer, known_answers)
        raise row.error(name, f"'{answer}' is not an answer of {name}", mend)
    return Finding(now, answer, known, admitted)


def _told(row: Row, name: str, usual: str) -> tuple[str, str, bool]:
    """The answer as written, how it is known, and whether it was admitted."""
    if row.is_text(name):
        return row.text(name), usual, False
    inner = row.row(name)
    answer, known = inner.text("answer"), inner.choice("known", KNOWN, usual)
    admitted = inner.flag("admitted")
    inner.done()
    return answer, known, admitted


def _images(row: Row, knowledge: Knowledge, kind: str, usual: str) -> tuple[Image, ...]:
    if "images" not in row:
        return ()
    images = []
    for one in row.rows("images"):
        images.append(Image(one.text("side"), _findings(one, knowledge, kind, usual)))
        one.done()
    return tuple(images)
