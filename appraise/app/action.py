"""One action: what a key does in one place, and how that is written."""

from appraise.base.dataclass import dataclass
from appraise.commands.registry import command

CALLED = {
    "any": "everywhere",
    "look": "first look",
    "slip": "text of a listing",
    "sides": "sides shown",
    "cell": "edit in place",
    "line": "in one line",
    "track": "track record",
    "owned": "owned piece",
    "stock": "parts in stock",
    "work": "jobs",
    "wants": "want list",
    "ask": "question",
}
"""What places are called, where not by their own name."""

_SHOWN = {
    "question_mark": "?",
    "slash": "/",
    "left_square_bracket": "[",
    "right_square_bracket": "]",
    "escape": "esc",
    "delete": "del",
}


@dataclass(frozen=True, slots=True)
class Action:
    """Something that a key does in one place.

    Attributes:
        area: Where.
        do: What is called there, as the screen library writes it; `{key}` stands for the key.
        keys: The keys with blanks between, as the screen library names them.
        verb: A word or two for the line of keys and the palette.
        own: One line for the help; empty: what the command says.
        shown: The keys as a person reads them, where the names do not do.
        place: Its place in the line of keys; 0: not shown there.
        palette: Whether the palette offers it.
        command: The command that does the same, where there is one.
    """

    area: str
    do: str
    keys: str
    verb: str
    own: str
    shown: str = ""
    place: int = 0
    palette: bool = True
    command: str = ""

    @property
    def says(self) -> str:
        """One line for the help."""
        return self.own or command(self.command).sentence

    @property
    def id(self) -> str:
        return f"{self.area}.{self.verb.replace(' ', '-')}"

    @property
    def display(self) -> str:
        """The keys as a person reads them."""
        return self.shown or " ".join(_SHOWN.get(key, key) for key in self.keys.split())
