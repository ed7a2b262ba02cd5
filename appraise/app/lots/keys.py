"""The actions of the Lots screen and of a lot's page."""

from appraise.app.action import Action

LOTS: tuple[Action, ...] = (
    Action("lots", "open", "enter", "open", "Open the lot: pieces, worth, bill.", place=1),
    Action("lots", "follow", "n", "mark lot", "Mark another lot.", place=2),
    Action("lots", "edit", "e", "edit", "Edit the lot's fields.", place=3),
    Action("lots", "budget", "b", "budget", "Set a budget for a month or year.", place=4),
    Action("lots", "every", "a", "ended too", "Show or hide ended lots."),
    Action("lots", "remove", "delete", "remove", "Remove the lot from your list."),
    Action("lots", "undo", "u", "undo", "Undo the last change to the log.", place=5),
    Action("lots", "redo", "ctrl+r", "redo", "Redo."),
    Action("lots", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("lots", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("lots", "close", "q escape", "desk", "Back to the desk.", place=99),
    Action("lot", "bid", "b", "bid", "Record your bid; leave empty to withdraw it.", place=1),
    Action(
        "lot", "won", "w", "won", "You won it: log each piece with its share of the bill.", place=2
    ),
    Action("lot", "lost", "l", "lost", "You lost it: record the hammer price.", place=3),
    Action("lot", "passed", "x", "not bid on", "Record that you did not bid.", place=4),
    Action("lot", "edit", "e", "edit", "Edit the lot's fields."),
    Action("lot", "piece", "p", "piece", "Choose what to do with a piece, and its worth."),
    Action("lot", "add_piece", "a", "add piece", "Add a piece to the lot, in one line."),
    Action("lot", "remove", "delete", "remove", "Remove the lot from your list."),
    Action("lot", "undo", "u", "undo", "Undo the last change to the log.", place=5),
    Action("lot", "redo", "ctrl+r", "redo", "Redo."),
    Action("lot", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("lot", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("lot", "leap(1)", "pagedown space", "page down", "Down a page.", palette=False),
    Action("lot", "leap(-1)", "pageup", "page up", "Up a page.", palette=False),
    Action("lot", "close", "q escape", "back", "Back to where you were.", place=99),
)
