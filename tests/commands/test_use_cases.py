"""The use cases over a workspace: each says what it did, and one undo takes all of it back.

All data is invented.
"""

import datetime as dt

import pytest
from every import every

from appraise.base.errors import InputError
from appraise.base.money import Money
from appraise.base.places import Home
from appraise.cli.demo import DEMO_DAY, DEMO_TIME, furnish
from appraise.commands import lots, owned, records, undo, workspace
from appraise.commands.kinds import KINDS
from appraise.commands.registry import FAMILIES, command, commands_of
from appraise.commands.workspace import AtHome
from appraise.records.entry import Entry
from appraise.records.fields import filled, written
from appraise.records.repair import Repair
from appraise.records.want import Want


@pytest.fixture
def work(tmp_path, monkeypatch):
    """A workspace on a copy of the invented demo, at the demo's time."""
    monkeypatch.setattr(workspace, "now", lambda: DEMO_TIME)
    furnish(Home(tmp_path))
    return AtHome(Home(tmp_path), DEMO_DAY, say=lambda words: pytest.fail(words))


def things(work, name):
    return {one.id: one.thing for one in records.listed(work, KINDS[name])}


# Every type of record by the same use cases

EDITS = {
    "want": {"note": "also with a crack"},
    "stock": {"place": "box 99"},
    "work": {"note": "dried overnight"},
    "kept": {"place": "drawer two"},
    "lot": {"number": "219"},
    "venue": {"premium": "21"},
    "price": {"motif": "wreath"},
}


@pytest.mark.parametrize("name", KINDS)
def test_a_record_is_edited_removed_and_restored(work, name):
    kind = KINDS[name]
    before = things(work, name)
    one = next(iter(records.listed(work, kind)))
    done = records.edit(work, kind, one, EDITS[name])
    for field, text in EDITS[name].items():
        assert filled(done.stored.thing)[field].removesuffix("%").strip() == text
    assert things(work, name)[one.id] == done.stored.thing
    assert next(iter(records.history(work, kind, one.id))).kind == "edit"
    gone = records.remove(work, kind, done.stored)
    assert gone.says == f"removed: {kind.called(done.stored.thing)}"
    assert one.id not in things(work, name)
    told = undo.take(work, "undo")
    assert told.says.startswith("Undone: the removal of ")
    assert undo.take(work, "undo").says.startswith("Undone: an edit of ")
    assert things(work, name) == before
    assert undo.take(work, "redo").says.startswith("Redone: an edit of ")


@pytest.mark.parametrize("name", KINDS)
def test_what_was_changed_meanwhile_is_not_overwritten(work, name):
    kind = KINDS[name]
    one = next(iter(records.listed(work, kind)))
    records.edit(work, kind, one, EDITS[name])
    with pytest.raises(InputError, match="meanwhile"):
        records.edit(work, kind, one, {next(iter(EDITS[name])): ""})


@pytest.mark.parametrize("name", KINDS)
def test_texts_that_say_what_it_says_change_nothing(work, name):
    one = next(iter(records.listed(work, KINDS[name])))
    assert records.edit(work, KINDS[name], one, written(one.thing)).stored == one


@pytest.mark.parametrize("name", KINDS)
def test_an_unknown_field_is_one_line(work, name):
    one = next(iter(records.listed(work, KINDS[name])))
    with pytest.raises(InputError, match="field 'nonsense' is not known"):
        records.edit(work, KINDS[name], one, {"nonsense": "1"})


def test_a_record_is_added_from_a_line_and_fields_beside_it(work):
    kind = KINDS["want"]
    read = kind.read(work, "ninth tintype, up to 40", {})
    done = records.add(work, kind, read.thing, {"note": "any case"})
    assert done.says == f"on your list: {done.stored.id[:8]}"
    assert done.stored.thing.most == Money.parse("40 USD")
    assert done.stored.thing.note == "any case"
    with pytest.raises(InputError):
        records.add(work, kind, Want("", since=DEMO_DAY), {})


# Parts that a job uses


def test_a_job_takes_its_parts_and_gives_them_back(work):
    kind, stock = KINDS["work"], things(work, "stock")
    part = next(name for name, one in stock.items() if one.count)
    begun = Repair("rehinged", DEMO_DAY)
    done = records.add(work, kind, begun, {"used": part[:8]})
    assert things(work, "stock")[part].count == stock[part].count - 1
    records.remove(work, kind, done.stored)
    assert things(work, "stock") == stock
    undo.take(work, "undo")
    assert things(work, "stock")[part].count == stock[part].count - 1
    assert "rehinged" in undo.take(work, "undo").says
    assert things(work, "stock") == stock
    with pytest.raises(InputError, match="title"):
        records.add(work, kind, Repair("", DEMO_DAY), {})


# A piece: bought, kept, lent, sold


def test_a_buy_is_undone_to_the_table(work):
    with work.opened() as log:
        drafts = {one.id: one.text for one in log.drafts()}
    name, text = next(iter(drafts.items()))
    entry = Entry("bought", DEMO_DAY, title="boy with a hoop", piece=text)
    logged = undo.log_piece(work, entry, name)
    with work.opened() as log:
        assert name not in {one.id for one in log.drafts()}
        assert log.entry(logged.id).title == "boy with a hoop"
    assert undo.asks(work, "undo", frozenset({"want"})) == (
        "Undo the purchase of boy with a hoop? It was not done on this screen."
    )
    assert undo.asks(work, "undo", frozenset({"price"})) == ""
    assert undo.take(work, "undo").says == (
        "Undone: the purchase of boy with a hoop. The piece is back on the table."
    )
    with work.opened() as log:
        assert {one.id: one.text for one in log.drafts()} == drafts


def test_nothing_is_left_to_undo_and_that_is_said(tmp_path, monkeypatch):
    monkeypatch.setattr(workspace, "now", lambda: DEMO_TIME)
    empty = AtHome(Home(tmp_path), DEMO_DAY)
    assert undo.asks(empty, "undo", frozenset()) == ""
    with pytest.raises(InputError, match="nothing to undo"):
        undo.take(empty, "undo")


def test_a_kept_piece_is_lent_and_comes_back(work):
    one = next(one for one in records.listed(work, KINDS["kept"]) if one.thing.status == "kept")
    away = owned.happen(work, one, "lent", {"to": "a museum", "until": "2026-12-24"})
    assert away.stored.thing.status == "lent"
    with pytest.raises(InputError):
        owned.happen(work, away.stored, "found", {})
    back = owned.happen(work, away.stored, "back", {}, place="drawer two")
    assert (back.stored.thing.status, back.stored.thing.place) == ("kept", "drawer two")
    undo.take(work, "undo")
    undo.take(work, "undo")
    assert things(work, "kept")[one.id] == one.thing


def test_a_purchase_is_kept_under_the_next_number_once(work):
    with work.opened() as log:
        entry = log.add(Entry("bought", DEMO_DAY, title="girl with a doll", kind="cased"))
    done = owned.keep(work, entry.id[:8], {"place": "box 3"})
    assert done.says == f"Added as number {done.stored.thing.number}."
    assert done.stored.thing.entry == entry.id
    with pytest.raises(InputError, match="on the list already"):
        owned.keep(work, entry, {})
    with pytest.raises(InputError, match="number"):
        owned.keep(work, done.stored.thing, {"number": done.stored.thing.number})


# A lot: bid, won, lost


def open_lot(work):
    return next(one for one in records.listed(work, KINDS["lot"], every=False))


def test_a_bid_is_recorded_told_and_withdrawn(work):
    one = open_lot(work)
    done = lots.bid(work, one, Money.parse("4000", one.thing.currency), 30)
    assert (done.stored.thing.state, done.stored.thing.chance) == ("bid", 30)
    assert any("budget" in note for note in done.notes)
    again = lots.bid(work, done.stored, Money.parse("41", one.thing.currency), None)
    assert again.stored.thing.chance == 30
    anew = lots.bid(work, again.stored, Money.parse("42", one.thing.currency), None, anew=True)
    assert anew.stored.thing.chance is None
    assert lots.bid(work, anew.stored, None, None).stored.thing.bid is None


def test_a_lot_that_was_won_is_logged_as_one_act(work):
    one, before = open_lot(work), things(work, "price")
    paid = Money.parse("60 USD")
    verdicts = (None,) * len(one.thing.items)
    hammer = Money.parse("46", one.thing.currency)
    done = lots.won(work, one, hammer, verdicts, total=paid, share="equal", on=DEMO_DAY)
    assert done.stored.thing.state == "won"
    assert len(done.entries) == max(1, len(one.thing.items))
    assert sum(each.paid.amount for each in done.entries) == paid.amount
    undo.take(work, "undo")
    assert things(work, "lot")[one.id] == one.thing
    assert things(work, "price") == before


# Today


def test_today_is_asked_of_the_clock(tmp_path, monkeypatch):
    class Day(dt.date):
        @classmethod
        def today(cls):
            return dt.date(2026, 12, 31)

    monkeypatch.setattr(workspace, "date", Day)
    assert workspace.day(None) == dt.date(2026, 12, 31)
    assert workspace.day("2026-11-07") == DEMO_DAY
    with pytest.raises(InputError, match="is not a day"):
        workspace.day("tomorrow")


# The registry


def test_every_command_stands_once_under_its_family():
    names = [row.name for family in FAMILIES for row in commands_of(family)]
    assert len(names) == len(set(names))
    assert all(commands_of(family) for family in FAMILIES)
    assert command("want add").target == "want"
    with pytest.raises(KeyError):
        command("want fly")


@every("family", FAMILIES)
def test_a_row_says_what_its_command_does(family):
    for row in commands_of(family):
        assert row.says == row.says.strip()
        assert row.says[0].islower() or row.says.startswith(("a ", "an "))
        assert not row.target or row.target in KINDS or row.target in ("rate", "budget")
        if FAMILIES[family].usual:
            assert any(one.action == FAMILIES[family].usual for one in commands_of(family))
