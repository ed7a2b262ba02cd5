"""What is looked for first in a text never hides what a pattern would find in it."""

import datetime as dt
import random

from every import every
from listing.listingkit import knowledge

from appraise.base.months import MONTHS
from appraise.listing import amounts as money
from appraise.listing import days
from appraise.listing.words import lowered

TODAY = dt.date(2026, 12, 1)
DAYS = (
    *("yesterday", "Today", "the day before YESTERDAY", "two weeks ago", "3 Days ago", "a day ago"),
    *("last Saturday", "this tues", "bought, thu", "Wednesday", "le 3 mai 2019", "on 12.5.2026"),
    *("2026-11-25", "2026/1/2", "5/6/25", "31.12.99", "12th of May, 2020", "May 3rd, 2021"),
    *("3 de mayo de 2024", "4. März 2023", "7 août", "SEPT 9", "1º de enero de 2020"),
    *(f"{name.upper()} 7, 2020" for name in MONTHS),
    *(f"8 {name}. 2019" for name in MONTHS),
    *(f"9 of {name}" for name in MONTHS),
)


@every("text", DAYS, ids=str)
def test_a_day_is_found_where_every_form_is_tried(text):
    line = f"sixth ambro vine 45, {text}, hinge taped"
    for region in ("us", "gb"):
        found = [*days.days_in(line, TODAY, region)]
        kept = days._FORMS
        days._FORMS = tuple((("",), form) for _, form in kept)
        try:
            assert found == [*days.days_in(line, TODAY, region)]
        finally:
            days._FORMS = kept


def test_most_of_these_are_days():
    assert sum(bool([*days.days_in(text, TODAY)]) for text in DAYS) > 0.8 * len(DAYS)


def test_an_amount_is_found_where_a_number_stands_by_a_currency():
    names, pattern = money._reader(knowledge())
    chance = random.Random(20_261_201)
    parts = [
        *("12", "1 250,50", "1.5k", "2 k", "1'000", "½", " ", " ", "\u00a0", "\n  ", ".", ",-"),
        *("--", "–", "x", "US $", "C $", "KČ", "Zł", "Fr.", "POUNDS", "\u017ftg", "us $"),
        *names,
    ]
    found = 0
    for _ in range(40_000):
        text = "".join(chance.choices(parts, k=chance.randint(1, 6)))
        if pattern.search(text):
            found += 1
            assert money._beside_a_number(lowered(text), tuple(names)), text
    assert found > 1_000
