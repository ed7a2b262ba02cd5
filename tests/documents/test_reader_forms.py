"""How a report is written: escaped, well formed, legible, and the same facts in every form."""

import json
import re
from base64 import b64decode
from dataclasses import replace
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree

import pytest
from documents.readerkit import DEMO_DAY, demo_piece, entry, told
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from PIL import Image
from thorough import tries

from appraise.base.oneline import plain
from appraise.base.wrapping import cells
from appraise.documents.chart import Bar, Chart
from appraise.documents.document import (
    Bullets,
    Document,
    Fact,
    Facts,
    Paragraph,
    Picture,
    Section,
    Table,
)
from appraise.documents.reports.readers import READERS
from appraise.documents.writers.forms import FORMS, report_json
from appraise.documents.writers.html import html
from appraise.documents.writers.lines import WIDTH, LineLayout, document_lines, text
from appraise.documents.writers.markdown import escaped, markdown
from appraise.documents.writers.style import DARK, LIGHT, TEXTS
from appraise.documents.writers.svg import svg

GOLDEN = Path(__file__).parent / "golden"
VOID = {"meta", "br", "hr", "img", "link", "input"}  # HTML, WHATWG, section 13.1.2
NASTY = st.one_of(
    st.text(max_size=60),
    st.text(alphabet="\\`*_{}[]<>()#+-.!|~&:/@w\"'=;$^ \t\n0123456789aAhtps", max_size=60),
    st.sampled_from([
        "<script>alert(1)</script>", "</title><b>", "&lt;b&gt;", "[a](http://example.org)",
        "![a](b)", "<http://example.org>", "http://example.org", "www.example.org", "a@example.org",
        "# head", "1. one", "- one", "> said", "    code", "```", "~~~", "***", "a\n===", "\\",
        "a  \nb", "&#60;", "]]>", "-->", "\x00\x1b[31m", "\u202egnp.exe", "`a`", "|a|b|", "<!-- a",
    ]),
)  # fmt: skip
MARKDOWN = MarkdownIt("commonmark")


class Page(HTMLParser):
    """Every tag closed in order, and what the page says."""

    def __init__(self, page):
        super().__init__(convert_charrefs=True)
        self.open, self.tags, self.said, self.titles = [], [], [], []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag

    def handle_data(self, data):
        (self.titles if "title" in self.open else self.said).append(data)


def whole(says):
    """A document with a text in every place where there can be one."""
    chart = Chart(
        says,
        says,
        "years",
        (Bar(says, says, (1850, 1860), (1852, 1858), 1855),),
    )
    head = says if plain(says) else "heading"
    table = Table(head, (says, "b"), ((says, says), ("c", "d")), (1,))
    bill = Table("", (), ((says, "b"), (says, says)), (1,), 1, (0.4, 1.0), (0.5, 0.2))
    blocks = (
        *(Paragraph(says, role) for role in ("plain", "lead", "warn", "doubt", "quiet")),
        Bullets((says, "b")),
        *(Bullets((says, "b"), tone) for tone in ("warn", "doubt")),
        Facts((Fact(says, (says,)), Fact("name", (says, says), "warn"), Fact("", (says,)))),
        bill,
        table,
        Picture(chart, table, drawn=True),
    )
    section = Section("part", head, blocks)
    return Document(head, (section,), "a report", DEMO_DAY.isoformat(), head, "myself")


SHAPE = [tag for tag, _ in Page(html(whole("words"))).tags]


@tries(75)
@given(NASTY)
def test_nothing_of_the_users_becomes_markup_in_html(says):
    page = Page(html(whole(says)))
    assert not page.open
    assert [tag for tag, _ in page.tags] == SHAPE
    assert plain(says) in page.said or not plain(says)
    for _, attributes in page.tags:
        assert not any(name.startswith("on") or name in ("src", "href") for name in attributes)


def tokens(source):
    return [(one.type, one.tag, one.level) for one in MARKDOWN.parse(source)]


def words(source):
    """The text of Markdown as a reader of CommonMark shows it."""
    return "".join(
        child.content
        if child.type in ("text", "text_special", "code_inline")
        else f"<{child.type}>"
        for one in MARKDOWN.parse(source)
        for child in (one.children or ())
    )


@tries(150)
@given(NASTY)
def test_a_text_stays_what_it_is_in_commonmark(says):
    shown = plain(says)
    if shown:
        assert words(escaped(says)) == shown
        assert [one.type for one in MARKDOWN.parse(escaped(says))] == [
            "paragraph_open", "inline", "paragraph_close",
        ]  # fmt: skip


@tries(75)
@given(NASTY.filter(lambda says: plain(says)))
def test_nothing_of_the_users_becomes_markup_in_markdown(says):
    assert tokens(markdown(whole(says))) == tokens(markdown(whole("words")))


@tries(50)
@given(NASTY)
def test_no_line_of_text_is_wider_than_a_terminal(says):
    written = text(whole(says))
    assert max(map(len, written.splitlines())) <= WIDTH
    assert all(char.isprintable() or char in "\n\u200c\u200d" for char in written)


@tries(50)
@given(NASTY, st.integers(24, 120), st.booleans())
def test_lines_fit_any_width_and_say_every_word(says, width, beside):
    document = whole(says)
    parts = (*document.sections, *(replace(one, beside=beside) for one in document.sections))
    rows = document_lines(replace(document, sections=parts), LineLayout(width))
    for row in rows:
        assert sum(cells(words) for words, _ in row) <= width
        assert all(
            sign.isprintable() or sign in "\u200c\u200d" for words, _ in row for sign in words
        )
    if not beside:
        told = "".join("".join(words for row in rows for words, _ in row).split())
        assert told.count("".join(plain(says).split())) >= 2 * len(document.sections[0].blocks)


def test_a_table_too_wide_for_its_room_is_told_cell_by_cell():
    table = Table("", ("what", "paid"), (("a plate with a long name", "1,234,567.00 USD"),), (1,))
    document = Document("", (Section("a", "", (table,)),))
    rows = ["".join(words for words, _ in row) for row in document_lines(document, LineLayout(20))]
    assert rows == ["a plate with a long", "name", "  paid 1,234,567.00", "       USD"]


def test_a_bar_ends_where_its_share_ends_and_its_mark_stands_on_it():
    table = Table("", (), (("half", "1"), ("none", "0")), (1,), bars=(0.5, 0.0), marks=(0.25, 0.5))
    document = Document("", (Section("a", "", (table,)),))
    rows = ["".join(words for words, _ in row) for row in document_lines(document, LineLayout(29))]
    assert rows == ["half  1  #####|####", "none  0            |"]


@pytest.mark.parametrize("says", ["http://a.example", "WWW.a.example", "a@b.example"])
def test_readers_that_make_links_of_addresses_find_none(says):
    linking = MarkdownIt("gfm-like", {"linkify": False})
    shown = linking.render(escaped(says))
    assert "<a" not in shown
    # The autolinks of GitHub's dialect (GFM 0.29, section 6.9) begin with these as they stand.
    assert not re.search(r"https?://|www\.|\w@", escaped(says), re.IGNORECASE)


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("piece", ["sound", "married", "resin"])
def test_a_page_is_well_formed_and_needs_nothing_else(reader, piece):
    page = Page(html(told(reader, demo_piece(piece), entry(piece=""))))
    assert not page.open
    names = [tag for tag, _ in page.tags]
    assert {"script", "link", "img", "iframe", "object"}.isdisjoint(names)
    for unique in ("html", "head", "body", "main", "h1", "style"):
        assert names.count(unique) == 1
    ids = [attributes["id"] for _, attributes in page.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes in page.tags:
        for name in attributes.get("aria-labelledby", "").split():
            assert name in ids
    assert "url(" not in html(told(reader, demo_piece(piece)))
    assert names.count("h2") == names.count("section")


def ratio(one, other):
    """Contrast by relative luminance, WCAG 2.1 (W3C), definitions of both."""

    def luminance(colour):
        shares = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
        lit = [v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in shares]
        return 0.2126 * lit[0] + 0.7152 * lit[1] + 0.0722 * lit[2]

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_published_ends():
    # WCAG 2.1: contrast ranges from 1 to 21; black on white is 21, and #767676 on white is the
    # grey that W3C's understanding of 1.4.3 gives for just 4.5:1.
    assert ratio("#000000", "#FFFFFF") == pytest.approx(21)
    assert ratio("#777777", "#777777") == 1
    assert 4.5 <= ratio("#767676", "#FFFFFF") < 4.6


@pytest.mark.parametrize("inks", [LIGHT, DARK])
@pytest.mark.parametrize("ground", ["paper", "band"])
def test_words_stand_at_seven_to_one_and_drawings_at_three(inks, ground):
    for name in TEXTS:
        assert ratio(inks[name], inks[ground]) >= 7, name
    for name in ("bar", "accent", "warn"):
        assert ratio(inks[name], inks[ground]) >= 3, name
    assert ratio(inks["paper"], inks["bar"]) >= 3
    assert set(LIGHT) == set(DARK)


@pytest.mark.parametrize("form", FORMS)
def test_every_form_tells_the_same_facts(form):
    document = told("myself", demo_piece("sound"))
    written = plain(FORMS[form](document))
    bare = plain(re.sub(r"<style>.*?</style>|<[^>]*>", " ", written)) if form == "html" else written
    bare = bare.replace("\\", "").replace("&quot;", '"')
    for words in ("ambrotype 99%", "1858 to 1867", "[1858..1867]", "1854 to 1867"):
        assert words in bare
    for section in document.sections:
        assert section.heading in bare


def test_pictures_have_a_title_a_description_and_their_figures():
    document = told("myself", demo_piece("married"))
    pictures = [b for one in document.sections for b in one.blocks if isinstance(b, Picture)]
    assert [one.chart.scale for one in pictures] == ["amounts", "years"]
    for one in pictures:
        drawn = ElementTree.fromstring(svg(one.chart, "a"))
        assert [child.tag for child in drawn[:2]] == ["title", "desc"]
        assert drawn[1].text == one.chart.says
        assert one.table.rows
        texts = [child.text for child in drawn if child.tag == "text"]
        assert len(texts) >= len(one.chart.bars) + 2


@given(
    st.lists(st.integers(1835, 1990), min_size=4, max_size=4).map(sorted),
    st.lists(st.floats(0.5, 1e6), min_size=3, max_size=3).map(sorted),
)
def test_what_is_drawn_stays_on_the_axis_and_in_order(years, amounts):
    first, common, until, last = years
    low, middle, high = amounts
    for chart in (
        Chart("t", "s", "years", (Bar("a", "", (first, last), (common, until), first),)),
        Chart("t", "s", "amounts", (Bar("a", "", (low, high), point=middle),), (middle, "asked")),
    ):
        (bar,) = chart.bars
        start, end = chart.stretch(bar.outer)
        assert 0 <= start < end <= 1 or low == high
        assert 2 <= len(chart.ticks) <= 7
        assert list(chart.ticks) == sorted(set(chart.ticks))
        assert all(-1e-9 <= chart.place(tick) <= 1 + 1e-9 for tick in chart.ticks)
        for x in re.findall(r'\bx[12]?="([\d.]+)"', svg(chart, "a")):
            assert 0 <= float(x) <= 380


def test_amounts_are_spaced_by_their_ratios():
    chart = Chart("t", "s", "amounts", (Bar("a", "", (10, 1000)),))
    assert chart.place(100) == pytest.approx((chart.place(10) + chart.place(1000)) / 2)


# To write them anew after a change of words: python tests/documents/test_reader_forms.py
CASES = [
    *((reader, "married", "text") for reader in READERS),
    *(("public", piece, "text") for piece in ("sound", "resin")),
    ("public", "sound", "markdown"),
    ("heir", "sound", "html"),
]


def named(reader, piece, form):
    return GOLDEN / f"{piece}-{reader}.{form}"


def written(reader, piece, form):
    return FORMS[form](told(reader, demo_piece(piece), priced=False))


@pytest.mark.parametrize(("reader", "piece", "form"), CASES)
def test_the_demo_pieces_read_as_they_did(reader, piece, form):
    assert written(reader, piece, form) == named(reader, piece, form).read_text(encoding="utf-8")


if __name__ == "__main__":
    GOLDEN.mkdir(exist_ok=True)
    for case in CASES:
        named(*case).write_text(written(*case), encoding="utf-8")


@pytest.mark.parametrize("reader", READERS)
def test_a_page_carries_copies_of_photos_that_tell_nothing_of_their_file(reader, tmp_path):
    path, words = tmp_path / "qwx-name.jpg", "qwx words"
    image = Image.new("RGB", (3000, 2000), (90, 60, 30))
    told_by_camera = image.getexif()
    # Exif 2.3 (CIPA DC-008): ImageDescription, Artist, Orientation 6 (turned), and a place (GPS).
    told_by_camera.update({0x010E: words, 0x013B: words, 0x0112: 6, 0x8825: {1: "N", 3: "E"}})
    image.save(path, exif=told_by_camera, comment=words.encode())
    (tmp_path / "vzk.png").write_bytes(b"no photo")
    files = (path, tmp_path / "vzk.png", tmp_path / "jpq.jpg")
    document = told(reader, demo_piece("sound"), photos=files)
    page = html(document)
    assert not Page(page).open
    (data,) = re.findall(r'src="data:image/jpeg;base64,([^"]+)"', page)
    raw = b64decode(data)
    copied = Image.open(BytesIO(raw))
    assert copied.size == (800, 1200)
    assert not copied.getexif()
    assert set(copied.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert words.encode() not in raw
    assert "Photo 2 of 3: photo cannot be read" in page
    assert "Photo 3 of 3: photo file is missing" in page
    forms = [*(write(document) for write in FORMS.values()), json.dumps(report_json(document))]
    for form in forms:
        assert not [word for word in ("qwx", "vzk", "jpq", str(tmp_path)) if word in form]
    assert "3 photos, shown in the HTML report" in forms[0]
