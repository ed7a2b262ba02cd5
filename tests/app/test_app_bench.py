"""The Bench: three lists by key and side by side; what is done there is kept and can be undone."""

from dataclasses import replace
from datetime import date

import pytest
from app.kit import app_on, begin, resized, session, settled, shown

from appraise.app.lines import length
from appraise.app.lists.facts import field_lines
from appraise.app.lists.screen import RecordScreen
from appraise.app.lists.spec import ListView, spec_of
from appraise.base.money import Money
from appraise.records.entry import Entry
from appraise.records.part import Part, Size
from appraise.records.repair import Repair
from appraise.records.stored import Stored
from appraise.records.want import Want
from appraise.store.records import held, keep, one

DAY = date(2026, 11, 7)
CASE = Part(
    "sixth case, vine", DAY, "case", "thermoplastic", "sixth", (Size("recess", "73 x 86 mm"),)
)
ID = "a" * 16
MOST = Money.parse("64 USD")


def row(name, thing, session):
    """The cells of a record in its list, those that say nothing left out."""
    spec = spec_of(name)
    cells = (spec.cell(ListView(session), Stored(ID, thing), one.name) for one in spec.columns)
    return [text for text in cells if text]


def test_rows_tell_what_matters(knowledge, tmp_path):
    made = session(tmp_path)
    made.knowledge = knowledge
    pair = replace(CASE, count=2, made="own-work", place="box 2")
    assert row("stock", pair, made) == [
        "sixth case, vine", "2", "case", "sixth", "own work", "box 2",
    ]  # fmt: skip
    assert row("stock", replace(CASE, count=0), made)[1] == "used up"
    work = Repair("hinge", DAY, reversible="slow", by="conservator")
    assert row("work", work, made) == ["hinge", "2026-11-07", "hard to undo", "conservator"]
    want = Want("vine", DAY, formats=("ninth", "sixth"), first=1855, most=Money.parse("85 USD"))
    assert row("want", want, made) == ["vine", "1855-", "ninth, sixth", "at most 85.00 USD"]


@pytest.mark.parametrize("width", [12, 40, 78])
def test_a_page_fits(width):
    for told in field_lines({"title": "a name of many words " * 4}, ["a note " * 9], width):
        assert length(told) <= width


async def test_parts_wishes_and_works_are_noted_by_key_and_undone(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("i")
        await settled(pilot)
        assert isinstance(app.screen, RecordScreen)
        assert "Press n and type one line" in shown(app)
        assert "makes a married piece" in shown(app)
        await pilot.press("n")
        await settled(pilot)
        await pilot.press(*"nothing")
        await settled(pilot)
        assert "no part named" in shown(app)
        await pilot.press("ctrl+u", *"sixth oval mat, 3")
        await settled(pilot)
        assert "cost 3.00 USD" in shown(app)
        await pilot.press("enter")
        await settled(pilot)
        (part,) = held(app.session.log, Part)
        assert part.thing.format == "sixth"
        await pilot.press("3", "n")
        await settled(pilot)
        await pilot.press(*"ninth vine, up to 55", "enter")
        await settled(pilot)
        assert "at most 55.00 USD" in shown(app)
        await pilot.press("2", "n")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        assert "give the job a title" in shown(app)
        await pilot.press(*"new mat")
        form = app.screen
        form.query_one("#field-used").value = part.id[:5]
        form.query_one("#field-materials").value = "masking tape"
        await pilot.press("enter")
        await settled(pilot)
        assert one(app.session.log, Part, part.id).thing.count == 0
        assert "not archival" in shown(app)  # said at once, and not only when asked for
        await pilot.press("q")
        await settled(pilot)
        assert "parts in stock 0" in shown(app)
        await pilot.press("d")
        await settled(pilot)
        await pilot.press("enter")
        await settled(pilot)
        await pilot.press("q")
        await settled(pilot)
        (work,) = held(app.session.log, Repair)
        assert work.thing.done == DAY
        assert "work in progress 0" in shown(app)
        assert "1 finished: a shows them" in shown(app)
        await pilot.press("u", "u")
        await settled(pilot)
        assert held(app.session.log, Repair) == ()
        assert one(app.session.log, Part, part.id).thing.count == 1
    app.session.close()


async def test_own_work_marks_the_entry_in_the_same_act(tmp_path):
    app = app_on(tmp_path)
    log = app.session.log
    entry = log.add(Entry("bought", DAY, title="girl", paid=Money.parse("38 USD")))
    keep(
        log, Repair("rehoused the girl", DAY, piece=entry.id, made_by_me=True, did="a mat of 1856")
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("i", "2", "d")
        await settled(pilot)
        form = app.screen
        assert "Assembled or altered by me in 2026" in form.query_one("#field-disclosure").value
        form.query_one("#field-own-entry").value = True
        await pilot.press("enter")
        await settled(pilot)
        assert log.entry(entry.id).own_work
        await pilot.press("u")
        await settled(pilot)
        assert not log.entry(entry.id).own_work
        assert held(log, Repair)[0].thing.in_hand
    app.session.close()


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_what_fits_from_the_bench_and_from_a_piece(tmp_path, size):
    app = app_on(tmp_path)
    keep(app.session.log, CASE)
    keep(app.session.log, Part("a loose ambrotype", DAY, "plate", format="sixth"))
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        await pilot.press("i", "f")
        await settled(pilot)
        text = " ".join(shown(app).split())
        assert "a loose ambrotype" in text
        assert "fits by size" in text
        assert "makes a married piece" in text
        await pilot.press("q", "down", "f")
        await settled(pilot)
        assert "What fits: a loose ambrotype" in shown(app)
        assert "sixth case, vine" in shown(app)
        await pilot.press("q", "3", "f")
        await settled(pilot)
        assert isinstance(app.screen, RecordScreen)
        assert "fits" not in shown(app)
        await pilot.press("q")
        await begin(pilot, "sixth ambro, loose plate")
        await pilot.press("f")
        await settled(pilot)
        assert "sixth case, vine" in shown(app)
        assert "conservator's work" in " ".join(shown(app).split())
    app.session.close()


async def test_edit_remove_and_the_lists_by_number(tmp_path):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(120, 40)) as pilot:
        await settled(pilot)
        await pilot.press("i")
        await settled(pilot)
        text = shown(app)
        for words in ("parts in stock 3", "work in progress 1", "want list 2"):
            assert words in text
        await pilot.press("2")
        await settled(pilot)
        assert "hinge of the rose spray case" in shown(app)
        await pilot.press("3")
        await settled(pilot)
        assert "ninth thermoplastic" in shown(app)
        await pilot.press("1", "down", "e")
        await settled(pilot)
        app.screen.query_one("#field-format").value = "sixt"
        await pilot.press("enter")
        await settled(pilot)
        assert "Did you mean 'sixth'?" in shown(app)
        app.screen.query_one("#field-format").value = "ninth"
        await pilot.press("enter")
        await settled(pilot)
        assert held(app.session.log, Part)[1].thing.format == "ninth"
        await pilot.press("delete", "y")
        await settled(pilot)
        assert len(held(app.session.log, Part)) == 2
        await pilot.press("u", "u")
        await settled(pilot)
        formats = {one.thing.title: one.thing.format for one in held(app.session.log, Part)}
        assert formats["sixth mat, octagon"] == "sixth"
        await resized(pilot, (40, 12))
        assert "1 parts in stock 3" in shown(app)
        await pilot.press("tab")
        await settled(pilot)
        assert "hinge of the" in shown(app)
    app.session.close()


async def test_a_piece_on_the_list_or_with_a_twin_says_so_in_one_line(tmp_path):
    app = app_on(tmp_path)
    keep(app.session.log, Want("any vine case", DAY, motif="vine", formats=("sixth",), most=MOST))
    app.session.log.add(
        Entry(
            "bought",
            DAY,
            process="ambrotype",
            housing="thermoplastic",
            format="sixth",
            title="a vine of mine",
            motif="vine",
            paid=Money.parse("40 USD"),
        )
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambrotype thermoplastic vine 45")
        await settled(pilot)
        text = " ".join(shown(app).split())
        assert "on your list: any vine case" in text
        told = "on your list: any vine case; you already own a similar one: a vine of mine"
        assert app.screen.exam.aside == told
        assert "64" not in app.screen.exam.aside
    app.session.close()


async def test_a_listing_on_the_list_says_so(tmp_path):
    app = app_on(tmp_path)
    keep(app.session.log, Want("any vine case", DAY, motif="vine", formats=("sixth",)))
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        app.screen.action_listing("Sixth plate ambrotype in a thermoplastic case with a vine. $45")
        await settled(pilot)
        await settled(pilot)
        assert "on your list: any vine case" in shown(app)
    app.session.close()


async def test_without_wishes_or_purchases_nothing_is_compared(tmp_path, monkeypatch):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambrotype thermoplastic vine 45")
        verdict = app.screen.exam.verdict
        monkeypatch.setattr("appraise.collection.wanting.sight_of", None)
        assert app.session.aside(verdict) == ""
        assert "on your list" not in shown(app)
    app.session.close()
