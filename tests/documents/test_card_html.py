"""The pocket card to print: a whole page of HTML, and every size at true scale."""

import re
from html.parser import HTMLParser

import pytest
import yaml

from appraise.base.places import shipped_data
from appraise.documents.card import card_checks
from appraise.documents.card_html import card_html
from appraise.documents.outlines import BAR, SHEETS, paper_for, sheets
from appraise.knowledge import load
from appraise.knowledge.records import KINDS, UNJUDGED

KNOWLEDGE = load()
VOID = {"meta", "rect", "path", "line", "circle", "ellipse", "polyline"}
KIND = [kind for kind in KINDS if kind not in UNJUDGED]


class Page(HTMLParser):
    """Elements with their attributes; that each is closed where it has to be is asserted."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.found, self.open, self.words = [], [], []

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.words.append(data)

    def of(self, tag):
        return [attrs for name, attrs in self.found if name == tag]


def page(kind="cased"):
    made = Page()
    made.feed(card_html(KNOWLEDGE, kind))
    made.close()
    assert not made.open
    return made


@pytest.mark.parametrize("kind", KIND)
def test_it_is_one_whole_page_with_every_check_of_the_card(kind):
    found = page(kind)
    words = " ".join(" ".join(found.words).split())
    for check in card_checks(KNOWLEDGE, kind):
        assert check.ask in words, check.id
    assert not found.of("script")
    assert not [attrs for _, attrs in found.found if "src" in attrs or "href" in attrs]


def test_every_size_of_the_files_is_drawn_at_its_own_millimetres():
    """Read here from the YAML anew, so that what is drawn is what the file says."""
    rows = yaml.safe_load((shipped_data() / "formats.yaml").read_text("utf-8"))["formats"]
    wanted = sorted(
        (name, *map(float, size.split(" x ")))
        for name, row in rows.items()
        for size in row["size"]
        if paper_for(*map(float, size.split(" x ")))
    )
    drawn = sorted(
        (one["data-format"], float(one["width"]), float(one["height"]))
        for one in page().of("rect")
        if "data-format" in one
    )
    assert drawn == wanted
    left_out = sum(len(row["size"]) for row in rows.values()) - len(wanted)
    assert left_out <= 3


# An inch is 25.4 mm; the sizes in inches are those of the Library of Congress ("Daguerreotypes",
# sizes of plates: whole 6 1/2 x 8 1/2, half 4 1/4 x 5 1/2, quarter 3 1/4 x 4 1/4, sixth
# 2 3/4 x 3 1/4, ninth 2 x 2 1/2, sixteenth 1 3/8 x 1 5/8), from memory.
@pytest.mark.parametrize(
    ("name", "inches"),
    [
        ("whole", (6.5, 8.5)),
        ("half", (4.25, 5.5)),
        ("quarter", (3.25, 4.25)),
        ("sixth", (2.75, 3.25)),
        ("ninth", (2.0, 2.5)),
        ("sixteenth", (1.375, 1.625)),
    ],
)
def test_known_plates_are_as_large_as_published(name, inches):
    sizes = [
        (float(one["width"]), float(one["height"]))
        for one in page().of("rect")
        if one.get("data-format") == name
    ]
    wanted = tuple(25.4 * inch for inch in inches)
    assert any(size == pytest.approx(wanted, abs=0.1) for size in sizes)


def test_one_unit_is_one_millimetre_on_every_sheet_and_the_bar_is_fifty():
    found = page()
    scaled = [one for one in found.of("svg") if "width" in one]
    assert len(scaled) == 2 * len(sheets(KNOWLEDGE))
    for one in scaled:
        _, _, width, height = map(float, one["viewbox"].split())
        assert float(one["width"].removesuffix("mm")) == width
        assert float(one["height"].removesuffix("mm")) == height
    bars = [one["d"] for one in found.of("path") if one["d"].startswith("M0 2H")]
    assert len(bars) == len(sheets(KNOWLEDGE))
    assert all(re.match(rf"M0 2H{BAR:g}M0 0V4M10 0V4M20 ", one) for one in bars)
    assert all(one.endswith("M50 0V4") for one in bars)


def test_no_name_lies_on_another_and_nothing_leaves_its_sheet():
    for sheet in sheets(KNOWLEDGE):
        width, height = SHEETS[sheet.paper]
        boxes = [one.words for one in sheet.outlines]
        for n, one in enumerate(boxes):
            assert one[0] >= 0
            assert one[2] <= width + 0.1
            for other in boxes[n + 1 :]:
                apart = one[2] <= other[0] or other[2] <= one[0]
                assert apart or one[3] <= other[1] or other[3] <= one[1]
        for each in sheet.outlines:
            assert each.width <= width
            assert each.height <= height


def test_answers_that_can_be_drawn_are_drawn():
    drawings = [one for one in page().of("svg") if one.get("viewbox") == "0 0 120 80"]
    assert len(drawings) >= 10
