"""A report as one HTML file that needs nothing else: no network, no script, no other file."""

from collections.abc import Iterator
from html import escape

from appraise.base.oneline import plain
from appraise.documents.reader.document import (
    Block,
    Bullets,
    Document,
    Facts,
    Paragraph,
    Picture,
    Section,
    Table,
)
from appraise.documents.reader.style import sheet
from appraise.documents.reader.svg import svg

SAFE = "default-src 'none'; style-src 'unsafe-inline'"
"""What the page may load by Content Security Policy (W3C): nothing but its own style."""

NARROW = 3  # columns that a table may have on a phone without being moved sideways


def html(document: Document) -> str:
    """The whole report as one page of HTML."""
    head = (
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{SAFE}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="color-scheme" content="light dark">',
        f"<title>{_text(document.title)}: {_text(document.subtitle)}</title>",
        f"<style>\n{sheet()}\n</style>",
    )
    purpose = _text(document.purpose)
    body = (
        "<header>",
        f'<p class="kind">{_text(document.subtitle)}, as of '
        f'<time datetime="{document.as_of}">{document.as_of}</time></p>',
        f"<h1>{_text(document.title)}</h1>",
        f'<p class="purpose">{purpose}</p>',
        "</header>",
        "<main>",
        *(line for one in document.sections for line in _section(one)),
        "</main>",
        f"<footer><p>{purpose}</p></footer>",
    )
    lines = (
        "<!DOCTYPE html>",
        f'<html lang="{document.language}">',
        *("<head>", *head, "</head>"),
        *("<body>", *body, "</body>"),
        "</html>",
    )
    return "\n".join(lines) + "\n"


def _text(says: str) -> str:
    """A text as HTML shows it, wherever it stands."""
    return escape(plain(says), quote=True)


def _section(section: Section) -> Iterator[str]:
    yield f'<section aria-labelledby="{section.id}">'
    yield f'<h2 id="{section.id}">{_text(section.heading)}</h2>'
    for place, block in enumerate(section.blocks):
        yield from _block(block, f"{section.id}-{place}")
    yield "</section>"


def _block(block: Block, name: str) -> Iterator[str]:
    match block:
        case Paragraph(says, "plain"):
            yield f"<p>{_text(says)}</p>"
        case Paragraph(says, role):
            yield f'<p class="{role}">{_text(says)}</p>'
        case Bullets(items):
            yield "<ul>"
            yield from (f"<li>{_text(item)}</li>" for item in items)
            yield "</ul>"
        case Facts(rows):
            yield "<dl>"
            yield from (_fact(*row) for row in rows)
            yield "</dl>"
        case Table():
            yield from _table(block)
        case Picture(chart, table, _):
            yield "<figure>"
            yield svg(chart, name)
            yield f"<figcaption>{_text(chart.says)}</figcaption>"
            yield "</figure>"
            yield from _table(table)


def _fact(name: str, says: tuple[str, ...]) -> str:
    told = "".join(f"<dd>{_text(one)}</dd>" for one in says)
    return f"<div><dt>{_text(name)}</dt>{told}</div>"


def _table(table: Table) -> Iterator[str]:
    caption = _text(table.caption)
    # A table that is wider than the page is moved sideways, by the keyboard too.
    yield f'<div class="scroll" tabindex="0" role="group" aria-label="{caption}">'
    wide = ' class="wide"' if len(table.head) > NARROW else ""
    yield f"<table{wide}><caption>{caption}</caption>"
    head = (_cell("th", cell, n in table.figures) for n, cell in enumerate(table.head))
    yield f"<thead><tr>{''.join(head)}</tr></thead>"
    yield "<tbody>"
    for row in table.rows:
        cells = (_cell("td", cell, n in table.figures) for n, cell in enumerate(row))
        yield f"<tr>{''.join(cells)}</tr>"
    yield "</tbody></table></div>"


def _cell(tag: str, says: str, figure: bool) -> str:
    scope = ' scope="col"' if tag == "th" else ""
    kind = ' class="figure"' if figure else ""
    return f"<{tag}{scope}{kind}>{_text(says)}</{tag}>"
