"""Piece files: YAML in and out, with every mistake placed by file, line and key."""

import datetime as dt
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from appraise.base.ages import parse_ages
from appraise.base.dates import Dating
from appraise.base.errors import placed
from appraise.base.measures import Measure
from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row, compose, read
from appraise.knowledge.basics import KNOWN, UNJUDGED
from appraise.knowledge.formerly import today
from appraise.knowledge.records import Knowledge
from appraise.records.fields import Field
from appraise.records.picture_file import PictureFile
from appraise.records.piece import (
    DEFAULT_KNOWN,
    MEASURED,
    UNTOLD,
    WRITTEN_ON,
    Finding,
    Image,
    Inscription,
    Origin,
    Piece,
)
from appraise.records.values import Author
from appraise.records.yaml_fields import document_of, values_in, yaml_text

VERSION = "1"
_NAMED = {each.name: each for each in Piece.FIELDS}
_FIRST = tuple(
    _NAMED[name]
    for name in (
        "title", "kind", "channel", "region", "asking", "shipping", "subject", "motif", "maker",
        "appeal", "format",
    )
)  # fmt: skip
_SECOND = (_NAMED["conserved"], _NAMED["portray"])
FIELDS_OF_PIECE = (*_FIRST, *_SECOND)
FIELDS_OF_ORIGIN = (Field("who"), Field("where"), Field("receipt"))


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
    by = Author("", dt.date.min, knowledge)
    told = {"channel": met, **values_in(row, FIELDS_OF_PIECE, by)}
    told["subjects"] = tuple(dict.fromkeys(told.get("subjects", ())))
    kind, usual = told.get("kind", "cased"), DEFAULT_KNOWN.get(told["channel"], "in-hand")
    writings = _inscriptions(row)
    piece = Piece(
        **told,
        measured=_measured(row),
        inscription=next(iter(writings), None),
        more_writing=writings[1:],
        sitter_age=_sitter(row),
        origin=_origin(row, by),
        not_shown=row.words("not_shown", ()),
        findings=_findings(row, knowledge, kind, usual),
        images=_images(row, knowledge, kind, usual),
        pictures=_pictures(row),
    )
    row.done()
    return piece


def _measured(row: Row) -> dict[str, Measure]:
    if "measured" not in row:
        return {}
    inner = row.row("measured")
    found = {}
    for what in inner:
        if what not in MEASURED:
            raise inner.error(what, f"'{what}' is not a measure", did_you_mean(what, MEASURED))
        with placed(inner.where(what)):
            found[what] = Measure.parse(inner.text(what))
    return found


def _inscriptions(row: Row) -> tuple[Inscription, ...]:
    """One inscription as a mapping, or several as a list of them."""
    if "inscription" not in row:
        return ()
    inner = row.rows("inscription") if row.is_list("inscription") else [row.row("inscription")]
    return tuple(_inscription(one) for one in inner)


def _inscription(inner: Row) -> Inscription:
    with placed(inner.where("date")):
        written = inner.text("date", "")
        found = Inscription(
            inner.text("text", ""),
            Dating.parse(written) if written else None,
            inner.choice("where", ("", *WRITTEN_ON), ""),
        )
    inner.done()
    return found


def _sitter(row: Row) -> tuple[int, int] | None:
    if "sitter" not in row:
        return None
    inner = row.row("sitter")
    with placed(inner.where("age")):
        ages = parse_ages(inner.text("age"))
    inner.done()
    return ages


def _origin(row: Row, by: Author) -> Origin | None:
    if "from" not in row:
        return None
    inner = row.row("from")
    found = Origin(**values_in(inner, FIELDS_OF_ORIGIN, by))
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


def _pictures(row: Row) -> tuple[PictureFile, ...]:
    pictures = []
    for one in row.rows("photos") if "photos" in row else ():
        with placed(one.where("sha256")):
            pictures.append(PictureFile(one.text("sha256"), one.text("name")))
        one.done()
    return tuple(pictures)


def write_piece(piece: Piece) -> str:
    """The piece as YAML text, in the order of the format; what is not known is left out."""
    return yaml_text({"piece": VERSION, **_document(piece)})


def _document(piece: Piece) -> dict[str, Any]:
    ages = dict.fromkeys(map(str, piece.sitter_age or ()))
    nested = {
        "inscription": _writings(piece),
        "sitter": {"age": "..".join(ages)} if ages else {},
        "from": document_of(piece.origin, FIELDS_OF_ORIGIN) if piece.origin else {},
        "not_shown": list(piece.not_shown),
        "findings": _written(piece.findings, piece.default_known),
        "images": [
            {"side": image.side, "findings": _written(image.findings, piece.default_known)}
            for image in piece.images
        ],
        "photos": [{"sha256": one.sha256, "name": one.name} for one in piece.pictures],
    }
    measured = {what: str(measure) for what, measure in piece.measured.items()}
    return {
        **document_of(piece, _FIRST),
        **({"measured": measured} if measured else {}),
        **document_of(piece, _SECOND),
        **{key: value for key, value in nested.items() if value},
    }


def _writings(piece: Piece) -> dict[str, str] | list[dict[str, str]]:
    """One as a mapping, several as a list."""
    found = []
    for one in piece.writings:
        told = {"text": one.text, "date": str(one.date or ""), "where": one.where}
        found.append({key: value for key, value in told.items() if value})
    return found if len(found) > 1 else next(iter(found), {})


def _written(findings: Mapping[str, Finding], usual: str) -> dict[str, Any]:
    return {name: _finding_document(one, usual) for name, one in findings.items()}


def _finding_document(finding: Finding, usual: str) -> Any:
    if finding.known == usual and not finding.admitted:
        return finding.answer
    full: dict[str, Any] = {"answer": finding.answer}
    if finding.known != usual and finding.known in KNOWN:
        full["known"] = finding.known
    if finding.admitted:
        full["admitted"] = "yes"
    return full
