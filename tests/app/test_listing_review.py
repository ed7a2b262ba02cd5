"""The state of a review: answers over what the seller says, lots, and texts that change."""

from dataclasses import replace

import pytest
from every import every

from appraise.app.lines import length, words_of
from appraise.app.listing.items import letter, places_of, plain_title, questions_of, spans_of
from appraise.app.listing.layout import sizes_for
from appraise.app.listing.marked import Marked
from appraise.app.listing.review import Review, Stand, rebased, within
from appraise.app.listing.sides import SIDES, question_for, sides_of, turned
from appraise.app.listing.told import detail, row
from appraise.app.marks import FINE
from appraise.base.money import Money
from appraise.documents.claimed import claim_words
from appraise.knowledge.records import KINDS
from appraise.listing.reader import read
from appraise.records.piece import UNTOLD, Piece

TEXT = (
    "Sixth plate ambrotype of a soldier in a gutta percha union case, c. 1858. "
    "Hinge has been taped. Cleaned by my uncle. Never opened. $65 plus $8 shipping."
)


def reviewed(text, knowledge):
    review = Review(knowledge, "listing x", Stand(text, None))
    listing = read(text, knowledge)
    assert review.read(review.turn, listing, Marked(text, places_of(listing)))
    return review


@pytest.fixture
def review(knowledge):
    return reviewed(TEXT, knowledge)


def at(review, section, field=""):
    review.at = next(
        n
        for n, one in enumerate(review.items)
        if one.section == section and (not field or (one.claim and one.claim.field == field))
    )
    return review.here


def test_claims_and_flags_of_one_stretch_share_its_number(review):
    spans = spans_of(review.listing)
    assert spans == sorted(set(spans), key=lambda one: (one[0], -one[1]))
    for item in review.items:
        about = item.claim or item.flag
        if about is not None and about.start is not None:
            assert spans[item.place] == (about.start, about.end)
    places = places_of(review.listing)
    gutta = next(n for n, one in enumerate(spans) if TEXT[slice(*one)] == "gutta percha")
    assert places[gutta].flag
    assert len([one for one in review.items if one.place == gutta]) > 1


def test_the_gravest_sign_stands_where_several_flags_do(review):
    flag = review.listing.flags[0]
    twins = tuple(replace(flag, severity=name, start=0, end=5) for name in ("warn", "ask", "note"))
    listing = replace(review.listing, flags=twins, claims=())
    assert [one.sign for one in places_of(listing)] == ["!"]


def test_the_list_goes_from_claims_to_questions(review):
    order = ["claim", "flag", "gap", "question"]
    assert list(dict.fromkeys(one.section for one in review.items)) == order
    for name in (*order[1:], order[0]):
        review.section(1)
        assert review.here.section == name
    review.section(-1)
    assert review.here.section == "question"
    review.step(1000)
    assert review.at == len(review.items) - 1
    review.step(-1000)
    assert review.at == 0


def test_every_item_can_be_told_in_any_width(review):
    for item in review.items:
        for width in (4, 20, 40):
            told = row(item, True, review.piece, review.knowledge, width, FINE)
            assert length(told) <= width
            below = detail(item, review.listing, review.piece, review.knowledge, width, 8)
            assert len(below) <= 8
            assert all(length(one) <= max(width, 7) for one in below[:1])


def test_a_flag_says_what_why_and_how_strong(review):
    item = at(review, "flag")
    told = detail(item, review.listing, review.piece, review.knowledge, 60, 20)
    text = " ".join(" ".join(map(words_of, told)).split())
    assert item.flag.says in text
    assert item.flag.why in text
    assert "This decides the price." in text
    assert item.flag.question in text


def test_claims_are_told_in_the_words_of_the_trade(review, knowledge):
    told = [claim_words(one, knowledge) for one in review.listing.claims]
    assert "format: sixth plate" in told
    assert any(one.startswith("case: moulded thermoplastic") for one in told)
    assert "tape on the hinge" in told


def test_the_seller_speaks_until_pictures_do(review):
    item = at(review, "claim", "process")
    assert {one.known for one in review.piece.findings.values()} == {"seller"}
    assert review.confirm()
    assert review.piece.findings["claim.process"].known == "photo"
    assert review.answer(3)
    assert review.piece.found("claim.process") == "tintype"
    assert review.confirm()  # over another answer it confirms, and does not take back
    assert review.piece.found("claim.process") == item.claimed
    assert review.confirm()
    assert review.piece == review.listing.piece


def test_numbers_without_an_answer_change_nothing(review):
    at(review, "claim", "process")
    before = review.piece
    assert not review.answer(0)
    assert not review.answer(99)
    at(review, "claim", "asking")
    assert not review.checked
    assert not review.answer(1)
    assert not review.confirm()
    assert review.piece == before
    assert not review.undo()


def test_what_cannot_be_told_is_still_asked(review, knowledge):
    gap = next(one for one in review.items if one.section == "gap" and one.check)
    question = knowledge.gaps[gap.text].question
    full = replace(review.listing, questions=(question,))
    unsure = review.piece.with_finding(gap.check, UNTOLD, "photo")
    seen = review.piece.with_finding(gap.check, knowledge.checks[gap.check].answers[0].id, "photo")
    assert questions_of(full, unsure, knowledge) == (question,)
    assert questions_of(full, seen, knowledge) == ()


def test_questions_are_copied_a_line_each():
    assert letter(("One?", "Two?")) == "One?\nTwo?\n"
    assert letter(()) == ""


def test_going_along_the_text_goes_through_every_place(review):
    review.at = len(review.items) - 1
    assert review.place == -1
    seen = []
    for _ in review.marked.places:
        review.along(1)
        seen.append(review.place)
    assert seen == list(range(len(review.marked.places)))
    review.along(1)
    assert review.place == seen[-1]
    review.at = len(review.items) - 1
    review.along(-1)
    assert review.place == seen[-1]


def test_a_lot_is_judged_by_the_piece_one_is_at(knowledge):
    lot = "Lot of two:\n1) ninth plate tintype\n2) sixth plate daguerreotype, tarnish\n"
    review = reviewed(lot, knowledge)
    assert review.lot
    assert review.subject.named_format == "ninth"
    judging = review.judging
    review.step(1)
    assert review.subject.named_format == "sixth"
    assert review.subject.title == "sixth plate daguerreotype, tarnish"
    assert review.judging > judging
    judging = review.judging
    review.step(1)  # onto the claims: the piece stays
    assert review.subject.named_format == "sixth"
    assert review.judging == judging
    assert not any(one.check for one in review.items)
    assert not review.confirm()


@pytest.mark.parametrize(
    ("title", "plain"),
    [
        ("1) ninth plate", "ninth plate"),
        ("a. ninth plate", "ninth plate"),
        ("- ninth plate", "ninth plate"),
        ("#2: ninth plate", "ninth plate"),
        ("1/9 plate", "1/9 plate"),
        ("$40 tintype", "$40 tintype"),
        ("1)", "1)"),
    ],
)
def test_titles_lose_the_number_before_them(title, plain):
    assert plain_title(title) == plain


def test_another_text_keeps_what_was_noted_by_hand(review, knowledge):
    at(review, "claim", "case.material")
    review.answer(1)
    review.change(replace(review.piece, asking=Money.parse("50 USD"), not_shown=("back",)))
    text = TEXT.replace("Sixth", "Ninth").replace("Hinge has been taped. ", "")
    review.take_text(text)
    assert review.items == ()
    listing = read(text, knowledge)
    assert review.read(review.turn, listing, Marked(text, places_of(listing)))
    piece = review.piece
    assert piece.named_format == "ninth"
    assert piece.asking.plain == "50.00"
    assert piece.not_shown == ("back",)
    assert piece.findings["case.material"].known == "photo"
    assert "hinge.tape" not in piece.findings


def test_an_earlier_text_is_not_taken_for_the_new_one(review):
    old = review.turn
    review.take_text("a tintype")
    assert not review.read(old, review.listing, review.marked)
    assert not review.take_text("a tintype")


def test_what_was_kept_stands_over_what_is_read_again(knowledge):
    listing = read(TEXT, knowledge)
    kept = replace(listing.piece, motif="vine").with_finding("mat.shape", "oval", "photo")
    review = Review(knowledge, "listing x", Stand(TEXT, kept, TEXT))
    review.read(0, listing, Marked(TEXT, places_of(listing)))
    assert review.piece == kept


def test_nothing_by_hand_leaves_the_seller_alone():
    now = Piece(title="new", channel="online")
    assert rebased(None, None, now) == now
    assert rebased(Piece(title="old"), Piece(title="old"), now) == now
    assert rebased(Piece(title="mine"), Piece(title="old"), now).title == "mine"


def test_findings_of_another_kind_fall_away(knowledge):
    card = replace(Piece().with_finding("hinge.tape", "1", "seller"), kind="card")
    assert within(card, knowledge).findings == {}
    cased = Piece().with_finding("hinge.tape", "1", "seller")
    assert within(cased, knowledge) is cased


def test_every_kind_has_sides_and_fewer_than_digits():
    assert set(SIDES) == set(KINDS)
    assert all(1 <= len(sides) <= 9 for sides in SIDES.values())


def test_sides_are_struck_out_and_brought_back_in_their_order():
    piece = turned(turned(Piece(), "spine"), "back")
    assert piece.not_shown == ("back", "spine")
    assert turned(piece, "back").not_shown == ("spine",)
    assert "label" in sides_of(replace(piece, not_shown=("label",)))
    assert question_for(()) == ""
    assert question_for(("back",)) == "Could you please add a photo of the back?"


@every("verdict", [False, True])
@every("height", [1, 3, 8, 23, 39, 59])
@every("width", [4, 20, 71, 72, 80, 109, 110, 120, 200])
def test_the_columns_fill_the_screen_and_no_more(width, height, verdict):
    sizes = sizes_for(width, height, verdict)
    assert min(sizes.above, sizes.below, sizes.text, sizes.list) >= 0
    assert sizes.above + sizes.below < max(1, height)
    columns = [one for one in (sizes.text, sizes.list, sizes.panel) if one]
    if width >= 72:
        assert sum(columns) == width
        assert not sizes.above
    else:
        assert set(columns) == {width}
