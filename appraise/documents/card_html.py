"""The pocket card as one HTML file to print: checks with drawings, and sizes at true scale."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from appraise.documents.card import CLOSED, sections
from appraise.documents.outlines import BAR, GROUPS, OutlineSheet, bar, drawn, sheets
from appraise.documents.own_rows import mark
from appraise.documents.words import kind_name
from appraise.knowledge.figures import names, source
from appraise.knowledge.records import Check, Knowledge

SAFE = "default-src 'none'; style-src 'unsafe-inline'"
HEADS = ("Look at these first", "Damage that costs most", "Prices follow these most")
PRINT = "Print at 100% (actual size). The bar has to measure {bar:g} mm; else the sizes are wrong."
LAY = "Lay the closed piece beside an outline. Never lay paper or a rule on a bare plate."
STYLE = """
@page { size: A4; margin: 12mm; }
@page large { size: A3; margin: 12mm; }
body { font: 10pt/1.35 sans-serif; color: #111; background: #fff; margin: 0 auto;
  max-width: 186mm; }
h1 { font-size: 15pt; margin: 0; } h2 { font-size: 11pt; margin: 4mm 0 1mm; }
p { margin: 1mm 0; } ul { list-style: none; margin: 0; padding: 0; columns: 2; column-gap: 8mm; }
li { break-inside: avoid; margin: 0 0 2mm; }
li::before { content: "\\25A1\\00A0"; } li.safety { font-weight: bold; }
figure { display: inline-block; width: 21mm; margin: 1mm 2mm 0 0; vertical-align: top; }
figure svg { width: 21mm; height: 14mm; display: block; }
figcaption { font-size: 7pt; line-height: 1.15; }
section.sheet { break-before: page; max-width: none; } section.A3 { page: large; width: 273mm; }
svg.outlines rect, svg.bar path { fill: none; stroke: #111; stroke-width: .25; }
svg.outlines text { font: 2.6px sans-serif; fill: #111; stroke: #fff; stroke-width: .7;
  paint-order: stroke; }
""".strip()


def card_html(knowledge: Knowledge, kind: str) -> str:
    """The whole card; it needs no network, no script and no other file."""
    title = f"{kind_name(kind).capitalize()}: what to check"
    lines = (
        "<!DOCTYPE html>",
        '<html lang="en-GB">',
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{SAFE}">',
        f"<title>{escape(title)}</title>",
        f"<style>\n{STYLE}\n</style>",
        "</head>",
        "<body>",
        f"<h1>{escape(title)}</h1>",
        f"<p><strong>{escape(CLOSED)}</strong></p>",
        *_checks(knowledge, kind),
        *(line for one in sheets(knowledge) for line in _sheet(one)),
        "</body>",
        "</html>",
    )
    return "\n".join(lines) + "\n"


def _checks(knowledge: Knowledge, kind: str) -> Iterator[str]:
    known = frozenset(names())
    for head, checks in zip(HEADS, sections(knowledge, kind), strict=True):
        if not checks:
            continue
        yield f"<h2>{escape(head)}</h2>"
        yield "<ul>"
        for check in checks:
            safety = ' class="safety"' if check.safety else ""
            yield f"<li{safety}>{escape(check.ask + mark(knowledge, check.id))}"
            yield from _figures(check, known)
            yield "</li>"
        yield "</ul>"


def _figures(check: Check, known: frozenset[str]) -> Iterator[str]:
    """How to look, and each answer that can be drawn."""
    for name, says in (("", ""), *((one.figure, one.says) for one in check.answers)):
        figure, told = (check.figure, "how to look") if not name and not says else (name, says)
        if figure in known:
            yield f"<figure>{source(figure)}<figcaption>{escape(told)}</figcaption></figure>"


def _sheet(sheet: OutlineSheet) -> Iterator[str]:
    yield f'<section class="sheet {sheet.paper}">'
    yield f"<h2>{escape(GROUPS[sheet.group])}, {sheet.paper} paper, sizes in mm</h2>"
    yield f"<p>{bar()} {escape(PRINT.format(bar=BAR))} {escape(LAY)}</p>"
    yield from drawn(sheet)
    yield "</section>"
