"""Every action of the app, once: bindings, line of keys, help and palette come from here."""

from textual.binding import Binding, BindingType

from appraise.app.action import Action
from appraise.app.bench.keys import BENCH
from appraise.app.kept.keys import KEPT_KEYS
from appraise.app.listing.keys import LISTING
from appraise.app.lots.keys import LOTS

KEPT = 90
"""Actions of this place or later in the line of keys are never left out."""

ACTIONS: tuple[Action, ...] = (
    Action(
        "any", "app.help", "question_mark f1", "keys", "Show the keys of this screen.", place=98
    ),
    Action("any", "app.palette", "ctrl+p colon", "find an action", "Find an action by its name."),
    Action(
        "any", "app.theme", "t", "day or night", "Change between ink on paper and light on dark."
    ),
    Action("any", "app.discretion", "m", "amounts", "Show or hide all amounts; a seller can read."),
    Action("any", "app.listing", "ctrl+l", "listing", "Review a listing: paste or type its text."),
    Action("any", "app.year", "ctrl+y", "a year", "Ask what was usual in a year, as 1858."),
    Action("any", "app.leave", "ctrl+q", "leave", "Leave the app from anywhere; all is kept."),
    Action(
        "any",
        "app.interrupt",
        "ctrl+c",
        "leave twice",
        "Twice leaves the app, where ctrl+q does not reach it.",
        palette=False,
    ),
    Action("desk", "new", "n", "new piece", "Begin a piece with a first look in a line.", place=1),
    Action(
        "desk", "listing", "l", "listing", "Review a listing; pasting one does it too.", place=2
    ),
    Action("desk", "prices", "p", "prices", "Open the log of prices.", place=3),
    Action("desk", "lots", "o", "lots", "The lots you follow: closings, bids, results.", place=4),
    Action(
        "desk",
        "kept",
        "h",
        "kept",
        "What you have: where it is, what is due, arrivals, sales.",
        place=5,
    ),
    Action("desk", "bench", "i", "bench", "Parts in stock, work in hand, what you look out for."),
    Action("desk", "take_up", "enter", "take up", "Take up what is marked."),
    Action(
        "desk",
        "take_up({key})",
        "1 2 3 4 5 6 7 8 9",
        "take up by number",
        "Take up a piece by its number.",
        shown="1-9",
        palette=False,
    ),
    Action("desk", "undo", "u", "undo", "Undo the last change to the log; a buy comes back."),
    Action("desk", "redo", "ctrl+r", "redo", "Redo it."),
    Action("desk", "step(-1)", "up k", "up", "Mark the piece above.", palette=False),
    Action("desk", "step(1)", "down j", "down", "Mark the piece below.", palette=False),
    Action("desk", "currency", "c", "currency", "Choose the currency of your prices."),
    Action("desk", "track", "r", "record", "The track record of estimates and beliefs."),
    Action("desk", "app.leave", "q", "quit", "Leave the app; all is kept.", place=99),
    Action("look", "close", "escape", "back", "Back to the desk; nothing is begun.", place=99),
    Action(
        "look", "begin", "enter", "begin", "Begin the piece as understood.", place=1, palette=False
    ),
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
    Action(
        "piece",
        "untold",
        "space",
        "cannot tell",
        "Pass the check over: it changes nothing.",
        place=2,
    ),
    Action(
        "piece",
        "narrow",
        "enter",
        "narrow",
        "Type to narrow a long list of answers; enter takes the first, esc ends.",
        palette=False,
    ),
    Action("piece", "why", "w", "why", "What is behind the verdict, finding by finding.", place=3),
    Action("piece", "care", "c", "care", "Every caution at this check and for the piece."),
    Action("piece", "bought", "b", "bought", "Log the piece as bought.", place=4),
    Action("piece", "passed", "x", "passed", "Log the piece as passed, asked and offered."),
    Action("piece", "find", "slash", "find", "Go to any check by a few letters.", place=5),
    Action(
        "piece",
        "again",
        "backspace",
        "last answer",
        "Back to the answer given last, to revise it; again: the one before. g goes on.",
        place=6,
        shown="bksp",
    ),
    Action("piece", "undo", "u", "undo", "Take the last change back."),
    Action("piece", "redo", "ctrl+r", "redo", "Make it again."),
    Action("piece", "step(1)", "down j", "next check", "Go to the next check."),
    Action("piece", "step(-1)", "up k", "check before", "Go to the check before."),
    Action("piece", "part(1)", "tab right_square_bracket", "next part", "Go to the next part."),
    Action(
        "piece",
        "part(-1)",
        "shift+tab left_square_bracket",
        "part before",
        "Go to the part before.",
    ),
    Action("piece", "suggested", "g", "best check", "Go to the check that tells most now."),
    Action(
        "piece",
        "known",
        "v",
        "how known",
        "Say how the next answers are known: in hand, from a photo, from the seller.",
    ),
    Action("piece", "bid", "p", "bid", "The bill at a venue, and the most to bid."),
    Action("piece", "report", "r", "report", "Write a report on it, for one sort of reader."),
    Action("piece", "fits", "f", "what fits", "What in stock would go with the piece."),
    Action("piece", "details", "i", "details", "Title, asking price, sizes and the like."),
    Action("piece", "drop", "d", "drop", "Drop the piece without logging it."),
    Action(
        "piece", "close", "q escape", "desk", "Back to the desk; the piece stays open.", place=99
    ),
    *LISTING,
    *BENCH,
    Action("bid", "venue", "v", "venue", "Choose where it is bought.", place=1),
    Action("bid", "terms", "e", "terms", "Note or change that venue's terms.", place=2),
    Action("bid", "new", "n", "new venue", "Note the terms of another venue.", place=3),
    Action("bid", "follow", "f", "follow", "Follow this as a lot of a sale.", place=4),
    Action("bid", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("bid", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("bid", "leap(1)", "pagedown space", "page down", "Down a page.", palette=False),
    Action("bid", "leap(-1)", "pageup", "page up", "Up a page.", palette=False),
    Action("bid", "close", "q escape", "back", "Back to where you were.", place=99),
    Action("prices", "filter", "slash", "filter", "Filter what is shown.", place=1),
    Action("prices", "log", "n", "log", "Log a price in one line.", place=2),
    Action("prices", "open", "enter", "open", "Show the entry with its history.", place=3),
    Action("prices", "edit", "e", "edit", "Edit the entry where it stands, cell by cell.", place=4),
    Action("prices", "fields", "E", "all fields", "Edit every field of the entry."),
    Action("prices", "duplicate", "d", "another", "Log another entry like this one."),
    Action("prices", "remove", "delete", "remove", "Take the entry off the log."),
    Action("prices", "hold", "h", "keep", "Take a purchase over among the kept pieces."),
    Action("prices", "undo", "u", "undo", "Undo the last change to the log.", place=5),
    Action("prices", "redo", "ctrl+r", "redo", "Do it again."),
    Action(
        "prices", "disagree", "c", "disagreements", "Settle what two machines left in two states."
    ),
    Action("prices", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("prices", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("prices", "leap(1)", "pagedown ctrl+d", "page down", "Down a page.", palette=False),
    Action("prices", "leap(-1)", "pageup ctrl+u", "page up", "Up a page.", palette=False),
    Action("prices", "end(-1)", "home g", "first", "To the first line.", palette=False),
    Action("prices", "end(1)", "end G", "last", "To the last line.", palette=False),
    Action("prices", "sort", "s", "sort", "Sort by the next column."),
    Action("prices", "turn", "S", "turn round", "Sort the other way round."),
    Action(
        "prices",
        "close",
        "q escape",
        "desk",
        "Back to the desk; esc clears a filter first.",
        place=99,
    ),
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
    Action("cell", "keep", "enter", "keep", "Keep the entry.", place=1, palette=False),
    Action(
        "cell", "next(1)", "tab", "next cell", "To the cell on the right.", place=2, palette=False
    ),
    Action("cell", "next(-1)", "shift+tab", "cell before", "To the one before.", palette=False),
    Action(
        "cell", "leave", "escape", "leave", "Leave the entry as it was.", place=99, palette=False
    ),
    Action("line", "keep", "enter", "keep", "Keep it as understood.", place=1, palette=False),
    Action("line", "close", "escape", "back", "Back; nothing is kept.", place=99, palette=False),
    Action("entry", "edit", "e", "edit", "Edit the entry.", place=1),
    Action("entry", "remove", "delete", "remove", "Take the entry off the log.", place=2),
    Action("entry", "outcome", "w", "outcome", "Tell what became of the piece.", place=3),
    Action("entry", "hold", "h", "keep", "Take the purchase over among the kept pieces."),
    Action("entry", "picture", "o", "picture", "Show a picture with the system's viewer.", place=4),
    Action("entry", "attach", "a", "add picture", "Copy a picture and list it here.", place=5),
    Action(
        "entry", "report", "r", "report", "Write a report on the piece, for one sort of reader."
    ),
    Action("entry", "detach", "x", "drop picture", "List a picture no more; it stays on the disk."),
    Action("page", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("page", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("page", "leap(1)", "pagedown space", "page down", "Down a page.", palette=False),
    Action("page", "leap(-1)", "pageup", "page up", "Up a page.", palette=False),
    Action("page", "close", "q escape", "back", "Back to where you were.", place=99),
    Action("entry", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("entry", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("entry", "leap(1)", "pagedown space", "page down", "Down a page.", palette=False),
    Action("entry", "leap(-1)", "pageup", "page up", "Up a page.", palette=False),
    Action("entry", "close", "q escape", "back", "Back to where you were.", place=99),
    *LOTS,
    *KEPT_KEYS,
    Action(
        "track",
        "again",
        "r",
        "play again",
        "Estimate every price anew from those logged before it, and score that.",
        place=1,
    ),
    Action("track", "step(1)", "down j", "down", "Down a line.", palette=False),
    Action("track", "step(-1)", "up k", "up", "Up a line.", palette=False),
    Action("track", "leap(1)", "pagedown space", "page down", "Down a page.", palette=False),
    Action("track", "leap(-1)", "pageup", "page up", "Up a page.", palette=False),
    Action("track", "close", "q escape", "back", "Back to where you were.", place=99),
    Action("list", "step(1)", "down", "down", "Down a line.", palette=False),
    Action("list", "step(-1)", "up", "up", "Up a line.", palette=False),
    Action(
        "list", "take", "enter", "take", "Take the line that is marked.", place=1, palette=False
    ),
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
        "form", "next(-1)", "up shift+tab", "field before", "To the field before.", palette=False
    ),
    Action("form", "keep", "enter", "keep", "Keep what is written.", place=1, palette=False),
    Action("form", "close", "escape", "back", "Back; nothing is changed.", place=99, palette=False),
    Action("ask", "yes", "y", "yes", "Do it.", place=1, palette=False),
    Action("ask", "no", "n escape q", "no", "Leave it.", place=2, palette=False),
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
            found.append(Binding(key, do, one.verb, show=False, tooltip=one.says, id=one.id))
    return found


def foot_of(area: str) -> tuple[Action, ...]:
    """The actions in the line of keys, in its order; help is among them everywhere."""
    shown = [one for one in (*actions_of(area), *actions_of("any")) if one.place]
    return tuple(sorted(shown, key=lambda one: one.place))
