"""Every action of the app, once: bindings, line of keys, help and palette come from here."""

from textual.binding import Binding, BindingType

from appraise.app.action import Action, closing, of, undoing, walking
from appraise.app.listing.keys import LISTING
from appraise.app.lists.keys import LISTS

KEPT = 90
"""Actions of this place or later in the line of keys are never left out."""

ACTIONS: tuple[Action, ...] = (
    Action(
        "any", "app.help", "question_mark f1", "keys", "Show the keys of this screen.", place=98
    ),
    Action("any", "app.palette", "ctrl+p", "find an action", "Find an action by its name."),
    Action("any", "app.theme", "t", "day or night", "Switch between the day and night themes."),
    Action(
        "any", "app.discretion", "m", "amounts", "Show or hide all amounts: a seller can read them."
    ),
    Action("any", "app.listing", "ctrl+l", "listing", "Review a listing: paste or type its text."),
    Action("any", "app.year", "ctrl+y", "a year", "Show what was in use in a year, e.g. 1858."),
    Action("any", "app.leave", "ctrl+q", "quit", "Quit from any screen; everything is saved."),
    Action(
        "any",
        "app.interrupt",
        "ctrl+c",
        "quit (twice)",
        "Press twice to quit if ctrl+q does not work here.",
        palette=False,
    ),
    Action("desk", "new", "n", "new piece", "Start a piece from one typed line.", place=1),
    Action(
        "desk", "listing", "l", "listing", "Review a listing. Pasting its text works too.", place=2
    ),
    Action("desk", "prices", "p", "prices", "Open your price log.", place=3),
    Action("desk", "lots", "o", "lots", "Your marked lots: closing times, bids, results.", place=4),
    Action(
        "desk",
        "kept",
        "h",
        "kept",
        "Pieces you own: location, what is due, arrivals, sales.",
        place=5,
    ),
    Action("desk", "bench", "i", "bench", "Parts in stock, work in progress, your want list."),
    Action("desk", "venues", "v", "venues", "Places to buy, with their premiums, taxes and fees."),
    Action("desk", "take_up", "enter", "open", "Open the selected piece."),
    Action(
        "desk",
        "take_up({key})",
        "1 2 3 4 5 6 7 8 9",
        "open by number",
        "Open a piece by its number.",
        shown="1-9",
        palette=False,
    ),
    *undoing("desk"),
    Action("desk", "step(-1)", "up", "up", "Select the piece above.", palette=False),
    Action("desk", "step(1)", "down", "down", "Select the piece below.", palette=False),
    of("log currency", "desk", "currency"),
    of("track", "desk", "track record"),
    Action("desk", "app.leave", "q", "quit", "Quit; everything is saved.", place=99),
    Action("look", "close", "escape", "back", "Back to the desk; nothing is started.", place=99),
    Action("look", "begin", "enter", "start", "Start the piece as shown.", place=1, palette=False),
    Action(
        "piece",
        "answer({key})",
        "1 2 3 4 5 6 7 8 9",
        "answer",
        "Give the answer of that number.",
        place=1,
        shown="1-9",
        palette=False,
    ),
    Action("piece", "untold", "space", "cannot tell", "Cannot tell: skip this question.", place=2),
    Action(
        "piece",
        "narrow",
        "enter",
        "narrow",
        "Type to narrow a long list of answers; enter takes the first, esc ends.",
        palette=False,
    ),
    Action(
        "piece", "why", "w", "why", "The evidence behind the verdict, finding by finding.", place=3
    ),
    Action("piece", "care", "c", "cautions", "All cautions for this check and this piece."),
    Action("piece", "bought", "b", "bought", "Log the piece as bought.", place=4),
    Action(
        "piece",
        "passed",
        "x",
        "not bought",
        "Log that you did not buy it, with asking price and offer.",
    ),
    Action("piece", "find", "slash", "find", "Go to any check by a few letters.", place=5),
    Action(
        "piece",
        "again",
        "backspace",
        "last answer",
        "Back to the last answer, to revise it; again: the one before. n: the most useful check.",
        place=6,
        shown="bksp",
    ),
    Action("piece", "undo", "u", "undo", "Undo the last change."),
    Action("piece", "redo", "ctrl+r", "redo", "Redo."),
    Action("piece", "step(1)", "down", "next check", "Go to the next check."),
    Action("piece", "step(-1)", "up", "previous check", "Go to the previous check."),
    Action("piece", "part(1)", "tab right_square_bracket", "next part", "Go to the next part."),
    Action(
        "piece",
        "part(-1)",
        "shift+tab left_square_bracket",
        "previous part",
        "Go to the previous part.",
    ),
    Action("piece", "point(1)", "right", "next drawing", "See the drawing of the next answer."),
    Action("piece", "point(-1)", "left", "last drawing", "See the drawing of the answer before."),
    Action("piece", "scroll(1)", "pagedown", "page down", "Scroll a long question.", palette=False),
    Action("piece", "scroll(-1)", "pageup", "page up", "Scroll back.", palette=False),
    Action("piece", "suggested", "n", "best check", "Go to the most useful check."),
    Action(
        "piece",
        "known",
        "v",
        "how known",
        "How the next answers are known: seen in hand, in a photo, from the seller.",
    ),
    Action("piece", "bid", "p", "bid", "Maximum bid and full bill at a venue."),
    of("report", "piece", "report"),
    Action("piece", "fits", "f", "what fits", "Parts in stock that fit this piece."),
    Action(
        "piece",
        "photo",
        "a",
        "add photo",
        "Add a photo by its path; dropping its file here works too.",
    ),
    Action("piece", "open_photo", "o", "photo", "Open a photo in the viewer."),
    Action("piece", "details", "i", "details", "Title, asking price, sizes and more."),
    Action("piece", "drop", "d", "discard", "Discard the piece without logging it."),
    Action(
        "piece", "close", "q escape", "desk", "Back to the desk; the piece stays open.", place=99
    ),
    *LISTING,
    *LISTS,
    Action("bid", "venue", "v", "venue", "Choose where it is bought.", place=1),
    Action("bid", "terms", "e", "terms", "Edit that venue's terms.", place=2),
    Action("bid", "new", "n", "new venue", "Add another venue's terms.", place=3),
    Action("bid", "value", "y", "your value", "Give a value of your own.", place=4),
    Action("bid", "follow", "f", "mark lot", "Mark this as a lot of a sale.", place=5),
    *walking("bid", ends=True),
    closing("bid"),
    Action(
        "filter",
        "leave(False)",
        "enter down tab",
        "table",
        "Back to the table, filtered.",
        place=1,
        shown="enter",
        palette=False,
    ),
    Action(
        "filter", "leave(True)", "escape", "clear", "Clear the filter.", place=99, palette=False
    ),
    Action("cell", "keep", "enter", "save", "Save the entry.", place=1, palette=False),
    Action(
        "cell", "next(1)", "tab", "next cell", "To the cell on the right.", place=2, palette=False
    ),
    Action(
        "cell", "next(-1)", "shift+tab", "previous cell", "To the cell on the left.", palette=False
    ),
    Action(
        "cell",
        "leave",
        "escape",
        "cancel",
        "Cancel; the entry is unchanged.",
        place=99,
        palette=False,
    ),
    Action("line", "keep", "enter", "save", "Save it as shown.", place=1, palette=False),
    Action(
        "line", "close", "escape", "cancel", "Cancel; nothing is saved.", place=99, palette=False
    ),
    *walking("page", ends=True),
    closing("page"),
    Action(
        "track",
        "again",
        "r",
        "back-test",
        "Estimate every price again from those logged before it, and score that.",
        place=1,
    ),
    *walking("track", ends=True),
    closing("track"),
    Action("list", "step(1)", "down", "down", "Down a line.", palette=False),
    Action("list", "step(-1)", "up", "up", "Up a line.", palette=False),
    Action("list", "take", "enter", "choose", "Choose the selected line.", place=1, palette=False),
    Action("list", "close", "escape", "back", "Back to where you were.", place=99, palette=False),
    Action(
        "form",
        "next(1)",
        "down tab",
        "next field",
        "To the next field.",
        place=2,
        shown="tab",
        palette=False,
    ),
    Action(
        "form",
        "next(-1)",
        "up shift+tab",
        "previous field",
        "To the previous field.",
        palette=False,
    ),
    Action("form", "keep", "enter", "save", "Save this form.", place=1, palette=False),
    Action(
        "form", "close", "escape", "cancel", "Cancel; nothing is changed.", place=99, palette=False
    ),
    Action("ask", "yes", "y", "yes", "Do it.", place=1, palette=False),
    Action("ask", "no", "n escape q", "no", "Cancel.", place=2, palette=False),
)


def actions_of(area: str) -> tuple[Action, ...]:
    """The actions of one place, in their order."""
    return tuple(one for one in ACTIONS if one.area == area)


def bindings_of(area: str) -> list[BindingType]:
    """The key bindings of one place."""
    found: list[BindingType] = []
    for one in actions_of(area):
        for key in one.keys.split():
            do = one.do.format(key=key)
            found.append(Binding(key, do, one.verb, show=False, id=one.id))
    return found


def foot_of(area: str) -> tuple[Action, ...]:
    """The actions in the line of keys, in its order; help is among them everywhere."""
    shown = [one for one in (*actions_of(area), *actions_of("any")) if one.place]
    return tuple(sorted(shown, key=lambda one: one.place))
