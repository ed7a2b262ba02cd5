"""How a spreadsheet is to be read, and a file as it would be taken in."""

from collections.abc import Mapping, Sequence
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.exchange.currencies import Currencies
from appraise.exchange.events import EventGuess
from appraise.exchange.rows import Titles
from appraise.exchange.sheet_column import SheetColumn
from appraise.exchange.vocabulary import SheetWords, shipped_vocabulary
from appraise.exchange.words import Words, WordUse, as_written
from appraise.records.entry import Entry


@dataclass(frozen=True, slots=True)
class ReadAs:
    """How to read a file, where the user or the program decided.

    Attributes:
        encoding: Empty to have it recognised.
        delimiter: Empty to have it recognised.
        columns: Header to field, for columns that are not to be taken as guessed.
        point: '.' or ',', the decimal point; empty to have it recognised.
        order: 'day' or 'month', which comes first in a date; empty to have it recognised.
        record: What happened, for files that do not say.
        channel: Where, for files that do not say.
        base: ISO 4217 code of the user's own currency.
        currency: ISO 4217 code of amounts that name none; empty to have it recognised.
        dollar: ISO 4217 code of a bare '$'; empty to have it recognised.
        words: Turns a cell of a word field (field, text) into the field's word.
        meant: Cells of word fields with what they mean, as the user said; '' leaves them out.
        region: Where the user is at home, one of `REGIONS`; in the United States months come first.
        titles: What a title says of its piece, as fields of an entry.
        say: The words of spreadsheets.
        doubtful: 'import' to take in rows that may be no event of the log; else they stay out.
        blank_days: 'above' or 'unknown': what a row without a day means; empty: recognised.
    """

    encoding: str = ""
    delimiter: str = ""
    columns: Mapping[str, str] = field(default_factory=dict)
    point: str = ""
    order: str = ""
    record: str = ""
    channel: str = ""
    base: str = "USD"
    currency: str = ""
    dollar: str = ""
    words: Words = as_written
    meant: Mapping[str, str] = field(default_factory=dict)
    titles: Titles = field(default=lambda _: {})
    region: str = "unknown"
    say: SheetWords = field(default_factory=shipped_vocabulary)
    doubtful: str = ""
    blank_days: str = ""


@dataclass(frozen=True, slots=True)
class SheetQuestion:
    """Something that the file leaves open.

    Attributes:
        name: The field of `ReadAs` that answers it.
        says: The question.
        choices: The possible answers; none where any word of a field may be one.
        mend: What to type where nobody can be asked.
        needed: Whether nothing can be read before it is answered.
    """

    name: str
    says: str
    choices: tuple[str, ...]
    mend: str = ""
    needed: bool = True


@dataclass(frozen=True, slots=True)
class BadRow:
    """A row that is not taken in: its number as a spreadsheet counts, why, and its cells."""

    number: int
    reason: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Preview:
    """A file as it would be taken in.

    Attributes:
        file: Its name.
        encoding: How its bytes were read.
        delimiter: What parts its cells.
        columns: What each column was taken for.
        samples: Some cells of each column.
        words: What each word of choice was taken for.
        currencies: What is known of the currencies of its amounts.
        guesses: What else was taken for so, and why.
        questions: What the file leaves open; while one is needed, no entries are read yet.
        entries: The good rows.
        keys: For each entry the text by which its row is known again; empty: its own words.
        bad: Rows that cannot be read.
        doubtful: Rows that may be no event of the log, and are left out unless wanted.
        aside: Rows that are no entries: totals, headings, lines.
    """

    file: str
    encoding: str
    delimiter: str
    columns: tuple[SheetColumn, ...]
    samples: tuple[tuple[str, ...], ...]
    words: tuple[WordUse, ...]
    currencies: Currencies
    guesses: tuple[EventGuess, ...] = ()
    questions: tuple[SheetQuestion, ...] = ()
    entries: Sequence[Entry] = ()
    keys: tuple[str, ...] = ()
    bad: tuple[BadRow, ...] = ()
    doubtful: tuple[BadRow, ...] = ()
    aside: tuple[BadRow, ...] = ()

    @property
    def open(self) -> SheetQuestion | None:
        """The first question without whose answer nothing can be read."""
        return next((one for one in self.questions if one.needed), None)

    @property
    def left_out(self) -> tuple[BadRow, ...]:
        """Every row that does not come in, by its number."""
        return tuple(sorted((*self.bad, *self.doubtful, *self.aside), key=lambda one: one.number))
