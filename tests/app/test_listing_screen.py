"""The Listing screen by its keys: paste, move, confirm, override, copy, lots, odd texts."""

import base64

import pytest
from app.kit import app_on, ask, resized, session, settled, shown
from textual import events

from appraise.app.lines import words_of
from appraise.app.listing import view
from appraise.app.listing.items import places_of
from appraise.app.listing.marked import Marked
from appraise.app.listing.text import EDITABLE
from appraise.app.listing.view import ListingScreen
from appraise.app.widgets.reading import ReadingPane
from appraise.listing.reader import read
from appraise.records.piece_file import parse_piece

SMALL, LARGE = (80, 24), (120, 40)
TEXT = """Antique sixth plate ambrotype of a girl, union case
Measures 3 3/4 x 3 1/4 in closed. The hinge has been taped. Not a tintype.
The picture was taken out and cleaned. $65 plus $8 shipping, sold as is."""
LOT = """Lot of three old photographs
1) ninth plate tintype in leather case, hinge split
2) 1/6 daguerreotype, full case, tarnish
3) cdv of a soldier
120 GBP the lot"""
LONG, WIDE = "x" * 3000, "鏡" * 500 + " tintype"
OTHER = "Brass door knob, Victorian, polished. Two screws are missing. 12.50 GBP, collect only."


async def paste(pilot, text):
    """Paste as a terminal does: one event, to whatever has the keys."""
    pilot.app.post_message(events.Paste(text))
    await settled(pilot)


async def opened(pilot, text=TEXT):
    """The Listing screen on a text that was pasted onto the desk."""
    await settled(pilot)
    await paste(pilot, text)
    await settled(pilot)
    assert isinstance(pilot.app.screen, ListingScreen)
    return pilot.app.screen.review


def goes_to(review, field):
    """The place in the list of the first claim of a field."""
    return next(n for n, one in enumerate(review.items) if one.claim and one.claim.field == field)


async def to(pilot, place):
    """Move down the list to a place by its key."""
    while pilot.app.screen.review.at < place:
        await pilot.press("down")
    await settled(pilot)


async def test_what_is_pasted_on_the_desk_is_read_with_its_places_lit(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=LARGE) as pilot:
        await opened(pilot)
        text = shown(app)
    app.session.close()
    for words in ("[ambrotype]²", "{cleaned}!", "the seller says", "warnings"):
        assert words in text
    assert "together" in text
    assert "maximum bid" in text


async def test_l_takes_typed_text_and_an_empty_paper_leads_back(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await pilot.press("l")
        await settled(pilot)
        await pilot.press("escape")
        await settled(pilot)
        assert "three ways to begin" in shown(app)
        await pilot.press("ctrl+l")
        await settled(pilot)
        await pilot.press(*"ninth plate tintype", "enter", *"hinge split", "escape")
        await settled(pilot)
        review = app.screen.review
    app.session.close()
    assert review.text == "ninth plate tintype\nhinge split"
    assert review.listing.said("process") == ("tintype",)


async def test_a_paste_onto_the_empty_paper_is_read_at_once(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await pilot.press("l")
        await settled(pilot)
        await paste(pilot, TEXT)
        assert app.screen.review.text == TEXT
    app.session.close()


async def test_a_text_comes_from_a_file_and_a_wrong_path_says_so(tmp_path):
    file = tmp_path / "lot.txt"
    file.write_text(TEXT, encoding="utf-8")
    app = app_on(tmp_path / "home")
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await pilot.press("l", "ctrl+o")
        await settled(pilot)
        app.screen.query_one("Input").value = str(tmp_path / "none.txt")
        await pilot.press("enter")
        await settled(pilot)
        assert "no such file" in shown(app)
        app.screen.query_one("Input").value = str(file)
        await pilot.press("enter")
        await settled(pilot)
        assert app.screen.review.text == TEXT
    app.session.close()


@pytest.mark.parametrize("plain", [False, True])
async def test_list_and_text_follow_each_other_without_colour(tmp_path, plain):
    app = app_on(tmp_path, ascii=plain)
    mark = ">ambrotype<2" if plain else "›ambrotype‹²"
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot)
        await pilot.press("down")
        await settled(pilot)
        assert review.here.claim.field == "process"
        assert mark in shown(app)
        await pilot.press("right")
        await settled(pilot)
        assert review.marked.text[review.marked.places[review.place].start :].startswith("girl")
        assert review.here.claim.field == "subject"
    app.session.close()


async def test_moving_far_down_brings_the_words_into_sight(tmp_path):
    app = app_on(tmp_path)
    filler = "Please look at my other things.\n" * 60
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot, f"{TEXT}\n{filler}It has a leather case.")
        assert "leather case" not in shown(app)
        last = max(n for n, one in enumerate(review.items) if one.claim)
        await to(pilot, last)
        assert "›leather case‹" in shown(app)
    app.session.close()


async def test_the_text_stands_at_its_top_however_soon_it_was_read(tmp_path, monkeypatch):
    def at_once(node, text, turn, earlier):
        listing = read(text, node.session.knowledge, "USD")
        node.text_read(turn, listing, Marked(text, places_of(listing)))

    monkeypatch.setattr(view, "read_text", at_once)
    app = app_on(tmp_path)
    filler = "Please look at my other things.\n" * 20
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(
            pilot, f"A title\nThe first line.\n{filler}Sixth plate tintype.\n{filler}"
        )
        assert review.here.claim.field == "format"
        assert "The first line." in shown(app)
        await resized(pilot, (79, 24))
        assert "›Sixth plate‹¹" in shown(app)
    app.session.close()


async def test_paging_the_text_takes_the_list_along(tmp_path):
    app = app_on(tmp_path)
    filler = "Please look at my other things.\n" * 20
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot, f"{filler}Sixth plate tintype.\n{filler}")
        await pilot.press("pagedown")
        await settled(pilot)
        assert "›Sixth plate‹¹" in shown(app)
        assert review.here.claim.field == "format"
        await pilot.press("pageup")
        await settled(pilot)
        assert "Sixth plate" not in app.screen.query_one("#text").text
    app.session.close()


async def test_one_key_bears_a_claim_out_and_takes_it_back(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=LARGE) as pilot:
        review = await opened(pilot)
        await to(pilot, goes_to(review, "defect"))
        before = review.verdict.reading.condition
        assert review.piece.findings["hinge.tape"].known == "seller"
        assert review.piece.findings["hinge.tape"].admitted
        await pilot.press("c")
        await settled(pilot)
        assert review.piece.findings["hinge.tape"].known == "photo"
        assert "seen" in shown(app)
        await pilot.press("c")
        await settled(pilot)
        assert review.piece.findings["hinge.tape"].known == "seller"
        assert review.piece.findings["hinge.tape"].admitted
        assert review.verdict.reading.condition == before
    app.session.close()


async def test_a_digit_overrides_a_claim_and_the_verdict_follows(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=LARGE) as pilot:
        review = await opened(pilot)
        await to(pilot, goes_to(review, "case.material"))
        before = review.verdict.reading.housings["thermoplastic"]
        await pilot.press("1")
        await settled(pilot)
        finding = review.piece.findings["case.material"]
        assert (finding.answer, finding.known) == ("leather-wood", "photo")
        assert review.piece.findings["claim.material"].known == "seller"
        assert review.verdict.reading.housings["thermoplastic"] < before
        assert "photos differ" in shown(app)
        await pilot.press("u")
        await settled(pilot)
        assert "case.material" not in review.piece.findings
        await pilot.press("ctrl+r")
        await settled(pilot)
        assert review.piece.found("case.material") == "leather-wood"
    app.session.close()


async def test_answers_beyond_the_digits_come_from_a_list(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot)
        await to(pilot, goes_to(review, "case.material"))
        await pilot.press("a")
        await settled(pilot)
        app.screen.query_one("Input").value = "cast resin"
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert review.piece.found("case.material") == "resin"
    app.session.close()


async def test_a_line_without_a_check_says_so(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot)
        await to(pilot, goes_to(review, "asking"))
        piece = review.piece
        await pilot.press("1")
        await pilot.pause()
        assert "There is nothing to check" in shown(app)
        assert review.piece == piece
    app.session.close()


async def test_a_gap_that_pictures_fill_is_asked_no_more(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=LARGE) as pilot:
        review = await opened(pilot)
        gap = next(n for n, one in enumerate(review.items) if one.section == "gap" and one.check)
        name = review.items[gap].text
        question = review.knowledge.gaps[name].question
        asked = [one.text for one in review.items if one.section == "question"]
        assert question in asked
        await to(pilot, gap)
        await pilot.press("1")
        await settled(pilot)
        assert review.piece.findings[name].known == "photo"
        assert question not in [one.text for one in review.items]
    app.session.close()


async def test_y_copies_the_questions_and_shift_y_shows_them(tmp_path, monkeypatch):
    app = app_on(tmp_path)
    async with app.run_test(size=LARGE) as pilot:
        review = await opened(pilot)
        questions = [one.text for one in review.items if one.section == "question"]
        sent = []
        monkeypatch.setattr(app._driver, "write", sent.append)
        await pilot.press("y")
        await settled(pilot)
        assert f"{len(questions)} questions" in shown(app)
        await pilot.press("Y")
        await settled(pilot)
        page = " ".join(shown(app).split())
        for question in questions:
            assert question in page
    app.session.close()
    # OSC 52, the control sequence that sets the clipboard (xterm control sequences, Ps = 5 2).
    code = next(one for one in sent if one.startswith("\x1b]52;c;"))
    copied = base64.b64decode(code.removeprefix("\x1b]52;c;").rstrip("\a")).decode()
    assert copied.splitlines() == questions


async def test_sides_that_no_picture_shows_are_noted_and_asked_for(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot)
        await pilot.press("s")
        await settled(pilot)
        await pilot.press("2", "4", "5", "5")
        await settled(pilot)
        assert "the back and the spine" in shown(app)
        await pilot.press("escape")
        await settled(pilot)
        assert review.piece.not_shown == ("back", "spine")
        first = next(one.text for one in review.items if one.section == "question")
        assert first == "Could you please add photos of the back and the spine?"
        knowledge = app.session.knowledge
        (draft,) = app.session.log.drafts()
    app.session.close()
    head = draft.text.rpartition("listing: ")[0]
    assert parse_piece(head, "the draft", knowledge).not_shown == ("back", "spine")


async def test_enter_opens_the_piece_in_examine_as_the_seller_says(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot)
        await pilot.press("enter")
        await settled(pilot)
        exam = app.screen.exam
        assert exam.piece == review.piece
        assert {one.known for one in exam.piece.findings.values()} == {"seller"}
        await ask(pilot, "mat.shape")
        await pilot.press("1")
        await settled(pilot)
        await pilot.press("q")
        await settled(pilot)
        # Another look from the listing goes on with the same piece, and takes news along.
        await to(pilot, goes_to(review, "defect"))
        await pilot.press("c", "enter")
        await settled(pilot)
        exam = app.screen.exam
        assert exam.piece.found("mat.shape")
        assert exam.piece.findings["hinge.tape"].known == "photo"
        drafts = app.session.log.drafts()
    app.session.close()
    assert len(drafts) == 2


async def test_a_lot_is_shown_split_and_each_piece_opens(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=LARGE) as pilot:
        review = await opened(pilot, LOT)
        text = shown(app)
        assert "a lot of 3" in text
        assert "pieces in the lot" in text
        assert review.verdict.reading.family == "tintype"
        await pilot.press("down")
        await settled(pilot)
        assert review.verdict.reading.family == "daguerreotype"
        await pilot.press("c")
        await pilot.pause()
        assert "one piece at a time" in shown(app)
        await pilot.press("p")
        await settled(pilot)
        told = " ".join(shown(app).split())
        assert "This text offers 3 pieces: judged as a lot." in told
        assert "no rate from GBP to USD. Enter it: appraise rates GBP RATE." in told
        await pilot.press("q")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert app.screen.exam.piece.title.startswith("1/6 daguerreotype")
    app.session.close()


async def test_several_pieces_have_one_maximum_and_no_limit_each(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=LARGE) as pilot:
        review = await opened(pilot, "11 tintypes, price $45, postage $6")
        text = shown(app)
        assert "11 x tintype, one of 11" in text
        assert review.verdict.worth is not None
        assert review.verdict.money is None
        assert "one piece of a lot: no limit of" in text
        assert "maximum bid" not in text
        await pilot.press("p")
        await settled(pilot)
        told = " ".join(shown(app).split())
        assert "This text offers 11 pieces: judged as a lot." in told
        assert "shipping (as listed) 6.00" in told
    app.session.close()


async def test_a_text_about_something_else_says_so(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot, OTHER)
        assert "does not look like a photograph" in " ".join(shown(app).split())
        assert review.verdict is None
        for key in ("down", "c", "1", "tab", "right", "enter", "p", "w", "y"):
            await pilot.press(key)
            await settled(pilot)
        assert isinstance(app.screen, ListingScreen)
    app.session.close()


@pytest.mark.parametrize("text", ["", "  \n\t ", "\x1b\x00\x07"])
async def test_nothing_pasted_is_nothing_begun(tmp_path, text):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        await paste(pilot, text)
        await pilot.press("escape")
        await settled(pilot)
        assert "three ways to begin" in shown(app)
        assert app.session.log.drafts() == ()
    app.session.close()


async def test_signs_that_act_on_a_terminal_are_not_passed_on(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(
            pilot, "sixth plate \x1b[31mambrotype\x9b2J \u202eesac\r\nhinge split"
        )
        text = shown(app)
    app.session.close()
    assert not {"\x1b", "\x9b", "\u202e", "\r"} & set(review.text + text)
    assert review.listing.said("process") == ("ambrotype",)


async def test_a_long_text_leaves_the_keys_alone(tmp_path, monkeypatch):
    """While it is read the screen moves; only what is on the screen is folded."""
    import appraise.app.listing.view as view

    long = f"{TEXT}\n" * 5000
    app = app_on(tmp_path)
    waiting = []
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        with monkeypatch.context() as held:
            held.setattr(view, "read_text", lambda *job: waiting.append(job))
            await paste(pilot, long)
            review = app.screen.review
            assert "The text is being read" in shown(app)
            before = shown(app)
            await pilot.press("pagedown", "down", "c", "1", "y", "enter", "v", "v", "e")
            await pilot.pause()
            assert "too long to edit" in shown(app)
            assert shown(app) != before
            assert review.listing is None
        assert len(long) > 40 * EDITABLE
        assert len(review.marked._folded) < 3 * SMALL[1]  # blocks; the text has thousands
        (job,) = waiting
        assert job[1:] == (review.text, review.turn, "")
    app.session.close()


async def test_what_was_read_of_an_earlier_text_is_dropped(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot)
        old = review.turn, review.listing, review.marked
        await paste(pilot, "It is in a leather case.")
        assert review.text.endswith("It is in a leather case.")
        assert "leather-wood" in review.listing.said("case.material")
        now = review.listing
        app.screen.text_read(*old)
        await settled(pilot)
        assert review.listing is now
        await pilot.press("u")
        await settled(pilot)
        assert review.text == TEXT
        assert "leather-wood" not in review.listing.said("case.material")
    app.session.close()


async def test_an_edited_text_keeps_what_pictures_showed(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot)
        await to(pilot, goes_to(review, "case.material"))
        await pilot.press("1", "e")
        await settled(pilot)
        app.screen.query_one("Paper").text = TEXT.replace("sixth", "ninth")
        await pilot.press("escape")
        await settled(pilot)
        assert review.piece.named_format == "ninth"
        assert review.piece.findings["case.material"].known == "photo"
    app.session.close()


async def test_a_listing_stands_where_it_was_when_the_battery_dies(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        review = await opened(pilot)
        await to(pilot, goes_to(review, "case.material"))
        await pilot.press("1")
        # Nothing is awaited here: another process must see it already.
        with session(tmp_path).log as other:
            assert "leather-wood" in other.drafts()[0].text
        await settled(pilot)
    app.session.close()
    app = app_on(tmp_path)
    async with app.run_test(size=SMALL) as pilot:
        await settled(pilot)
        assert "listing: Antique" in shown(app)
        await pilot.press("1")
        await settled(pilot)
        review = app.screen.review
        assert review.text == TEXT
        assert review.piece.findings["case.material"].known == "photo"
        await pilot.press("d", "y")
        await settled(pilot)
        assert app.session.log.drafts() == ()
    app.session.close()


async def test_details_and_why_open_and_what_is_written_stays(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=LARGE) as pilot:
        review = await opened(pilot)
        await pilot.press("i")
        await settled(pilot)
        app.screen.query_one("#field-asking").value = "50"
        await pilot.press("enter")
        await settled(pilot)
        assert review.piece.asking.plain == "50.00"
        assert "asked 50.00" in shown(app)
        await pilot.press("w")
        await settled(pilot)
        page = "\n".join(words_of(row) for row in app.screen.query_one(ReadingPane).told)
        assert "probably together" in page
    app.session.close()


async def test_p_opens_the_bid_where_the_log_bears_one(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=LARGE) as pilot:
        await opened(pilot)
        await pilot.press("p")
        await settled(pilot)
        assert "Bid: Antique sixth plate" in shown(app)
        assert "Maximum bid" in shown(app)
    app.session.close()
    app = app_on(tmp_path / "empty")
    async with app.run_test(size=LARGE) as pilot:
        await opened(pilot)
        await pilot.press("p")
        await pilot.pause()
        assert "Log a few prices to get a limit" in shown(app)
    app.session.close()


@pytest.mark.parametrize(
    ("size", "text"),
    [
        *((size, TEXT) for size in (SMALL, LARGE, (60, 20), (20, 8), (10, 3), (200, 60))),
        *((size, text) for size in (SMALL, (10, 3)) for text in (LOT, OTHER, LONG, WIDE)),
    ],
)
async def test_no_size_of_terminal_breaks_it(tmp_path, painted, size, text):
    app = app_on(tmp_path)
    async with app.run_test(size=size) as pilot:
        await opened(pilot, text)
        for key in ("down", "tab", "right", "v", "down", "v", "pagedown", "s", "escape", "up"):
            await pilot.press(key)
            await pilot.pause()
        lines = shown(app).split("\n")
    app.session.close()
    assert len(lines) <= size[1]


async def test_the_verdict_takes_the_place_of_the_text_where_there_is_no_room(tmp_path):
    app = app_on(tmp_path)
    for size in (SMALL, (60, 24)):
        async with app.run_test(size=size) as pilot:
            await opened(pilot)
            assert "[girl]³" in shown(app)
            assert "probably together" in " ".join(" ".join(shown(app).split("\n")[:4]).split())
            await pilot.press("v")
            await settled(pilot)
            assert "[girl]³" not in shown(app)
            assert "image ·" in shown(app)
        app = app_on(tmp_path / str(size[0]))
    app.session.close()


async def test_help_palette_and_foot_know_the_screen(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(100, 50)) as pilot:
        await opened(pilot)
        foot = shown(app).split("\n")[-1]
        await pilot.press("question_mark")
        await settled(pilot)
        page = shown(app)
        await pilot.press("escape", "ctrl+p")
        await settled(pilot)
        app.screen.query_one("Input").value = "sides"
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert "Views in the photos" in shown(app)
    app.session.close()
    assert "y copy questions" in foot
    assert "Photos confirm this claim" in page
    assert "[claims]" in page


async def test_no_maximum_is_shown_for_what_is_called_a_reprint_until_the_photos_say_otherwise(
    tmp_path,
):
    text = "Sixth plate ambrotype of a girl, union case. It is a reprint. $65"
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=LARGE) as pilot:
        review = await opened(pilot, text)
        assert "No maximum is given" in shown(app)
        assert "maximum bid" not in shown(app)
        await pilot.press("p")
        await settled(pilot)
        assert "No maximum is given: the text speaks of modern work" in shown(app)
        assert "Maximum bid" not in shown(app)
        await pilot.press("q")
        await settled(pilot)
        assert isinstance(pilot.app.screen, ListingScreen)
        place = next(
            n for n, one in enumerate(review.items) if one.check == "claim.age" and one.claim
        )
        await to(pilot, place)
        await pilot.press("1")
        await settled(pilot)
        assert review.holds_back == ()
        assert "maximum bid" in shown(app)
    app.session.close()
