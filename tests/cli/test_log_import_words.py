"""What an import shows, asks and refuses: words, currencies, and the rows left out."""

import csv
import io
import json
import sys

import pytest

from appraise.cli.main import run

SHEET = """\
Date,Type,Description,Size,Case,Price (GBP),Postage
2024-05-31,bought,Girl with a drum,2 3/4 x 3 1/4,ledr,38,4.50
2024-06-02,bought,Man in a cap,01-Jun,foo,"1,250.00",
2024-06-03,Purchased,Two clerks,1/9,leather,22,
"""
ANSWERS = ("--word", "ledr=leather-wood", "--word", "01-Jun=sixth", "--word", "foo=")


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    assert run(["log", "currency", "USD"]) == 0
    return tmp_path / "home"


@pytest.fixture
def say(capsys):
    def said(*words, status=0):
        capsys.readouterr()
        assert run([str(word) for word in words]) == status
        told = capsys.readouterr()
        assert "Traceback" not in told.err
        return told

    return said


class Typed(io.StringIO):
    """A terminal at which somebody types."""

    def isatty(self):
        return True


@pytest.fixture
def typed(monkeypatch, say):
    def at_the_terminal(lines, *words, status=0):
        monkeypatch.setattr(sys, "stdin", Typed("".join(f"{line}\n" for line in lines)))
        monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
        told = say(*words, status=status)
        assert sys.stdin.read() == "", "a question was not asked"
        return told

    return at_the_terminal


@pytest.fixture
def sheet(tmp_path):
    def written(text, name="prices.csv"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return written


def entries(say):
    return json.loads(say("log", "list", "--json").out)["entries"]


def test_the_preview_shows_columns_with_samples_and_all_words(say, sheet):
    told = say("log", "import", sheet(SHEET), "--preview")
    for line in (
        "  Size -> format: 2 3/4 x 3 1/4 | 01-Jun | 1/9",
        "  Price (GBP) -> price: 38 | 1,250.00 | 22",
        "  record: bought; Purchased = bought",
        "  format: 2 3/4 x 3 1/4 = sixth; 1/9 = ninth",
        "  format, not understood: 01-Jun (1 row, perhaps sixth: --word 01-Jun=sixth)",
        "  currencies told: GBP 4",
    ):
        assert line in told.err.splitlines()
    assert "ledr (1 row, perhaps leather-wood: --word ledr=leather-wood)" in told.err
    document = json.loads(say("log", "import", sheet(SHEET), "--preview", "--json").out)
    assert document["samples"]["Type"] == ["bought", "Purchased"]
    assert [one["text"] for one in document["words"] if one["open"]] == ["ledr", "01-Jun", "foo"]
    assert entries(say) == []


def test_unknown_words_are_named_and_kept_beside(say, sheet):
    told = say("log", "import", sheet(SHEET))
    assert (
        "words that are not understood: housing: 'ledr', 'foo'; format: '01-Jun'. Write what each "
        "means, or nothing to leave it out: --word ledr=leather-wood --word foo= --word "
        "01-Jun=sixth"
    ) in told.err
    found = {one["title"]: one for one in entries(say)}
    assert "housing" not in found["Girl with a drum"]
    assert found["Girl with a drum"]["extra"] == {"columns": {"Case": "ledr"}}
    again = say("log", "import", sheet(SHEET), *ANSWERS)
    assert again.out == "0 added, 0 replaced, 3 known already\n"
    say("log", "import", sheet(SHEET), *ANSWERS, "--update")
    found = {one["title"]: one for one in entries(say)}
    assert len(found) == 3
    assert found["Girl with a drum"]["housing"] == "leather-wood"


def test_the_options_that_the_refusal_names_take_the_file_in(say, sheet):
    say("log", "import", sheet(SHEET), *ANSWERS)
    found = {one["title"]: one for one in entries(say)}
    assert [one["format"] for one in found.values()] == ["ninth", "sixth", "sixth"]
    assert found["Girl with a drum"]["housing"] == "leather-wood"
    assert "housing" not in found["Man in a cap"]
    assert found["Man in a cap"]["extra"] == {"columns": {"Case": "foo"}}
    assert found["Girl with a drum"]["postage"] == {"amount": "4.50", "currency": "GBP"}


def test_words_are_asked_one_by_one_and_a_wrong_answer_again(typed, say, sheet):
    told = typed(["leather", "huge", "", "-", "y"], "log", "import", sheet(SHEET))
    assert "housing 'ledr' (1 row) is not understood. Which word? - leaves it out" in told.err
    assert "'huge' is not a known format" in told.err
    assert len(entries(say)) == 3
    assert {one["format"] for one in entries(say)} == {"sixth", "ninth"}


def test_a_word_left_open_is_kept_beside(typed, say, sheet):
    text = SHEET.replace("ledr", "leather").replace("01-Jun", "1/6")
    typed(["", "y"], "log", "import", sheet(text))
    assert len(entries(say)) == 3
    typed(["n"], "log", "import", sheet("date,what\n2024-05-31,girl\n"), "--record", "gift")
    assert len(entries(say)) == 3


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--word", "ledr"), "--word: 'ledr' is not TEXT=WORD"),
        (("--word", "leer=leather"), "--word: there is no cell 'leer'. Did you mean 'ledr'?"),
        (("--word", "ledr=tinfoil"), "--word: 'tinfoil' is not a known housing"),
        (("--currency", "XYZ"), "--currency: 'XYZ' is not a known currency"),
        (("--dollar", "EUR"), "--dollar: 'EUR' is not a known dollar"),
    ],
)
def test_a_wrong_option_is_one_line(say, sheet, words, told):
    lines = say("log", "import", sheet(SHEET), *words, status=1).err.splitlines()
    assert [line for line in lines if line.startswith(f"appraise: {told}")] == lines[-1:]


def test_which_dollar_is_asked_where_the_users_own_money_is_none(say, sheet):
    say("log", "currency", "GBP")
    path = sheet("date,record,paid,postage\n2024-05-31,bought,$45,3\n")
    told = say("log", "import", path, status=1)
    assert "which dollar is '$45'? Write --dollar AUD, or another." in told.err
    say("log", "import", path, "--dollar", "aud")
    (entry,) = entries(say)
    assert entry["paid"] == {"amount": "45.00", "currency": "AUD"}
    assert entry["postage"] == {"amount": "3.00", "currency": "AUD"}


def test_which_dollar_is_asked_at_a_terminal(typed, say, sheet):
    say("log", "currency", "GBP")
    path = sheet("date,record,paid\n2024-05-31,bought,$45\n")
    typed(["pounds", "cad", "y"], "log", "import", path)
    assert entries(say)[0]["paid"] == {"amount": "45.00", "currency": "CAD"}


def test_signs_that_speak_against_each_other_are_asked_about(say, sheet):
    path = sheet(
        "date,record,paid\n2024-05-31,bought,£4\n2024-05-31,bought,€5\n2024-06-01,bought,6\n"
    )
    told = say("log", "import", path, status=1)
    assert "in which currency is '6'? The file has EUR and GBP. Write --currency EUR" in told.err
    say("log", "import", path, "--currency", "GBP")
    paid = sorted((one["paid"]["amount"], one["paid"]["currency"]) for one in entries(say))
    assert paid == [("4.00", "GBP"), ("5.00", "EUR"), ("6.00", "GBP")]


def test_many_rows_left_out_are_in_a_file_that_is_named(say, sheet, tmp_path):
    rows = "".join(f"day {number},bought,=1+{number},5\n" for number in range(7))
    path = sheet(f"date,record,title,paid\n2024-05-31,bought,good,5\n{rows}")
    for name in ("prices-left-out.csv", "prices-left-out-2.csv"):
        told = say("log", "import", path, "--only-good")
        assert f"the 7 rows left out are in {tmp_path / name}" in told.err
        assert told.out.endswith(", 7 left out\n")
        with (tmp_path / name).open(encoding="utf-8-sig", newline="") as file:
            header, *left = csv.reader(file)
        assert header == ["row", "why", "date", "record", "title", "paid"]
        assert [row[0] for row in left] == [str(number) for number in range(3, 10)]
        assert all(row[4].startswith("'=") for row in left)  # no spreadsheet runs it
    assert len(entries(say)) == 1


def test_few_rows_left_out_are_named_each(say, sheet, tmp_path):
    path = sheet("date,record,paid\n2024-05-31,bought,5\nnever,bought,5\n")
    told = say("log", "import", path, "--only-good")
    assert "row 3 is left out: 'never' is not a day" in told.err
    assert [one.name for one in tmp_path.iterdir() if "left" in one.name] == []
    document = json.loads(say("log", "import", path, "--only-good", "--json").out)
    assert document["left_out"] == [3]


def test_the_preview_names_every_row_that_cannot_be_read_and_writes_nothing(say, sheet, tmp_path):
    rows = "".join(f"day {number},bought,5\n" for number in range(9))
    told = say("log", "import", sheet(f"date,record,paid\n{rows}"), "--preview")
    assert all(f"row {number}: " in told.err for number in range(2, 11))
    assert [one.name for one in tmp_path.iterdir() if "left" in one.name] == []
