"""Words of the trade that fields take: processes, housings, formats, spare parts.

Each is read by all the words it goes by: its own, its name, and those that the knowledge lists for
what sellers write.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from appraise.base.oneline import folded
from appraise.knowledge.patterns import AHEAD, SMALL, WIDE, choices_of
from appraise.records.values import WordKind

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge

_IDLE = frozenset(("a", "an", "the", "of", "or", "on", "and", "with", "in", "its", "over", "to"))
Called = Callable[["Knowledge", str], tuple[str, Sequence[str]]]


def processes(knowledge: "Knowledge") -> Iterable[str]:
    """The families of processes, then every process."""
    families = {one.family for one in knowledge.processes.values()}
    return dict.fromkeys((*sorted(families), *knowledge.processes))


def _called(topic: str, field: str) -> Called:
    """How things of a topic are found by what people call them; `field` is that of their terms."""

    def found(knowledge: "Knowledge", text: str) -> tuple[str, Sequence[str]]:
        things: Mapping[str, Any] = getattr(knowledge, topic)
        words = _words(text)
        if not words:
            return "", ()
        named = {id: _words(f"{id} {one.name}") for id, one in things.items()}
        names = {id: (one.name, *getattr(one, "words", ())) for id, one in things.items()}
        exact = [id for id, each in names.items() if words in map(_words, each)]
        exact = exact or [
            term.value for term in knowledge.terms.values() if _is_term(term, field, words)
        ]
        if exact:
            return exact[0], ()
        asked = {*words} - _IDLE
        shared = {id: len(asked & {*names}) for id, names in named.items()}
        most = max(shared.values(), default=0)
        return "", [id for id, many in shared.items() if many == most > 0]

    return found


def _is_term(term: Any, field: str, words: Sequence[str]) -> bool:
    """Whether words are, from the first to the last, ones that stand for a term of a field."""
    if term.field != field or term.only:
        return False
    return any(_matches(choices_of(each), words) for each in (*term.synonyms, *term.brief))


def _matches(choices: Sequence[Sequence[str]], words: Sequence[str]) -> bool:
    if not choices:
        return not words
    first, rest = choices[0], choices[1:]
    if AHEAD in first:
        return False
    if ("" in first or SMALL in first or WIDE in first) and _matches(rest, words):
        return True
    return bool(words) and words[0] in first and _matches(rest, words[1:])


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[\w/]+", folded(text)))


PROCESS = WordKind(trade=processes, called=_called("processes", "process"))
HOUSING = WordKind(
    trade=lambda knowledge: knowledge.housings, called=_called("housings", "case.material")
)
FORMAT = WordKind(trade=lambda knowledge: knowledge.formats, called=_called("formats", "format"))
SPARE = WordKind(trade=lambda knowledge: knowledge.spares, called=_called("spares", "spare"))
