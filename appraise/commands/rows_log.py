"""The price log: its commands."""

from pathlib import Path

from appraise.commands.registry import Arg, Command, changes, choice, flag

_ENTRY = Arg("id", "the entry's id, or the first letters of it", offers="price")
_CHECK = flag("--check", "also look for unusual prices in a long log")
_LEAVE = "(default: leave)"
_LEFT_OUT = "nothing after = leaves it out"


def _code(name: str, says: str) -> Arg:
    return Arg(name, says, "CODE", usual="", offers="code")


def _log(action: str, says: str, *takes: Arg, **more: bool) -> Command:
    return Command(f"log {action}", says, takes, day=more.get("day", False),
                   json=more.get("json", True))  # fmt: skip


def _of_one(
    action: str, says: str, *takes: Arg, day: bool = False, fields: tuple[str, ...] = ()
) -> Command:
    return Command(f"log {action}", says, (_ENTRY, *takes), "price", fields, day=day)


COMMANDS = (
    _log(
        "add",
        "log a price: 'sixth ambrotype vine 38 + 6 post, quay market'",
        Arg("words", many="+"),
        flag("--try", "show, save nothing", "only_try"),
        flag("--yes", "save without asking"),
        day=True,
    ),
    _log(
        "list",
        "list entries, newest first; filter by words and field:value",
        Arg("filter", many="*", offers="filter:price"),
        Arg("--limit", "maximum number shown", "N", kind=int),
        _CHECK,
    ),
    _of_one("show", "show one entry in full", _CHECK),
    _of_one("remove", "delete an entry ('log undo' restores it)"),
    _of_one("history", "show the history of an entry"),
    _of_one("edit", "edit an entry: ID field=value ...", changes("price")),
    _log("undo", "undo the last change to the log"),
    _log("redo", "redo the change last undone"),
    _of_one(
        "outcome",
        "record the outcome of a logged piece",
        Arg("--found", "together, married, ...", "STATE", usual=""),
        Arg("--sure", "certain, likely or guess", usual="likely"),
        Arg("--by", "found by whom", usual=""),
        Arg("--price", "the later price, e.g. '38 USD'", "AMOUNT"),
        day=True,
    ),
    _log(
        "currency",
        "show or choose the currency of your prices",
        Arg("code", "such as EUR (default: show the current one)", many="?", offers="code"),
    ),
    _of_one(
        "picture",
        "an entry's photos: list, attach or open them",
        Arg("file", "a photo file to copy and attach", many="?", usual="", offers="file"),
        flag("--detach", "FILE is a photo's id: unlink it", either="what"),
        flag("--open", "open it in the system's viewer; FILE is its id", either="what"),
    ),
    _log(
        "import",
        "import entries from CSV or YAML (importing twice adds no duplicates)",
        Arg("file", kind=Path),
        flag("--preview", "show how the file is read; save nothing"),
        flag("--only-good", "import the good rows only"),
        flag("--update", "rows replace what the log says of the same entries"),
        Arg("--column", f"what a column is; {_LEFT_OUT}", "HEADER=FIELD", "each"),
        Arg("--word", f"what a word of the file means; {_LEFT_OUT}", "TEXT=WORD", "each"),
        Arg("--point", "the decimal point: . or ,", "SIGN", choices=(".", ","), usual=""),
        choice("--order", "first in a date", "day", "month"),
        Arg("--record", "record type, where the file does not say", usual=""),
        Arg("--channel", "venue, where the file does not say", usual=""),
        _code("--currency", "currency of amounts without one, e.g. EUR"),
        _code("--dollar", "which dollar a bare $ means, e.g. AUD"),
        choice("--doubtful", f"rows that may be no price of a piece {_LEAVE}", "import", "leave"),
        choice("--doubles", f"rows with day and price of an entry {_LEAVE}", "add", "leave"),
        choice("--blank-days", "what a row without a day means", "above", "unknown"),
        Arg("--encoding", "if not recognised", usual=""),
    ),
    _log(
        "export",
        "write entries as CSV or YAML",
        Arg("out", "a new file, .csv or .yaml; - for stdout", kind=Path),
        Arg("filter", many="*", offers="filter:price"),
        Arg("--as", "if the name does not say", choices=("csv", "yaml"), to="form"),
        json=False,
    ),
    _log(
        "merge", "merge in the log of another computer", Arg("other", "", "OTHER.sqlite", kind=Path)
    ),
    _log("conflicts", "list entries changed on two computers"),
    _log(
        "settle",
        "choose the version of an entry to use",
        Arg("entry", offers="price"),
        Arg("version", "its id, or the first letters of it"),
    ),
    _log("backup", "back up the log now", flag("--list", "list the backups", "only_list")),
    _log(
        "restore",
        "restore a backup (the current log is set aside)",
        Arg("backup", "default: the newest", many="?", kind=Path),
    ),
    _log(
        "check",
        "check the log and its photos for damage",
        Arg("file", "another log file (default: your log)", many="?", kind=Path, offers="file"),
        flag("--mend", "repair what can be repaired"),
        flag("--salvage", "write everything readable to a new log"),
    ),
)
