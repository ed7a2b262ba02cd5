"""A typed line as the screens show it before anything is saved."""

from appraise.app.lines import length, words_of
from appraise.app.marks import PLAIN
from appraise.app.oneline import understood_lines

UNDERSTOOD = (("sixth", "format sixth"), ("girl with a dog", "motif"))
LOST, NOTES = ("no sparkle", "77"), ("30.00 USD is read as the price of the two pieces together",)


def shown(width: int) -> list[str]:
    rows = understood_lines(UNDERSTOOD, LOST, None, width, PLAIN, NOTES)
    assert all(length(row) <= width for row in rows)
    return [words_of(row).strip() for row in rows]


def test_the_motif_the_doubts_and_the_notes_are_told():
    rows = shown(100)
    assert any(row.endswith("motif: girl with a dog") for row in rows)
    assert any(row.endswith("not understood: no sparkle?, 77?") for row in rows)
    assert any(row.endswith(NOTES[0]) for row in rows)
    assert any("sixth" in row and "format sixth" in row for row in rows)


def test_on_a_narrow_screen_no_word_of_them_is_cut():
    told = " ".join(shown(40))
    for word in ("girl with a dog", "no sparkle?,", "77?", "together"):
        assert word in told
