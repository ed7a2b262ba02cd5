"""Piece files out: the YAML that `piece.files` reads back to the same piece."""

from typing import Any

import yaml

from appraise.knowledge.records import KNOWN
from appraise.records.piece import Finding, Piece
from appraise.records.piece_file import VERSION

_DUMPER: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)


def write_piece(piece: Piece) -> str:
    """The piece as YAML text, in the order of the format; what is not known is left out."""
    document = {"piece": VERSION, **piece_document(piece)}
    text: str = yaml.dump(document, Dumper=_DUMPER, sort_keys=False, allow_unicode=True, width=100)
    return text


def piece_document(piece: Piece) -> dict[str, Any]:
    """The keys and values of a piece file, without its version."""
    document = _frame(piece)
    if piece.findings:
        document["findings"] = {
            name: _finding(one, piece.default_known) for name, one in piece.findings.items()
        }
    if piece.images:
        document["images"] = [
            {
                "side": image.side,
                "findings": {
                    name: _finding(one, piece.default_known) for name, one in image.findings.items()
                },
            }
            for image in piece.images
        ]
    return document


def _frame(piece: Piece) -> dict[str, Any]:
    plain: dict[str, Any] = {
        "title": piece.title,
        "kind": piece.kind,
        "channel": piece.channel,
        "region": piece.region,
        "asking": str(piece.asking) if piece.asking else "",
        "shipping": "" if piece.shipping is None else str(piece.shipping),
        "subject": piece.subject if len(piece.subjects) == 1 else list(piece.subjects),
        "motif": piece.motif,
        "maker": piece.maker,
        "appeal": piece.appeal,
        "format": piece.named_format,
        "measured": {what: str(measure) for what, measure in piece.measured.items()},
        "conserved": "yes" if piece.conserved else "",
        "portray": piece.portray,
        "inscription": _inscription(piece),
        "sitter": _sitter(piece),
        "from": _origin(piece),
        "not_shown": list(piece.not_shown),
    }
    return {key: value for key, value in plain.items() if value not in ("", None, {}, [])}


def _inscription(piece: Piece) -> dict[str, str] | list[dict[str, str]]:
    """One as a mapping, several as a list."""
    found = [
        {
            key: value
            for key, value in (
                ("text", one.text),
                ("date", str(one.date) if one.date else ""),
                ("where", one.where),
            )
            if value
        }
        for one in piece.writings
    ]
    return found if len(found) > 1 else next(iter(found), {})


def _sitter(piece: Piece) -> dict[str, str]:
    if piece.sitter_age is None:
        return {}
    youngest, oldest = piece.sitter_age
    return {"age": str(youngest) if youngest == oldest else f"{youngest}..{oldest}"}


def _origin(piece: Piece) -> dict[str, str]:
    if piece.origin is None:
        return {}
    told = {
        "who": piece.origin.who,
        "where": piece.origin.where,
        "receipt": piece.origin.receipt,
    }
    return {key: value for key, value in told.items() if value}


def _finding(finding: Finding, usual: str) -> Any:
    if finding.known == usual and not finding.admitted:
        return finding.answer
    full: dict[str, Any] = {"answer": finding.answer}
    if finding.known != usual and finding.known in KNOWN:
        full["known"] = finding.known
    if finding.admitted:
        full["admitted"] = "yes"
    return full
