"""The bench from the command line: parts, works, wishes, what fits what; all one can undo."""

import json

import pytest

from appraise.base.places import shipped_demo
from appraise.cli.main import run

PIECE = str(shipped_demo() / "pieces" / "sound.yaml")


@pytest.fixture(autouse=True)
def _home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))


@pytest.fixture
def say(capsys):
    def said(*words, status=0):
        assert run(words) == status
        told = capsys.readouterr()
        return told.out if status == 0 else told.err

    return said


@pytest.fixture
def told(say):
    return lambda *words: json.loads(say(*words, "--json"))


@pytest.fixture
def mat(told):
    return told("stock", "add", "2 x", "brass mat sixth oval,", "3")["stock"]["id"]


@pytest.fixture
def plate(say, told):
    say("log", "add", "sixth ambrotype girl 38", "--yes")
    (entry,) = told("log", "list")["entries"]
    say("log", "edit", entry["id"], "kind=loose-plate")
    return entry["id"]


def test_an_empty_bench_says_how_to_begin(say):
    assert "appraise stock add" in say("stock", "list")
    assert "appraise work add" in say("work", "list")
    assert "appraise want add" in say("want", "list")
    assert "no parts in stock" in say("stock", "fits", PIECE)


def test_a_part_is_added_edited_shown_and_removed(say, told, mat):
    assert told("stock", "edit", mat[:6], "place=box 2", "recess=")["stock"]["place"] == "box 2"
    assert "2 x" in say("stock", "list")
    assert "mat.shape oval" in say("stock", "show", "brass mat sixth oval")
    say("stock", "remove", mat)
    assert told("stock", "list")["parts"] == []
    say("log", "undo")
    assert len(told("stock", "list")["parts"]) == 1


def test_what_a_work_uses_leaves_the_stock_and_one_undo_brings_all_back(say, told, mat, plate):
    made = told(
        "work", "add", "rehoused the girl", f"piece={plate[:8]}", f"used={mat[:6]} {mat[:6]}",
        "made-by-me=yes", "--own",
    )  # fmt: skip
    assert made["work"]["piece"] == plate
    assert "without mark and disclosure" in made["notes"][0]
    part = told("stock", "show", mat)["stock"]
    assert (part["count"], part["used_in"]) == (0, plate)
    assert told("stock", "list")["parts"] == []
    assert told("log", "show", plate)["entry"]["own_work"] is True
    assert "none is left" in say("work", "add", "another", f"used={mat}", status=1)
    say("log", "undo")
    assert told("work", "list")["works"] == []
    assert told("stock", "show", mat)["stock"]["count"] == 2
    assert "own_work" not in told("log", "show", plate)["entry"]


def test_a_work_is_edited_done_and_removed_and_stock_follows(say, told, mat):
    work = told("work", "add", "new mat for the vine", f"used={mat}")["work"]["id"]
    assert told("stock", "show", mat)["stock"].get("count", 1) == 1
    say("work", "edit", work, "used=")
    assert told("stock", "show", mat)["stock"]["count"] == 2
    say("work", "edit", work, f"used={mat}")
    done = told("work", "done", work[:5], "minutes=90", "--as-of", "2099-11-07")["work"]
    assert (done["done"], done["minutes"]) == ("2099-11-07", 90)
    assert told("work", "list", "--open")["works"] == []
    say("work", "remove", work)
    assert told("stock", "show", mat)["stock"]["count"] == 2


def test_a_work_that_names_what_nobody_should_try_shows_the_caution(say):
    out = say("work", "add", "hinge", "did=opened the package", "materials=masking tape; paste")
    assert "! No: opening a sealed package" in out
    assert "let a conservator open what must be opened" in out
    assert "pressure-sensitive tape: not archival" in out
    assert "paste: not known whether archival" in out


def test_own_work_without_an_entry_is_refused_and_keeps_nothing(say, told):
    error = say("work", "add", "a case", "piece=the vine case", "--own", status=1)
    assert "no entry in the log" in error
    assert told("work", "list")["works"] == []


def test_fits_both_ways_and_what_has_to_be_said(say, told, mat, plate):
    say("stock", "add", "quarter leather case")
    found = told("stock", "fits", plate)
    assert [one["size"]["word"] for one in found["fits"]] == ["fits", "too large"]
    assert found["fits"][0]["part"] == mat
    assert any("married piece" in one for one in found["conduct"])
    back = told("stock", "fits", "--part", mat)
    assert [one["plate"] for one in back["fits"]] == [plate]
    say("log", "add", "sold sixth ambrotype girl 52", "--yes")
    sold = told("log", "list")["entries"][0]["id"]
    say("log", "edit", sold, "kind=loose-plate", "title=sixth ambrotype girl")
    assert told("stock", "fits", "--part", mat)["fits"] == []
    text = say("stock", "fits", PIECE)
    assert "made for a plate" in text
    assert "conservator's work" in text


def test_a_plate_in_stock_finds_its_parts(told, mat):
    kept = told("stock", "add", "loose plate", "sixth ambrotype,", "boy with a cap")["stock"]
    assert kept["part"] == "plate"
    for ref in (kept["id"], kept["id"][:8], kept["title"]):
        assert [one["part"] for one in told("stock", "fits", ref)["fits"]] == [mat]


def test_a_piece_that_is_wished_for_says_so(say, told):
    words = ("look", "sixth ambro thermoplastic vine 45")
    assert told(*words)["wanted"] == []
    say("want", "add", "sixth thermoplastic vine, up to 40")
    assert "on your list: sixth thermoplastic vine (" in say(*words)
    assert "asked above your 40.00 USD" in say("verdict", PIECE, "--as-of", "2026-11-07")
    say("want", "edit", "sixth thermoplastic vine", "formats=ninth", "most=")
    assert "on your list" not in say(*words)
    say("want", "remove", "sixth thermoplastic vine")
    assert told("want", "list")["wants"] == []


def test_a_twin_is_told_until_it_is_sold(say, told):
    say("log", "add", "sixth ambrotype thermoplastic vine 38", "--yes")
    words = ("look", "sixth ambrotype thermoplastic vine 45")
    assert [one["title"] for one in told(*words)["twins"]] == ["sixth ambrotype thermoplastic vine"]
    assert "you already own a similar one:" in say(*words)
    say("log", "add", "sold sixth ambrotype thermoplastic vine 57", "--yes")
    assert told(*words)["twins"] == []


def test_a_work_on_a_kept_piece_is_named_by_its_number(say, told):
    say("log", "add", "sixth ambrotype leather girl 38", "--yes")
    (entry,) = told("log", "list")["entries"]
    kept = told("kept", "add", entry["id"])["kept"]
    made = told("work", "add", "new clasp", f"piece={kept['number']}", "--own")["work"]
    assert made["piece"] == kept["id"]
    assert entry["title"] in say("work", "show", made["id"])
    assert told("log", "show", entry["id"])["entry"]["own_work"] is True
    part = told("stock", "add", "sixth pad", f"from={kept['number']}", "part=pad")["stock"]
    assert part["taken_from"] == kept["id"]


@pytest.mark.parametrize(
    ("words", "error"),
    [
        (("stock", "add", "something odd"), "no part named"),
        (("stock", "add", "mat", "recess=73 x 86"), "has no unit"),
        (("stock", "show", "zzz"), "no stock 'zzz' in the log"),
        (("stock", "edit", "zzz", "place=box"), "no stock 'zzz'"),
        (("stock", "fits"), "no plate given"),
        (("work", "add", "x", "used=abc"), "no stock 'abc'"),
        (("work", "add", "x", "reversible=maybe"), "'maybe' is not known"),
        (("want", "add", "up to 35"), "has nothing to match on"),
        (("work", "add", "by=self"), "give the job a title"),
        (("want", "add", "x", "years=then"), "is not a span of years"),
        (("want", "show", "x"), "'appraise want list' shows all."),
    ],
)
def test_a_mistake_is_one_line(say, words, error):
    out = say(*words, status=1)
    assert error in out.splitlines()[-1]
    assert "Traceback" not in out
