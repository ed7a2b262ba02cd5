"""The forms in which a document is written: text, Markdown, HTML, and JSON."""

from collections.abc import Callable, Mapping
from dataclasses import asdict
from typing import Any

from appraise.base.jsonvalues import picked
from appraise.documents.document import (
    Block,
    Bullets,
    Document,
    Facts,
    Paragraph,
    Photos,
    Picture,
    Table,
)
from appraise.documents.writers.html import html
from appraise.documents.writers.lines import text
from appraise.documents.writers.markdown import markdown

FORMS: Mapping[str, Callable[[Document], str]] = {
    "text": text,
    "markdown": markdown,
    "html": html,
}


def report_json(document: Document) -> dict[str, Any]:
    """A report as plain JSON values, schema "appraise.report/1"."""
    return {
        "schema": "appraise.report/1",
        "for": document.reader,
        **picked(document, "as_of title subtitle purpose"),
        "sections": [
            picked(one, "id heading") | {"blocks": [_block(block) for block in one.blocks]}
            for one in document.sections
        ],
    }


def _block(block: Block) -> dict[str, Any]:
    match block:
        case Paragraph(says, tone):
            return {"block": "paragraph", "text": says, "role": tone}
        case Bullets(items):
            return {"block": "bullets", "items": items}
        case Facts(rows):
            return {"block": "facts", "rows": [(one.label, one.says) for one in rows]}
        case Table():
            return {"block": "table", **asdict(block)}
        case Photos(files):
            return {"block": "photos", "many": len(files)}
        case Picture():
            return {"block": "picture", **asdict(block)}
