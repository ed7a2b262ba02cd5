"""What fits what, in words: the golden sentences, and no word that judges a piece."""

import datetime as dt

import pytest

from appraise.collection.fits import loose, parts_for
from appraise.collection.sizing import WORDS, Sizing
from appraise.documents.fits import SIZE_SAYS, YEARS_SAY, fit_json, fit_lines, size_says
from appraise.knowledge import load
from appraise.listing.first_look import understand
from appraise.records.part import Part, Seen, Size

KNOWLEDGE = load()
DAY = dt.date(2026, 11, 7)


@pytest.mark.parametrize(
    ("size", "says"),
    [
        (
            Sizing("fits", 0.6, (1.0, 1.5), 1.8, ("recess", "plate")),
            "fits by size: made for a plate 1.0 mm wider and 1.5 mm taller, plus or minus 1.8 mm "
            "(recess against plate)",
        ),
        (
            Sizing("too small", 0.0, (-3.2, 0.0), 2.0, ("outside", "format")),
            "too small: made for a plate 3.2 mm narrower, plus or minus 2.0 mm "
            "(outside against format)",
        ),
        (
            Sizing("fits", 0.5, (0.0, 0.0), 1.8, ("format", "format")),
            "fits by size: made for a plate of the same size, plus or minus 1.8 mm (by format "
            "names only, so measure both)",
        ),
        (Sizing("size not known", 0.0, None, 0.0, ("", "")), "size not known: measure both"),
    ],
)
def test_sizes_in_words(size, says):
    assert size_says(size) == says


def test_every_word_has_its_sentence_and_none_judges():
    assert set(WORDS) < set(SIZE_SAYS)
    for says in (*SIZE_SAYS.values(), *YEARS_SAY.values()):
        assert "authentic" not in says
        assert "fake" not in says
        assert "belong" not in says


def test_three_lines_for_each_and_the_same_as_json():
    plate = loose(understand("loose plate sixth ambrotype", KNOWLEDGE).piece, KNOWLEDGE, "b" * 16)
    part = Part("a sixth case", DAY, "case", "thermoplastic", "sixth",
                (Size("recess", "73 x 86 mm"),), (Seen("hinge.kind", "metal"),))  # fmt: skip
    (fit,) = parts_for(plate, [("a" * 16, part)], KNOWLEDGE)
    lines = fit_lines([fit], plates=False)
    assert lines[0] == "aaaaaaaa  a sixth case"
    assert "recess against format" in lines[1]
    assert "the years go together: part 18" in lines[2]
    told = fit_json(fit)
    assert (told["part"], told["plate"]) == ("a" * 16, "b" * 16)
    assert told["size"]["room"] == [0.6, 0.9]
    assert told["years"]["part"].startswith("[18")
