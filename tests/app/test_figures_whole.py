"""No amount, range or date is cut on any screen of a small terminal; titles are cut with a mark."""

import re
from datetime import date

import pytest
from app.kit import app_on, session, shown, walk
from hypothesis import given
from hypothesis import strategies as st
from thorough import times

from appraise.app.lines import FIGURE, clip, cut, line, words_of
from appraise.base.money import Money
from appraise.records.budget import Budget
from appraise.records.entry import Entry
from appraise.records.lot import Lot
from appraise.records.piece import Piece
from appraise.records.piece_file import write_piece
from appraise.records.want import Want
from appraise.store.records import keep
from appraise.store.venue_book import keep_budget

SIZES = [(80, 24), (60, 20)]
LONG = "sixth plate ambrotype of a boy with a drum in a thermoplastic case with a vine and a clasp"
DAY = date(2026, 11, 5)
WHOLE = {"98765.43", "98,765.43", "98765", "98,765", "98712.34", "98,712.34", "98712", "98,712"}
START = re.compile(r"98,?7[\d,]*\d(?:\.\d*)?|98,?7(?!\d)|(?<!\d)98,(?!\d)")
STAMP = re.compile(r"(?<!\d)20\d\d-[\d-]*")
WALK = (
    "", "p", "p enter", "p e", "p E", "p delete", "h n", "o", "o enter", "o enter b", "o b",
    "i 3", "i 3 enter", "1", "1 i", "1 b", "1 x", "r",
)  # fmt: skip


def furnished(place):
    """A log of long titles and large amounts in two currencies."""
    log = session(place).log
    for n in range(12):
        for record, name, money in (
            ("bought", "paid", "98765.43 USD"), ("refused", "asked", "98712.34 GBP"),
        ):  # fmt: skip
            log.add(
                Entry(
                    record=record, date=DAY, channel="online", kind="cased", process="ambrotype",
                    title=f"{n} {LONG}", **{name: Money.parse(money)},
                )
            )  # fmt: skip
    money = Money.parse("98765.43 USD")
    lot = Lot(LONG, DAY, "USD", "quay rooms", "auction", asking=money, bid=money, ceiling=money)
    keep(log, lot)
    keep(log, Want(LONG, DAY, formats=("sixth", "quarter", "ninth"), first=1845, most=money))
    keep_budget(log, Budget(money, "month", DAY))
    log.save_draft("piece one", write_piece(Piece(title=LONG, channel="online", asking=money)))
    log.close()


@pytest.mark.parametrize("size", SIZES[: times(2, len(SIZES))])
async def test_amounts_and_dates_are_whole_on_every_screen(tmp_path, size):
    furnished(tmp_path)
    app = app_on(tmp_path)
    seen = {}
    async with app.run_test(size=size) as pilot:
        await walk(pilot, WALK, lambda keys: seen.update({keys: shown(app)}))
    app.session.close()
    for keys, text in seen.items():
        assert set(START.findall(text)) <= WHOLE, (keys, text)
        told = "\n".join(row for row in text.split("\n") if "/ filters:" not in row)
        assert all(len(day) == 10 for day in STAMP.findall(told)), (keys, text)
        assert max(map(len, text.split("\n"))) <= size[0]
    for keys in ("", "p", "p enter", "o", "o enter", "i 3"):
        assert re.search("98765.43|98712.34", seen[keys]), (keys, seen[keys])
    assert "\u2026" in seen["p"]


figures = st.sampled_from(
    ["1,234.50 USD", "45.00", "1855-1862", "12 .. 34 .. 56 USD", "2026-11-07", "7 Nov 2026"]
)


@given(figures, st.integers(2, 40), st.sampled_from(["paid ", "", "a (", "worth: "]))
def test_a_cut_text_holds_a_figure_whole_or_not_at_all(figure, room, before):
    text = f"{before}{figure} and so on for a while, until the end of it"
    for kept in (
        clip(text, room),
        words_of(cut(line(before, (figure, "strong"), " and so on, and so on, and so on"), room)),
    ):
        if figure not in kept:
            assert not re.search(r"\d", kept), kept


def test_what_is_one_figure():
    amounts, dates = ("1,234.50 USD", "12 .. 34 .. 56 USD"), ("2026-11-07", "17 September 2026")
    for text in (*amounts, *dates, "1855-62"):
        assert FIGURE.fullmatch(text)
