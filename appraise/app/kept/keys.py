"""The actions of the Kept screen, of a piece's page and of an arrival."""

from appraise.app.action import Action


def _walk(area: str, ends: bool) -> tuple[Action, ...]:
    """The keys by which one moves."""
    walk = (
        Action(area, "step(1)", "down j", "down", "Down a line.", palette=False),
        Action(area, "step(-1)", "up k", "up", "Up a line.", palette=False),
        Action(area, "leap(1)", "pagedown space", "page down", "Down a page.", palette=False),
        Action(area, "leap(-1)", "pageup", "page up", "Up a page.", palette=False),
    )
    if not ends:
        return walk
    return (
        *walk,
        Action(area, "end(-1)", "home g", "first", "To the first line.", palette=False),
        Action(area, "end(1)", "end G", "last", "To the last line.", palette=False),
    )


def _deeds(area: str) -> tuple[Action, ...]:
    """What is done to the piece one is at."""
    return (
        Action(area, "edit", "e", "edit", "Edit the piece's record.", place=4),
        Action(
            area,
            "where",
            "v",
            "event",
            "Record an event: moved, lent, returned, exhibited, repaired, given away, lost.",
            place=5,
        ),
        Action(
            area,
            "check",
            "c",
            "condition",
            "Record a condition check.",
            place=6 if area == "owned" else 0,
        ),
        Action(area, "examine", "x", "examine", "Examine it again, question by question."),
        Action(area, "arrival", "a", "arrival", "Arrival check: compare it with its listing."),
        Action(area, "sell", "s", "sell", "Log its sale and the gain."),
        Action(area, "report", "r", "report", "Write a report: choose who it is for."),
        Action(area, "remove", "delete", "remove", "Remove it from the list."),
        Action(area, "undo", "u", "undo", "Undo the last change to the log."),
        Action(area, "redo", "ctrl+r", "redo", "Redo."),
    )


KEPT_KEYS: tuple[Action, ...] = (
    Action("kept", "filter", "slash", "filter", "Filter the list.", place=1),
    Action("kept", "new", "n", "add", "Add a purchase from the log.", place=2),
    Action("kept", "open", "enter", "open", "Open the piece's page.", place=3),
    *_deeds("kept"),
    Action("kept", "own", "N", "add another", "Add a piece that is not in the log."),
    Action(
        "kept", "due", "d", "due", "What is due: condition checks, loans, returns, conservation."
    ),
    Action(
        "kept",
        "air",
        "w",
        "air",
        "Check room temperature, humidity and light against the recommended ranges.",
    ),
    Action("kept", "order", "o", "sort", "Sort by number, by what is due, by place."),
    *_walk("kept", ends=True),
    Action("kept", "close", "q escape", "desk", "Back to the desk; esc clears a filter.", place=99),
    *_deeds("owned"),
    *_walk("owned", ends=False),
    Action("owned", "close", "q escape", "back", "Back to where you were.", place=99),
    Action("arrival", "copy", "y", "copy letter", "Copy the letter to the seller.", place=1),
    Action(
        "arrival", "examine", "x", "examine", "Examine it in hand, question by question.", place=2
    ),
    Action(
        "arrival",
        "returned",
        "b",
        "sent back",
        "Record that it was sent back to the seller.",
        place=3,
    ),
    *_walk("arrival", ends=False),
    Action("arrival", "close", "q escape", "back", "Back to where you were.", place=99),
)
