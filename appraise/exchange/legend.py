"""Abbreviations that a sheet explains itself, in lines above or below: 'RG = not sold'."""

import re
from collections.abc import Sequence
from dataclasses import replace

from appraise.base.oneline import folded
from appraise.exchange.vocabulary import SheetWords, bare

_SEVERAL = re.compile(r"[,;]\s+")
_LINE = re.compile(r"\s*(?P<short>[^\W\d_][\w./]{0,9})\s*[=:]\s*(?P<says>\S.{1,80})\s*\Z")


def with_legend(say: SheetWords, lines: Sequence[Sequence[str]]) -> SheetWords:
    """The words with abbreviations of what happened that lines of the sheet explain."""
    told, none = dict[str, str](), set[str]()
    alone = (filled[0] for cells in lines if len(filled := [*filter(str.strip, cells)]) == 1)
    parts = (part for text in alone for part in (text, *_SEVERAL.split(text)))
    for match in filter(None, map(_LINE.match, parts)):
        meant = say.event(match["short"])  # which only a clear word says otherwise
        event = say.event(match["says"]) if meant else _event_in(match["says"], say)
        if event:
            told[bare(match["short"])] = event
        elif not meant and any(say.has("no-event", word) for word in _words(match["says"])):
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
