"""The forms of a piece: details read strictly, and the entry that a buy or a pass makes."""

from dataclasses import replace
from datetime import date

import pytest
from app.kit import app_on, ask, begin, settled, shown
from pricing.invented import invented_log

from appraise.app.examine.closing import bought, bought_form, passed, passed_form
from appraise.app.examine.details import details_of, piece_with
from appraise.app.examine.doors import WRITING
from appraise.app.form import fields_of
from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.base.measures import Measure
from appraise.base.money import Money
from appraise.pricing.estimate import learn
from appraise.records.fields import changed
from appraise.records.piece import Inscription, Piece
from appraise.records.values import Author
from appraise.verdict import judge

DAY = date(2026, 11, 7)
PIECE = (
    Piece(
        title="girl",
        channel="online",
        region="us",
        asking=Money.parse("45 USD"),
        subjects=("child",),
        motif="vine",
        appeal=4,
        measured={"plate": Measure.parse("2 3/4 x 3 1/4 in")},
        conserved=True,
        sitter_age=(5, 8),
        portray=1863,
        inscription=Inscription("May 12"),
        named_format="sixth",
    )
    .with_finding("case.material", "thermoplastic")
    .with_finding("claim.process", "ambrotype", "in-hand")
)


def typed(fields, **changes):
    """What stands in the fields, with changes."""
    return {**{field.name: field.value for field in fields}, **changes}


def details(knowledge, piece=PIECE, **changes):
    """The piece after its form was filled in."""
    by = Author("USD", DAY, knowledge)
    return piece_with(piece, typed(details_of(piece, knowledge, by), **changes), knowledge, by)


def told(form, piece, **changes):
    """What a form of an entry says after it was filled in."""
    begun, names = form(piece, DAY)
    by = Author("USD", DAY)
    return changed(begun, typed(fields_of(begun, by, only=names), **changes), by)


def test_a_form_left_as_it_is_changes_nothing(knowledge):
    assert details(knowledge) == PIECE
    assert details(knowledge, Piece()) == Piece()


def test_what_is_typed_is_taken(knowledge):
    piece = details(knowledge, asking="50", channel="Market", sitter="30", conserved="no")
    assert piece.asking == Money.parse("50 USD")
    assert (piece.channel, piece.sitter_age, piece.conserved) == ("market", (30, 30), False)
    bare = details(knowledge, asking="", inscription="", **{"size-plate": ""})
    assert (bare.asking, bare.inscription, bare.measured) == (None, None, {})


def test_another_kind_drops_what_is_not_asked_of_it(knowledge):
    card = details(knowledge, kind="card", format="carte-de-visite")
    assert card.kind == "card"
    assert "case.material" not in card.findings


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("kind", "caseed"),
        ("channel", "markt"),
        ("region", "uss"),
        ("asking", "lots"),
        ("format", "sixt"),
        ("size-plate", "70 x 83"),
        ("subject", "boy"),
        ("appeal", "9"),
        ("conserved", "perhaps"),
        ("sitter", "old"),
        ("portray", "soon"),
        ("portray", "99"),
    ],
)
def test_a_mistake_names_its_field(knowledge, field, text):
    with pytest.raises(InputError) as caught:
        details(knowledge, **{field: text})
    assert caught.value.where == field


def test_a_buy_keeps_what_the_tool_thought(knowledge):
    piece = replace(PIECE, subjects=("child", "music"), maker="R. Quill")
    piece = piece.with_finding("sitter.identified", "name", "in-hand")
    piece = piece.with_finding("image.sharpness", "usual")
    verdict = judge(piece, knowledge, learn(invented_log(60)), DAY)
    values = told(bought_form, piece, postage="6", venue=" quay  market ")
    entry = bought(verdict, values, "piece: 1\n")
    assert (entry.record, entry.date, entry.channel) == ("bought", DAY, "online")
    assert (entry.paid, entry.asked) == (Money.parse("45 USD"), Money.parse("45 USD"))
    assert entry.postage == Money.parse("6 USD")
    assert (entry.process, entry.housing, entry.format) == ("ambrotype", "thermoplastic", "sixth")
    assert (entry.venue, entry.piece) == ("quay market", "piece: 1\n")
    assert (entry.identified, entry.quality) == ("name", 3.0)
    assert (entry.subjects, entry.maker) == (("child", "music"), "R. Quill")
    assert dict(entry.belonging) == pytest.approx(verdict.reading.belonging, abs=1e-4)
    assert float(entry.estimate.median.amount) == pytest.approx(verdict.estimate.median, abs=0.01)
    assert entry.condition_factor is None


def test_what_is_not_known_is_not_logged(knowledge):
    verdict = judge(Piece(), knowledge, None, DAY)
    entry = bought(verdict, told(bought_form, Piece(), paid="5"), "")
    assert (entry.process, entry.format, entry.condition_factor) == ("", "", None)
    assert entry.estimate is None


def test_damage_that_was_seen_is_logged_with_its_factor(knowledge):
    piece = Piece().with_finding("hinge.tape", "2")
    verdict = judge(piece, knowledge, None, DAY)
    entry = bought(verdict, told(bought_form, piece, paid="5"), "")
    assert entry.condition_factor == pytest.approx(verdict.kept, abs=1e-4)
    assert entry.condition_factor < 1


def test_a_pass_is_refused_where_an_offer_was_made_and_asking_where_not(knowledge):
    verdict = judge(PIECE, knowledge, None, DAY)
    plain = passed(verdict, told(passed_form, PIECE), "")
    assert (plain.record, plain.asked, plain.offered) == ("asking", Money.parse("45 USD"), None)
    refused = passed(verdict, told(passed_form, PIECE, asked="55", offered="30"), "")
    assert (refused.record, refused.price) == ("refused", Money.parse("55 USD"))


@pytest.mark.parametrize(("make", "form"), [(bought, bought_form), (passed, passed_form)])
def test_an_amount_is_needed(knowledge, make, form):
    verdict = judge(Piece(), knowledge, None, DAY)
    with pytest.raises(InputError) as caught:
        make(verdict, told(form, Piece()), "")
    assert caught.value.where in ("paid", "asked")


@pytest.mark.parametrize(
    ("make", "form", "field"),
    [
        (bought, bought_form, "paid"),
        (passed, passed_form, "asked"),
        (passed, passed_form, "offered"),
    ],
)
def test_an_amount_is_above_nothing(knowledge, make, form, field):
    verdict = judge(PIECE, knowledge, None, DAY)
    with pytest.raises(InputError) as caught:
        make(verdict, told(form, PIECE, **{field: "0"}), "")
    assert (caught.value.what, caught.value.where) == ("an amount must be above 0", field)


async def test_details_are_kept_and_can_be_undone(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambro vine 45")
        await pilot.press("i")
        await settled(pilot)
        app.screen.query_one("#field-channel").value = "online"
        style = app.screen.query_one("#field-format")
        style.value = "sixt"
        await pilot.press("enter")
        await settled(pilot)
        assert "Did you mean 'sixth'?" in shown(app)
        assert app.focused is style
        style.value = "sixth"
        await pilot.press("enter")
        await settled(pilot)
        assert app.screen.exam.piece.channel == "online"
        assert "seen in a photo" in shown(app)
        assert "asked 45.00" in shown(app)
        await pilot.press("u")
        await settled(pilot)
        assert app.screen.exam.piece.channel == "market"
    app.session.close()


async def test_any_check_is_found_by_a_few_letters(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambro vine")
        await pilot.press("slash")
        await settled(pilot)
        app.screen.query_one("Input").value = "made mat.m"
        await pilot.pause()
        await pilot.press("enter")
        await settled(pilot)
        assert app.screen.exam.at == "mat.material"
        await pilot.press("slash", "escape")
        await settled(pilot)
        assert app.screen.exam.at == "mat.material"
    app.session.close()


async def test_a_long_list_of_answers_is_narrowed_by_typing(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambro vine")
        await ask(pilot, "case.material")
        await pilot.press("enter", *"resin")
        await pilot.pause()
        assert "1  cast resin" in shown(app)
        assert "1  leather over wood" not in shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert "1  leather over wood" in shown(app)
        assert app.screen.exam.at == "case.material"
        await pilot.press("enter", *"moulded")
        await settled(pilot)
        await pilot.press("1")
        await settled(pilot)
        assert app.screen.exam.piece.found("case.material") == "thermoplastic"
        assert "1-9 answer" in shown(app)
    app.session.close()


def test_a_date_written_on_a_part_is_typed_beside_its_words(knowledge):
    words = {"inscription": "April 3d 1859", "written-date": "1859-04-03"}
    piece = details(knowledge, **words, **{"written-where": "backing"})
    told = Inscription("April 3d 1859", Dating.parse("1859-04-03"), "backing")
    assert piece.inscription == told
    assert details(knowledge, piece) == piece
    bare = details(knowledge, piece, inscription="", **{"written-date": ""})
    assert bare.inscription is None


@pytest.mark.parametrize("words", ["written", "date", "inscription", "date seal"])
def test_writing_is_found_among_the_checks(words):
    assert WRITING.holds(words.split())
