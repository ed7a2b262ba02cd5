"""Wrapping by cells: widths against the screen library's own table, and nothing lost."""

import unicodedata

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from appraise.base.wrapping import cells, folded, wrapped


def test_no_sign_takes_more_cells_than_the_screen_gives_it():
    """Against the widths of `rich`, which draws the screen; narrower counts would be cut there."""
    for code in range(32, 0x20000):
        sign = chr(code)
        if sign.isprintable() and unicodedata.category(sign) not in ("So", "No"):
            assert cells(sign) >= cell_len(sign), hex(code)


def test_wide_signs_accents_and_emoji():
    for text, width in (("ab", 2), ("e\u0301", 1), ("日本", 4), ("❤\ufe0f", 2), ("a\u200bb", 2)):
        assert cells(text) == width


@given(st.text(st.characters(blacklist_categories=("Cc", "Cs")), max_size=60), st.integers(1, 40))
def test_folding_loses_nothing_and_passes_no_edge(text, room):
    rows = folded(text, room)
    assert all(cells(row) <= max(room, 2) for row in rows)
    assert "".join(rows).replace(" ", "") == "".join(text.split())


def test_a_figure_is_not_divided():
    assert wrapped("about 84 USD (55 to 135) by the log", 20) == [
        "about 84 USD",
        "(55 to 135) by the",
        "log",
    ]
    assert wrapped("due on 17 September 2026 at noon", 24) == [
        "due on 17 September 2026",
        "at noon",
    ]
