"""One description of each field of a record: it is typed, written, checked and told by it.

A record is a frozen dataclass over `Record` with a tuple `FIELDS`. A form, FIELD=VALUE and a
file all go through `changed`, and back through `written`.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import MISSING, field, fields, replace
from operator import attrgetter
from typing import TYPE_CHECKING, Any, ClassVar, Self, TypeVar

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError, placed
from appraise.base.spelling import did_you_mean
from appraise.records.values import LINE, Author, Kind

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge

R = TypeVar("R", bound="Typed")
T = TypeVar("T")


def once_a_type(make: Callable[[type[Any]], T]) -> Callable[[type[Any]], T]:
    """A function of a type, worked out once for each."""
    known: dict[type[Any], T] = {}

    def found(sort: type[Any]) -> T:
        if sort not in known:
            known[sort] = make(sort)
        return known[sort]

    return found


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a record.

    Attributes:
        name: Its name, as it is typed.
        says: What may be written there.
        kind: What its value may be.
        holds: The attributes that hold it; none: the one of its own name.
        label: What it is called on screens; empty: by its name.
        asks: What a form writes before it, where that is not what it is called.
        typed: Whether a person writes it; the others follow from what happens.
    """

    name: str
    says: str = ""
    kind: Kind = LINE
    holds: tuple[str, ...] = ()
    label: str = ""
    asks: str = ""
    typed: bool = True

    @property
    def attributes(self) -> tuple[str, ...]:
        """The attributes of the record that hold it."""
        return self.holds or (self.name.replace("-", "_"),)

    @property
    def title(self) -> str:
        """What it is called."""
        return self.label or self.name.replace("_", " ")

    @property
    def hint(self) -> str:
        """What may be written there, as a sentence."""
        return f"{self.says[:1].upper()}{self.says[1:]}."

    def value(self, thing: "Typed") -> Any:
        """What a record holds there; several attributes as a tuple."""
        values = tuple(getattr(thing, name) for name in self.attributes)
        return values[0] if len(values) == 1 else values

    def told(self, thing: "Typed") -> bool:
        """Whether anything was recorded there."""
        values = [getattr(thing, name) for name in self.attributes]
        unsaid = defaults(type(thing))
        return any(
            value != unsaid.get(name) or bool(value)
            for name, value in zip(self.attributes, values, strict=True)
        )

    def text(self, thing: "Typed") -> str:
        """What a record holds there as it is typed; empty where nothing was recorded."""
        return self.kind.write(self.value(thing)) if self.told(thing) else ""

    def read(
        self, text: str, thing: "Typed", by: Author, so_far: Mapping[str, Any]
    ) -> dict[str, Any]:
        """The attributes by what was typed; an empty text takes them back to nothing.

        Args:
            text: What was typed, without needless blanks.
            thing: The record.
            by: Who typed it.
            so_far: Attributes that change along with it.
        """
        unsaid = defaults(type(thing))
        if not text and self.kind.takes_empty:
            return dict.fromkeys(self.attributes, "")
        if not text and all(name in unsaid for name in self.attributes):
            return {name: unsaid[name] for name in self.attributes}
        with placed(self.name):
            value = self.kind.read(text, thing.read_by(by, self))
        many = len(self.attributes) > 1
        return dict(zip(self.attributes, value if many else (value,), strict=True))


class Typed:
    """What fields are typed into: a record, or a piece with its details."""

    __slots__ = ()
    FIELDS: ClassVar[tuple[Field, ...]] = ()

    def adopt(self, texts: Mapping[str, str], by: Author) -> tuple[Self, dict[str, str]]:
        """This after texts that are no plain fields of it, and the texts that are left."""
        return self, dict(texts)

    def read_by(self, by: Author, field: Field) -> Author:
        """Who writes into a field of this: an amount may be in a currency of its own."""
        return by


@dataclass(frozen=True, slots=True, kw_only=True)
class Record(Typed):
    """What all records share.

    Attributes:
        rest: Values under names that are not known here, or that cannot be read: kept, and
            written back as they came. JSON values, not to be changed.
    """

    AS_TYPED: ClassVar[bool] = False  # whether it is kept as the texts of its fields
    rest: Mapping[str, Any] = field(default_factory=dict, hash=False, repr=False)

    def __post_init__(self) -> None:
        for name, check, value, unsaid in _checks(type(self)):
            held = value(self)
            if held is not unsaid:
                check(name, held)
        self.check_whole()

    def check_whole(self) -> None:
        """What has to hold between fields; raises `InputError` with a field in `where`."""

    @property
    def key(self) -> str:
        """What makes two records one, whoever wrote them; empty where each stands for itself."""
        return ""

    @classmethod
    def of_today(cls, data: Mapping[str, Any]) -> Mapping[str, Any]:
        """What an older version wrote, under the names of today."""
        return data


@once_a_type
def defaults(sort: type[Any]) -> Mapping[str, Any]:
    """What each attribute holds when nothing was recorded; required ones are left out."""
    found: dict[str, Any] = {}
    for each in fields(sort):
        if each.default is not MISSING:
            found[each.name] = each.default
        elif each.default_factory is not MISSING:
            found[each.name] = each.default_factory()
    return found


_SAID = object()  # stands where nothing has to be said: such a value is always checked


@once_a_type
def _checks(
    sort: type[Any],
) -> Sequence[tuple[str, Callable[..., None], Callable[[Any], Any], Any]]:
    """Of each field its name, its check, what reads its value, and what it holds when unsaid.

    What was not recorded needs no check; a log of a million entries is thirty million of them.
    """
    unsaid = defaults(sort)
    return [
        (
            each.name,
            each.kind.check,
            attrgetter(*each.attributes) if type(each).value is Field.value else each.value,
            _SAID if _always(each) else unsaid.get(each.attributes[0], _SAID),
        )
        for each in sort.FIELDS
    ]


def _always(each: Field) -> bool:
    """Whether a field is checked even where nothing was recorded."""
    return len(each.attributes) > 1 or getattr(each.kind, "needed", False)


@once_a_type
def typed_fields(sort: type[Any]) -> Mapping[str, Field]:
    """The fields that a person writes, by name."""
    return {each.name: each for each in sort.FIELDS if each.typed}


def changed(thing: R, texts: Mapping[str, str], by: Author) -> R:
    """The record with some fields as typed; an empty text takes a field back to nothing.

    What stands in a text as it is written already changes nothing.

    Raises:
        InputError: for a field that is not known, or a text that does not fit it; its `where` is
            the field.
    """
    known, values = typed_fields(type(thing)), dict[str, Any]()
    plain = {name: " ".join(text.split()) for name, text in texts.items()}
    thing, left = thing.adopt(plain, by)
    for name, text in left.items():
        if name not in known:
            raise InputError(f"field '{name}' is not known", mend=did_you_mean(name, known))
        if text != " ".join(known[name].text(thing).split()):
            values |= known[name].read(text, thing, by, values)
    made: Any = thing
    return replace(made, **values) if values else thing


def values_of(fields: Iterable[Field], texts: Mapping[str, str], by: Author) -> dict[str, Any]:
    """What was typed into fields that are of no record; None where that is nothing.

    Raises:
        InputError: for a text that does not fit; its `where` is the field.
    """
    found: dict[str, Any] = {}
    for each in fields:
        text = " ".join(texts.get(each.name, "").split())
        with placed(each.name):
            found[each.name] = each.kind.read(text, by) if text else None
        if text:
            each.kind.check(each.name, found[each.name])
    return found


def written(thing: Typed) -> dict[str, str]:
    """Every field that a person writes, as `changed` reads it; empty where nothing is recorded."""
    return {name: each.text(thing) for name, each in typed_fields(type(thing)).items()}


def filled(thing: Record) -> dict[str, str]:
    """The fields that say something, as `changed` reads them."""
    return {name: text for name, text in written(thing).items() if text}


def title_of(thing: Record) -> str:
    """The line by which a record is known; empty where it has none."""
    return str(getattr(thing, "title", ""))


def meaning(sort: type[Record]) -> dict[str, str]:
    """Every field that a person writes, and what may be written there."""
    return {name: each.says for name, each in typed_fields(sort).items()}


def words(sort: type[Record], knowledge: "Knowledge | None") -> dict[str, Sequence[str]]:
    """The words that fields take, for those that take only some."""
    found = {name: each.kind.words(knowledge) for name, each in typed_fields(sort).items()}
    return {name: each for name, each in found.items() if each}


def pair(text: str) -> tuple[str, str]:
    """FIELD=VALUE taken apart.

    Raises:
        InputError: when there is no '='.
    """
    name, equals, value = text.partition("=")
    if not equals:
        raise InputError(f"'{text}' is not FIELD=VALUE", mend="Write place='box 3'.")
    return name.strip(), value.strip()


def parted(words: Iterable[str], sort: type[Record]) -> tuple[str, dict[str, str]]:
    """The words of a line, and the fields written among them as FIELD=VALUE."""
    known, line, texts = typed_fields(sort), list[str](), dict[str, str]()
    for word in words:
        name, equals, value = word.partition("=")
        if equals and name in known:
            texts[name] = value
        else:
            line.append(word)
    return " ".join(line), texts
