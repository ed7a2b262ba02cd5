"""What is typed is read in time that grows no faster than it is long, or refused as too long.

Work is counted in lines of the program that are run, so that no clock is asked.
"""

import sys
from collections.abc import Callable

import pytest

from appraise.base.errors import AppraiseError
from appraise.base.money import Money
from appraise.exchange.sheets import ReadAs, read_csv
from appraise.knowledge import load
from appraise.listing.first_look import LONGEST, understand

KNOWLEDGE = load()
FILLS = {
    "blanks": " ",
    "breaks": "\n",
    "digits": "9",
    "words": "girl ambro 45 ",
    "fractions": "1/",
    "parts": "a;",
    "years": "1850 or ",
    "brackets": "[1850..",
    "quotes": '"',
}


def steps(run: Callable[[], object]) -> int:
    """Lines of the program that run."""
    count = 0

    def trace(*_: object) -> Callable[..., object]:
        nonlocal count
        count += 1
        return trace

    before = sys.gettrace()
    sys.settrace(trace)
    try:
        run()
    except AppraiseError:
        pass
    finally:
        sys.settrace(before)
    return count


def sheet(cell: str, column: str) -> bytes:
    """A sheet of two rows, one with a long cell."""
    cells = {"date": "2024-05-01", "title": "sixth ambro girl", "price": "45 USD", column: cell}
    quoted = ",".join('"' + one.replace('"', '""') + '"' for one in cells.values())
    return f"{','.join(cells)}\n{quoted}\n".encode()


def look(text: str) -> object:
    """A first look."""
    return understand(text, KNOWLEDGE)


READERS: dict[str, Callable[[str], object]] = {
    "money": lambda text: Money.parse(text, "USD"),
    "day in a sheet": lambda text: read_csv(sheet(text, "date"), "s.csv", ReadAs()),
    "price in a sheet": lambda text: read_csv(sheet(text, "price"), "s.csv", ReadAs()),
    "title in a sheet": lambda text: read_csv(sheet(text, "title"), "s.csv", ReadAs()),
}


@pytest.mark.parametrize("fill", FILLS)
@pytest.mark.parametrize("reader", READERS)
def test_twice_as_long_is_at_most_some_twice_the_work(reader, fill):
    run, unit = READERS[reader], FILLS[fill]
    short, once, twice = (
        steps(lambda n=n: run((unit * n)[:n])) for n in (100, 2_000, 4_000)
    )  # the first fills what is kept
    assert twice <= 2.6 * max(once, short) + 2_000, (short, once, twice)


@pytest.mark.parametrize("fill", FILLS)
def test_a_line_of_any_length_is_no_more_work_than_the_longest(fill):
    look("sixth ambro")
    longest, longer = (steps(lambda n=n: look((FILLS[fill] * n)[:n])) for n in (LONGEST, 32_000))
    assert longer <= longest + 2_000


def test_of_a_line_that_is_too_long_the_beginning_is_read_and_that_is_told():
    told = look("sixth ambro girl 45 USD " + "x" * LONGEST)
    assert any("only the first 2,000 characters" in note for note in told.notes)
    assert told.piece.asking is not None
    assert look("sixth ambro girl" + " " * LONGEST).notes == look("sixth ambro girl").notes


@pytest.mark.parametrize(
    "text", [" " * 32_000, "\n" * 32_000, "4" + " " * 32_000 + "x", "9" * 9_999]
)
def test_a_text_of_any_length_is_no_amount_at_once(text):
    with pytest.raises(AppraiseError):
        Money.parse(text, "USD")


def test_blanks_around_an_amount_do_no_harm():
    assert str(Money.parse(" " * 5_000 + "45 USD" + "\t" * 5_000)) == "45.00 USD"
