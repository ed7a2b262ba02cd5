"""A small form: one line a field; nothing is kept until all of it is right."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.suggester import SuggestFromList
from textual.widgets import Input

from appraise.app.actions import bindings_of
from appraise.app.discretion import holds_amount
from appraise.app.lines import Line, clip, fold, line
from appraise.app.pane import Foot, Pane
from appraise.app.sheet import Sheet
from appraise.base.errors import AppraiseError
from appraise.records.fields import Record, typed_fields, written

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge


@dataclass(frozen=True, slots=True)
class FormField:
    """One field of a form.

    Attributes:
        name: Its key among the values.
        label: What is written before it.
        value: What stands in it at first.
        hint: How to write it, shown while one is in it.
        choices: The words it may hold, offered while one types.
    """

    name: str
    label: str
    value: str = ""
    hint: str = ""
    choices: Sequence[str] = ()


def fields_of(
    thing: Record,
    knowledge: Knowledge | None,
    shown: Mapping[str, str] | None = None,
    choices: Mapping[str, Sequence[str]] | None = None,
) -> list[FormField]:
    """Every field of a record that is typed, filled in as it stands.

    Args:
        thing: The record.
        knowledge: The words of the trade that fields take; None: they are not offered.
        shown: Texts that stand in fields instead.
        choices: Words that fields take beside.
    """
    texts, words = {**written(thing), **(shown or {})}, choices or {}
    return [
        FormField(
            name,
            each.asks or each.title,
            " ".join(texts[name].split()),
            each.hint,
            words.get(name) or each.kind.words(knowledge),
        )
        for name, each in typed_fields(type(thing)).items()
    ]


def hint_lines(hint: str, choices: Sequence[str], width: int, height: int) -> list[Line]:
    """The hint of a field with as many of its choices as there is room for, none of them cut."""

    def folded(many: int) -> list[Line]:
        more = len(choices) - many
        words = f"{', '.join(choices[:many])}{f' and {more} more' if more else ''}"
        told = f"{hint} One of: {words}".strip() if choices else hint
        return fold(told, max(1, width - 2), " ", role="quiet")

    fits = (many for many in range(len(choices), 0, -1) if len(folded(many)) <= height)
    return folded(next(fits, min(1, len(choices))))


Keep = Callable[[Mapping[str, str]], None]
"""Takes the values by name; raises an AppraiseError, placed at a field by its `where`."""


class Fields(VerticalScroll, inherit_bindings=False):
    """The fields, which scroll to the one that one is in and by no key of their own."""


class Form(Sheet[bool], inherit_bindings=False):
    """Fields to fill in. Enter keeps them all, and the form stays until they are right."""

    AREA = "form"
    AUTO_FOCUS = "Input"
    BINDINGS: ClassVar[list[BindingType]] = bindings_of("form")

    def __init__(self, title: str, fields: Sequence[FormField], keep: Keep, note: str = "") -> None:
        super().__init__()
        self._title = title
        self._fields = tuple(fields)
        self._keep = keep
        self._note = note

    def compose(self) -> ComposeResult:
        """Title, the fields, a hint for the field one is in, the keys."""
        head = Pane(self.draw_head, id="head")
        head.styles.height = 2
        yield head
        with Fields(classes="fields", can_focus=False):
            yield from self._rows()
        hint = Pane(self.draw, id="body", private=False)
        hint.styles.height = 3
        yield hint
        yield Foot(self.AREA)

    def _rows(self) -> Iterator[Horizontal]:
        for field in self._fields:
            words = SuggestFromList(field.choices, case_sensitive=False) if field.choices else None
            label = Pane(_label(field))
            label.add_class("label")
            hides = self.session.discreet and holds_amount(field.value)
            typed = Input(field.value, id=f"field-{field.name}", suggester=words, password=hides)
            yield Horizontal(label, typed)

    def draw_head(self, width: int, height: int) -> Sequence[Line]:
        """The title."""
        return self.head(self._title, "", width)

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """How to write the field one is in, or what the form is about."""
        field = self._focused
        told = field.hint if field else ""
        note = [line(" ", (clip(self._note, width - 2, self.session.marks), "quiet"))]
        out = note if self._note else []
        return [*out, *hint_lines(told, field.choices if field else (), width, height - len(out))]

    @property
    def _focused(self) -> FormField | None:
        name = self.focused.id if self.focused else None
        return next((one for one in self._fields if f"field-{one.name}" == name), None)

    def on_descendant_focus(self) -> None:
        """The hint follows the field."""
        self.query_one("#body", Pane).refresh()

    @property
    def values(self) -> dict[str, str]:
        """What stands in the fields, by name."""
        return {
            field.name: self.query_one(f"#field-{field.name}", Input).value.strip()
            for field in self._fields
        }

    def action_next(self, by: int) -> None:
        """To another field."""
        if by > 0:
            self.focus_next(Input)
        else:
            self.focus_previous(Input)

    @on(Input.Submitted)
    def submitted(self, event: Input.Submitted) -> None:
        """Enter keeps."""
        self.action_keep()

    def action_keep(self) -> None:
        """Hand the values over; on a mistake stay, in the field where it is."""
        try:
            self._keep(self.values)
        except AppraiseError as error:
            names = {one.name for one in self._fields}
            if error.where in names:
                self.query_one(f"#field-{error.where}", Input).focus()
            self.say(str(error), "warn")
            return
        self.dismiss(True)


def _label(field: FormField) -> Callable[[int, int], list[Line]]:
    def draw(width: int, height: int) -> list[Line]:
        return [line(" ", (clip(field.label, width - 1), "quiet"))]

    return draw
