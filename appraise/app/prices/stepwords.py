"""An undo or redo in one line: what it took back, by name, and where that is now."""

from appraise.log.steps import Step

DID = {
    "add": "the new entry",
    "edit": "an edit of",
    "delete": "the removal of",
    "import": "the import of",
    "settle": "the settled disagreement about",
}
LOGGED = {"bought": "the purchase of"}
OTHERWISE = "the decision not to buy"
"""How an act is told by which an examined piece was logged."""

NAMELESS = "an untitled record"


def step_words(step: Step) -> str:
    """One sentence on what was undone or redone; it names no amount."""
    word = "Undone" if step.kind == "undo" else "Redone"
    done = DID.get(step.of, step.of)
    if step.draft:
        done = LOGGED.get(step.record, OTHERWISE)
    many = len(step.entries) + len(step.left)
    more = f" and {many - 1} more" if many > 1 else ""
    told = f"{word}: {done} {step.named or NAMELESS}{more}."
    if step.draft:
        back = step.kind == "undo"
        told += " It is on the table again." if back else " It is off the table."
    if step.left:
        told += f" {len(step.left)} left as they are: changed on another computer since."
    return told
