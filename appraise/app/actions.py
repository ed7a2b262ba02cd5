"""Every action of the app, once: bindings, line of keys, help and palette come from here.

A row of the table: the places where it works (`@` names several), its keys (with what a person
reads in brackets; none: the command's), what is called there (`{key}` stands for the key; none: by
the command's name), a word or two (`-` before it: the palette does not offer it), its place in the
line of keys, and one line for the help. `=` names the command that does the same; what it says
stands for the line unless one follows. What is indented goes on with the row above.
"""

from collections.abc import Iterator

from textual.binding import Binding, BindingType

from appraise.base.dataclass import dataclass
from appraise.commands.registry import KEYS, command

CALLED = {
    "any": "everywhere",
    "look": "first look",
    "slip": "text of a listing",
    "sides": "sides shown",
    "cell": "edit in place",
    "line": "in one line",
    "track": "track record",
    "owned": "owned piece",
    "stock": "parts in stock",
    "work": "jobs",
    "wants": "want list",
    "ask": "question",
}
"""What places are called, where not by their own name."""

_SHOWN = {
    "question_mark": "?",
    "slash": "/",
    "left_square_bracket": "[",
    "right_square_bracket": "]",
    "escape": "esc",
    "delete": "del",
}


@dataclass(frozen=True, slots=True)
class Action:
    """Something that a key does in one place.

    Attributes:
        area: Where.
        do: What is called there, as the screen library writes it; `{key}` stands for the key.
        keys: The keys with blanks between, as the screen library names them.
        verb: A word or two for the line of keys and the palette.
        own: One line for the help; empty: what the command says.
        shown: The keys as a person reads them, where the names do not do.
        place: Its place in the line of keys; 0: not shown there.
        palette: Whether the palette offers it.
        command: The command that does the same, where there is one.
    """

    area: str
    do: str
    keys: str
    verb: str
    own: str
    shown: str = ""
    place: int = 0
    palette: bool = True
    command: str = ""

    @property
    def says(self) -> str:
        """One line for the help."""
        return self.own or command(self.command).sentence

    @property
    def id(self) -> str:
        return f"{self.area}.{self.verb.replace(' ', '-')}"

    @property
    def display(self) -> str:
        """The keys as a person reads them."""
        return self.shown or " ".join(_SHOWN.get(key, key) for key in self.keys.split())


KEPT = 90
"""Actions of this place or later in the line of keys are never left out."""
SETS = {
    "@bench": "stock work wants",
    "@jobs": "part job want",
    "@lists": "prices kept lots @bench venues",
    "@pages": "entry owned lot @jobs venue",
    "@read": "@pages arrival bid page track",
    "@walked": "import @lists @read",
}
TABLE = """
any | question_mark f1 | app.help | keys | 98 | Show the keys of this screen.
any | ctrl+p | app.palette | find an action | | Find an action by its name.
any | t | app.theme | day or night | | Switch between the day and night themes.
any | m | app.discretion | amounts | | Show or hide all amounts: a seller can read them.
any | ctrl+l | app.listing | listing | | Review a listing: paste or type its text.
any | ctrl+y | app.year | a year | |
    Portray a year, e.g. 1858, or reproduce something of it: what was in use then.
any | ctrl+q | app.leave | quit | | Quit from any screen; everything is saved.
any | ctrl+c | app.interrupt | -quit (twice) | | Press twice to quit if ctrl+q does not work here.
desk | n | new | new piece | 1 | Start a piece from one typed line.
desk | l | listing | listing | 2 | Review a listing. Pasting its text works too.
desk | p | prices | prices | 3 | Open your price log.
desk | o | list('lot') | lots | 4 | Your marked lots: closing times, bids, results.
desk | h | list('kept') | kept | 5 | Pieces you own: location, what is due, arrivals, sales.
desk | i | list('stock') | bench | 6 | Parts in stock, work in progress, your want list.
desk | v | list('venue') | venues | 7 | Places to buy, with their premiums, taxes and fees.
desk | enter | take_up | open | | Open the selected piece.
desk | 1-9 | take_up({key}) | -open by number | | Open a piece by its number.
desk | | | undo | | =log undo
desk | up | step(-1) | -up | | Select the piece above.
desk | down | step(1) | -down | | Select the piece below.
desk | | | currency | | =log currency
desk | | | track record | | =track
desk | q | app.leave | quit | 99 | Quit; everything is saved.
look | escape | close | back | 99 | Back to the desk; nothing is started.
look | enter | take | -start | 1 | Start the piece as shown.
piece | 1-9 | answer({key}) | -answer | 1 | Give the answer of that number.
piece | space | untold | cannot tell | | Cannot tell: skip this question.
piece | enter | narrow | -narrow | |
    Type to narrow a long list of answers; enter takes the first, esc ends.
piece | w | open('why') | why | 2 | The evidence behind the verdict, finding by finding.
piece | c | open('care') | cautions | | All cautions for this check and this piece.
piece | b | open('bought') | bought | 3 | Log the piece as bought.
piece | x | open('passed') | not bought | 4 | Log that you did not buy it: asking price and offer.
piece | slash | open('find') | find | 6 | Go to any check or detail by a few letters.
piece | backspace (bksp) | again | last answer | 7 |
    Back to the last answer, to revise it; again: the one before. n: the most useful check.
piece | down | step(1) | next check | | Go to the next check.
piece | up | step(-1) | previous check | | Go to the previous check.
piece | tab right_square_bracket | part(1) | next part | | Go to the next part.
piece | shift+tab left_square_bracket | part(-1) | previous part | | Go to the previous part.
piece | right | point(1) | next drawing | | See the drawing of the next answer.
piece | left | point(-1) | last drawing | | See the drawing of the answer before.
piece | pagedown | scroll(1) | -page down | | Scroll a long question.
piece | pageup | scroll(-1) | -page up | | Scroll back.
piece | n | suggested | best check | | Go to the most useful check.
piece | v | known | how known | |
    How the next answers are known: seen in hand, in a photo, from the seller.
piece | p | open('bid') | bid | | Maximum bid and full bill at a venue.
piece | | | report | | =report
piece | f | fits | what fits | | Parts in stock that fit this piece.
piece | a | photo | add photo | | Add a photo by its path; dropping its file here works too.
piece | o | open_photo | photo | | Open a photo in the viewer.
piece | i | open('details') | details | |
    Title, asking price, sizes, the sitter's age, a year to portray and more.
piece | d | open('drop') | discard | | Discard the piece without logging it.
piece | q escape | close | desk | 99 | Back to the desk; the piece stays open.
slip | escape tab | done | -read | 99 | Read the text (if empty: go back).
slip | ctrl+o | file | from a file | 1 | Read the text from a file.
listing | 1-9 | answer({key}) | -seen | 2 | Record what the photos show: press the answer's number.
listing | c | confirm | confirmed | 1 | Photos confirm this claim (press again to clear).
listing | a | open('answers') | answers | | All answers to this question.
listing | y | open('copy') | copy questions | 3 | Copy the questions to the seller.
listing | Y | open('questions') | questions | | Show the questions to select and copy by hand.
listing | enter | examine | examine | 4 | Open the piece in Examine.
listing | v | verdict | verdict | 6 | Show the verdict in place of the text.
listing | p | open('bid') | bid | | Maximum bid and full bill at a venue.
listing | f | open('follow') | mark lot | | Mark this as a lot: closing time, bid, result.
listing | s | sides | sides | | Mark the views missing from the photos.
listing | w | open('why') | why | | The evidence behind the verdict, finding by finding.
listing | down | step(1) | -down | | Down a line of the list.
listing | up | step(-1) | -up | | Up a line of the list.
listing | tab | section(1) | next section | | To the next section of the list.
listing | shift+tab | section(-1) | previous section | | To the previous section.
listing | right l | along(1) | next mark | | To the next marked place in the text.
listing | left h | along(-1) | previous mark | | To the previous marked place.
listing | pagedown | leap(1) | -page down | | Down a page of the text.
listing | pageup | leap(-1) | -page up | | Up a page of the text.
listing | i | open('details') | details | |
    Title, asking price, sizes, the sitter's age, a year to portray and more.
listing | e | open('edit') | edit | | Edit the text, or paste another part of it.
listing | d | open('drop') | discard | | Discard the listing.
listing | q escape | close | desk | 99 | Back; the listing stays on the desk.
sides | 1-9 | turn({key}) | -missing | 1 | Mark a view as missing from the photos, or unmark it.
sides | q escape s enter | close | back | 99 | Back to the listing.
bid | v | venue | venue | 1 | Choose where it is bought.
bid | e | terms | terms | 2 | Edit that venue's terms.
bid | n | new | new venue | 3 | Add another venue's terms.
bid | y | value | your value | 4 | Give a value of your own.
bid | f | follow | mark lot | 5 | Mark this as a lot of a sale.
prices | | act('new') | new price | 2 | =log add
prices | e | edit | edit | 4 | Edit the entry in place, cell by cell.
prices | E | act('edit') | all fields | | Edit every field of the entry.
prices | g | chart | chart | 5 | Show the prices of this filter over time.
prices | d | act('duplicate') | another | | Log another entry like this one.
prices | | act('remove') | remove | | =log remove
prices | | act('disagree') | disagreements | | =log conflicts
prices | | act('import') | import | |
    =log import: Import a spreadsheet or a YAML file; dropping it here works too.
filter | enter down tab (enter) | screen.leave_filter(False) | -table | 1 |
    Back to the table, filtered.
filter | escape | screen.leave_filter(True) | -clear | 99 | Clear the filter.
cell | enter | screen.keep_cells | -save | 1 | Save the entry.
cell | tab | screen.move_on(1) | -next cell | 2 | To the cell on the right.
cell | shift+tab | screen.move_on(-1) | -previous cell | | To the cell on the left.
cell | escape | screen.end_editing | -cancel | 99 | Cancel; the entry is unchanged.
line | enter | take | -save | 1 | Save it as shown.
line | escape | close | -cancel | 99 | Cancel; nothing is saved.
entry | | act('edit') | edit | 1 | =log edit
entry | | act('remove') | remove | 2 | =log remove
entry | | act('outcome') | outcome | 3 | =log outcome
entry | o | act('picture') | photo | 4 | Open a photo in the viewer.
entry | a | act('attach') | add photo | 5 |
    Add a photo by its path; dropping its file here works too.
entry | x | act('detach') | unlink photo | | Unlink a photo; its file stays.
track | r | again | back-test | 1 |
    Estimate every price again from those logged before it, and score that.
lots | | act('new') | mark lot | 2 | =lots add
lots | | act('edit') | edit | 4 | =lots edit
lots | | act('budget') | budget | 5 | =budget: Set a budget for a month or year.
lots | a | every | ended too | | Show or hide ended lots.
lot | | act('bid') | bid | 1 | =lots bid: Record your bid; leave empty to withdraw it.
lot | | act('won') | won | 2 | =lots won
lot | | act('lost') | lost | 3 | =lots lost
lot | | act('passed') | not bid on | 4 | =lots pass
lot | | act('edit') | edit | | =lots edit
lot | p | act('piece') | piece | | Choose what to do with a piece, and its worth.
lot | a | act('add_piece') | add piece | | Add a piece to the lot, in one line.
kept | | act('new') | add | 2 | =kept add: Add a purchase from the log.
kept | | act('check') | condition | | =kept check
kept | | act('arrival') | arrival | 3 | =kept arrival
kept | N | act('own') | add another | | Add a piece that is not in the log.
kept | | act('due') | due | | =kept schedule
kept | | act('air') | air | | =kept care
kept | o | sort | sort | | Sort by the next column.
owned | | act('check') | condition | 6 | =kept check
owned | | act('arrival') | arrival | 5 | =kept arrival
owned | o | act('picture') | photo | | Open a photo in the viewer.
owned | p | act('attach') | add photo | |
    Add a photo by its path; dropping its file here works too.
owned | P | act('detach') | unlink photo | | Unlink a photo; its file stays.
arrival | y | copy | copy letter | 1 | Copy the letter to the seller.
arrival | x | examine | examine | 2 | Examine it in hand, question by question.
arrival | b | returned | sent back | 3 | Record that it was sent back to the seller.
arrival | e | edit | edit | 4 | Edit its fields, the return deadline too.
stock | n | act('new') | new | 2 | Add a part in one line.
stock | a | every | all | | Show or hide used up parts.
work | n | act('new') | new | 2 | Add a job.
work | | act('done') | done | | =work done
work | a | every | all | | Show or hide finished jobs.
wants | n | act('new') | new | 2 | Add a want in one line.
venues | n | act('new') | new venue | 2 | Add a venue and its terms.
venues | e | act('edit') | edit terms | 4 | Edit the venue's terms.
venues | delete | act('remove') | remove | | Forget the venue's terms.
job | | act('done') | done | 3 | =work done
venue | e | act('edit') | edit terms | 1 | Edit the venue's terms.
venue | delete | act('remove') | remove | 2 | Forget the venue's terms.
import | enter | change | change | 2 | Take the line for something else.
import | s | save | save | 1 | Save the entries, as one change.
import | q escape | close | cancel | 99 | Cancel; nothing is saved.
list | enter | take | -choose | 1 | Choose the selected line.
list | escape | close | -back | 99 | Back to where you were.
form | down tab (tab) | next(1) | -next field | 2 | To the next field.
form | up shift+tab | next(-1) | -previous field | | To the previous field.
form | enter | keep | -save | 1 | Save this form.
form | escape | close | -cancel | 99 | Cancel; nothing is changed.
ask | y | yes | -yes | 1 | Do it.
ask | n escape q | no | -no | 2 | Cancel.
desk @lists @pages | | | redo | | =log redo
piece listing | u | undo | undo | 5 | Undo the last change.
piece listing | ctrl+r | redo | redo | | Redo.
prices entry | h | act('hold') | add to Kept | | Add this purchase to the pieces you own.
@walked list | down | step(1) | -down | | Down a line.
@walked list | up | step(-1) | -up | | Up a line.
import @read | pagedown space | leap(1) | -page down | | Down a page.
list | pagedown | leap(1) | -page down | | Down a page.
@walked list | pageup | leap(-1) | -page up | | Up a page.
@walked | home | end(-1) | -first | | To the first line.
@walked | end | end(1) | -last | | To the last line.
prices lots @bench venues | s | sort | sort | | Sort by the next column.
@lists | slash | filter | filter | 1 | Filter the list.
@lists | enter | open | open | 3 | Show everything recorded, with its history.
@lists | | | undo | 6 | =log undo
@lists | pagedown | leap(1) | -page down | | Down a page.
@lists | S | reverse | reverse | | Reverse the sort order.
@lists | q escape | close | desk | 99 | Back to the desk; esc clears a filter first.
entry kept owned | | act('report') | report | | =report
@pages | | | undo | 7 | =log undo
@read | q escape | close | back | 99 | Back to where you were.
kept owned | | act('edit') | edit | 4 | =kept edit
kept owned | v | act('event') | event | 5 |
    Record an event: moved, lent, returned, exhibited, repaired, given away, lost.
kept owned | x | act('examine') | examine | | Examine it again, question by question.
kept owned | | act('sell') | sell | | =kept sell
kept owned | | act('remove') | remove | | =kept remove
lots lot | | act('remove') | remove | | =lots remove
@bench | | act('edit') | edit | 4 | =work edit: Edit its fields.
@bench | | act('remove') | remove | | =work remove: Delete it; parts it used return to stock.
@bench | tab right | turn(1) | next list | 5 | To the next list.
@bench | shift+tab left | turn(-1) | previous list | | To the previous list.
@bench | 1-3 | choose({key}) | -list by number | | To a list by its number.
stock part | f | act('fits') | what fits | 5 | What fits this part or loose plate.
@jobs | | act('edit') | edit | 1 | =work edit: Edit its fields.
@jobs | | act('remove') | remove | 2 | =work remove: Delete it.
"""


def _actions(table: str) -> tuple[Action, ...]:
    """The rows of the table, each for every place where it works."""
    rows = table.strip().replace("\n    ", " ").split("\n")
    return tuple(
        _action(area, *(cell.strip() for cell in cells))
        for places, *cells in (row.split("|") for row in rows)
        for area in _areas(places)
    )


def _areas(places: str) -> Iterator[str]:
    """The places that are named, those of sets one by one."""
    for name in places.split():
        yield from _areas(SETS[name]) if name in SETS else [name]


def _action(area: str, keys: str, do: str, verb: str, place: str, says: str) -> Action:
    keys, _, shown = keys.rstrip(")").partition(" (")
    if "-" in keys[1:2]:
        first, _, last = keys.partition("-")
        keys, shown = " ".join(map(str, range(int(first), int(last) + 1))), keys
    name = ""
    if says.startswith("="):
        name, _, says = says[1:].partition(": ")
    do, keys = do or name.rpartition(" ")[2], keys or KEYS.get(name, "")
    palette, number = not verb.startswith("-"), int(place or 0)
    return Action(area, do, keys, verb.lstrip("-"), says, shown, number, palette, name)


ACTIONS = _actions(TABLE)
AREAS = {one.area: CALLED.get(one.area, one.area) for one in ACTIONS}
"""Where actions work, and what that place is called."""


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
