"""A chart as an inline SVG picture; its colours come from the style sheet of the page."""

from collections.abc import Iterator
from html import escape

from appraise.base.oneline import plain
from appraise.documents.chart import Bar, Chart

WIDTH, EDGE = 380, 5  # units of the picture; one is about a pixel of a wide page
ROW, BAR = 36, 11
LONG = 120  # units of the longest bar of a table
BASE = 27  # from the top of a row to the foot of its bar
FOOT = 24
TOP = 18  # room above the rows for what the line across is called
LETTERS = 56  # of a label that fits a row


def svg(chart: Chart, name: str) -> str:
    """The picture with its title and description for who cannot see it.

    `name`: a word that no other picture of the page bears.
    """
    top = TOP if chart.line else 0
    low = top + ROW * len(chart.bars) + 6
    parts = [
        f'<svg viewBox="0 0 {WIDTH} {low + FOOT}" role="img" '
        f'aria-labelledby="{name}-title {name}-says">',
        f'<title id="{name}-title">{escape(plain(chart.title))}</title>',
        f'<desc id="{name}-says">{escape(plain(chart.says))}</desc>',
        *_ground(chart, top, low),
        *_line(chart, low),
        *(part for n, bar in enumerate(chart.bars) for part in _row(chart, bar, top + ROW * n)),
        "</svg>",
    ]
    return "\n".join(parts)


def _x(share: float) -> str:
    return f"{EDGE + share * (WIDTH - 2 * EDGE):.1f}"


def _ground(chart: Chart, top: int, low: int) -> Iterator[str]:
    """What lies behind the rows: the stretch they add up to, and the axis."""
    for bar in chart.bars:
        if bar.strong and bar.outer is not None:
            start, end = (float(_x(share)) for share in chart.stretch(bar.outer))
            yield (
                f'<rect class="band" x="{start:.1f}" y="{top}" width="{end - start:.1f}" '
                f'height="{low - top}"/>'
            )
    for value in chart.ticks:
        x = _x(chart.place(value))
        yield f'<line class="grid" x1="{x}" y1="{top}" x2="{x}" y2="{low}"/>'
        anchor = "start" if float(x) < 20 else "end" if float(x) > WIDTH - 20 else "middle"
        x = "0" if anchor == "start" else str(WIDTH) if anchor == "end" else x
        yield f'<text class="axis" x="{x}" y="{low + 15}" text-anchor="{anchor}">{value:g}</text>'


def _row(chart: Chart, bar: Bar, top: int) -> Iterator[str]:
    label = plain(f"{bar.label}: {bar.note}" if bar.note else bar.label)
    label = label if len(label) <= LETTERS else f"{label[: LETTERS - 1].rstrip()}…"
    yield f'<text x="0" y="{top + 12}">{escape(label)}</text>'
    foot = top + BASE
    kind = "sum" if bar.strong else "open" if bar.open else "span"
    if bar.outer is not None:
        a, d = (_x(share) for share in chart.stretch(bar.outer))
        b, c = (_x(share) for share in chart.stretch(bar.inner or bar.outer))
        head = foot - BAR
        yield f'<polygon class="{kind}" points="{a},{foot} {b},{head} {c},{head} {d},{foot}"/>'
    if bar.point is not None:
        yield _point(chart, bar, foot)


def _point(chart: Chart, bar: Bar, foot: int) -> str:
    """The middle of a span, or a dot by itself."""
    if bar.outer is None:
        x = _x(chart.place(bar.point or 0.0))
        return f'<circle class="mark" cx="{x}" cy="{foot - BAR / 2:g}" r="4.5"/>'
    middle = (bar.point or 0.0) + (0.5 if chart.scale == "years" else 0.0)
    x = _x(chart.place(middle))
    return f'<line class="middle" x1="{x}" y1="{foot - BAR}" x2="{x}" y2="{foot}"/>'


def _line(chart: Chart, low: int) -> Iterator[str]:
    """The line across, and what it is."""
    if chart.line is None:
        return
    value, says = chart.line
    share = chart.place(value)
    x, anchor = _x(share), "start" if share < 0.3 else "end" if share > 0.7 else "middle"
    yield f'<line class="asked" x1="{x}" y1="{TOP - 4}" x2="{x}" y2="{low}"/>'
    yield f'<text class="told" x="{x}" y="{TOP - 7}" text-anchor="{anchor}">{escape(says)}</text>'


def bar(share: float, mark: float | None) -> str:
    """A bar of a share of its length, with a mark where it should end; the row tells its figures.

    `share`: 0 to 1; what lies beyond is drawn at the end.
    """
    width = min(1.0, max(0.0, share)) * LONG
    x = f"{(mark or 0.0) * LONG:.1f}"
    line = f'<line class="asked" x1="{x}" y1="0" x2="{x}" y2="{BAR}"/>' if mark is not None else ""
    return (
        f'<svg class="row" viewBox="0 0 {LONG} {BAR}" aria-hidden="true">'
        f'<rect class="span" width="{width:.1f}" height="{BAR}"/>{line}</svg>'
    )
