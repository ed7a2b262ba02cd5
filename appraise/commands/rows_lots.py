"""Lots that are marked, and the budget: their commands."""

from pathlib import Path

from appraise.commands.registry import Arg, Command, alone, changes, flag

PERIODS = ("month", "year")
_LOT = Arg("id", "the lot's id, its first letters, or its title", offers="lot")
_ZONE = Arg("--tz", "time zone, e.g. Europe/Berlin or +01:00 (default: this computer's)", "ZONE",
            usual="")  # fmt: skip
_PIECE = Arg("--piece", "the file of a piece in the lot; may be repeated", "FILE", "each", Path)
_ON = Arg("--on", "day (default: today)", "DATE")
_SHARE = "share of each piece, e.g. '3 2 1', or 'equal' (default: by their worths)"
_FIELDS = ("lot", "lot.piece.1")


def _of_one(action: str, says: str, *takes: Arg, fields: tuple[str, ...] = ()) -> Command:
    return Command(f"lots {action}", says, (_ZONE, _LOT, *takes), "lot", fields)


COMMANDS = (
    Command(
        "lots list",
        "list open lots, next to close first",
        (_ZONE, flag("--all", "include ended lots")),
        "lot",
    ),
    _of_one(
        "show", "show one lot in full", Arg("--lot", "also write a lot file here", "OUT", kind=Path)
    ),
    Command(
        "lots add",
        "mark a lot: TITLE, or a lot file, then FIELD=VALUE ...",
        (
            _ZONE,
            Arg("title", shown="TITLE|LOT.yaml", offers="file"),
            changes("lot", "", "*"),
            _PIECE,
        ),
        "lot",
        _FIELDS,
    ),
    _of_one(
        "edit",
        "edit a lot: ID FIELD=VALUE ...",
        changes("lot", many="*"),
        _PIECE,
        fields=_FIELDS,
    ),
    _of_one(
        "bid",
        "record your bid; --none withdraws it",
        Arg("amount", "the hammer price you bid up to", many="?"),
        Arg("--chance", "chance that it wins, in %", "N", kind=int),
        flag("--none", "withdraw the bid"),
        flag("--yes", "record a bid above the maximum too"),
    ),
    _of_one(
        "won",
        "record a lot you won; the cost is divided among the pieces and logged",
        Arg("--hammer", "the hammer price", "AMOUNT", needed=True),
        Arg("--total", "what you paid in total, by the invoice", "AMOUNT"),
        Arg("--share", _SHARE, "SHARES", usual=""),
        _ON,
    ),
    _of_one(
        "lost",
        "record a lot you lost; for a single piece its price is logged",
        Arg("--hammer", "the hammer price", "AMOUNT"),
        Arg("--share", "how to divide the price among several pieces", "SHARES", usual=""),
        _ON,
    ),
    _of_one("pass", "record that you did not bid", _ON),
    _of_one("remove", "remove a lot from your list ('log undo' restores it)"),
    _of_one("history", "show the history of a lot"),
    alone(
        "budget",
        Arg("amount", "amount for each month or year", many="?"),
        Arg("--per", "the calendar month or year", choices=PERIODS),
        flag("--none", "remove the budget"),
        target="budget",
    ),
)
