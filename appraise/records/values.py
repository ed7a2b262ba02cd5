"""What the value of a field may be, how it is typed, written, checked and looked for: once each.

A kind of value reads what it wrote: `read(write(value)) == value` over its whole range. What a
person typed comes without needless blanks; an empty text never gets here.
"""

import datetime as dt
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import field
from typing import TYPE_CHECKING, Any

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.fieldchecks import (
    check_flag,
    check_id,
    check_text,
    check_word,
)
from appraise.base.moments import Zone
from appraise.base.money import EXPONENTS
from appraise.base.moneytext import code_called
from appraise.base.oneline import folded
from appraise.base.regex import late
from appraise.base.spelling import did_you_mean

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge

MOST_NEAR = 4  # words that are offered for one that is not known
YES_NO = ("yes", "no")
_SAID = {"yes": True, "true": True, "no": False, "false": False}
_QUOTED = late(r'\s*(?:"((?:[^"]|"")*)"|([^;]*))\s*(?:;|\Z)')


@dataclass(frozen=True, slots=True)
class Author:
    """Who writes, and when.

    Attributes:
        currency: ISO 4217 code of an amount that names none.
        today: The day.
        knowledge: Words of the trade are to be among its own; None: any word will do.
        zone: The zone of an hour that names none; None: this machine's.
        zone_name: How that is called; '' for this machine's.
        sells: In which currency a venue of that name sells; '' where no terms of it are noted.
        point: The decimal point of an amount that could have either; '': such a one is refused.
    """

    currency: str
    today: dt.date
    knowledge: "Knowledge | None" = None
    zone: Zone = None
    zone_name: str = ""
    sells: Callable[[str], str] = lambda _: ""
    point: str = ""


class Kind:
    """Text of one line; the base of all other kinds."""

    @property
    def takes_empty(self) -> bool:
        """Whether an empty text is a value of its own, where another one stands at first."""
        return False

    def read(self, text: str, by: Author) -> Any:
        """The value of a text that is not empty; raises `InputError` where it is none."""
        return text

    def write(self, value: Any) -> str:
        """The value as `read` takes it."""
        return str(value)

    def check(self, name: str, value: Any) -> None:
        """Refuse what the field cannot hold, in whatever way it came."""
        check_text(name, value, one_line=True)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        """The words it takes; none where it takes any."""
        return ()

    def fits(self, value: Any, wanted: str) -> bool:
        """Whether a value is what a filter asks for, folded: a part of it here."""
        return wanted in folded(self.write(value)) if value else False


class LabelKind(Kind):
    """A name that is only meant as a whole, such as a number of one's own."""

    def fits(self, value: Any, wanted: str) -> bool:
        return folded(value) == wanted


class PageKind(Kind):
    """Text of several lines, typed in one with | between; a | of the text itself is doubled."""

    def read(self, text: str, by: Author) -> str:
        lines = re.split(r" ?\| ?", text.replace("||", "\0"))
        return "\n".join(lines).replace("\0", "|")

    def write(self, value: Any) -> str:
        return " | ".join(str(value).replace("|", "||").split("\n"))

    def check(self, name: str, value: Any) -> None:
        check_text(name, value, one_line=False)


@dataclass(frozen=True, slots=True)
class WordKind(Kind):
    """A word in lower case with hyphens.

    Attributes:
        known: The words it may be; none: any.
        trade: The same, of the trade's knowledge: checked only where something is typed, since
            the user's own rows come and go.
        needed: Whether it may not be empty.
        also: What else may be written for a word, as older files have it.
        called: The same of the trade's words, by what people call a thing: '' for none, and the
            words that share something with what was typed.
    """

    known: Sequence[str] = ()
    trade: "Callable[[Knowledge], Iterable[str]] | None" = None
    needed: bool = False
    also: Mapping[str, str] = field(default_factory=dict, hash=False)
    called: "Callable[[Knowledge, str], tuple[str, Sequence[str]]] | None" = None

    @property
    def takes_empty(self) -> bool:
        return not self.needed

    def read(self, text: str, by: Author) -> str:
        word, known = "-".join(text.lower().split()), self.words(by.knowledge)
        word = self.also.get(word, word)
        if not known or word in known:
            return word
        near: Sequence[str] = ()
        if self.called and by.knowledge:
            meant, near = self.called(by.knowledge, text)
            if meant in known:
                return meant
        near = [one for one in near if one in known]
        mend = (
            f"Did you mean {', '.join(map(repr, near[:MOST_NEAR]))}?"
            if near
            else did_you_mean(word, known)
        )
        raise InputError(f"'{text}' is not known", mend=mend)

    def check(self, name: str, value: Any) -> None:
        if self.needed and not value:
            raise InputError("is missing", name, did_you_mean("", self.known))
        if self.needed and value not in self.known:
            raise InputError(f"'{value}' is not known", name, did_you_mean(str(value), self.known))
        check_word(name, value, self.known)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        if self.trade is None or knowledge is None:
            return self.known
        return tuple(self.trade(knowledge))

    def fits(self, value: Any, wanted: str) -> bool:
        return any(str(value).startswith(one) for one in wanted.split(",") if one)


@dataclass(frozen=True, slots=True)
class SeveralKind(Kind):
    """Some values of one kind, with ; or , between; one that holds these stands in quotes."""

    of: Kind
    most: int = 500
    between: str = "; "

    def read(self, text: str, by: Author) -> tuple[Any, ...]:
        parts, known = parts_of(text), self.of.words(by.knowledge)
        if len(parts) == 1 and known and "-".join(text.lower().split()) not in known:
            parts = tuple(text.split())  # words of a list may stand with blanks alone
        return tuple(self.of.read(part, by) for part in parts)

    def write(self, value: Any) -> str:
        return self.between.join(_quoted(self.of.write(one)) for one in value)

    def check(self, name: str, value: Any) -> None:
        if not isinstance(value, tuple) or len(value) > self.most:
            raise InputError(f"holds more than {self.most:,}", name)
        for one in value:
            self.of.check(name, one)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        return self.of.words(knowledge)

    def fits(self, value: Any, wanted: str) -> bool:
        return any(self.of.fits(one, wanted) for one in value)


def parts_of(text: str) -> tuple[str, ...]:
    """What stands between semicolons, or between commas where there are none of these."""
    if ";" not in text and '"' not in text:
        return tuple(part.strip() for part in text.split(",") if part.strip())
    found, place = list[str](), 0
    while place < len(text):
        match = _QUOTED.match(text, place)
        if match is None:  # a quote amid a part: it stands for itself
            end = text.find(";", place)
            end = len(text) if end < 0 else end
            found.append(text[place:end].strip())
            place = end + 1
            continue
        if match[1] is not None:
            found.append(match[1].replace('""', '"'))
        elif match[2].strip():
            found.append(match[2].strip())
        place = match.end()
    return tuple(found)


def _quoted(text: str) -> str:
    if text and not re.search(r'[;,"]', text) and text == text.strip():
        return text
    return '"' + text.replace('"', '""') + '"'


@dataclass(frozen=True, slots=True)
class FlagKind(Kind):
    """Yes or no."""

    optional: bool = False

    def read(self, text: str, by: Author) -> bool:
        if text.lower() not in _SAID:
            raise InputError(
                f"'{text}' is neither yes nor no", mend=did_you_mean(text.lower(), YES_NO)
            )
        return _SAID[text.lower()]

    def write(self, value: Any) -> str:
        return "yes" if value else "no"

    def check(self, name: str, value: Any) -> None:
        check_flag(name, value, optional=self.optional)

    def fits(self, value: Any, wanted: str) -> bool:
        return bool(value) == self.read(wanted, NOBODY)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        return YES_NO


class UntypedKind(Kind):
    """What nobody types; the record checks it as a whole."""

    def check(self, name: str, value: Any) -> None:
        """The record does."""


class CodeKind(Kind):
    """An ISO 4217 code."""

    def read(self, text: str, by: Author) -> str:
        code = text.upper()
        return code if code in EXPONENTS else code_called(text) or code

    def check(self, name: str, value: Any) -> None:
        if value not in EXPONENTS:
            mend = did_you_mean(value, EXPONENTS)
            raise InputError(f"currency '{value}' is not known", name, mend)

    def words(self, knowledge: "Knowledge | None") -> Sequence[str]:
        return tuple(EXPONENTS)


class IdKind(Kind):
    """The id of another record of the log, or nothing."""

    def read(self, text: str, by: Author) -> str:
        return text.lower()

    def check(self, name: str, value: Any) -> None:
        if value:
            check_id(name, value, digits=16)


@dataclass(frozen=True, slots=True)
class RowsKind(Kind):
    """Further records within a record, such as the pieces of a lot."""

    most: int = 10_000
    dated: bool = False

    def write(self, value: Any) -> str:
        return "; ".join(one.text for one in value)

    def check(self, name: str, value: Any) -> None:
        if len(value) > self.most:
            raise InputError(f"holds more than {self.most:,}", name)
        days = [one.day for one in value] if self.dated else []
        if days != sorted(days):
            raise InputError("are not in the order of their days", name)


NOBODY = Author("", dt.date.min, point=".")
"""Who reads what names its own currency and words."""
LINE, PAGE, FLAG = Kind(), PageKind(), FlagKind()
