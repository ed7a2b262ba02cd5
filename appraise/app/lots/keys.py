"""The actions of the Lots screen and of a lot's page."""

from appraise.app.action import Action, closing, of, undoing, walking

LOTS: tuple[Action, ...] = (
    Action("lots", "open", "enter", "open", "Open the lot: pieces, worth, bill.", place=1),
    of("lots add", "lots", "mark lot", "follow", place=2),
    of("lots edit", "lots", "edit", place=3),
    of("budget", "lots", "budget", place=4, says="Set a budget for a month or year."),
    Action("lots", "every", "a", "ended too", "Show or hide ended lots."),
    of("lots remove", "lots", "remove"),
    *undoing("lots", place=5),
    *walking("lots", leaps=False),
    Action("lots", "close", "q escape", "desk", "Back to the desk.", place=99),
    of("lots bid", "lot", "bid", place=1, says="Record your bid; leave empty to withdraw it."),
    of("lots won", "lot", "won", place=2),
    of("lots lost", "lot", "lost", place=3),
    of("lots pass", "lot", "not bid on", "passed", place=4),
    of("lots edit", "lot", "edit"),
    Action("lot", "piece", "p", "piece", "Choose what to do with a piece, and its worth."),
    Action("lot", "add_piece", "a", "add piece", "Add a piece to the lot, in one line."),
    of("lots remove", "lot", "remove"),
    *undoing("lot", place=5),
    *walking("lot"),
    closing("lot"),
)
