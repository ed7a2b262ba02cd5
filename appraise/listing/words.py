"""Text cut into words that know their place, so that every claim can be lit where it stands."""

import re
import unicodedata
from functools import lru_cache
from typing import NamedTuple

_CUT = re.compile(
    r"[a-zA-Z]++(?![\w\u0300-\u036f'’ʼ])"  # nearly every word
    r"|(?:\d+(?:[.,]\d+)*(?:[/⁄]\d+)?(?:(?i:st|nd|rd|th)(?![^\W\d_]))?|[¼-¾⅐-⅞])"
    r"|(?:[^\W\d_][^\W\d_\u0300-\u036f]*[\u0300-\u036f]*"
    r"(?:['’ʼ\u0300-\u036f][^\W\d_]+[\u0300-\u036f]*)*)"
    r"|(?:[.!?;:,()\n&/+=–—…•|*]|-(?![^\W\d_])|(?<!\w)-)"
)
SENTENCE_ENDS = frozenset(".!?\n…•|;")
MARKS = frozenset(".!?\n…•|;:,()&/+=-–—*")
_APOSTROPHES = "'’ʼ"
# Small words of French and Italian that lean on the next one: "d'homme", "dell'immagine".
_ELIDED = re.compile(r"(?:[dlDL]|qu|(?:de|a|ne|su|da)ll|un)['’ʼ](?=\w{3})", re.IGNORECASE)
LONGEST = 40  # letters of a word that is compared with anything


class Word(NamedTuple):
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
    """The words, numbers and marks of a text in their order; other characters are passed over.

    So is a hyphen within a word: 'half-plate' is two words in a row.
    """
    return [
        Word(raw := match[0], _norm(raw), match.start(), match.end())
        for match in _CUT.finditer(text)
    ]


@lru_cache(maxsize=20_000)
def _norm(raw: str) -> str:
    if raw in MARKS:
        return raw
    if len(raw) == 1 and "VULGAR FRACTION" in unicodedata.name(raw, ""):
        return unicodedata.normalize("NFKC", raw).replace("⁄", "/")
    return fold(raw)


@lru_cache(maxsize=20_000)
def fold(raw: str) -> str:
    """One word in lower case, without accents and apostrophes; "boy's" is boy, "don't" dont."""
    if len(raw) > 2 and raw[-1] in "sS" and raw[-2] in _APOSTROPHES:
        raw = raw[:-2]
    elided = _ELIDED.match(raw)
    if elided is not None:
        raw = raw[elided.end() :]
    if raw.isascii():
        return raw.lower().replace("'", "")
    parts = unicodedata.normalize("NFKD", raw[: LONGEST * 2])
    bare = "".join(each for each in parts if not unicodedata.combining(each))
    folded = bare.casefold().translate(dict.fromkeys(map(ord, "'’ʼ")))
    return folded.replace("⁄", "/")


def lowered(text: str) -> str:
    """A text in which letters can be looked for that a pattern finds without regard to case.

    Places in it are not those of the text.
    """
    return text.replace("\u0130", "i").replace("\u0131", "i").casefold()


_NEVER_LAST = frozenset(
    ("c", "ca", "circa", "approx", "abt", "no", "nr", "st", "mr", "mrs", "ms", "dr", "messrs",
     "co", "bros", "pat", "capt", "gen", "lt", "col", "sgt", "pvt", "rev", "hon", "jr", "sr",
     "vs", "vol", "est", "inc", "incl", "b", "d", "cab", "comb", "pl", "qtr",
     "ph", "phot", "fot", "inkl")
)  # fmt: skip
_MAYBE_LAST = frozenset(("in", "ins", "mm", "cm", "usd", "w", "h"))
_POINTS = (")", ".", ":")
LONGEST_COUNT = 3  # digits of the number of a line; longer ones are years
LABEL = 3  # words of a label at most
_WRAPPED = 55  # characters from which a line that ends without a mark goes on in the next


def sentence_ends(text: str, words: list[Word]) -> list[bool]:
    """Whether each word ends a sentence.

    A full stop does that is none of an abbreviation, and the end of a blank or short line or one
    before a number; a long line that ends in a word goes on in the next one.
    """
    ends = [False] * len(words)
    line = 0
    for place in [at for at, word in enumerate(words) if word.norm in SENTENCE_ENDS]:
        word = words[place]
        before = words[place - 1] if place else None
        after = words[place + 1] if place + 1 < len(words) else None
        if word.norm == "\n":
            wraps = word.start - line >= _WRAPPED and _goes_on(text, before, after)
            wraps = wraps and not _labelled(words[place + 1 : place + 2 + LABEL])
            ends[place] = not wraps
            line = word.end
        else:
            ends[place] = word.norm != "." or _stops(word, before, after)
    return ends


def _labelled(line: list[Word]) -> bool:
    """Whether a line begins with a label: 'Condition:', 'Plate size:'."""
    first = next((at for at, word in enumerate(line) if word.is_mark), 0)
    return first > 0 and line[first].norm == ":" and line[0].text[:1].isupper()


def _goes_on(text: str, before: Word | None, after: Word | None) -> bool:
    """Whether a sentence may run on from one line into the next."""
    if before is None or after is None or (before.is_mark and before.norm not in (",", "(", ":")):
        return False
    numbered = (
        after.is_number
        and len(after.text) <= LONGEST_COUNT
        and text[after.end : after.end + 1] in _POINTS
    )
    return not numbered and not (after.is_mark and after.norm not in ("(",))


def _stops(stop: Word, before: Word | None, after: Word | None) -> bool:
    """Whether a full stop ends a sentence."""
    if before is None or after is None or before.end < stop.start:
        return True
    large = after.text[:1].isupper() or after.norm == "\n"
    if before.norm == "no" and large and after.start > stop.end:
        return True  # 'Curled? No. Print scratched'
    if before.norm in _NEVER_LAST or (len(before.text) == 1 and before.text.isupper()):
        return False
    if before.norm in _MAYBE_LAST:
        return large
    return after.start > stop.end or after.is_mark
