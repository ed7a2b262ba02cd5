"""The trade's knowledge as it stands: its commands."""

from pathlib import Path

from appraise.base.cells import GRAINS
from appraise.commands.registry import Arg, Command, alone
from appraise.knowledge.basics import KINDS, REGIONS, UNJUDGED

FILES = ("piece", "lot", "settings")
_HTML = "html adds drawings, and all plate and mount sizes at true scale"
JUDGED = tuple(kind for kind in KINDS if kind not in UNJUDGED)

COMMANDS = (
    alone("checks", Arg("--kind", "only checks for one kind of piece", choices=KINDS), day=False),
    Command(
        "knowledge check",
        "check the knowledge files: list faulty rows, count the rest",
        (Arg("directory", "your own knowledge files", "DIR", "?", Path),),
        day=False,
    ),
    Command(
        "knowledge figure",
        "draw what an answer or a check shows; without a name: list the drawings",
        (
            Arg("figure", "its name", "NAME", "?"),
            Arg("--across", "how many cells wide", "CELLS", kind=int),
            Arg("--drawn", "of what it is made", choices=GRAINS),
        ),
        day=False,
    ),
    Command(
        "knowledge fields",
        "what may stand in a row of a topic; of a check or defect also the row as it stands",
        (Arg("of", "a topic, or the id of a check", "TOPIC|CHECK", "?"),),
        day=False,
    ),
    Command(
        "knowledge schema",
        "the JSON Schema of a file that you write, for an editor that completes it",
        (Arg("of", "which file", choices=FILES),),
        day=False,
        json=False,
    ),
    alone(
        "year",
        Arg("year", shown="YYYY"),
        Arg("--kind", "of one kind of piece only", choices=KINDS, usual=""),
        Arg("--region", choices=(*REGIONS, "unknown"), usual="unknown"),
        day=False,
    ),
    alone(
        "card",
        Arg("--kind", "the kind of piece", choices=JUDGED, usual="cased"),
        Arg("--format", _HTML, choices=("text", "html"), usual="text", to="form"),
        day=False,
    ),
)
