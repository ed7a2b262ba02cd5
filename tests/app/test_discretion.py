"""Where a seller looks on, no amount of the user's is on any screen until m shows it."""

import re
from dataclasses import fields
from datetime import date

import pytest
from app.kit import app_on, begin, session, settled, shown, walk
from hypothesis import given
from hypothesis import strategies as st
from thorough import times

from appraise.app.discretion import AMOUNT, holds_amount, veiled
from appraise.app.form import Form
from appraise.app.lines import length, line, words_of
from appraise.base.money import EXPONENTS, Money
from appraise.records.budget import Budget
from appraise.records.lot import Lot
from appraise.records.piece import Piece
from appraise.records.piece_file import write_piece
from appraise.records.want import Want
from appraise.store.records import keep
from appraise.store.venue_book import keep_budget

LINE = "sixth ambro thermoplastic vine 45"
LISTED = "Sixth plate ambrotype of a girl, thermoplastic case with a vine. Asking 80.00 USD."
MONEY = re.compile(rf"\d[\d,.]*\s?(?:{'|'.join(sorted(EXPONENTS))})\b|[$£€]\s?\d|\d\.\d\d\b")
HINT = re.compile(r"(?:e\.g\.|Example:) \d\d(?: or \d\d\.00)? USD")
SIZES = [(80, 24), (120, 40)]
WALK = (
    "",  # the desk
    "p", "p enter", "p e", "p E", "p d", "p delete", "p slash", "p enter e", "p enter w",
    "p s", "p end", "p h", "p u", "p u ctrl+r",
    "h", "h enter", "h enter e", "h enter s", "h d", "h enter a", "h n", "h delete",
    "o", "o enter", "o e", "o n", "o b", "o enter b", "o enter p", "o enter w", "o enter e",
    "i", "i enter", "i e", "i 2", "i 2 enter", "i 2 e", "i 3", "i 3 enter", "i 3 e",
    "v", "v enter", "v e", "p g",
    "r", "r r", "l", "question_mark", "u", "u ctrl+r", "ctrl+y",
    "1", "1 w", "1 p", "1 p e", "1 i", "1 b", "1 x", "1 r", "1 f", "1 slash", "1 c", "1 d",
)  # fmt: skip


def furnished(place):
    """A log with prices of every sort, lots, a budget, wishes, kept pieces and a draft."""
    made = session(place, demo=True)
    log = made.log
    bid = Lot(
        "seated woman", date(2026, 11, 1), "USD", "quay rooms", "auction",
        asking=Money.parse("71 USD"), bid=Money.parse("62.50 USD"), ceiling=Money.parse("83 USD"),
    )  # fmt: skip
    keep(log, bid)
    keep(log, Want("ninth vine", date(2026, 11, 1), most=Money.parse("77 USD")))
    keep_budget(log, Budget(Money.parse("150 USD"), "month", date(2026, 11, 1)))
    piece = Piece(title="boy with a cap", asking=Money.parse("47 USD"))
    log.save_draft("piece one", write_piece(piece.with_finding("mat.shape", "oval")))
    amounts = {
        value
        for entry in log.entries()
        for value in (getattr(entry, one.name) for one in fields(entry))
        if isinstance(value, Money)
    }
    amounts |= {Money.parse(f"{one} USD") for one in ("71", "62.50", "83", "77", "150", "47")}
    made.close()
    return {one.plain for one in amounts}


def told(app):
    """The words on the screen; how to write an amount in a form is no amount of anybody's."""
    text = shown(app)
    return HINT.sub("", text) if isinstance(app.screen, Form) else text


@pytest.mark.parametrize("size", SIZES[: times(1, 2)])
async def test_no_amount_of_the_log_is_on_any_screen(tmp_path, size):
    amounts = furnished(tmp_path)
    app = app_on(tmp_path)
    seen = {}
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        assert "m amounts hidden" in shown(app)

        def look(keys):
            seen[keys] = (type(app.screen).__name__, told(app))

        await walk(pilot, WALK, look)
    app.session.close()
    for keys, (name, text) in seen.items():
        found = MONEY.findall(text)
        assert not found, (keys, name, found, text)
        for plain in amounts:
            assert not re.search(rf"(?<![\d.,]){re.escape(plain)}", text), (keys, name, plain)
    assert set(WALK) <= set(seen)
    assert len({name for name, _ in seen.values()}) >= 15


@pytest.mark.parametrize("size", SIZES[: times(1, 2)])
async def test_m_shows_all_of_it_and_is_remembered(tmp_path, size):
    furnished(tmp_path)
    app = app_on(tmp_path)
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        assert not MONEY.search(told(app))
        await pilot.press("m")
        await settled(pilot)
        assert MONEY.search(told(app))
        assert "amounts hidden" not in shown(app)
        for keys in ("p", "p enter", "h enter", "o", "i 3", "1", "1 p"):
            await pilot.press(*keys.split())
            await settled(pilot)
            assert "amounts hidden" not in shown(app), keys
            if keys != "1":
                if not MONEY.search(told(app)):  # below a photo, on the next screenful
                    await pilot.press("pagedown")
                    await settled(pilot)
                assert MONEY.search(told(app)), keys
            while len(app.screen_stack) > 1:
                app.pop_screen()
                await pilot.pause()
        await pilot.press("m")
        await settled(pilot)
        assert not MONEY.search(told(app))
    app.session.close()


async def test_a_purchase_stays_hidden_when_it_has_left_the_table(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert MONEY.search(shown(app))  # nothing is met anywhere yet
        await begin(pilot, LINE)
        await pilot.press("b")
        await settled(pilot)
        assert not MONEY.search(told(app))
        await pilot.press("enter")
        await settled(pilot)
        assert not MONEY.search(shown(app))
        assert app.session.log.entries(limit=1)[0].paid.plain == "45.00"
    app.session.close()


async def test_a_form_keeps_an_amount_that_it_hides(tmp_path):
    """Dots stand for the amount in its field; what is not typed over stays as it was."""
    furnished(tmp_path)
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        before = app.session.log.entries()
        await pilot.press("p", "E")
        await settled(pilot)
        await pilot.press("x", "enter")
        await settled(pilot)
        after = app.session.log.entries()
    app.session.close()
    assert [one.price for one in after] == [one.price for one in before]
    assert after != before


async def test_a_piece_bought_online_hides_nothing(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, LINE + " online")
        assert "worth" in shown(app)
        assert "amounts hidden" not in shown(app)
        await pilot.press("m")
        await settled(pilot)
        assert "worth" not in shown(app)
        assert "m amounts hidden" in shown(app)
    app.session.close()


monies = st.builds(Money.of_minor, st.integers(0, 10**9), st.sampled_from(sorted(EXPONENTS)))


@given(monies, st.sampled_from(["paid {}", "{} to you", "what changed: paid {} to {}, title x"]))
def test_an_amount_with_its_currency_is_always_found(money, frame):
    text = frame.format(money, money)
    row = veiled([line(("now ", "quiet"), (text, "strong"), " and on")])[0]
    assert not holds_amount(words_of(row))
    assert str(money) not in words_of(row)
    assert length(row) == len(f"now {text} and on")


@pytest.mark.parametrize(
    "text",
    ["1855-62", "1855 to 1862", "70.80 x 83.50 mm", "5 of 96", "19.4 to 1", "2026-11-07 12:30",
     "47 in 100", "1,234 entries", "0/3 done", "17 Nov 2026", "box 2", "2.25 to 1"],
)  # fmt: skip
def test_what_is_no_amount_stays(text):
    assert not re.search(AMOUNT, text)
    assert veiled([line(text)]) == [line(text)]


async def test_each_piece_at_a_stall_begins_hidden_and_so_does_the_desk_after_it(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(110, 30)) as pilot:
        await begin(pilot, LINE)
        assert not MONEY.search(told(app))
        await pilot.press("m")
        await settled(pilot)
        assert "asked 45.00" in told(app)
        await pilot.press("q")
        await settled(pilot)
        await pilot.press("1")
        await settled(pilot)
        assert "asked 45.00" in told(app)  # the same piece is shown as it was left
        await pilot.press("b", "enter")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert "sixth ambro" in told(app)
        assert not MONEY.search(told(app))  # the desk, where the seller still looks on
        await pilot.press("m")
        await settled(pilot)
        assert "45.00" in told(app)
        await begin(pilot, "ninth tintype leather 30")
        assert not MONEY.search(told(app))
