"""The verdict panel: looked at rather than read, in a fixed geometry in which figures change."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from appraise.app.examine.purse import MONEY, PICTURE, money_lines, money_picture
from appraise.app.examine.shown import Shown
from appraise.app.lines import EMPTY, Line, clip, fold_to, length, line, words_of
from appraise.app.marks import DOUBT, ORDER, UNSEEN, WARN, Marks
from appraise.app.widgets.marked import PartMark, mark_row
from appraise.app.widgets.stacked import BarPart, stacked
from appraise.app.widgets.years import YearRow, year_lines
from appraise.base.dataclass import dataclass
from appraise.base.percents import percent
from appraise.documents import words
from appraise.documents.timeline import between, dated_parts, weight_of
from appraise.knowledge.records import FIRST_YEAR
from appraise.knowledge.records import Years as Dated
from appraise.reading.formats import FormatReading
from appraise.reading.matter import judged
from appraise.reading.reading import Reading
from appraise.reading.spans import Span
from appraise.verdict import Verdict

EMPTY_CASE = "empty-case"
SIDES = {
    "cased": ("image", "case"),
    "loose-plate": ("plate", ""),
    "card": ("print", "mount"),
    "lantern-slide": ("image", "mount"),
    "cyanotype": ("print", "mount"),
    "print": ("print", ""),
    "postcard": ("print", ""),
    "empty-case": ("", "case"),
    "part": ("part", ""),
    "album": ("album", ""),
    "lot": ("lot", ""),
    "other": ("piece", ""),
}
"""What image and case are called, by kind."""

NONE = "no warnings so far"
EACH = 2  # lines of one warning
BASE = {"name": 1, "years": 4, "belongs": 2, "state": 1, "money": MONEY, "warned": 1}
"""The lines without which a block is left out, in the order in which they stand."""
LESS = ("name", "years", "state", "belongs", "warned")
"""What goes first where there is no room for all; the money always stays."""
MORE = (
    "gap money", "gap belongs", "picture", "gap years", "gap state", "warned", "years", "worst",
    "gap warned", "warned", "format", "years", "warned", "typical", "warned", "warned", "warned",
    "warned", "warned", "warned",
)  # fmt: skip
"""What each further line of room is for; the picture of the money takes several."""


@dataclass(frozen=True, slots=True)
class PanelPlan:
    """The lines that each block has in a panel, and what else stands in it."""

    lines: dict[str, int]
    extra: frozenset[str]


def panel(
    verdict: Verdict | None, shown: Shown, width: int, height: int, none: str = NONE
) -> list[Line]:
    """The panel in `height` lines of `width` cells; its lines stay where they are.

    `none`: what stands there without a warning.
    """
    if verdict is None:
        return [line(("reading ...", "quiet"))]
    reading, marks = verdict.reading, shown.marks
    if not judged(reading.piece):
        return _filled(_warnings(verdict, marks, width, height, none), height)
    plan = plan_for(height, shown.money)
    made: dict[str, Callable[[int], list[Line]]] = {
        "name": lambda _: _identity(reading, shown, width, "format" in plan.extra),
        "years": lambda rows: _years(reading, shown, width, rows),
        "belongs": lambda _: _belonging(reading, marks, width, "typical" in plan.extra),
        "state": lambda _: _condition(reading, marks, width, "worst" in plan.extra),
        "money": lambda rows: _money(verdict, shown, width, rows, "picture" in plan.extra),
        "warned": lambda rows: _warnings(verdict, marks, width, rows, none),
    }
    out: list[Line] = []
    for name, rows in plan.lines.items():
        gap = [EMPTY] if f"gap {name}" in plan.extra else []
        out += [*gap, *_filled(made[name](rows), rows)]
    return _filled(out, height)


def plan_for(height: int, money: bool) -> PanelPlan:
    """How so many lines are shared out; hidden money needs one line alone."""
    lines = {**BASE, "money": MONEY if money else 1}
    for name in LESS:
        if sum(lines.values()) > height:
            del lines[name]
    spare, extra = height - sum(lines.values()), set[str]()
    for wish in MORE:
        name = wish.removeprefix("gap ")
        cost = PICTURE if wish == "picture" else 1
        if cost > spare or name not in (*lines, *WITHIN) or (wish == "picture" and not money):
            continue
        spare -= cost
        if wish == name and wish in lines:
            lines[wish] += 1
        else:
            extra.add(wish)
            lines[WITHIN.get(wish, "")] = lines.get(WITHIN.get(wish, ""), 0) + cost
    lines.pop("", None)
    return PanelPlan(lines, frozenset(extra))


WITHIN = {"picture": "money", "worst": "state", "format": "name", "typical": "belongs"}
"""In which block something more stands."""


def _filled(rows: Sequence[Line], height: int) -> list[Line]:
    return [*rows, *[EMPTY] * (height - len(rows))][:height]


def states_of(reading: Reading) -> list[BarPart]:
    """How the piece came together: together, a married piece, or a part of it modern.

    A piece of one part, such as a card or an empty case, is of its time or modern.
    """
    if reading.piece.kind == EMPTY_CASE or not reading.joint.frame.cased:
        return [
            BarPart("of its time", 1 - reading.modern, "good"),
            BarPart("modern", reading.modern, "stop"),
        ]
    return [
        BarPart("together", reading.states[0], "good"),
        BarPart("married", reading.married, "doubt"),
        BarPart("modern", reading.modern, "stop"),
    ]


def _identity(reading: Reading, shown: Shown, width: int, format_too: bool) -> list[Line]:
    """The likeliest processes, or materials of an empty case, and the format where measured."""
    named = reading.housings if reading.piece.kind == EMPTY_CASE else reading.families
    ordered = [
        (shown.names.get(word, word), chance)
        for word, chance in sorted(named.items(), key=lambda item: -item[1])
    ]
    made = _choices(ordered[:2], width)
    form = _format(reading.formats, shown, width)
    if format_too:
        return [made, form]
    both = line(*made, "  ", *((words_, "quiet") for words_, _ in form))
    return [both if length(both) <= width and reading.formats.measured else made]


def _format(formats: FormatReading, shown: Shown, width: int) -> Line:
    """The likeliest formats; that the measures fit none, and which is the nearest."""

    def name(word: str) -> str:
        return shown.names.get(word, word)

    if formats.nearest:
        return line(clip(f"fits no size, nearest: {name(formats.nearest)}", width, shown.marks))
    if not formats.measured:
        return line(("format: not measured", "quiet"))
    best = sorted(formats.probabilities.items(), key=lambda item: -item[1])
    called = f"called {name(formats.called)}" if formats.called not in ("", formats.best) else ""
    told = [(name(word), chance) for word, chance in best[: 1 if called else 2]]
    out = _choices(told, width)
    return out if not called else line(*out, (f"  {called}", "quiet"))


def _choices(chances: Sequence[tuple[str, float]], width: int) -> Line:
    parts: list[str | tuple[str, str]] = []
    room = width
    for place, (word, chance) in enumerate(chances):
        told = f"{word} {percent(chance)}"
        gap = "  " if place else ""
        if place and (chance < 0.015 or len(gap) + len(told) > room):
            break
        share = percent(chance)
        told = told if len(told) <= room else f"{clip(word, room - len(share) - 1)} {share}"
        parts += [gap, (told, "" if place else "strong")]
        room -= len(gap) + len(told)
    return line(*parts)


def _years(reading: Reading, shown: Shown, width: int, rows: int) -> list[Line]:
    """Image and case, then the dated parts for which there is room, and the combined date."""
    image, holder = SIDES[reading.piece.kind]
    sides = (image, reading.image), (holder, reading.housing), ("package", reading.package)
    told = [_row(name, span) for name, span in sides if name and span is not None]
    found = dated_parts(reading)
    odd = reading.odd_one_out.part if reading.odd_one_out else ""
    order = [part for part in (odd, *shown.parts) if found.get(part)]
    parts = [_part(part, found[part], part == odd) for part in dict.fromkeys(order)]
    room = max(0, rows - 2)
    keep = parts[: max(bool(odd), room - len(told))]
    summed = _row("combined", reading.combined, sums=True)
    kept = [*told[: room - len(keep)], *keep]
    return year_lines([*kept, summed], width, shown.marks, keep=rows - 1)


def _row(name: str, span: Span, sums: bool = False) -> YearRow:
    """What the table says of one side; where no weights are kept, its ends alone."""
    peak = max(span.weights, default=0.0)

    def shade(year: int) -> float:
        place = year - FIRST_YEAR
        if not peak:
            return float(span.first <= year <= span.last)
        return span.weights[place] / peak if 0 <= place < len(span.weights) else 0.0

    return YearRow(name, shade, span.first, span.last, between(span.first, span.last), sums=sums)


def _part(name: str, dated: Sequence[Dated], odd: bool) -> YearRow:
    """The years of one part; findings that contradict each other are drawn faintly."""
    every = range(min(one.first for one in dated), max(one.last for one in dated) + 1)
    usual = [year for year in every if weight_of(dated, year) >= HALF]
    if usual:
        told = between(usual[0], usual[-1])
        return YearRow(name, lambda y: weight_of(dated, y), usual[0], usual[-1], told, odd)

    def faint(year: int) -> float:
        return FAINTLY * max(one.weight(year) > 0 for one in dated)

    return YearRow(name, faint, every[0], every[-1], "?", odd)


HALF, FAINTLY = 0.5, 0.3


def _belonging(reading: Reading, marks: Marks, width: int, typical: bool) -> list[Line]:
    """The bar with its parts, and how often such pieces are married."""
    out = stacked(states_of(reading), width, marks)
    usual = words.typical(reading)
    told = f"typical: {usual} married" if usual and typical else ""
    return [*out, line((told, "quiet"))]


def _condition(reading: Reading, marks: Marks, width: int, worst: bool) -> list[Line]:
    """A mark each for image, package and case, never one for all; and their faults in words."""
    sides = {
        words.side_name(reading.piece.kind, name): side
        for name, side in reading.condition.sides.items()
        if side.of
    }
    told = [
        PartMark(name, _state(side.done, bool(side.worst), side.grade), f"{side.done}/{side.of}")
        for name, side in sides.items()
    ]
    out = [mark_row("condition", told, width, marks)]
    if worst:
        faults = [side.worst.defect.name for side in sides.values() if side.worst]
        none = "no damage found" if any(side.done for side in sides.values()) else ""
        says = ", ".join(faults) or none
        out.append(line((clip(says, width, marks), "doubt" if faults else "quiet")))
    return out


def _state(done: int, fault: bool, grade: str) -> str:
    if grade in ("Poor", "Unacceptable"):
        return WARN
    return DOUBT if fault else ORDER if done else UNSEEN


def _money(verdict: Verdict, shown: Shown, width: int, rows: int, picture: bool) -> list[Line]:
    if not picture:
        return money_lines(verdict, shown, width, rows)
    return [
        *_filled(money_picture(verdict, shown, width), PICTURE),
        *money_lines(verdict, shown, width, rows - PICTURE),
    ]


def _warnings(verdict: Verdict, marks: Marks, width: int, rows: int, none: str) -> list[Line]:
    """The warnings, strong ones first; the last line says how many there is no room for."""
    told = verdict.warnings
    if not told:
        return [line((clip(none, width, marks), "quiet"))]
    out: list[Line] = []
    for place, block in enumerate(_told(verdict, marks, width, rows)):
        after = place + 1 < len(told)
        if len(out) + len(block) > rows - after:
            return [*out, *_cut(block, len(told) - place - 1, marks, width)][:rows]
        out += block
    return out


def _told(verdict: Verdict, marks: Marks, width: int, rows: int) -> Iterator[list[Line]]:
    """Each warning in a line or two."""
    each = EACH if rows >= EACH * len(verdict.warnings) else 1
    for one in verdict.warnings:
        mark, role = (WARN, "warn") if one.strong else (DOUBT, "doubt")
        first, *rest = fold_to(one.says, max(1, width - 2), each, marks)
        yield [line((f"{mark} ", role), first), *(line("  ", row) for row in rest)]


def _cut(block: list[Line], left: int, marks: Marks, width: int) -> list[Line]:
    """The beginning of a warning, and how many more there are."""
    more = line((f" {left} more: " if left else " ", "quiet"), ("w", "key@open('why')"))
    words = clip(words_of(block[0]), max(1, width - length(more)), marks)
    return [line((words[:2], block[0][0][1]), words[2:], *more)]
