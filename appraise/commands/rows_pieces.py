"""One piece, from a line, a file, a listing or the log: its commands."""

from pathlib import Path

from appraise.commands.registry import Arg, alone, flag
from appraise.knowledge.basics import KINDS

READERS = ("myself", "public", "conservator", "insurer", "heir")
ONCE_MYSELF = "buyer"
"""An older word for `myself`, still understood."""
SETTINGS = ("extra", "repair", "margin", "budget")
"""Settings that a bid may be tried with."""

_BY_ID = "a piece file, the id of an entry, or the number of a piece you own"
_SUBJECT = Arg("piece", _BY_ID, "PIECE.yaml|ID", offers="price")
_LOG = Arg("--log", "use another price log", "FILE", kind=Path)
_LOT_TOO = "also write the piece file (a lot file if the text offers several pieces)"
_REPLAY = "back-test: estimate every price again from those logged before it, and score that"
_FORMS = ("text", "markdown", "html")

COMMANDS = (
    alone(
        "look",
        Arg("words", many="+"),
        Arg("--piece", "also write the piece file here", "OUT", kind=Path),
    ),
    alone(
        "verdict",
        Arg("piece", shown="PIECE.yaml", kind=Path),
        _LOG,
        flag("--why", "also show the evidence behind each figure"),
    ),
    alone(
        "ask",
        Arg("file", "a piece file to go on with", "PIECE.yaml", "?", Path, offers="file"),
        Arg("--kind", "the kind of piece, where there is no file", choices=KINDS, usual="cased"),
        Arg("--asked", "the asking price, where there is no file", "AMOUNT", usual=""),
        Arg("--piece", "write the piece file here at the end", "OUT", kind=Path),
        _LOG,
        json=False,
    ),
    alone(
        "bid",
        Arg(
            "piece",
            "a piece or lot file, a lot's id, or a worth, e.g. 250",
            "PIECE|LOT|WORTH",
            "?",
            Path,
            offers="lot",
        ),
        Arg("--worth", "a worth, instead of a piece file", "AMOUNT"),
        Arg("--ceiling", "your limit: the most it may cost in total", "AMOUNT"),
        Arg("--doubt", "uncertainty of --worth, as a share, e.g. 0.2", "SHARE", usual="0"),
        Arg("--venue", "see 'appraise venues'", "NAME", usual="", offers="venue"),
        Arg("--bidders", "number of bidders, including you", "N", kind=int),
        *(Arg(f"--{name}", f"{name}, instead of the settings'", "AMOUNT") for name in SETTINGS),
        _LOG,
    ),
    alone(
        "listing",
        Arg("file", "a text file, or - for standard input", offers="file"),
        Arg("--piece", _LOT_TOO, "OUT.yaml", kind=Path),
        flag("--as-lot", "read it as a lot anyway"),
        flag("--verdict", "add the verdict on what is claimed"),
    ),
    alone("record", _SUBJECT),
    alone(
        "report",
        _SUBJECT,
        Arg(
            "--for",
            "who the report is for (default: myself)",
            "|".join(READERS),
            choices=(*READERS, ONCE_MYSELF),
            usual="myself",
            to="reader",
        ),
        Arg("--as", "format (default: by the end of FILE, or text)", choices=_FORMS, to="form"),
        Arg("--out", "write to a file", "FILE", kind=Path),
        flag("--force", "overwrite FILE if it exists"),
    ),
    alone("track", flag("--replay", _REPLAY), day=False),
)
