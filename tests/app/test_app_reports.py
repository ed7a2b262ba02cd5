"""Reports from the app: r on a piece or an entry, the reader, the file, the clipboard."""

from datetime import date

import pytest
from app.kit import app_on, begin, settled, shown

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.places import shortened
from appraise.documents.reports.files import file_name, keep
from appraise.documents.reports.readers import READERS
from appraise.records.entry import Entry


async def tell_to(pilot, reader):
    await pilot.press("r")
    await pilot.pause()
    pilot.app.screen.query_one("Input").value = reader
    await pilot.pause()
    await pilot.press("enter")
    await settled(pilot)


async def test_r_on_a_piece_writes_a_page_and_copies_what_is_for_everybody(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(120, 40)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine 4711 hinge taped")
        await tell_to(pilot, "public")
        (page,) = (tmp_path / "reports").iterdir()
        assert "Written, and copied as text:" in shown(app)
        assert page.suffix == ".html"
        text = page.read_text(encoding="utf-8")
        assert text.startswith("<!DOCTYPE html>")
        assert "4711" not in text
        assert "Description" in app.clipboard
        assert "4711" not in app.clipboard
        await tell_to(pilot, "myself")
        buyer = (tmp_path / "reports" / page.name.replace("public", "myself")).read_text("utf-8")
        assert "No estimate" in buyer
        assert app.clipboard.startswith(buyer.partition("<h1>")[2].partition("</h1>")[0])


async def test_a_second_report_leaves_the_first_as_it_was(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth tintype oval")
        await tell_to(pilot, "heir")
        await tell_to(pilot, "heir")
        names = sorted(one.name for one in (tmp_path / "reports").iterdir())
        assert len(names) == 2
        assert names[0].replace("-heir-2", "-heir") == names[1] or names[1].endswith("-2.html")
        assert app.clipboard == ""


async def test_r_on_an_entry_offers_everybody_but_a_buyer(tmp_path):
    app = app_on(tmp_path)
    entry = Entry(record="bought", date=date(2026, 5, 2), kind="cased", process="ambrotype",
                  title="girl with a basket", paid=Money.parse("4711 USD"))  # fmt: skip
    app.session.log.add(entry)
    async with app.run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        await pilot.press("p", "enter")
        await pilot.pause()
        await pilot.press("r")
        await pilot.pause()
        rows = shown(app)
        for reader in READERS:
            assert (f"{reader}: " in rows) == (reader != "myself")
        await pilot.press("escape")
        await tell_to(pilot, "insurer")
        (page,) = (tmp_path / "reports").iterdir()
        assert page.name == "girl-with-a-basket-insurer.html"
        assert "4711.00 USD" in page.read_text(encoding="utf-8")


async def test_a_folder_that_cannot_be_made_is_one_line(tmp_path):
    (tmp_path / "reports").write_text("in the way", encoding="utf-8")
    app = app_on(tmp_path)
    async with app.run_test(size=(120, 24)) as pilot:
        await begin(pilot, "sixth tintype oval")
        await tell_to(pilot, "heir")
        assert "cannot be made" in shown(app)


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Girl with a basket, vine case", "girl-with-a-basket-vine-case-heir"),
        ("../../etc/passwd", "etc-passwd-heir"),
        ("Früh Örtel", "fruh-ortel-heir"),
        ("文", "piece-heir"),
        ("", "piece-heir"),
        ("a" * 300, f"{'a' * 40}-heir"),
        ("con", "con-heir"),
    ],
)
def test_a_title_of_any_sort_makes_a_plain_file_name(title, name):
    from dataclasses import replace

    from documents.readerkit import told

    assert file_name(replace(told("heir", "piece: 1\n"), title=title)) == name


def test_a_place_that_cannot_be_used_is_told(tmp_path):
    from documents.readerkit import told

    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(InputError, match="cannot be made"):
        keep(told("heir", "piece: 1\n"), tmp_path / "file" / "reports")


def test_a_path_is_told_from_the_users_home(tmp_path, monkeypatch):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    assert shortened(tmp_path / "a" / "b.html").replace("\\", "/") == "~/a/b.html"
    assert shortened(tmp_path.parent) == str(tmp_path.parent)
