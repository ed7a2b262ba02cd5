"""The actions of the Listing screen and of what opens from it."""

from appraise.app.action import Action

LISTING: tuple[Action, ...] = (
    Action(
        "slip",
        "done",
        "escape tab",
        "read",
        "Read the text (if empty: go back).",
        place=99,
        palette=False,
    ),
    Action("slip", "file", "ctrl+o", "from a file", "Read the text from a file.", place=1),
    Action(
        "listing",
        "answer({key})",
        "1 2 3 4 5 6 7 8 9",
        "seen",
        "Record what the photos show: press the answer's number.",
        place=2,
        shown="1-9",
        palette=False,
    ),
    Action(
        "listing",
        "confirm",
        "c",
        "confirmed",
        "Photos confirm this claim (press again to clear).",
        place=1,
    ),
    Action("listing", "open('answers')", "a", "answers", "All answers to this question."),
    Action(
        "listing",
        "open('copy')",
        "y",
        "copy questions",
        "Copy the questions to the seller.",
        place=3,
    ),
    Action(
        "listing",
        "open('questions')",
        "Y",
        "questions",
        "Show the questions to select and copy by hand.",
    ),
    Action("listing", "examine", "enter", "examine", "Open the piece in Examine.", place=4),
    Action("listing", "verdict", "v", "verdict", "Show the verdict in place of the text.", place=5),
    Action("listing", "open('bid')", "p", "bid", "Maximum bid and full bill at a venue."),
    Action(
        "listing",
        "open('follow')",
        "f",
        "mark lot",
        "Mark this as a lot: closing time, bid, result.",
    ),
    Action("listing", "sides", "s", "sides", "Mark the views missing from the photos."),
    Action(
        "listing", "open('why')", "w", "why", "The evidence behind the verdict, finding by finding."
    ),
    Action("listing", "step(1)", "down", "down", "Down a line of the list.", palette=False),
    Action("listing", "step(-1)", "up", "up", "Up a line of the list.", palette=False),
    Action("listing", "section(1)", "tab", "next section", "To the next section of the list."),
    Action("listing", "section(-1)", "shift+tab", "previous section", "To the previous section."),
    Action("listing", "along(1)", "right l", "next mark", "To the next marked place in the text."),
    Action("listing", "along(-1)", "left h", "previous mark", "To the previous marked place."),
    Action(
        "listing", "leap(1)", "pagedown", "page down", "Down a page of the text.", palette=False
    ),
    Action("listing", "leap(-1)", "pageup", "page up", "Up a page of the text.", palette=False),
    Action("listing", "open('details')", "i", "details", "Title, asking price, sizes and more."),
    Action("listing", "open('edit')", "e", "edit", "Edit the text, or paste another part of it."),
    Action("listing", "undo", "u", "undo", "Undo the last change."),
    Action("listing", "redo", "ctrl+r", "redo", "Redo."),
    Action("listing", "open('drop')", "d", "discard", "Discard the listing."),
    Action(
        "listing", "close", "q escape", "desk", "Back; the listing stays on the desk.", place=99
    ),
    Action(
        "sides",
        "turn({key})",
        "1 2 3 4 5 6 7 8 9",
        "missing",
        "Mark a view as missing from the photos, or unmark it.",
        place=1,
        shown="1-9",
        palette=False,
    ),
    Action("sides", "close", "q escape s enter", "back", "Back to the listing.", place=99),
)
