"""The actions of the Listing screen and of what opens from it."""

from appraise.app.action import Action

LISTING: tuple[Action, ...] = (
    Action(
        "slip",
        "done",
        "escape tab",
        "read",
        "Read what is written; an empty paper leads back.",
        place=99,
        palette=False,
    ),
    Action("slip", "file", "ctrl+o", "from a file", "Take the text from a file.", place=1),
    Action(
        "listing",
        "answer({key})",
        "1 2 3 4 5 6 7 8 9",
        "seen",
        "Note what the pictures show, by the number of the answer.",
        place=2,
        shown="1-9",
        palette=False,
    ),
    Action(
        "listing",
        "confirm",
        "c",
        "as said",
        "Note that the pictures bear the claim out; again: only the seller says so.",
        place=1,
    ),
    Action(
        "listing",
        "open('answers')",
        "a",
        "answers",
        "Every answer that the pictures can give here.",
    ),
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
        "Show the questions, where nothing can be copied.",
    ),
    Action("listing", "examine", "enter", "examine", "Open the piece in Examine.", place=4),
    Action("listing", "verdict", "v", "verdict", "The verdict in place of the text.", place=5),
    Action("listing", "open('bid')", "p", "bid", "The bill at a venue, and the most to bid."),
    Action(
        "listing", "open('follow')", "f", "follow", "Follow this as a lot: closing, bid, result."
    ),
    Action("listing", "sides", "s", "sides", "Note which sides the pictures do not show."),
    Action("listing", "open('why')", "w", "why", "What is behind the verdict, finding by finding."),
    Action("listing", "step(1)", "down j", "down", "Down a line of the list.", palette=False),
    Action("listing", "step(-1)", "up k", "up", "Up a line of the list.", palette=False),
    Action("listing", "section(1)", "tab", "next section", "To the next section of the list."),
    Action("listing", "section(-1)", "shift+tab", "section before", "To the section before."),
    Action("listing", "along(1)", "right l", "next place", "To the next marked place of the text."),
    Action("listing", "along(-1)", "left h", "place before", "To the marked place before."),
    Action(
        "listing", "leap(1)", "pagedown", "page down", "Down a page of the text.", palette=False
    ),
    Action("listing", "leap(-1)", "pageup", "page up", "Up a page of the text.", palette=False),
    Action(
        "listing", "open('details')", "i", "details", "Title, asking price, sizes and the like."
    ),
    Action("listing", "open('edit')", "e", "edit", "Edit the text, or paste another part of it."),
    Action("listing", "undo", "u", "undo", "Take the last change back."),
    Action("listing", "redo", "ctrl+r", "redo", "Make it again."),
    Action("listing", "open('drop')", "d", "drop", "Drop the listing from the desk."),
    Action(
        "listing", "close", "q escape", "desk", "Back; the listing stays on the desk.", place=99
    ),
    Action(
        "sides",
        "turn({key})",
        "1 2 3 4 5 6 7 8 9",
        "strike out",
        "Strike a side out that is not shown, or bring it back.",
        place=1,
        shown="1-9",
        palette=False,
    ),
    Action("sides", "close", "q escape s enter", "back", "Back to the listing.", place=99),
)
