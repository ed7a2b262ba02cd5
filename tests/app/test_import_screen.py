"""Import as a screen: how a file is read, changed line by line, saved in one act, undone."""

import threading

import pytest
from app.kit import app_on, resized, settled, shown, until

from appraise.app.importing.items import choices_for, items_of, looked_at, read_otherwise
from appraise.app.importing.screen import ImportScreen
from appraise.app.prices.screen import PricesScreen
from appraise.base.errors import InputError
from appraise.exchange.preview import ReadAs
from appraise.knowledge import load
from appraise.listing.cellwords import sheet_words

STRANGE = """\
Meine Liste;;;;;
Kaufdatum;Gegenstand;Verfahren;Preis;Porto;Zustand
03.04.2023;Dame mit Buch;Ambrotypie;85,00 EUR;6,50;gut
11/12/2023;Soldat;Ferro;40,00 EUR;;
05.06.2024;Paar im Etui;zinnober;60,00;5;
;Herr;Ambro;1,2,3;;
Summe;;;185;;
"""
OPEN = "what,price\nlady,$85\nsoldier,$40\n"
NAMELESS = "alpha,beta\nlady,red\nman,blue\n"


@pytest.fixture(name="knowledge", scope="module")
def shipped():
    return load()


def told(text, knowledge, read_as=None, doubles=""):
    read_as = read_as or ReadAs(base="EUR", words=sheet_words(knowledge))
    preview = looked_at(text.encode(), "a.csv", read_as)
    return preview, read_as, {one.name: one for one in items_of(preview, read_as, doubles)}


def test_every_column_word_and_lost_row_stands_in_the_table_with_its_reason(knowledge):
    preview, _, items = told(STRANGE, knowledge)
    for header, taken in (
        ("Kaufdatum", "date"),
        ("Preis", "price"),
        ("Porto", "shipping"),
        ("Zustand", "kept beside"),
    ):
        assert (items[header].sort, items[header].taken) == ("column", taken)
        assert items[header].why
    assert items["Preis"].samples == ("85,00 EUR", "40,00 EUR", "60,00")
    assert items["record"].taken == "bought"
    assert "Kaufdatum" in items["record"].why
    assert items["process:Ferro"].taken == "tintype"
    assert (items["process:zinnober"].taken, items["process:zinnober"].asks) == ("?", 1)
    lost = [one for one in items.values() if one.sort == "row"]
    assert {one.taken for one in lost} == {"cannot be read", "no entry"}
    assert all(one.why for one in lost)
    assert len(preview.entries) == 3
    assert "dollar" not in items, "no dollar is met in it"


def test_each_line_can_be_taken_for_something_else(knowledge):
    preview, read_as, items = told(STRANGE, knowledge)
    for name, value, field, after in (
        ("Zustand", "note", "taken", "note"),
        ("order", "month", "taken", "month first"),
        ("record", "asking", "taken", "asking"),
        ("currency", "CHF", "taken", "CHF"),
        ("process:zinnober", "tintype", "taken", "tintype"),
        ("process:zinnober", "", "taken", "left out"),
    ):
        choices, _ = choices_for(items[name], preview, knowledge)
        assert value in [one.id for one in choices], name
        otherwise = read_otherwise(items[name], value, read_as)
        _, _, again = told(STRANGE, knowledge, otherwise)
        assert getattr(again[name], field) == after
    other, _, _ = told(STRANGE, knowledge, read_otherwise(items["order"], "month", read_as))
    for entries, days in (
        (preview.entries, ["2023-04-03", "2023-12-11", "2024-06-05"]),
        (other.entries, ["2023-04-03", "2023-11-12", "2024-06-05"]),
    ):
        assert [str(one.date) for one in entries] == days
    again = told(STRANGE, knowledge, read_as, "add")[2]
    assert (items["doubles"].taken, again["doubles"].taken) == ("left out", "imported")


def test_what_must_be_answered_is_marked_and_nothing_is_read_before(knowledge):
    preview, read_as, items = told(OPEN, knowledge)
    assert {one.name for one in items.values() if one.asks == 2} >= {"dollar"}
    assert not preview.entries
    for name, value in (("record", "bought"), ("dollar", "USD")):
        if items.get(name) and items[name].asks:
            read_as = read_otherwise(items[name], value, read_as)
            preview, _, items = told(OPEN, knowledge, read_as)
    assert [str(one.price) for one in preview.entries] == ["85.00 USD", "40.00 USD"]


def test_a_file_without_days_and_amounts_shows_its_columns_so_that_one_can_be_named(knowledge):
    preview, read_as, items = told(NAMELESS, knowledge)
    assert items["alpha"].samples == ("lady", "man")
    assert preview.open.says.startswith("has no column of days")
    preview, _, items = told(NAMELESS, knowledge, read_otherwise(items["beta"], "date", read_as))
    assert items["beta"].taken == "date"
    with pytest.raises(InputError, match="is not known"):
        told(NAMELESS, knowledge, read_otherwise(items["alpha"], "colour", read_as))


async def opened(pilot, path):
    """The import screen of a file, from the list of prices."""
    await settled(pilot)
    await pilot.press("p", "i")
    await settled(pilot)
    pilot.app.screen.query_one("Input").value = str(path)
    await pilot.press("enter")
    await settled(pilot)
    assert isinstance(pilot.app.screen, ImportScreen)


async def test_a_file_is_looked_at_changed_saved_and_undone(tmp_path):
    path = tmp_path / "my list.csv"
    path.write_text(STRANGE, encoding="utf-8")
    app = app_on(tmp_path / "home", currency="EUR")
    async with app.run_test(size=(110, 30)) as pilot:
        await opened(pilot, f"'{path}'")
        told = shown(app)
        assert "Import: my list.csv" in told
        assert "3 come in, 2 left out" in told
        assert "2023-04-03 bought 85.00 EUR Dame mit Buch" in told
        assert not list(app.session.log.entries()), "nothing is saved yet"
        at = [one.name for one in app.screen.table.rows.rows].index("process:zinnober")
        app.screen.table.go(at)
        await pilot.press("enter")
        await pilot.press(*"tintype", "enter")
        await settled(pilot)
        assert app.screen.table.here.taken == "tintype"
        await pilot.press("s")
        await pilot.pause()
        assert "Import 3 entries? 1 row will not come in." in shown(app)
        await pilot.press("y")
        await settled(pilot)
        assert isinstance(app.screen, PricesScreen)
        assert "3 imported. u: undo." in shown(app)
        assert {one.process for one in app.session.log.entries()} == {"ambrotype", "tintype"}
        await pilot.press("u")
        await settled(pilot)
        assert not list(app.session.log.entries())


async def test_what_is_left_out_tells_all_its_cells_and_esc_saves_nothing(tmp_path):
    path = tmp_path / "a.csv"
    path.write_text(STRANGE, encoding="utf-8")
    app = app_on(tmp_path / "home", currency="EUR")
    async with app.run_test(size=(80, 24)) as pilot:
        await opened(pilot, path)
        await pilot.press("end", "up", "enter")
        await pilot.pause()
        told = shown(app)
        assert "row 6: cannot be read" in told
        assert "Herr" in told
        await pilot.press("escape", "escape")
        await settled(pilot)
        assert isinstance(app.screen, PricesScreen)
        assert not list(app.session.log.entries())


async def test_it_stands_in_any_terminal(tmp_path):
    path = tmp_path / "a.csv"
    path.write_text(STRANGE, encoding="utf-8")
    app = app_on(tmp_path / "home", currency="EUR")
    async with app.run_test(size=(80, 24)) as pilot:
        await opened(pilot, path)
        for size in ((20, 6), (300, 80), (110, 30)):
            await resized(pilot, size)
            lines = shown(app).split("\n")
            assert len(lines) == size[1]
            assert "what happened" in "\n".join(lines)


async def test_a_question_that_is_open_is_told_where_one_would_save(tmp_path):
    path = tmp_path / "a.csv"
    path.write_text(OPEN, encoding="utf-8")
    app = app_on(tmp_path / "home", currency="EUR")
    async with app.run_test(size=(80, 24)) as pilot:
        await opened(pilot, path)
        assert app.screen.table.here.asks == 2, "one is at the first question"
        await pilot.press("s")
        await settled(pilot)
        assert isinstance(app.screen, ImportScreen)
        assert "which dollar" in shown(app)


async def test_a_file_that_is_none_and_one_that_is_dropped(tmp_path):
    app = app_on(tmp_path / "home", currency="EUR")
    (tmp_path / "b.csv").write_text("only one column\n1\n", encoding="utf-8")
    (tmp_path / "c.csv").write_text(STRANGE, encoding="utf-8")
    async with app.run_test(size=(80, 24)) as pilot:
        await opened(pilot, tmp_path / "b.csv")
        assert "b.csv" in shown(app)
        assert app.screen.preview is None
        await pilot.press("s", "escape")
        await settled(pilot)
        from textual.events import Paste

        app.screen.post_message(Paste(str(tmp_path / "c.csv")))
        await settled(pilot)
        assert "Import: c.csv" in shown(app)


async def test_saving_shows_itself_and_esc_leaves_nothing_half_done(tmp_path, monkeypatch):
    gate, begun = threading.Event(), threading.Event()
    from appraise.app.importing import jobs

    real = jobs.import_csv

    def slow(log, preview, **more):
        begun.set()
        gate.wait(30)
        return real(log, preview, **more)

    rows = "".join(f"2023-04-{n % 28 + 1:02},piece {n},{n + 1} EUR\n" for n in range(2_000))
    path = tmp_path / "a.csv"
    path.write_text(f"bought on,title,price\n{rows}", encoding="utf-8")
    app = app_on(tmp_path / "home", currency="EUR")
    monkeypatch.setattr(jobs, "import_csv", slow)
    monkeypatch.setattr("appraise.app.work.BETWEEN", 0.0)
    async with app.run_test(size=(100, 30)) as pilot:
        await opened(pilot, path)
        await pilot.press("s")
        await until(pilot, begun.is_set)
        await pilot.press("escape")
        gate.set()
        await settled(pilot)
        assert isinstance(app.screen, ImportScreen)
        assert "cancelled; nothing was changed" in shown(app)
        assert not list(app.session.log.entries(limit=5))
        await pilot.press("s")
        await settled(pilot)
        assert "2,000 imported. u: undo." in shown(app)
