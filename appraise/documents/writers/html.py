"""A report as one HTML file that needs nothing else: no network, no script, no other file."""

from base64 import b64encode
from collections.abc import Iterator
from html import escape
from pathlib import Path

from appraise.base.errors import InputError
from appraise.base.oneline import plain
from appraise.documents.document import (
    Block,
    Bullets,
    Document,
    Fact,
    Facts,
    Paragraph,
    Photos,
    Picture,
    Section,
    Table,
)
from appraise.documents.photos import page_copy
from appraise.documents.writers.style import sheet
from appraise.documents.writers.svg import bar, svg

SAFE = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
"""What the page may load by Content Security Policy (W3C): nothing but its own style and photos."""

MOST = 12  # photos of a page

NARROW = 3  # columns that a table may have on a phone without being moved sideways


def html(document: Document) -> str:
    """The whole report as one page of HTML."""
    head = (
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{SAFE}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="color-scheme" content="light dark">',
        f"<title>{_text(': '.join(filter(None, (document.title, document.subtitle))))}</title>",
        f"<style>\n{sheet()}\n</style>",
    )
    purpose = _text(document.purpose)
    body = (
        "<header>",
        f'<p class="kind">{_about(document)}</p>',
        f"<h1>{_text(document.title)}</h1>",
        *([f'<p class="purpose">{purpose}</p>'] if document.reader else []),
        "</header>",
        "<main>",
        *(line for one in document.sections for line in _section(one)),
        "</main>",
        *([f"<footer><p>{purpose}</p></footer>"] if purpose else []),
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


def _about(document: Document) -> str:
    """What sort of document it is, and its day as one that a machine can read."""
    day = f'as of <time datetime="{document.as_of}">{document.as_of}</time>'
    return ", ".join(filter(None, (_text(document.subtitle), day if document.as_of else "")))


def _section(section: Section) -> Iterator[str]:
    if section.heading:
        yield f'<section aria-labelledby="{section.id}">'
        yield f'<h2 id="{section.id}">{_text(section.heading)}</h2>'
    else:
        yield "<section>"
    for place, block in enumerate(section.blocks):
        yield from _block(block, f"{section.id}-{place}")
    yield "</section>"


def _block(block: Block, name: str) -> Iterator[str]:
    match block:
        case Paragraph(says, "plain"):
            yield f"<p>{_text(says)}</p>"
        case Paragraph(says, tone):
            yield f'<p class="{tone}">{_text(says)}</p>'
        case Bullets(items, tone):
            yield "<ul>" if tone == "plain" else f'<ul class="{tone}">'
            yield from (f"<li>{_text(item)}</li>" for item in items)
            yield "</ul>"
        case Facts(rows):
            yield "<dl>"
            yield from map(_fact, rows)
            yield "</dl>"
        case Table():
            yield from _table(block)
        case Photos(files):
            yield '<div class="photos">'
            for number, file in enumerate(files[:MOST], start=1):
                yield _photo(file, f"Photo {number} of {len(files)}")
            yield "</div>"
        case Picture(chart, table, _):
            yield "<figure>"
            yield svg(chart, name)
            yield f"<figcaption>{_text(chart.says)}</figcaption>"
            yield "</figure>"
            yield from _table(table)


def _photo(file: Path, says: str) -> str:
    """A copy of a photo, held by the page itself."""
    try:
        data = b64encode(page_copy(file)).decode("ascii")
    except InputError as error:
        return f'<p class="quiet">{_text(says)}: {_text(error.what)}.</p>'
    image = f'<img alt="{_text(says)}" src="data:image/jpeg;base64,{data}">'
    return f"<figure>{image}<figcaption>{_text(says)}</figcaption></figure>"


def _fact(one: Fact) -> str:
    told = "".join(f"<dd>{_text(says)}</dd>" for says in one.says)
    kind = f' class="{one.tone}"' if one.tone in ("warn", "doubt") else ""
    return f"<div{kind}><dt>{_text(one.label)}</dt>{told}</div>"


def _table(table: Table) -> Iterator[str]:
    caption = _text(table.caption)
    # A table that is wider than the page is moved sideways, by the keyboard too.
    yield f'<div class="scroll" tabindex="0" role="group" aria-label="{caption or "table"}">'
    wide = ' class="wide"' if len(table.head) > NARROW else ""
    yield f"<table{wide}>{f'<caption>{caption}</caption>' if caption else ''}"
    if table.head:
        head = (_cell("th", cell, n in table.figures) for n, cell in enumerate(table.head))
        bars = '<th scope="col"></th>' if table.bars else ""
        yield f"<thead><tr>{''.join(head)}{bars}</tr></thead>"
    yield "<tbody>"
    for place, row in enumerate(table.rows):
        cells = (_cell("td", cell, n in table.figures) for n, cell in enumerate(row))
        strong = ' class="total"' if place == table.strong else ""
        yield f"<tr{strong}>{''.join(cells)}{_bar(table, place)}</tr>"
    yield "</tbody></table></div>"


def _bar(table: Table, place: int) -> str:
    """The bar at the end of a row; its figures stand in the row, so it is told to nobody twice."""
    if not table.bars:
        return ""
    mark = table.marks[place] if table.marks else None
    return f"<td>{bar(table.bars[place], mark)}</td>"


def _cell(tag: str, says: str, figure: bool) -> str:
    scope = ' scope="col"' if tag == "th" else ""
    kind = ' class="figure"' if figure else ""
    return f"<{tag}{scope}{kind}>{_text(says)}</{tag}>"
