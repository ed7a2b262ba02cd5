"""What the title of a logged piece says, read as a first look reads it, as fields of an entry.

'Sixth plate ambrotype of a man in leather case' gives kind, process, format, housing and subject:
purchases that came from a spreadsheet teach as much as typed ones.
"""

from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import Any

from appraise.knowledge.records import Knowledge
from appraise.listing.quick import understand_words

LONGEST = 400  # characters of a title that are read


def title_words(knowledge: Knowledge) -> Callable[[str], Mapping[str, Any]]:
    """A reader of titles; each is read once, since lists repeat themselves."""

    @lru_cache(maxsize=4_096)
    def fields(title: str) -> Mapping[str, Any]:
        said = understand_words(title[:LONGEST], knowledge)
        if not any(said[name] for name in ("process", "format", "housing")):
            return {}
        return {name: value for name, value in said.items() if value}

    return fields
