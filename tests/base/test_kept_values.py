"""What a value of a kept record may be, and what the user may set."""

import math
from decimal import Decimal

import pytest
from every import every

from appraise.base.errors import InputError
from appraise.base.fieldchecks import (
    LARGEST,
    LINE_LENGTH,
    PAGE_LENGTH,
    check_amount,
    check_flag,
    check_id,
    check_json,
    check_number,
    check_text,
    check_word,
)
from appraise.base.money import Money
from appraise.base.settings import Settings, load_settings, save_setting


def usd(amount):
    return Money(Decimal(amount), "USD")


@every(
    "text", ["0123456789abcde", "0123456789abcdef0", "0123456789ABCDEF", "0123456789abcdeg", "", 7]
)
def test_an_id_is_so_many_hexadecimal_digits(text):
    check_id("id", "0123456789abcdef", 16)
    with pytest.raises(InputError, match="16 hexadecimal digits"):
        check_id("id", text, 16)


@every("word", ["Brass", "brass mat", "-brass", "brass-", "brass--mat", "a" * 1001, "böse"])
def test_a_word_is_lower_case_with_hyphens(word):
    check_word("word", "brass-mat-2")
    check_word("word", "")
    with pytest.raises(InputError, match="lower case, with hyphens"):
        check_word("word", word)


def test_a_word_of_a_list_is_one_of_it_or_the_nearest_is_told():
    check_word("word", "oval", ("oval", "octagon"))
    with pytest.raises(InputError, match="octagon"):
        check_word("word", "octogon", ("oval", "octagon"))
    with pytest.raises(InputError, match="is not a word"):
        check_word("word", None)


@every(
    ("text", "why"),
    [("a\tb", "a line break or tab"), ("a\nb", "a line break or tab"),
     ("a\u2028b", "a line break or tab"), ("a\x1bb", r"a control character \(U\+001B\)"),
     ("a\x9bb", r"a control character \(U\+009B\)"), ("a\ud800b", "a control character"),
     ("a" * (LINE_LENGTH + 1), "longer than 1,000"), (7, "is not text")],
    ids=repr,
)  # fmt: skip
def test_a_line_is_printable_and_short(text, why):
    """C0 and C1 controls (ISO/IEC 6429) would drive a terminal."""
    check_text("note", "a" * LINE_LENGTH, one_line=True)
    with pytest.raises(InputError, match=why):
        check_text("note", text, one_line=True)


def test_a_page_may_hold_line_breaks_and_a_million_characters():
    check_text("note", "a\n\tb" + "c" * (PAGE_LENGTH - 4), one_line=False)
    with pytest.raises(InputError, match="control character"):
        check_text("note", "a\x00b", one_line=False)
    with pytest.raises(InputError, match="longer than 1,000,000"):
        check_text("note", "c" * (PAGE_LENGTH + 1), one_line=False)


@every(
    ("money", "why"),
    [(usd("-0.01"), "not between 0"), (usd(LARGEST), "not between 0"), (usd("0.001"), "decimals"),
     (Money(Decimal("0.5"), "JPY"), "decimals"), (None, "is not an amount"),
     (45, "is not an amount")],
    ids=str,
)  # fmt: skip
def test_an_amount_is_whole_minor_units_within_bounds(money, why):
    """The minor units are those of ISO 4217: two decimals of a dollar, none of a yen."""
    for fine in (usd(0), usd(LARGEST - 1), usd("0.01"), Money(Decimal(5), "JPY")):
        check_amount("paid", fine)
    check_amount("paid", None, optional=True)
    with pytest.raises(InputError, match=why):
        check_amount("paid", money)


@every("value", [0, 11, 2.5, True, "3", None], ids=repr)
def test_a_whole_number_lies_within_its_bounds(value):
    for fine in (1, 10):
        check_number("n", fine, 1, 10, whole=True)
    with pytest.raises(InputError, match="a whole number from 1 to 10"):
        check_number("n", value, 1, 10, whole=True)


@every("value", [0, 0.0, -1, 10.1, math.nan, math.inf, True, "3"], ids=repr)
def test_a_number_may_have_to_lie_above_its_lower_bound(value):
    for fine in (0.1, 10, 10.0):
        check_number("n", fine, 0, 10, above=True)
    check_number("n", 0, 0, 10)
    with pytest.raises(InputError, match="a number above 0 to 10"):
        check_number("n", value, 0, 10, above=True)


def test_a_flag_is_yes_or_no_and_nothing_else():
    check_flag("own", True)
    check_flag("own", False)
    check_flag("own", None, optional=True)
    for value in (None, 1, "yes"):
        with pytest.raises(InputError, match="neither yes nor no"):
            check_flag("own", value)


def nested(depth):
    return [nested(depth - 1)] if depth else 1


@every(
    "value",
    [None, True, 1, -(2**63), 2**63 - 1, 1.5, "a\nb", [1, ["x"]], {"a": {"b": [None]}}, nested(20)],
    ids=lambda one: repr(one)[:20],
)
def test_what_json_and_sqlite_keep_can_be_kept(value):
    """Integers of 64 bits are what SQLite keeps whole ("Datatypes in SQLite")."""
    check_json("rest", value)


@every(
    ("value", "why"),
    [(2**63, "cannot be saved"), (-(2**63) - 1, "cannot be saved"), (math.nan, "cannot be saved"),
     (math.inf, "cannot be saved"), (Decimal(1), "cannot be saved"), ((1,), "cannot be saved"),
     ([{"a": [math.nan]}], "cannot be saved"), ({"a\nb": 1}, "line break"), ({1: 1}, "is not text"),
     ("a\x00", "control"), (nested(21), "nested deeper than 20")],
    ids=lambda one: repr(one)[:20],
)  # fmt: skip
def test_what_they_do_not_keep_is_refused(value, why):
    with pytest.raises(InputError, match=why):
        check_json("rest", value)


def test_a_fault_deep_within_is_told_by_its_place():
    with pytest.raises(InputError, match=r"rest\.a\.b"):
        check_json("rest", {"a": {"b": math.nan}})


def written(place, text):
    path = place / "settings.yaml"
    path.write_text(text, encoding="utf-8")
    return load_settings(path)


def test_without_a_file_or_with_an_empty_one_all_is_as_usual(tmp_path):
    assert load_settings(tmp_path / "settings.yaml") == Settings()
    assert written(tmp_path, "{}\n") == Settings()


def test_every_setting_is_read(tmp_path):
    told = {
        "currency": "EUR", "theme": "night", "region": "eu", "ascii": True,
        "budget": Decimal("150.50"), "extra": Decimal(1), "margin": Decimal(2),
        "repair": Decimal(3), "bidders": 7,
        "opening": Decimal("0.5"), "backup_days": 30, "backup_size": 100,
    }  # fmt: skip
    assert set(told) == set(Settings.__slots__)
    text = "".join(
        f"{key}: {str(one).lower() if one is True else one}\n" for key, one in told.items()
    )
    assert written(tmp_path, text) == Settings(**told)


@every(
    ("text", "why"),
    [("bidders: 0", "bidders"), ("bidders: 51", "bidders"), ("opening: 1.1", "opening"),
     ("opening: 0", "opening"), ("margin: -1", "0 or more"), ("margin: NaN", "0 or more"),
     ("margin: 1000000000000", "0 or more"), ("margin: much", "is not an amount"),
     ("theme: nite", "night"), ("currency: EURO", "EUR"), ("budgets: 5", "budget")],
)  # fmt: skip
def test_what_cannot_be_set_is_told_with_file_and_key(tmp_path, text, why):
    with pytest.raises(InputError, match=why) as told:
        written(tmp_path, f"{text}\n")
    assert "settings.yaml" in str(told.value)


def test_one_setting_is_written_and_every_other_line_stays(tmp_path):
    path = tmp_path / "settings.yaml"
    save_setting(path, "theme", "night")
    assert path.read_text(encoding="utf-8") == "theme: night\n"
    path.write_bytes("# mine\ncurrency: EUR\ntheme: auto\n# caf\xe9\n".encode("latin-1"))
    save_setting(path, "theme", "daylight")
    assert path.read_bytes() == "# mine\ncurrency: EUR\n# caf\xe9\ntheme: daylight\n".encode(
        "latin-1"
    )
