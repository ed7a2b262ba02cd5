"""A small form: one line a field; nothing is kept until all of it is right."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any, TypeVar, cast

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.widgets import Input, Label

from appraise.app.discretion import holds_amount
from appraise.app.lines import Line, clip, fold, line
from appraise.app.pane import Pane
from appraise.app.sheet import Sheet
from appraise.app.widgets.controls import Check, ChoiceInput, Control, Tick, TypedInput
from appraise.base.dataclass import dataclass
from appraise.base.errors import AppraiseError, InputError
from appraise.records.fields import Field, Typed, typed_fields, values_of, written
from appraise.records.quantities import AmountKind
from appraise.records.values import Author, FlagKind, WordKind

Taken = TypeVar("Taken")
MOST_CHOICES = 14  # words that are listed; of more one is typed


@dataclass(frozen=True, slots=True)
class FormField:
    """One field of a form.

    Attributes:
        field: What it is.
        value: What stands in it at first.
        words: The words it may hold, offered while one types.
        only: Whether it may hold nothing but one of them.
        check: Reads what was typed into it by itself.
    """

    field: Field
    value: str
    words: Sequence[str]
    only: bool
    check: Check

    @property
    def name(self) -> str:
        return self.field.name

    @property
    def label(self) -> str:
        """What is written before it."""
        return self.field.asks or self.field.title

    @property
    def hint(self) -> str:
        """How to fill it in."""
        if isinstance(self.field.kind, FlagKind):
            return f"{self.field.hint} Space ticks it."
        return f"{self.field.hint} Space lists the choices." if self.only else self.field.hint


def fields_of(
    thing: Typed,
    by: Author,
    *,
    only: Sequence[str] = (),
    shown: Mapping[str, str] | None = None,
    choices: Mapping[str, Sequence[str]] | None = None,
) -> list[FormField]:
    """The fields of a record as it stands, each read by itself as soon as it is left.

    Args:
        thing: The record.
        by: Who types.
        only: Their names; none: every field that is typed.
        shown: Texts that stand in fields instead.
        choices: Words that fields take beside.
    """
    known, words = typed_fields(type(thing)), choices or {}
    texts = {**written(thing), **(shown or {})}

    def read(each: Field, text: str) -> None:
        if text and text != " ".join(each.text(thing).split()):
            each.read(text, thing, by, {})

    return [
        _field(known[name], " ".join(texts[name].split()), words.get(name), by, read)
        for name in only or known
    ]


def loose_fields(
    fields: Sequence[Field], by: Author, shown: Mapping[str, str] | None = None
) -> list[FormField]:
    """Fields of no record, with the texts that stand in them at first."""

    def read(each: Field, text: str) -> None:
        values_of([each], {each.name: text}, by)

    return [_field(each, (shown or {}).get(each.name, ""), None, by, read) for each in fields]


def _field(
    each: Field,
    value: str,
    offered: Sequence[str] | None,
    by: Author,
    read: Callable[[Field, str], None],
) -> FormField:
    kind, words = each.kind, offered or each.kind.words(by.knowledge)
    only = isinstance(kind, WordKind) and not offered and 1 < len(words) <= MOST_CHOICES
    return FormField(each, value, words, only, partial(read, each))


def hint_lines(hint: str, choices: Sequence[str], width: int, height: int) -> list[Line]:
    """The hint of a field with as many of its choices as there is room for, none of them cut."""

    def folded(many: int) -> list[Line]:
        more = len(choices) - many
        words = f"{', '.join(choices[:many])}{f' and {more} more' if more else ''}"
        told = f"{hint} One of: {words}".strip() if choices else hint
        return fold(told, max(1, width - 2), " ", role="quiet")

    fits = (many for many in range(len(choices), 0, -1) if len(folded(many)) <= height)
    return folded(next(fits, min(1, len(choices))))


Texts = Mapping[str, str]
"""What stands in the fields, by name."""


def ask(
    sheet: Sheet[Any],
    title: str,
    fields: Sequence[FormField],
    take: Callable[[Texts], Taken],
    then: Callable[[Taken], object],
    note: str = "",
    at: str = "",
) -> None:
    """A form.

    Args:
        sheet: The screen it is laid over.
        title: What is asked.
        fields: The fields.
        take: Takes what was typed; while it raises an AppraiseError the form stays, at the field
            that its `where` names.
        then: Goes on with what that returned.
        note: What the form is about.
        at: The field where one begins; empty: the first.
    """
    sheet.open(Form(title, fields, take, note, at), lambda taken: then(*taken))


def ask_values(
    sheet: Sheet[Any],
    title: str,
    fields: Sequence[Field],
    take: Callable[[Mapping[str, Any]], Taken],
    then: Callable[[Taken], object],
    *,
    shown: Mapping[str, str] | None = None,
    note: str = "",
) -> None:
    """A form of fields of no record; `take` is given their values, None where nothing was typed."""
    by = sheet.session.author()
    loose = loose_fields(fields, by, shown)
    ask(sheet, title, loose, lambda texts: take(values_of(fields, texts, by)), then, note)


def ask_file(
    sheet: Sheet[Any],
    title: str,
    field: Field,
    take: Callable[[str], Taken],
    then: Callable[[Taken], object],
) -> None:
    """A form for the path of a file, which is never empty."""

    def read(texts: Texts) -> Taken:
        if not texts[field.name]:
            raise InputError("no file given", field.name, "Write its path.")
        return take(texts[field.name])

    ask(sheet, title, loose_fields([field], sheet.session.author()), read, then)


class Fields(VerticalScroll, inherit_bindings=False):
    """The fields, which scroll to the one that one is in and by no key of their own."""


class Form(Sheet[tuple[Any]]):
    """Fields to fill in. Enter keeps them all, and the form stays until they are right."""

    AREA = "form"
    AUTO_FOCUS = ".control"

    def __init__(
        self,
        title: str,
        fields: Sequence[FormField],
        take: Callable[[Texts], Any],
        note: str,
        at: str = "",
    ) -> None:
        super().__init__()
        self.heading = title
        self._fields = tuple(fields)
        self._take = take
        self._note = note
        self._first = at

    def middle(self) -> ComposeResult:
        """The fields, and a hint for the field one is in."""
        with Fields(classes="fields", can_focus=False):
            yield from self._rows()
        hint = Pane(self.draw, id="body", private=False)
        hint.styles.height = 3
        yield hint

    def _rows(self) -> Iterator[Horizontal]:
        for field in self._fields:
            yield Horizontal(
                Label(field.label, classes="label", markup=False), self._control(field)
            )

    def _control(self, field: FormField) -> Control:
        name, kind = f"field-{field.name}", field.field.kind
        if isinstance(kind, FlagKind):
            return Tick(field.value, name)
        if field.only and isinstance(kind, WordKind):
            return ChoiceInput(field.value, field.words, kind.needed, name)
        amount = isinstance(kind, AmountKind) or holds_amount(field.value)
        return TypedInput(
            field.value, field.words, field.check, self.session.discreet and amount, name
        )

    def draw(self, width: int, height: int) -> Sequence[Line]:
        """How to write the field one is in, or what the form is about."""
        field = self._focused
        told, words = (field.hint, field.words) if field else ("", ())
        note = [line(" ", (clip(self._note, width - 2, self.session.marks), "quiet"))]
        out = note if self._note else []
        return [*out, *hint_lines(told, words, width, height - len(out))]

    @property
    def _focused(self) -> FormField | None:
        found = self.focused
        name = found.id if found and found.has_class("control") else None
        return next((one for one in self._fields if f"field-{one.name}" == name), None)

    def on_mount(self) -> None:
        if self._first:
            self.query_one(f"#field-{self._first}").focus()

    def on_descendant_focus(self) -> None:
        self.query_one("#body", Pane).renew()

    @property
    def values(self) -> dict[str, str]:
        return {
            field.name: cast(Control, self.query_one(f"#field-{field.name}")).text
            for field in self._fields
        }

    def action_next(self, by: int) -> None:
        if by > 0:
            self.focus_next(".control")
        else:
            self.focus_previous(".control")

    @on(Input.Submitted)
    def submitted(self, event: Input.Submitted) -> None:
        self.action_keep()

    @on(ChoiceInput.Refused)
    def refused(self, event: ChoiceInput.Refused) -> None:
        """What was typed is no choice: it is said, and nothing else is taken for it."""
        told = f"no choice begins with '{event.typed}'. Space lists them, arrows go through them."
        self.say(f"{self._focused.label}: {told}" if self._focused else told, "warn")

    @on(Input.Blurred)
    def left(self, event: Input.Blurred) -> None:
        """A field that was left is read by itself: what is wrong with it is said at once."""
        result, name = event.validation_result, event.input.id
        field = next((one for one in self._fields if f"field-{one.name}" == name), None)
        if field is not None and result is not None and not result.is_valid:
            self.say(f"{field.label}: {result.failure_descriptions[0]}", "warn")

    def action_keep(self) -> None:
        try:
            taken = self._take(self.values)
        except AppraiseError as error:
            labels = {one.name: one.label for one in self._fields}
            told = str(error)
            if error.where in labels:
                self.query_one(f"#field-{error.where}").focus()
                told = str(InputError(error.what, labels[error.where], error.mend))
            self.say(told, "warn")
            return
        self.dismiss((taken,))


AGAIN = "Press enter again to record it anyway."


class Doubts:
    """What a form has doubted."""

    def __init__(self) -> None:
        self._said = ""

    def once(self, doubt: str, typed: str, field: str) -> None:
        """Raise a doubt about what was typed, unless it was raised about the same before.

        Raises:
            InputError: placed at the field.
        """
        if doubt and typed != self._said:
            self._said = typed
            raise InputError(doubt, field, AGAIN)
