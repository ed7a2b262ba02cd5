"""What lies on the bench, as frozen records: sorts of loose parts, and materials of repairs."""

import re
from collections.abc import Iterable

from appraise.base.dataclass import dataclass
from appraise.knowledge.basics import Basis

ARCHIVAL = ("yes", "no", "depends")


@dataclass(frozen=True, slots=True)
class Spare:
    """A sort of part that is kept by itself until a piece needs it.

    Attributes:
        id: Its word in files.
        name: Its name.
        parts: The parts of a piece whose checks are asked of it, the leading one first.
        outside: What its outside measure is comparable to, a word of the offsets: `case`, `recess`,
            `package`, `plate` or `mount`.
        room: The least and the most room in mm that it may leave on either side, against one that
            was made for the plate; below the least it does not go together, above it is slack.
        words: How a person might name it, in small letters.
        basis: What the row rests on.
    """

    id: str
    name: str
    parts: tuple[str, ...]
    outside: str
    room: tuple[float, float]
    words: tuple[str, ...]
    basis: Basis


@dataclass(frozen=True, slots=True)
class Material:
    """Something that repairs are made with, named by what it is and never by a brand.

    Attributes:
        id: Its word in files.
        name: Its name.
        archival: One of `ARCHIVAL`: whether it keeps without harm to what it touches.
        says: What is known of it, in a sentence or two.
        words: How a person might name it, in small letters.
        basis: What the row rests on.
    """

    id: str
    name: str
    archival: str
    says: str
    words: tuple[str, ...]
    basis: Basis


@dataclass(frozen=True, slots=True)
class Fitting:
    """When a part is said to go with a plate; judgements.

    Attributes:
        reach: How many standard deviations beyond a limit a part is tight or loose; farther out it
            is too small or too large.
        doubtful: The ratio below which their years are said not to go together.
    """

    reach: float = 1.5
    doubtful: float = 0.5


def named(text: str, words: Iterable[str]) -> str:
    """The longest of the words that stands in a text as whole words, capitals aside; or ''."""
    plain = " ".join(text.lower().replace("-", " ").split())
    found = (
        word for word in words if re.search(rf"(?<!\w){re.escape(word)}s?(?!\w)", plain) is not None
    )
    return max(found, key=len, default="")
