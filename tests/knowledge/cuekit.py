"""What the tests of process cues share: columns, the shipped knowledge, one cell of a table."""

from functools import cache

from appraise.knowledge import Knowledge, load
from appraise.knowledge.records import Check

COLUMNS = {
    "DAG": "daguerreotype",
    "AMC": "ambrotype-clear",
    "AMR": "ambrotype-ruby",
    "AMD": "ambrotype-sealed",
    "TIN": "tintype-plain",
    "OPL": "opalotype",
    "PAN": "pannotype",
    "CRY": "crystoleum",
    "SAL": "salted-paper",
    "ALB": "albumen",
    "CAR": "carbon",
    "POP": "printing-out",
    "PLA": "platinum",
    "CYA": "cyanotype",
    "LAN": "lantern-slide",
    "REP": "ink-print",
}

PICTURED = ("cased", "loose-plate", "card", "lantern-slide", "cyanotype", "print", "postcard")
"""The kinds of piece of which every process is weighed; the others hold no one picture."""


@cache
def knowledge() -> Knowledge:
    return load()


def chance(name: str, answer: str, process: str) -> float:
    check = knowledge().checks[name]
    table = check.table("process")
    assert table is not None
    return table.rows[process][check.index(answer)]


def own_checks() -> list[Check]:
    files = ("checks/process-", "checks/claims")
    return [check for check in knowledge().checks.values() if any(f in check.file for f in files)]
