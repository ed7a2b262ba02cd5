"""One piece, from a line, a file, a listing or the log: its commands."""

from pathlib import Path

from appraise.commands.registry import Arg, Command
from appraise.knowledge.basics import KINDS

READERS = ("myself", "public", "conservator", "insurer", "heir")
ONCE_MYSELF = "buyer"
"""An older word for `myself`, still understood."""
SETTINGS = ("extra", "repair", "margin", "budget")
"""Settings that a bid may be tried with."""

_SUBJECT = Arg(
    "piece",
    "a piece file, the id of an entry, or the number of a piece you own",
    "PIECE.yaml|ID",
    offers="price",
)
_LOG = Arg("--log", "use another price log", "FILE", kind=Path)

COMMANDS = (
    Command(
        "look",
        "a first look in one line: 'sixth ambro thermoplastic vine 45'",
        (
            Arg("words", many="+"),
            Arg("--piece", "also write the piece file here", "OUT", kind=Path),
        ),
    ),
    Command(
        "verdict",
        "full verdict on a piece file: what it is, date, condition, worth",
        (
            Arg("piece", shown="PIECE.yaml", kind=Path),
            _LOG,
            Arg("--why", "also show the evidence behind each figure", kind=bool),
        ),
    ),
    Command(
        "ask",
        "the checklist as plain numbered lines, then the verdict",
        (
            Arg("file", "a piece file to go on with", "PIECE.yaml", "?", Path, offers="file"),
            Arg(
                "--kind", "the kind of piece, where there is no file", choices=KINDS, usual="cased"
            ),
            Arg("--asked", "the asking price, where there is no file", "AMOUNT", usual=""),
            Arg("--piece", "write the piece file here at the end", "OUT", kind=Path),
            _LOG,
        ),
        json=False,
    ),
    Command(
        "bid",
        "maximum bid and full bill, for a piece, a lot, or a value you give",
        (
            Arg(
                "piece", "a piece or lot file, or a lot's id", "PIECE|LOT", "?", Path, offers="lot"
            ),
            Arg("--worth", "a worth, instead of a piece file", "AMOUNT"),
            Arg("--ceiling", "your limit: the most it may cost in total", "AMOUNT"),
            Arg("--doubt", "uncertainty of --worth, as a share, e.g. 0.2", "SHARE", usual="0"),
            Arg("--venue", "see 'appraise venues'", "NAME", usual="", offers="venue"),
            Arg("--bidders", "number of bidders, including you", "N", kind=int),
            *(Arg(f"--{name}", f"{name}, instead of the settings'", "AMOUNT") for name in SETTINGS),
            _LOG,
        ),
    ),
    Command(
        "listing",
        "a seller's text: claims, flags, gaps, questions",
        (
            Arg("file", "a text file, or - for standard input", offers="file"),
            Arg(
                "--piece",
                "also write the piece file (a lot file if the text offers several pieces)",
                "OUT.yaml",
                kind=Path,
            ),
            Arg("--as-lot", "read it as a lot anyway", kind=bool),
            Arg("--verdict", "add the verdict on what is claimed", kind=bool),
        ),
    ),
    Command("record", "identification record (Object ID), and what is missing", (_SUBJECT,)),
    Command(
        "report",
        "write a report: for yourself, the public, a conservator, an insurer or an heir",
        (
            _SUBJECT,
            Arg(
                "--for",
                "who the report is for (default: myself)",
                "|".join(READERS),
                choices=(*READERS, ONCE_MYSELF),
                usual="myself",
                to="reader",
            ),
            Arg(
                "--as",
                "format (default: by the end of FILE, or text)",
                choices=("text", "markdown", "html"),
                to="form",
            ),
            Arg("--out", "write to a file", "FILE", kind=Path),
            Arg("--force", "overwrite FILE if it exists", kind=bool),
        ),
    ),
    Command(
        "track",
        "how accurate past estimates have been",
        (
            Arg(
                "--replay",
                "back-test: estimate every price again from those logged before it, and score that",
                kind=bool,
            ),
        ),
        day=False,
    ),
)
