"""The controls of a form: a line to type in, a choice, and a box to tick, all a line high."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
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
    """One of a few words: space lists them, arrows and letters go through them."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "show_overlay", "choose", show=False),
        Binding("right", "turn(1)", "next", show=False),
        Binding("left", "turn(-1)", "previous", show=False),
    ]

    def __init__(self, value: str, words: Sequence[str], needed: bool, id: str) -> None:
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

    @property
    def text(self) -> str:
        """The word that is chosen; empty for none."""
        return self.value if isinstance(self.value, str) else ""

    def action_turn(self, by: int) -> None:
        self.value = self._words[(self._words.index(self.text) + by) % len(self._words)]

    def on_key(self, event: events.Key) -> None:
        """A letter goes to the next word that begins with it."""
        letter = (event.character or "").lower()
        if self.expanded or not letter.isalnum():
            return
        place = self._words.index(self.text) + 1
        later = [*self._words[place:], *self._words[:place]]
        found = next((word for word in later if word.lower().startswith(letter)), None)
        if found is not None:
            event.stop()
            self.value = found


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
