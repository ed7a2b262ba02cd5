"""Every command, described once: the parser, its help, completion and the app's words read it.

A row says what a command is called, what it does, what it takes and which key does it in the app.
The rows of a family stand in one module, which is imported when that family is asked for.
"""

import re
from collections.abc import Mapping
from importlib import import_module

from appraise.base.dataclass import dataclass

_TYPED = re.compile(r" \([^)]*\)|: (?=[A-Z'\"]).*|; (?=[A-Z-]).*")
"""What the help of a command says of how it is typed."""


@dataclass(frozen=True, slots=True)
class Arg:
    """One argument or option.

    Attributes:
        name: Its name; of an option with its dashes.
        says: What it is, in a line.
        shown: What stands for its value in the help; empty: its name.
        many: How many follow: '' one, '?', '*', '+', 'each' for an option that may be repeated.
        kind: Its values: str, int, float, Path, or bool for an option without a value.
        choices: The only values that it may have.
        usual: Its value where none is given.
        to: The name under which it is handed on, where that is not its own.
        needed: Whether an option must be given.
        either: A name that options share of which only one may be given.
        offers: What completes it: the type of a record for its ids, `field:TYPE` for the names of
            its fields, or `file`.
    """

    name: str
    says: str = ""
    shown: str = ""
    many: str = ""
    kind: type = str
    choices: tuple[str, ...] = ()
    usual: object = None
    to: str = ""
    needed: bool = False
    either: str = ""
    offers: str = ""


def flag(name: str, says: str, to: str = "", either: str = "") -> Arg:
    """An option without a value."""
    return Arg(name, says, kind=bool, to=to, either=either)


def choice(name: str, says: str, *words: str) -> Arg:
    """An option that takes one of some words; empty where none is given."""
    return Arg(name, says, choices=words, usual="")


def changes(record: str, says: str = "FIELD= clears the field", many: str = "+") -> Arg:
    """Fields of a type of record, as they are to be."""
    return Arg("changes", says, "FIELD=VALUE", many, offers=f"field:{record}")


@dataclass(frozen=True, slots=True)
class Command:
    """One command.

    Attributes:
        name: Family and action, 'want add'; a family alone does without an action.
        target: The type of record that it is about; empty: none, or several.
        fields: Types of record whose fields may be written as FIELD=VALUE; a dotted one stands for
            the records within another, as piece.1 for the pieces of a lot.
        json: Whether it can print JSON.
        day: Whether it can be asked as of another day.
    """

    name: str
    says: str
    takes: tuple[Arg, ...] = ()
    target: str = ""
    fields: tuple[str, ...] = ()
    json: bool = True
    day: bool = True

    @property
    def key(self) -> str:
        """The key that does it in the app, as the screen library names it; '' for none."""
        return KEYS.get(self.name, "")

    @property
    def sentence(self) -> str:
        """What it does as a sentence, without how it is typed on a command line."""
        told = _TYPED.sub("", self.says)
        return f"{told[:1].upper()}{told[1:]}."

    @property
    def family(self) -> str:
        """The first word of its name."""
        return self.name.partition(" ")[0]

    @property
    def action(self) -> str:
        """The second word of its name; empty where the family does without."""
        return self.name.partition(" ")[2]


@dataclass(frozen=True, slots=True)
class Family:
    """Commands under one first word.

    Attributes:
        home: Whose rows stand in one module with theirs: `rows_pieces`, `rows_bench` and so on.
        usual: The action that is meant where none is given; empty: one must be, if there are any.
    """

    says: str
    home: str
    usual: str = ""


FAMILIES: Mapping[str, Family] = {
    "demo": Family("open the invented demo; without a terminal, print it as text", "reference"),
    "look": Family("a first look in one line: 'sixth ambro thermoplastic vine 45'", "pieces"),
    "verdict": Family("full verdict on a piece file: what it is, date, condition, worth", "pieces"),
    "ask": Family("the checklist as plain numbered lines, then the verdict", "pieces"),
    "bid": Family("maximum bid and full bill, for a piece, a lot, or a value you give", "pieces"),
    "lots": Family("marked lots: closing times, your bids, results", "lots", "list"),
    "budget": Family("show what is left to spend; AMOUNT --per month sets a budget", "lots"),
    "listing": Family("a seller's text: claims, flags, gaps, questions", "pieces"),
    "checks": Family("every check: id, question, answers, how, source", "knowledge"),
    "knowledge": Family("check the knowledge files", "knowledge", "check"),
    "year": Family("what was in use in a year, what was new and what was fading", "knowledge"),
    "card": Family("the most useful checks as one printable page", "knowledge"),
    "care": Family("care: storage figures and advice", "reference"),
    "never": Family("tests and treatments never to try, and why", "reference"),
    "log": Family("the price log: add, list, edit, import, merge, backup ...", "log", "list"),
    "venues": Family("places to buy, with their premium, taxes and fees", "bench", "list"),
    "rates": Family("your own exchange rates: CODE RATE adds one", "bench"),
    "kept": Family("what you own: where it is, what is due, arrivals, sales", "kept", "list"),
    "stock": Family("parts in stock: add, list, what fits what", "bench", "list"),
    "work": Family(
        "repairs and assemblies: add, list, done; used parts leave the stock", "bench", "list"
    ),
    "want": Family("your want list: add, list, edit, remove", "bench", "list"),
    "record": Family("identification record (Object ID), and what is missing", "pieces"),
    "report": Family(
        "write a report: for yourself, the public, a conservator, an insurer or an heir", "pieces"
    ),
    "track": Family("how accurate past estimates have been", "pieces"),
    "paths": Family("show where the log, settings and knowledge are", "reference"),
    "completion": Family("set up tab completion for your shell", "reference"),
}
"""In the order of the help."""


KEYS: Mapping[str, str] = {
    "log add": "n", "log edit": "e", "log remove": "delete", "log outcome": "w", "log undo": "u",
    "log redo": "ctrl+r", "log currency": "c", "log conflicts": "c", "log import": "i",
    "kept add": "n", "kept edit": "e", "kept check": "c", "kept arrival": "a", "kept sell": "s",
    "kept remove": "delete", "kept schedule": "d", "kept care": "w", "lots add": "n",
    "lots edit": "e", "lots bid": "b", "lots won": "w", "lots lost": "l", "lots pass": "x",
    "lots remove": "delete", "budget": "b", "work done": "d", "work edit": "e",
    "work remove": "delete", "track": "r", "report": "r", "year": "ctrl+y",
}  # fmt: skip
"""The keys of the app that do what a command does, on every screen where it can be done."""


def commands_of(family: str) -> tuple[Command, ...]:
    """The commands of a family, in the order of the help."""
    home = f"appraise.commands.rows_{FAMILIES[family].home}"
    rows: tuple[Command, ...] = import_module(home).COMMANDS
    return tuple(one for one in rows if one.family == family)


def alone(
    family: str, *takes: Arg, target: str = "", json: bool = True, day: bool = True
) -> Command:
    """The one command of a family, which says what the family does."""
    return Command(family, FAMILIES[family].says, takes, target, json=json, day=day)


def command(name: str) -> Command:
    """The command of that name.

    Raises:
        KeyError: when there is none.
    """
    found = {one.name: one for one in commands_of(name.partition(" ")[0])}
    return found[name]
