"""The bench, the want list, venues and rates: their commands."""

from appraise.commands.registry import Arg, Command, alone, changes, flag

_VENUE = Arg("name", offers="venue")
_UNDO = " ('log undo' restores it)"
_OWN = flag(
    "--own", "mark the piece's entry as your own work: its price is then left out of estimates"
)


def _kept(
    family: str, called: str, add: str, line: str, listed: Command, *own: Arg, gone: str = _UNDO
) -> list[Command]:
    """What can be done to any record of the bench.

    Args:
        family: The first word of the commands, which is the type of record too.
        called: What one is called.
        add: What is written to add one.
        line: What of that stands before its fields.
        listed: How they are listed.
        own: What else may be said where one is added or edited.
        gone: What happens where one is removed.
    """
    ref = Arg("id", f"the {called}'s id, or its first letters, or its title", offers=family)
    words = Arg("words", f"{line}, and fields as FIELD=VALUE", many="+", offers=f"field:{family}")

    def row(action: str, says: str, *takes: Arg, fields: tuple[str, ...] = ()) -> Command:
        return Command(f"{family} {action}", says, takes, family, fields)

    return [
        row("add", f"add a {called}: {add}", words, *own, fields=(family,)),
        listed,
        row("show", f"show one {called} in full", ref),
        row(
            "edit", f"edit a {called}: ID FIELD=VALUE ...", ref, changes(family), *own,
            fields=(family,),
        ),
        row("remove", f"remove a {called}{gone}", ref),
        row("history", f"show the history of a {called}", ref),
    ]  # fmt: skip


COMMANDS = (
    *_kept(
        "want",
        "want",
        "'ninth or sixth vine, 1855-1862, up to 80'",
        "the want in a line",
        Command("want list", "list your wants", (), "want"),
    ),
    *_kept(
        "stock",
        "part",
        "'sixth brass mat oval, 3' recess='73 x 86 mm'",
        "the part in a line",
        Command(
            "stock list",
            "list the parts in stock",
            (flag("--all", "include used up parts"),),
            "stock",
        ),
    ),
    Command(
        "stock fits",
        "parts that fit a plate (a piece file, an entry or a plate in stock); with --part, plates "
        "that fit a part",
        (
            Arg("piece", "PIECE.yaml, or the id of an entry or plate", many="?", offers="file"),
            Arg("--part", "loose plates that fit this part", "ID", offers="stock"),
            Arg("--limit", "maximum number shown", "N", kind=int, usual=10),
        ),
    ),
    *_kept(
        "work",
        "job",
        "TITLE FIELD=VALUE ...",
        "a title",
        Command(
            "work list",
            "list jobs, those in progress first",
            (flag("--open", "only jobs in progress"),),
            "work",
        ),
        _OWN,
        gone="; its parts return to stock",
    ),
    Command(
        "work done",
        "finish a job: ID, and fields as FIELD=VALUE",
        (
            Arg("id", "the job's id, or its first letters, or its title", offers="work"),
            changes("work", "FIELD=VALUE", "*"),
            _OWN,
        ),
        "work",
        ("work",),
    ),
    Command(
        "venues list", "list venues, and those in the log without terms", (), "venue", day=False
    ),
    Command("venues show", "show the terms of one venue", (_VENUE,), "venue"),
    Command("venues remove", "forget a venue's terms", (_VENUE,), "venue"),
    Command(
        "venues edit",
        "add or edit a venue's terms: NAME FIELD=VALUE ...",
        (_VENUE, changes("venue")),
        "venue",
        ("venue",),
    ),
    alone(
        "rates",
        Arg("code", "currency to convert from", many="?", offers="code"),
        Arg("rate", "value of one unit in your currency", many="?"),
        Arg("--on", "day of the rate (default: today)", "DATE"),
        Arg("--source", "source of the rate", usual=""),
        target="rate",
        day=False,
    ),
)
