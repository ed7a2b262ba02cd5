"""The actions of the Bench screen."""

from appraise.app.action import Action

BENCH: tuple[Action, ...] = (
    Action(
        "bench",
        "new",
        "n",
        "new",
        "Add a part, a repair or a want, depending on the list.",
        place=1,
    ),
    Action("bench", "open", "enter", "open", "Show everything recorded.", place=2),
    Action("bench", "edit", "e", "edit", "Edit its fields.", place=3),
    Action(
        "bench",
        "fits",
        "f",
        "what fits",
        "What fits the selected part or loose plate.",
        place=4,
    ),
    Action("bench", "done", "d", "done", "Finish the selected job: date, mark, disclosure."),
    Action("bench", "every", "a", "all", "Show or hide used up parts and finished jobs."),
    Action("bench", "remove", "delete", "remove", "Delete it; parts it used return to stock."),
    Action("bench", "undo", "u", "undo", "Undo the last change to the log."),
    Action("bench", "redo", "ctrl+r", "redo", "Redo."),
    Action("bench", "turn(1)", "tab right l", "next list", "To the next list.", place=5),
    Action("bench", "turn(-1)", "shift+tab left h", "previous list", "To the previous list."),
    Action(
        "bench",
        "choose({key})",
        "1 2 3",
        "list by number",
        "To a list by its number.",
        shown="1-3",
        palette=False,
    ),
    Action("bench", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("bench", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("bench", "leap(1)", "pagedown space", "page down", "Down a page.", palette=False),
    Action("bench", "leap(-1)", "pageup", "page up", "Up a page.", palette=False),
    Action("bench", "close", "q escape", "back", "Back to where you were.", place=99),
)
