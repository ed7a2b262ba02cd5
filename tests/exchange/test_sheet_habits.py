"""Habits of people who keep lists: second tables, headings, several currencies, loose days."""

from dataclasses import replace

import pytest
from exchange.sheetmaker import reading
from exchange.sheetscore import stored

from appraise.exchange.loose_days import easter
from appraise.exchange.sheet_days import day
from appraise.exchange.sheets import read_csv

DAYS = {
    "?/4/2019": "2019-04", "4/?/2019": "2019-04", "00.05.2019": "2019-05", "2015-05-??": "2015-05",
    "12.V.2015": "2015-05-12", "XII/2009": "2009-12", "5.2015": "2015-05", "2015 (?)": "2015~",
    "maybe 2015": "2015~", "Ende Mai 2015": "2015-05", "mi-2015": "2015-38", "vor 2015": "[..2014]",
    "winter 2015/16": "2015-24", "Sommer 92": "1992-22", "12–13 May 2015": "2015-05",
    "Weihnachten 2015": "2015-12", "Ostern 2016": "2016-03", "Whitsun 2016": "2016-05",
    "im Sommer 2015": "2015-22", "12.5.2015, 14 Uhr": "2015-05-12", "5. Feber 2020": "2020-02-05",
    "15 de marzo": "2001-03-15", "Mi 3.2.2021": "2021-02-03",
}  # fmt: skip


@pytest.mark.parametrize("cell", DAYS)
def test_a_day_as_it_is_noted(cell):
    assert str(day(cell, "day", "2001")) == DAYS[cell]


def test_easter_falls_as_calendars_print_it():
    # Easter Sundays as any calendar of those years prints them.
    printed = {2008: (3, 23), 2011: (4, 24), 2015: (4, 5), 2016: (3, 27), 2019: (4, 21)}
    assert {year: easter(year) for year in printed} == printed


def read(text, base="GBP", region="gb"):
    found = read_csv(
        text.lstrip().encode(), "list.csv", replace(reading(), base=base, region=region)
    )
    assert not found.bad
    names = ("record", "date", "title", "asked", "paid", "hammer", "premium", "fees", "postage")
    told = [
        " | ".join(one[name] for name in names if one[name]) for one in map(stored, found.entries)
    ]
    return told, [one.number for one in found.doubtful]


def test_a_second_table_has_a_header_of_its_own():
    told, _ = read("""
PURCHASES,,,
Date,Item,From,Price
1/5/2019,Tintype of a boy,fair,20
14/5/2019,Ambrotype of a girl,fair,35
SALES,,,
Date,Item,Customer,Price
20/6/2019,Tintype of a boy,Ann,32
""")
    assert told == [
        "bought | 2019-05-01 | Tintype of a boy | 20.00 GBP",
        "bought | 2019-05-14 | Ambrotype of a girl | 35.00 GBP",
        "sold | 2019-06-20 | Tintype of a boy | 32.00 GBP",
    ]


def test_headings_say_what_happened_below_them():
    told, _ = read("""
Date;Was;Preis
Gekauft;;
3.2.2019;Ferrotypie;20 €
Verkauft;;
14.2.2019;Ferrotypie;30 €
""", "EUR", "eu")  # fmt: skip
    assert told == [
        "bought | 2019-02-03 | Ferrotypie | 20.00 EUR",
        "sold | 2019-02-14 | Ferrotypie | 30.00 EUR",
    ]


def test_one_amount_in_columns_of_two_currencies():
    told, _ = read("""
Date,What,£,€
13/5/2019,Tintype of a boy,20,
14/5/2019,Ambrotype of a girl,,35
""")
    assert told == [
        "bought | 2019-05-13 | Tintype of a boy | 20.00 GBP",
        "bought | 2019-05-14 | Ambrotype of a girl | 35.00 EUR",
    ]


def test_units_stand_below_the_header_and_sides_above_it():
    told, _ = read("""
,,RECEIPTS,PAYMENTS,
Date,Details,Sales,Pictures,Sundries
,,£,£,£
13/5/2019,Tintype of a boy,,20.00,
14/5/2019,Pencils,,,3.00
16/6/2019,Tintype of a boy,35.00,,
""")
    assert told == [
        "bought | 2019-05-13 | Tintype of a boy | 20.00 GBP",
        "sold | 2019-06-16 | Tintype of a boy | 35.00 GBP",
    ]


def test_a_discount_is_off_the_price_once():
    told, _ = read("""
date,item,price,discount,postage,total
2019-05-13,Tintype of a boy,20.00,5.00,3.00,18.00
2019-05-14,Tintype of a girl,20.00,5.00,3.00,23.00
""")
    assert told == [
        "bought | 2019-05-13 | Tintype of a boy | 15.00 GBP | 3.00 GBP",
        "bought | 2019-05-14 | Tintype of a girl | 20.00 GBP | 3.00 GBP",
    ]


def test_a_country_tells_whose_dollar_it_is():
    told, _ = read("""
When,Where,What,Paid
June 2015,"Harnett, USA",Tintype of a boy,$20
July 2015,"Corran, Denmark",Ambrotype of a girl,250 kr
""")
    assert told == [
        "bought | 2015-06 | Tintype of a boy | 20.00 USD",
        "bought | 2015-07 | Ambrotype of a girl | 250.00 DKK",
    ]


def test_what_places_and_remarks_say_happened():
    told, doubtful = read("""
Date,What,Paid,Where,Notes
13/5/2019,Tintype of a boy,20,fair,"nice, asked 30"
14/5/2019,Ambrotype of a girl,,gift from my aunt,
15/5/2019,Ambrotype of a girl,50,SOLD to the dealer,
16/5/2019,Ambrotype of a boy,45,fair,"too dear, not bought"
17/5/2019,Ambrotype of a man,,fair,cost £30 I think
18/5/2019,Ambrotype of a man,38 + 5,fair,
19/5/2019,Ambrotype of a man,80 + 15% bp,auction,
""")
    assert told == [
        "bought | 2019-05-13 | Tintype of a boy | 30.00 GBP | 20.00 GBP",
        "gift | 2019-05-14 | Ambrotype of a girl",
        "sold | 2019-05-15 | Ambrotype of a girl | 50.00 GBP",
        "asking | 2019-05-16 | Ambrotype of a boy | 45.00 GBP",
        "bought | 2019-05-19 | Ambrotype of a man | 80.00 GBP | 12.00 GBP",
    ]
    assert doubtful == [6, 7]


@pytest.mark.parametrize(
    ("early", "paid"),
    [
        ("60.000 lire", "60000 ITL"),
        ("£60", "60.00 IEP"),
        ("f 60", "60.00 NLG"),
        ("60 F", "60.00 FRF"),
    ],
)
def test_former_currencies_end_with_2001(early, paid):
    told, _ = read(f"""
Year;What;Paid
1996;Tintype of a boy;{early}
1998;Tintype of a girl;{early}
2003;Ambrotype of a girl;€ 15
2004;Ambrotype of a boy;15
""", "EUR", "eu")  # fmt: skip
    assert told == [
        f"bought | 1996 | Tintype of a boy | {paid}",
        f"bought | 1998 | Tintype of a girl | {paid}",
        "bought | 2003 | Ambrotype of a girl | 15.00 EUR",
        "bought | 2004 | Ambrotype of a boy | 15.00 EUR",
    ]


def test_lines_stand_below_the_day_of_their_fair():
    told, _ = read("""
18 March 2017 - Norbury fair
two cdvs of nurses £3 the pair
ambro 1/6 of a lad £28, asked 35
20 May 2017 - Otley
ferrotype of a sailor £6.50
""")
    assert told == [
        "bought | 2017-03-18 | two cdvs of nurses | 3.00 GBP",
        "bought | 2017-03-18 | ambro 1/6 of a lad | 35.00 GBP | 28.00 GBP",
        "bought | 2017-05-20 | ferrotype of a sailor | 6.50 GBP",
    ]
