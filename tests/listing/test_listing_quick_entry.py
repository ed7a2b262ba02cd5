"""Log entries typed in one line."""

import datetime as dt

import pytest
from listing.listingkit import day_in, knowledge

from appraise.base.money import Money
from appraise.listing.quick import understand_entry

TODAY = dt.date(2026, 11, 25)  # a Wednesday


def entry(line: str):
    return understand_entry(line, knowledge(), "USD", TODAY).entry


def test_the_example() -> None:
    made = entry("sixth ambrotype thermoplastic vine 38 + 6 post, quay market, yesterday")
    assert made.record == "bought"
    assert made.paid == Money.parse("38 USD")
    assert made.postage == Money.parse("6 USD")
    assert made.venue == "quay market"
    assert made.channel == "market"
    assert made.date == dt.date(2026, 11, 24)
    assert (made.process, made.housing, made.format) == ("ambrotype", "thermoplastic", "sixth")
    assert made.motif == "vine"
    assert made.id == ""


@pytest.mark.parametrize(
    ("line", "record", "money"),
    [
        ("ninth dag asked 58 paid 45", "bought", {"asked": "58", "paid": "45"}),
        ("58 asked 45 paid ninth dag", "bought", {"asked": "58", "paid": "45"}),
        ("sixth ambro asked 80 offered 50 pass", "refused", {"asked": "80", "offered": "50"}),
        ("sixth ambro pass 80", "asking", {"asked": "80"}),
        ("sold sixth tintype 40", "sold", {"paid": "40"}),
        ("cdv 12 asking", "asking", {"asked": "12"}),
        ("quarter dag hammer 220", "hammer", {"hammer": "220"}),
        ("half ambro unsold 300", "unsold", {"hammer": "300"}),
        ("gem tintype gift", "gift", {}),
        ("sixth dag 150 returned", "returned", {"paid": "150"}),
        ("sixth ambro 40 plus 8 shipping", "bought", {"paid": "40", "postage": "8"}),
    ],
)
def test_amounts_go_where_their_words_say(line: str, record: str, money: dict[str, str]) -> None:
    made = entry(line)
    assert made.record == record
    found = {
        name: getattr(made, name)
        for name in ("asked", "offered", "paid", "hammer", "postage")
        if getattr(made, name) is not None
    }
    assert found == {name: Money.parse(f"{amount} USD") for name, amount in money.items()}


@pytest.mark.parametrize(
    ("words", "day"),
    [
        ("today", "2026-11-25"),
        ("yesterday", "2026-11-24"),
        ("the day before yesterday", "2026-11-23"),
        ("last saturday", "2026-11-21"),
        ("last wednesday", "2026-11-18"),
        ("on wednesday", "2026-11-25"),
        ("3 days ago", "2026-11-22"),
        ("two weeks ago", "2026-11-11"),
        ("2026-05-02", "2026-05-02"),
        ("12 May", "2026-05-12"),
        ("May 12", "2026-05-12"),
        ("24th of December", "2025-12-24"),
        ("3 March 2024", "2024-03-03"),
    ],
)
def test_days_in_everyday_words(words: str, day: str) -> None:
    found = day_in(f"sixth ambro 40, {words}", TODAY)
    assert found is not None
    assert found.date.isoformat() == day
    assert entry(f"sixth ambro 40, {words}").date.isoformat() == day


@pytest.mark.parametrize("words", ["31 June", "2026-13-40", "12 May 2031", "someday"])
def test_days_that_are_none_are_left_alone(words: str) -> None:
    assert day_in(words, TODAY) is None
    assert entry(f"sixth ambro 40, {words}").date == TODAY


def test_a_venue_follows_at() -> None:
    made = entry("quarter dag hammer 220 at mill town rooms, 12 May")
    assert made.venue == "mill town rooms"
    assert made.motif == ""


def test_a_bare_kind_of_place_is_a_channel_and_no_venue() -> None:
    made = entry("sixth ambro 40, online")
    assert (made.channel, made.venue) == ("online", "")


def test_damage_is_kept_with_the_entry() -> None:
    made = entry("sixth ambro leather 40 hinge taped")
    assert made.condition_factor is not None
    assert 0 < made.condition_factor < 1
    assert "hinge.tape" in made.piece


def test_a_second_amount_of_one_sort_is_not_understood() -> None:
    quick = understand_entry("sixth ambro paid 40 paid 50", knowledge(), "USD", TODAY)
    assert quick.entry.paid == Money.parse("40 USD")
    assert quick.not_understood == ("50",)


@pytest.mark.parametrize(
    ("line", "title"),
    [
        (
            "sixth ambrotype thermoplastic vine 38 + 6 post, quay market, yesterday",
            "sixth ambrotype thermoplastic vine",
        ),
        ("ninth dag leather, asked 65 offered 45 pass, 12 May", "ninth dag leather"),
        ("sold quarter tintype 55, online, last saturday", "quarter tintype"),
        ("sixth ambro vine 45 hinge taped", "sixth ambro vine hinge taped"),
        ("girl with a basket, 6th dag $120 hammer", "girl with a basket, 6th dag"),
        ("38", "38"),
    ],
)
def test_a_title_leaves_out_what_fields_of_its_own_tell(line: str, title: str) -> None:
    assert entry(line).title == title


def test_postage_is_in_the_currency_of_the_price() -> None:
    made = entry("sixth ambro 38 EUR, postage 5")
    assert made.paid == Money.parse("38 EUR")
    assert made.postage == Money.parse("5 EUR")
