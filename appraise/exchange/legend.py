"""Abbreviations that a sheet explains itself, in lines above or below: 'RG = not sold'."""

import re
from collections.abc import Sequence
from dataclasses import replace

from appraise.base.oneline import folded
from appraise.exchange.vocabulary import SheetWords, bare

_LINE = re.compile(r"\s*(?P<short>[^\W\d_][\w./]{0,9})\s*[=:]\s*(?P<says>\S.{1,80})\s*\Z")


def with_legend(say: SheetWords, aside: Sequence[Sequence[str]]) -> SheetWords:
    """The words with abbreviations of what happened that rows of the sheet explain."""
    told, none = dict[str, str](), set[str]()
    for cells in aside:
        filled = [cell for cell in cells if cell.strip()]
        match = _LINE.match(filled[0]) if len(filled) == 1 else None
        if not match:
            continue
        event = _event_in(match["says"], say)
        if event:
            told[bare(match["short"])] = event
        elif any(say.has("no-event", word) for word in _words(match["says"])):
            none.add(bare(match["short"]))
    known = say.groups.get("no-event", frozenset()) - told.keys()
    groups = {**say.groups, "no-event": known | none}
    events = {word: what for word, what in {**say.events, **told}.items() if word not in none}
    return replace(say, events=events, groups=groups) if told or none else say


def returned_aside(say: SheetWords) -> SheetWords:
    """The words for a list of sales, in which what came back is no sale."""
    back = {word for word, what in say.events.items() if what == "returned"}
    events = {word: what for word, what in say.events.items() if word not in back}
    known = say.groups.get("no-event", frozenset())
    return replace(say, events=events, groups={**say.groups, "no-event": known | back})


def _event_in(text: str, say: SheetWords) -> str:
    """What happened by a part or a word of an explanation; of several the first that is one."""
    parts = re.split(r"[,;()]", text)
    words = _words(text)
    return next((found for each in (*parts, *words) if (found := say.event(each))), "")


def _words(text: str) -> list[str]:
    return re.findall(r"[^\W\d_]{5,}", folded(text))
