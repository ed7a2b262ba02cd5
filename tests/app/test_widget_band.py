"""The band: the fullest form that has room, with the mark of its tone."""

from appraise.app.lines import length, words_of
from appraise.app.marks import FINE, PLAIN
from appraise.app.widgets.band import band, forms_of
from appraise.verdict.headline import DOUBTFUL, ORDER, STOP, Headline

HEADLINE = Headline(
    "Ambrotype, about 1858-67, probably together (83%).", "Limit 80: not seen.", ORDER
)


def test_money_is_told_only_where_it_may_be_seen():
    assert forms_of(HEADLINE, "", money=False) == [HEADLINE.what]
    assert forms_of(HEADLINE, "not seen", money=True)[1].endswith("Limit 80.")
    assert forms_of(HEADLINE, "", money=True)[:2] == [str(HEADLINE)] * 2
    assert forms_of(None, "", money=True) == []


def test_the_fullest_form_that_has_room_is_told():
    forms = forms_of(HEADLINE, "not seen", money=True)
    for width, told in ((90, forms[0]), (45, forms[0]), (37, forms[1]), (30, forms[2])):
        rows = band(forms, ORDER, width, 2, FINE)
        assert len(rows) == 2
        assert all(length(row) <= width for row in rows)
        assert " ".join(" ".join(map(words_of, rows)).split())[2:] == told


def test_tones_are_told_apart_without_colours():
    for marks in (FINE, PLAIN):
        signs = {
            words_of(band(["Words."], tone, 40, 1, marks)[0]) for tone in (ORDER, DOUBTFUL, STOP)
        }
        assert len(signs) == 3


def test_before_the_first_verdict_the_band_says_so():
    assert "reading" in words_of(band([], "", 40, 2, FINE)[0])
