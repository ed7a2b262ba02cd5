"""The actions of the Lots screen and of a lot's page."""

from appraise.app.action import Action

LOTS: tuple[Action, ...] = (
    Action("lots", "open", "enter", "open", "Show the lot: pieces, worth, bill.", place=1),
    Action("lots", "follow", "n", "follow", "Follow another lot.", place=2),
    Action("lots", "edit", "e", "edit", "Edit the lot's fields.", place=3),
    Action("lots", "budget", "b", "budget", "Set what may be spent in a month or year.", place=4),
    Action("lots", "every", "a", "ended too", "Show or hide those that ended."),
    Action("lots", "remove", "delete", "remove", "Follow the lot no more."),
    Action("lots", "undo", "u", "undo", "Undo the last change to the log.", place=5),
    Action("lots", "redo", "ctrl+r", "redo", "Do it again."),
    Action("lots", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("lots", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("lots", "close", "q escape", "desk", "Back to the desk.", place=99),
    Action("lot", "bid", "b", "bid", "Note the bid you placed; empty takes it back.", place=1),
    Action("lot", "won", "w", "won", "It is yours: log each piece with its share.", place=2),
    Action("lot", "lost", "l", "lost", "Another got it: note what it went for.", place=3),
    Action("lot", "passed", "x", "passed", "Let it go without a bid.", place=4),
    Action("lot", "edit", "e", "edit", "Edit the lot's fields."),
    Action("lot", "piece", "p", "piece", "Say what is to become of a piece, and its worth."),
    Action("lot", "add_piece", "a", "add piece", "Put a further piece into the lot, in a line."),
    Action("lot", "remove", "delete", "remove", "Follow the lot no more."),
    Action("lot", "undo", "u", "undo", "Undo the last change to the log.", place=5),
    Action("lot", "redo", "ctrl+r", "redo", "Do it again."),
    Action("lot", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("lot", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("lot", "leap(1)", "pagedown space", "page down", "Down a page.", palette=False),
    Action("lot", "leap(-1)", "pageup", "page up", "Up a page.", palette=False),
    Action("lot", "close", "q escape", "back", "Back to where you were.", place=99),
)
