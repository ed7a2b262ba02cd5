"""Text cut into words that know their place, so that every claim can be lit where it stands."""

import re
import unicodedata
from dataclasses import dataclass

_CUT = re.compile(
    r"(?P<number>\d+(?:[.,]\d+)*(?:[/⁄]\d+)?(?:st|nd|rd|th)?(?![^\W\d_])|\d+(?:[.,]\d+)*|[¼-¾⅐-⅞])"
    r"|(?P<word>[^\W\d_][^\W\d_\u0300-\u036f]*[\u0300-\u036f]*"
    r"(?:['’ʼ\u0300-\u036f][^\W\d_]+[\u0300-\u036f]*)*)"
    r"|(?P<mark>[.!?;:,()\n&/+=\-–—…•|*])"
)
SENTENCE_ENDS = frozenset(".!?\n…•|;")
MARKS = frozenset(".!?\n…•|;:,()&/+=-–—*")
LONGEST = 40  # letters of a word that is compared with anything


@dataclass(frozen=True, slots=True)
class Word:
    """A word, number or mark of a text.

    Attributes:
        text: As written.
        norm: Lower case without accents and apostrophes; a vulgar fraction as '1/6'.
        start: Where it starts in the text.
        end: Where it ends, not included.
    """

    text: str
    norm: str
    start: int
    end: int

    @property
    def is_mark(self) -> bool:
        """Whether it is punctuation or a line break."""
        return self.norm in MARKS

    @property
    def is_number(self) -> bool:
        """Whether it starts with a digit."""
        return self.norm[:1].isdigit()


def cut(text: str) -> list[Word]:
    """The words, numbers and marks of a text in their order; other characters are passed over."""
    known: dict[str, str] = {}
    words = []
    for match in _CUT.finditer(text):
        raw = match.group()
        norm = known.get(raw)
        if norm is None:
            norm = known[raw] = _norm(raw)
        words.append(Word(raw, norm, match.start(), match.end()))
    return words


def _norm(raw: str) -> str:
    if raw in MARKS:
        return raw
    if len(raw) == 1 and "VULGAR FRACTION" in unicodedata.name(raw, ""):
        return unicodedata.normalize("NFKC", raw).replace("⁄", "/")
    return fold(raw)


def fold(raw: str) -> str:
    """One word in lower case, without accents and apostrophes."""
    if raw.isascii():
        return raw.lower().replace("'", "")
    parts = unicodedata.normalize("NFKD", raw[: LONGEST * 2])
    bare = "".join(each for each in parts if not unicodedata.combining(each))
    folded = bare.casefold().translate(dict.fromkeys(map(ord, "'’ʼ")))
    return folded.replace("⁄", "/")
