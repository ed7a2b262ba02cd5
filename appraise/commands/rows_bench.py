"""The bench, the want list, venues and rates: their commands."""

from appraise.commands.registry import Arg, Command

CLEARS = "FIELD=VALUE; FIELD= clears the field"


def _words(says: str, record: str) -> Arg:
    return Arg("words", says, many="+", offers=f"field:{record}")


def _changes(record: str, many: str = "+", says: str = CLEARS) -> Arg:
    return Arg("changes", says, many=many, offers=f"field:{record}")


_WANT = Arg("id", "its id, or the first letters of it, or its title", offers="want")
_PART = Arg("id", "the part's id, or the first letters of it, or its title", offers="stock")
_JOB = Arg("id", "the job's id, or its first letters, or its title", offers="work")
_VENUE = Arg("name", offers="venue")
_OWN = Arg(
    "--own",
    "mark the piece's entry as your own work: its price is then left out of estimates",
    kind=bool,
)

COMMANDS = (
    Command(
        "want add",
        "add a want: 'ninth or sixth vine, 1855-1862, up to 80'",
        (_words("the want in a line, and fields as FIELD=VALUE", "want"),),
        "want",
        ("want",),
    ),
    Command("want list", "list your wants", (), "want"),
    Command("want show", "show one want in full", (_WANT,), "want"),
    Command(
        "want edit", "edit a want: ID FIELD=VALUE ...", (_WANT, _changes("want")), "want", ("want",)
    ),
    Command("want remove", "remove a want ('log undo' restores it)", (_WANT,), "want"),
    Command("want history", "show the history of a want", (_WANT,), "want"),
    Command(
        "stock add",
        "add a part: 'sixth brass mat oval, 3' recess='73 x 86 mm'",
        (_words("the part in a line, and fields as FIELD=VALUE", "stock"),),
        "stock",
        ("stock",),
    ),
    Command(
        "stock list",
        "list the parts in stock",
        (Arg("--all", "include used up parts", kind=bool),),
        "stock",
    ),
    Command("stock show", "show one part in full", (_PART,), "stock"),
    Command(
        "stock edit",
        "edit a part: ID FIELD=VALUE ...",
        (_PART, _changes("stock")),
        "stock",
        ("stock",),
    ),
    Command("stock remove", "remove a part ('log undo' restores it)", (_PART,), "stock"),
    Command("stock history", "show the history of a part", (_PART,), "stock"),
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
    Command(
        "work add",
        "add a job: TITLE FIELD=VALUE ...",
        (_words("a title, and fields as FIELD=VALUE", "work"), _OWN),
        "work",
        ("work",),
    ),
    Command(
        "work list",
        "list jobs, those in progress first",
        (Arg("--open", "only jobs in progress", kind=bool),),
        "work",
    ),
    Command("work show", "show one job in full", (_JOB,), "work"),
    Command(
        "work edit",
        "edit a job: ID FIELD=VALUE ...",
        (_JOB, _changes("work"), _OWN),
        "work",
        ("work",),
    ),
    Command(
        "work done",
        "finish a job: ID, and fields as FIELD=VALUE",
        (_JOB, _changes("work", "*", "FIELD=VALUE"), _OWN),
        "work",
        ("work",),
    ),
    Command("work remove", "remove a job; its parts return to stock", (_JOB,), "work"),
    Command("work history", "show the history of a job", (_JOB,), "work"),
    Command(
        "venues list", "list venues, and those in the log without terms", (), "venue", day=False
    ),
    Command("venues show", "show the terms of one venue", (_VENUE,), "venue"),
    Command("venues remove", "forget a venue's terms", (_VENUE,), "venue"),
    Command(
        "venues edit",
        "add or edit a venue's terms: NAME FIELD=VALUE ...",
        (
            _VENUE,
            Arg("changes", "FIELD= clears the field", "FIELD=VALUE", "+", offers="field:venue"),
        ),
        "venue",
        ("venue",),
    ),
    Command(
        "rates",
        "your own exchange rates: CODE RATE adds one",
        (
            Arg("code", "currency to convert from", many="?", offers="code"),
            Arg("rate", "value of one unit in your currency", many="?"),
            Arg("--on", "day of the rate (default: today)", "DATE"),
            Arg("--source", "source of the rate", usual=""),
        ),
        "rate",
        day=False,
    ),
)
