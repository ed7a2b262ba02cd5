"""What the tests of damage, copies, cautions and care share: the shipped rows, and ratios."""

from appraise.knowledge import load
from appraise.knowledge.records import Check, Defect

KNOWLEDGE = load()
SIGN_FILES = ("data/checks/reproduction.yaml", "data/checks/copies-and-alterations.yaml")
DEFECTS = {name: check for name, check in KNOWLEDGE.checks.items() if check.defect}
SIGNS = {name: check for name, check in KNOWLEDGE.checks.items() if check.file in SIGN_FILES}
OURS = {**DEFECTS, **SIGNS}
REFERENCE = {"belonging": "together", "altered": "no", "copy": "no", "process": "daguerreotype"}


def defect(name: str) -> Defect:
    """What a defect adds to its check."""
    found = DEFECTS[name].defect
    assert found is not None
    return found


def rate(check: Check, over: str, state: str, answer: str) -> float:
    """P(answer | state)."""
    table = check.table(over)
    assert table is not None
    return table.rows[state][check.index(answer)]


def ratio(name: str, over: str, answer: str, state: str) -> float:
    """How many times as often an answer is given in a state as in the reference state."""
    check = KNOWLEDGE.checks[name]
    return rate(check, over, state, answer) / rate(check, over, REFERENCE[over], answer)


def in_vain(name: str, over: str, answer: str, state: str) -> float:
    """The same for the answer not given."""
    check = KNOWLEDGE.checks[name]
    missed = 1 - rate(check, over, REFERENCE[over], answer)
    return (1 - rate(check, over, state, answer)) / missed
