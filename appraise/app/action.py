"""One action: what a key does in one place, and how that is written."""

from dataclasses import dataclass

from appraise.commands.registry import KEYS, command

AREAS = {
    "any": "everywhere",
    "desk": "desk",
    "look": "first look",
    "piece": "piece",
    "slip": "text of a listing",
    "listing": "listing",
    "sides": "sides shown",
    "bid": "bid",
    "prices": "prices",
    "filter": "filter",
    "cell": "edit in place",
    "line": "in one line",
    "entry": "entry",
    "track": "track record",
    "lots": "lots",
    "lot": "lot",
    "kept": "kept",
    "owned": "owned piece",
    "arrival": "arrival",
    "stock": "parts in stock",
    "work": "jobs",
    "wants": "want list",
    "venues": "venues",
    "part": "part",
    "job": "job",
    "want": "want",
    "venue": "venue",
    "import": "import",
    "page": "page",
    "list": "list",
    "form": "form",
    "ask": "question",
}
"""Where actions work, and what that place is called."""

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
        area: Where, a key of `AREAS`.
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
        """Its name for key maps."""
        return f"{self.area}.{self.verb.replace(' ', '-')}"

    @property
    def display(self) -> str:
        """The keys as a person reads them."""
        return self.shown or " ".join(_SHOWN.get(key, key) for key in self.keys.split())


def of(
    name: str, area: str, verb: str, do: str = "", *, place: int = 0, says: str = "", keys: str = ""
) -> Action:
    """An action that does what a command does; its key and what it says are the command's.

    Args:
        name: The command.
        area: Where it works.
        verb: A word or two for the line of keys.
        do: What is called there; empty: the command's own word.
        place: Its place in the line of keys.
        says: What it says, where the screen has more to say.
        keys: Its keys, where another key is free.
    """
    do = do or name.rpartition(" ")[2]
    return Action(area, do, keys or KEYS.get(name, ""), verb, says, place=place, command=name)


def undoing(area: str, place: int = 0) -> tuple[Action, ...]:
    """Undo and redo of the log."""
    return of("log undo", area, "undo", place=place), of("log redo", area, "redo")


def walking(
    area: str, *, page: str = "space", leaps: bool = True, ends: bool = False
) -> tuple[Action, ...]:
    """The keys by which one moves in a list: lines, pages, and its ends."""
    moves = [
        ("step(1)", "down", "down", "Down a line."),
        ("step(-1)", "up", "up", "Up a line."),
    ]
    if leaps:
        moves += [
            ("leap(1)", f"pagedown {page}".strip(), "page down", "Down a page."),
            ("leap(-1)", "pageup", "page up", "Up a page."),
        ]
    if ends:
        moves += [
            ("end(-1)", "home", "first", "To the first line."),
            ("end(1)", "end", "last", "To the last line."),
        ]
    return tuple(Action(area, *move, palette=False) for move in moves)


def closing(area: str, verb: str = "back", says: str = "Back to where you were.") -> Action:
    """Back to where one was."""
    return Action(area, "close", "q escape", verb, says, place=99)
