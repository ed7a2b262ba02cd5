"""Sizes that are of no trade format, or of another than said, and what the texts say of them.

Sizes in inches are arithmetic; where one names a format, its source stands beside it.
"""

import pytest
from external.kit import judged, shipped, told, warned

from appraise.documents.verdict import verdict_document
from appraise.documents.verdict_json import verdict_json
from appraise.documents.writers.lines import text
from appraise.verdict import Verdict, next_steps
from appraise.verdict.judge import area_of


def text_of(verdict: Verdict) -> str:
    return text(verdict_document(verdict, shipped(), next_steps(verdict, shipped())))


@pytest.mark.parametrize(
    ("kind", "size"),
    [
        ("cased", "8 x 10 in"),  # a modern sheet film size, no plate of the lists
        ("cased", "5 x 7 in"),
        ("loose-plate", "8 x 10 in"),
        ("loose-plate", "5 x 7 in"),
        ("cased", "119 x 154 mm"),
    ],
)
def test_a_plate_of_no_list_fits_no_size(kind, size):
    seen = told(kind=kind, measured={"plate": size})
    assert seen.formats.best == ""
    assert seen.formats.remark(shipped().formats).startswith("fits no size (nearest: ")
    assert area_of(seen) is None
    assert seen.formats.maybe_measured == ""


def test_a_postcard_is_no_carte():
    # 3 1/2 x 5 1/2 in, a postcard: common practice, no source.
    seen = told(kind="card", measured={"mount": "3 1/2 x 5 1/2 in"})
    assert seen.formats.best == ""
    assert "carte" not in seen.formats.remark(shipped().formats)


def test_the_texts_say_that_nothing_fits_and_what_is_nearest():
    verdict = judged(measured={"plate": "119 x 154 mm"}, named_format="half")
    line = "fits no size (nearest: British half plate), called half plate"
    assert f"format {line}" in " ".join(text_of(verdict).split())
    assert "size-fits-nothing" in warned(verdict)
    form = verdict_json(verdict, next_steps(verdict, shipped()), shipped())["format"]
    assert (form["best"], form["nearest"], form["called"]) == (None, "half-uk", "half")
    assert form["probabilities"] == {}


def test_a_half_plate_called_a_quarter_says_half_and_what_it_is_called():
    # 4 1/4 x 5 1/2 in: The Photographic Process (2011), Library of Congress.
    verdict = judged(measured={"plate": "4 1/4 x 5 1/2 in"}, named_format="quarter")
    assert verdict.reading.formats.best == "half"
    text = text_of(verdict)
    assert "half plate" in text
    assert "called quarter plate" in text


def test_a_named_mammoth_plate_is_one_without_a_measure():
    # The rarest of the named formats: a name is not dropped because its format is rare.
    assert told(named_format="mammoth").formats.best == "mammoth"


@pytest.mark.parametrize(
    ("opening", "plate"),
    [
        ("57 x 70 mm", "sixth"),  # 2009.19, Carnegie Museum of Art
        ("71 x 92 mm", "quarter"),  # 1999.23, Cleveland Museum of Art
        ("89 x 121 mm", "half"),  # 84.XT.182, J. Paul Getty Museum
        ("150 x 200 mm", "whole"),  # 2002.30, Cleveland Museum of Art
    ],
)
def test_an_opening_given_as_the_plate_prints_no_rare_size(opening, plate):
    verdict = judged(measured={"plate": opening})
    assert verdict.reading.formats.best == plate
    assert "measured-opening" in warned(verdict)
    rare = [
        chance
        for name, chance in verdict.reading.formats.probabilities.items()
        if shipped().formats[name].share < 0.01
    ]
    assert sum(rare) < 0.1


@pytest.mark.parametrize("plate", ["2 3/4 x 3 1/4 in", "3 1/4 x 4 1/4 in", "2 x 2 1/2 in"])
def test_a_plate_is_not_taken_for_an_opening(plate):
    # Ambrotypes and Tintypes, Library of Congress.
    assert "measured-opening" not in warned(judged(measured={"plate": plate}))


def test_a_slide_of_100_by_85_mm_is_continental_where_it_is_from_there():
    # 100 x 85 mm, France from 1889: Optic Projection, ch. VIII, sections 312-314.
    size = {"plate": "100 x 85 mm"}
    there = told(kind="lantern-slide", region="eu", measured=size).formats
    assert there.best == "lantern-continental"
    assert there.probabilities["lantern-continental"] > 0.9
    assert told(kind="lantern-slide", region="us", measured=size).formats.best == "lantern-american"
