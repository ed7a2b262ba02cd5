"""The actions of the Kept screen, of a piece's page and of an arrival."""

from appraise.app.action import Action, closing, of, undoing, walking


def _deeds(area: str) -> tuple[Action, ...]:
    """What is done to the piece one is at."""
    return (
        of("kept edit", area, "edit", place=4),
        Action(
            area,
            "where",
            "v",
            "event",
            "Record an event: moved, lent, returned, exhibited, repaired, given away, lost.",
            place=5,
        ),
        of("kept check", area, "condition", place=6 if area == "owned" else 0),
        Action(area, "examine", "x", "examine", "Examine it again, question by question."),
        of("kept arrival", area, "arrival"),
        of("kept sell", area, "sell"),
        of("report", area, "report"),
        of("kept remove", area, "remove"),
        *undoing(area),
    )


KEPT_KEYS: tuple[Action, ...] = (
    Action("kept", "filter", "slash", "filter", "Filter the list.", place=1),
    of("kept add", "kept", "add", "new", place=2, says="Add a purchase from the log."),
    Action("kept", "open", "enter", "open", "Open the piece's page.", place=3),
    *_deeds("kept"),
    Action("kept", "own", "N", "add another", "Add a piece that is not in the log."),
    of("kept schedule", "kept", "due", "due"),
    of("kept care", "kept", "air", "air"),
    Action("kept", "order", "o", "sort", "Sort by number, by what is due, by place."),
    *walking("kept", ends=True),
    Action("kept", "close", "q escape", "desk", "Back to the desk; esc clears a filter.", place=99),
    *_deeds("owned"),
    *walking("owned"),
    closing("owned"),
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
    *walking("arrival"),
    closing("arrival"),
)
