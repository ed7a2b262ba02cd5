"""What things are called in a sentence: processes by their names, one of two or three."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from appraise.reading.named import family_name

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.reading.reading import Reading
    from appraise.reading.spans import Span

LIKELY, PERHAPS = 0.5, 0.3  # from these chances on a thing is called probable, or perhaps so


def family_names(knowledge: Knowledge) -> dict[str, str]:
    """Every family of processes with its name."""
    return {one.family: family_name(one.family, knowledge) for one in knowledge.processes.values()}


def process_words(reading: Reading, knowledge: Knowledge) -> str:
    """The process that the piece is called by, or the two likeliest.

    Without their chances: a sentence tells one chance, that of its main doubt.
    """
    return " or ".join(
        family_name(family, knowledge).partition(" (")[0] for family in reading.named
    )


def about(span: Span) -> str:
    """Combined years in short: "about 1858-67"."""
    first, last = span.first, span.last
    if first == last:
        return f"about {first}"
    short = f"{last % 100:02}" if first // 100 == last // 100 else f"{last}"
    return f"about {first}-{short}"


def with_article(name: str) -> str:
    """A name with 'a' or 'an' before it."""
    return f"{'an' if name[:1] in 'aeio' else 'a'} {name}"


def listed(names: Sequence[str]) -> str:
    """One of several: 'a, b or c'."""
    *most, last = names
    return f"{', '.join(most)} or {last}" if most else last
