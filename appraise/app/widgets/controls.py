"""The controls of a form: a line to type in, a choice, and a box to tick, all a line high."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.message import Message
from textual.suggester import SuggestFromList
from textual.validation import ValidationResult, Validator
from textual.widgets import Checkbox, Input, Select

from appraise.base.errors import AppraiseError

Check = Callable[[str], object]
"""Reads what was typed into one field; raises an AppraiseError where it does not fit."""


class Reads(Validator):
    """What is typed can be read as the field's kind of value."""

    def __init__(self, check: Check) -> None:
        super().__init__()
        self._check = check

    def validate(self, value: str) -> ValidationResult:
        try:
            self._check(" ".join(value.split()))
        except AppraiseError as error:
            return self.failure(str(error))
        return self.success()


class TypedInput(Input):
    """A line to type in, with the words offered that it may hold."""

    def __init__(
        self, value: str, words: Sequence[str], check: Check, hides: bool, id: str
    ) -> None:
        super().__init__(
            value,
            id=id,
            classes="control",
            suggester=SuggestFromList(words, case_sensitive=False) if words else None,
            password=hides,
            validators=[Reads(check)],
            validate_on=["blur"],
            valid_empty=True,
        )

    @property
    def text(self) -> str:
        return self.value.strip()


class ChoiceInput(Select[str], inherit_bindings=False):
    """One of a few words: space lists them, arrows go through them, typed letters find one."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "show_overlay", "choose", show=False),
        Binding("right", "turn(1)", "next", show=False),
        Binding("left", "turn(-1)", "previous", show=False),
    ]

    def __init__(self, value: str, words: Sequence[str], needed: bool, id: str) -> None:
        self._typed = ""
        known = [*words, *([value] if value and value not in words else [])]
        self._words = known if needed else ["", *known]
        super().__init__(
            [(word or "-", word) for word in self._words],
            value=value if value in self._words else self._words[0],
            allow_blank=False,
            compact=True,
            id=id,
            classes="control",
        )

    class Refused(Message):
        """What was typed begins no word: nothing else was chosen for it."""

        def __init__(self, typed: str) -> None:
            super().__init__()
            self.typed = typed

    @property
    def text(self) -> str:
        """The word that is chosen; empty for none."""
        return self.value if isinstance(self.value, str) else ""

    def action_turn(self, by: int) -> None:
        self._typed = ""
        self.value = self._words[(self._words.index(self.text) + by) % len(self._words)]

    def on_focus(self) -> None:
        self._typed = ""

    def on_key(self, event: events.Key) -> None:
        """Letters typed one after the other find the word that they begin, or one of its parts.

        One letter again and again goes through the words that it begins. What begins none is
        refused, and the choice stays.
        """
        letter = (event.character or "").lower()
        if self.expanded or not letter.isprintable() or not letter.strip():
            return
        event.stop()
        again = self._typed in ("", letter)
        typed = letter if again else self._typed + letter
        place = self._words.index(self.text) + 1 if again else 0
        found = _begun(typed, [*self._words[place:], *self._words[:place]])
        if found is None:
            self.post_message(self.Refused(self._typed + letter))
            return
        self._typed, self.value = typed, found


def _begun(typed: str, words: Sequence[str]) -> str | None:
    """The first word that begins so, else the first of which a part does; None where none does."""
    whole = (word for word in words if word.lower().startswith(typed))
    part = (word for word in words if f"-{typed}" in word.lower())
    return next(whole, None) or next(part, None)


class Tick(Checkbox, inherit_bindings=False):
    """Yes or no: space ticks it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "toggle_button", "tick", show=False),
    ]

    def __init__(self, value: str, id: str) -> None:
        super().__init__("yes", value == "yes", compact=True, id=id, classes="control")
        self._was = value

    def render(self) -> Content:
        """The box, ticked or not, in signs that every terminal has."""
        return Content("[x] yes" if self.value else "[ ] yes")

    @property
    def text(self) -> str:
        """Yes or no; what was recorded before where that is not changed."""
        if self.value == (self._was == "yes"):
            return self._was
        return "yes" if self.value else "no"


Control = TypedInput | ChoiceInput | Tick
