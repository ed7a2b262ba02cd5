"""Pieces that one owns: their commands."""

from pathlib import Path

from appraise.commands.registry import Arg, Command, changes, flag

FIELDS = ("number", "place", "title", "status", "acquired", "provenance", "receipt")
"""What may be said of a piece as it is added."""

_REF = Arg("ref", "its number, the first letters of its id, or its title", offers="kept")
_FILTER = Arg("filter", many="*", offers="filter:kept")
_NOTE = Arg("--note", usual="")
_TO = Arg("--to", "to whom or where", needed=True)
_SEEN = "the piece file as seen in hand; saved as its newest examination"


def _of_one(action: str, says: str, *takes: Arg, fields: tuple[str, ...] = ()) -> Command:
    return Command(f"kept {action}", says, (_REF, *takes), "kept", fields)


COMMANDS = (
    Command("kept list", "list your pieces; filter: words and field:value", (_FILTER,), "kept"),
    _of_one(
        "show",
        "show one piece in full: what an heir or insurer would ask",
        Arg("--piece", "write the piece file here", "FILE", kind=Path),
    ),
    Command(
        "kept add",
        "add a piece you own, from a purchase in the log or a piece file",
        (
            Arg("piece", shown="PIECE.yaml|ID", offers="price"),
            *(Arg(f"--{name}") for name in FIELDS),
            Arg("--return-by", "the return deadline", "DATE"),
        ),
        "kept",
    ),
    _of_one(
        "edit",
        "edit the piece's record: REF field=value ...; | between lines",
        changes("kept"),
        fields=("kept",),
    ),
    _of_one("move", "move the piece to another place", Arg("place", "room, box, drawer", many="+")),
    _of_one(
        "lend",
        "record a loan, exhibition or conservation treatment",
        _TO,
        Arg("--until", "the day it is due back", "DATE"),
        Arg("--as", "lent, on-show or with-conservator", "STATUS", usual="lent", to="sort"),
        _NOTE,
    ),
    _of_one(
        "back",
        "returned",
        Arg("--place", "present location, if changed"),
        Arg("--cost", "the cost, e.g. '20 USD'", "AMOUNT"),
        _NOTE,
    ),
    _of_one(
        "did",
        "record treatment or another event, and its cost",
        Arg("what", "cleaned, mended, shown, other"),
        Arg("--to", "by whom, or where", usual=""),
        Arg("--cost", "as '20 USD'", "AMOUNT"),
        _NOTE,
    ),
    _of_one(
        "light",
        "record light exposure: hours and lux",
        Arg("hours", kind=int),
        Arg("lux", kind=int),
        Arg("--where", usual=""),
    ),
    _of_one("give", "record that it was given away", _TO),
    _of_one(
        "lost",
        "record that it is missing, or was found again",
        flag("--stolen", "stolen", either="which"),
        flag("--found", "found again", either="which"),
        _NOTE,
    ),
    _of_one("remove", "remove it from the list ('log undo' restores it)"),
    _of_one("history", "show its history"),
    _of_one(
        "check",
        "record a condition check",
        Arg("found", "check and severity, e.g. hinge.tape=2", "DEFECT=STEP", "*"),
        Arg("--says", "the condition in your words", usual=""),
        Arg("--by", "who checked", usual=""),
        Arg("--note", "the light, what is not checked, photos", usual=""),
    ),
    _of_one(
        "arrival",
        "arrival check: compare with the listing; shows the return deadline",
        Arg("piece", _SEEN, "PIECE.yaml", "?", Path),
        flag("--letter", "print only the letter"),
        Arg("--out", "write the letter to a file", "FILE", kind=Path),
        flag("--returned", "record that it was sent back"),
    ),
    _of_one(
        "sell",
        "log a sale: net proceeds and gain",
        Arg("price", "the price the buyer paid, e.g. '80 USD'", "AMOUNT"),
        Arg("--percent", "the seller's fee, in %", usual="0"),
        Arg("--fee", "a further fee", "AMOUNT"),
        Arg("--postage", "shipping you paid", "AMOUNT"),
        Arg("--costs", "other costs of the sale", "AMOUNT"),
        Arg("--to", "the buyer", usual=""),
        Arg("--venue", "the place of sale", usual="", offers="venue"),
        Arg("--channel", "market, fair, shop, online, auction, private", usual=""),
        flag("--try", "show the sums, log nothing", "only_try"),
    ),
    Command(
        "kept care",
        "pieces that need a conservator; check room readings",
        (
            _FILTER,
            Arg("--temperature", "degrees Celsius", "C", kind=float),
            Arg("--humidity", "relative humidity", "PERCENT", kind=float),
            Arg("--lux", "light where pieces are exhibited", "LUX", kind=float),
        ),
    ),
    Command(
        "kept schedule",
        "what is due: condition checks, loans, returns, most urgent first",
        (_FILTER,),
    ),
)
