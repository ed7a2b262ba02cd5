"""A verdict as text and the page behind it: whole, in its width, without amounts if asked."""

import re

import pytest
from verdict.verdictkit import KNOWLEDGE, judged, verdicts

from appraise.base.wrapping import cells
from appraise.documents.document import Bullets
from appraise.documents.verdict import verdict_document, why_document
from appraise.documents.writers.forms import FORMS
from appraise.documents.writers.lines import LineLayout, document_lines, text
from appraise.records.piece import Image, Piece
from appraise.verdict import next_steps
from appraise.verdict.behind import behind

MONEY = re.compile(r"\b(?:USD|EUR|GBP)\b|\blimit of \d|\boffer \d")


def told(verdict):
    return verdict_document(verdict, KNOWLEDGE, next_steps(verdict, KNOWLEDGE))


def why(verdict, priced=True, figures=()):
    steps = next_steps(verdict, KNOWLEDGE)
    return why_document(verdict, KNOWLEDGE, steps, priced, figures)


def test_no_line_is_wider_than_asked_at_any_width():
    for name, verdict in verdicts()[::9]:
        assert max(map(cells, text(told(verdict)).splitlines())) <= 78, name
        for width in (30, 44, 60, 78, 118):
            for row in document_lines(why(verdict), LineLayout(width)):
                assert sum(cells(words) for words, _ in row) <= width, (name, width, row)


def test_every_width_tells_every_word():
    """Narrow lines say what wide ones say: nothing is cut."""
    verdict = judged(Piece().with_finding("plate.magnet", "yes").with_finding("hinge.tape", "2"))
    whole = "".join(text(told(verdict)).split())
    for block in (b for one in told(verdict).sections for b in one.blocks):
        for item in block.items if isinstance(block, Bullets) else ():
            assert "".join(item.split()) in whole
    for width in (24, 40, 78, 118):
        rows = document_lines(told(verdict), LineLayout(width))
        flat = "".join(words for row in rows for words, _ in row)
        for word in ("getworse", "Leavetape", "notdone"):
            assert word in "".join(flat.split()), (width, word)


def test_each_of_several_images_is_dated_and_judged():
    left = Image("left", Piece().with_finding("plate.magnet", "yes").findings)
    right = Image("right", Piece().with_finding("plate.magnet", "no").findings)
    verdict = judged(Piece(images=(left, right)))
    document = told(verdict)
    names = [one.id for one in document.sections]
    for part in ("dates-1", "dates-2", "belonging-1", "belonging-2"):
        assert part in names
    assert "How old it is: date ranges (80%) (left image)" in text(document)


def test_where_amounts_are_hidden_the_page_behind_has_none():
    for name, verdict in verdicts()[::9]:
        assert not MONEY.search(text(why(verdict, priced=False))), name


def test_the_evidence_behind_the_figures_follows():
    verdict = judged(Piece().with_finding("plate.magnet", "yes"))
    figures = tuple(behind(verdict.reading, KNOWLEDGE))
    written = text(why(verdict, figures=figures))
    assert "Evidence behind each figure, and what would change it" in written
    assert figures[0].says in written


@pytest.mark.parametrize("form", FORMS)
def test_control_characters_and_markup_reach_nobody(form):
    verdict = judged(Piece(title="a\x1b[31m<b>girl\u202e", motif="\x07vine"))
    written = FORMS[form](told(verdict))
    assert all(sign.isprintable() or sign == "\n" for sign in written)
    assert "<b>" not in written.replace("\\<b\\>", "") or form == "text"
