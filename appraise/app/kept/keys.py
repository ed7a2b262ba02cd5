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
        Action(area, "edit", "e", "edit", "Edit what is noted of the piece.", place=4),
        Action(
            area,
            "where",
            "v",
            "where",
            "Move or lend it, note that it is back, shown, mended, given, lost.",
            place=5,
        ),
        Action(
            area,
            "check",
            "c",
            "check",
            "Note how it is: a condition check.",
            place=6 if area == "owned" else 0,
        ),
        Action(area, "examine", "x", "examine", "Look at it anew, question by question."),
        Action(area, "arrival", "a", "arrival", "What came against what was claimed of it."),
        Action(area, "sell", "s", "sell", "Log its sale, with what it gained."),
        Action(area, "report", "r", "report", "Write a report on it, for one sort of reader."),
        Action(area, "remove", "delete", "remove", "Take it off the list."),
        Action(area, "undo", "u", "undo", "Undo the last change to the log."),
        Action(area, "redo", "ctrl+r", "redo", "Do it again."),
    )


KEPT_KEYS: tuple[Action, ...] = (
    Action("kept", "filter", "slash", "filter", "Filter what is shown.", place=1),
    Action("kept", "new", "n", "keep", "Keep a piece that was bought, from the log.", place=2),
    Action("kept", "open", "enter", "open", "Show the piece with everything on it.", place=3),
    *_deeds("kept"),
    Action("kept", "own", "N", "keep another", "Keep a piece that is not in the log."),
    Action("kept", "due", "d", "due", "What is due: looks, loans, returns, conservators."),
    Action("kept", "air", "w", "air", "Temperature, humidity and light against the figures."),
    Action("kept", "order", "o", "order", "Order by number, by what is due, by place."),
    *_walk("kept", ends=True),
    Action("kept", "close", "q escape", "desk", "Back to the desk; esc clears a filter.", place=99),
    *_deeds("owned"),
    *_walk("owned", ends=False),
    Action("owned", "close", "q escape", "back", "Back to where you were.", place=99),
    Action("arrival", "copy", "y", "copy the page", "Copy the page to the seller.", place=1),
    Action(
        "arrival", "examine", "x", "examine", "Look at it in hand, question by question.", place=2
    ),
    Action(
        "arrival", "returned", "b", "sent back", "Note that it went back to its seller.", place=3
    ),
    *_walk("arrival", ends=False),
    Action("arrival", "close", "q escape", "back", "Back to where you were.", place=99),
)
