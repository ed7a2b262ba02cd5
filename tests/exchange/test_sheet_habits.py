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


def test_place_and_day_in_one_cell_are_two():
    told, _ = read("""
Picture,Bought,Paid
Tintype of a boy,Harle fair May 2016,20
Ambrotype of a girl,Orley 1993,30
Ambrotype of a man,online 13/6/2017,40
""")
    assert told == [
        "bought | 2016-05 | Tintype of a boy | 20.00 GBP",
        "bought | 1993 | Ambrotype of a girl | 30.00 GBP",
        "bought | 2017-06-13 | Ambrotype of a man | 40.00 GBP",
    ]


def test_what_a_price_holds_is_told_by_its_name():
    told, _ = read("""
Datum;Omschrijving;Excl. btw;Btw;Incl. btw
13-5-2021;ferrotype;20,00;4,20;24,20
14-5-2021;ambrotype;30,00;6,30;36,30
""", "EUR", "eu")  # fmt: skip
    assert [one[-9:] for one in told] == ["20.00 EUR", "30.00 EUR"]


def test_letters_of_purchase_and_sale():
    told, _ = read("""
Fecha;Tipo;Pieza;Importe
13/5/2019;C;ferrotipo;20
14/6/2019;V;ferrotipo;30
""", "EUR", "eu")  # fmt: skip
    assert [one.split(" | ")[0] for one in told] == ["bought", "sold"]


def test_a_state_says_where_pieces_are_now():
    told, _ = read("""
title,purchase date,purchase price,status,sale date,sale price
Tintype of a boy,2016-03-12,45,sold,2017-01-08,80
Tintype of a man,2016-05-20,20,kept,,
Tintype of a girl,2016-05-21,25,listed,,
""")
    assert told == [
        "bought | 2016-03-12 | Tintype of a boy | 45.00 GBP",
        "sold | 2017-01-08 | Tintype of a boy | 80.00 GBP",
        "bought | 2016-05-20 | Tintype of a man | 20.00 GBP",
        "bought | 2016-05-21 | Tintype of a girl | 25.00 GBP",
    ]


def test_final_prices_of_lots_that_were_not_won_are_hammer_prices():
    told, _ = read("""
End Date,Item,Final,My Max,Won?
13/1/2021,Tintype of a boy,40,30,N
14/1/2021,Tintype of a man,20,30,Y
""")
    assert [one.split(" | ")[0] for one in told] == ["hammer", "bought"]


def test_a_field_that_one_column_cannot_be_is_the_next_ones():
    told, _ = read("""
Sale Date,Item,Ship To,Sold For,Shipping
13/1/2021,Tintype of a boy,Harle,40,4.50
14/1/2021,Tintype of a man,Orley,30,5.50
""")
    assert [one[-8:] for one in told] == ["4.50 GBP", "5.50 GBP"]


def test_a_year_in_two_figures_after_a_month():
    told, _ = read("""
Mo/Yr,Item,Paid
6/14,Tintype of a boy,40
11/14,Tintype of a man,30
""", "USD", "us")  # fmt: skip
    assert [one.split(" | ")[1] for one in told] == ["2014-06", "2014-11"]


def test_the_running_total_is_no_price():
    told, doubtful = read("""
Year,Purchase,Cost,Running total
2009,Tintype of a boy,40,40
2011,none,,40
2012,Tintype of a man,30,70
""")
    assert [one[-9:] for one in told] == ["40.00 GBP", "30.00 GBP"]
    assert doubtful == [3]


def test_days_in_words_that_are_not_understood_are_asked_about():
    told, doubtful = read("""
Date,Item,Paid
13/1/2021,Tintype of a boy,40
14/1/2021,Tintype of a man,30
the 3 of us,Tintype of a girl,30
15/1/2021,Tintype of a dog,30
""")
    assert (len(told), doubtful) == (3, [4])


@pytest.mark.parametrize("name", ["prices.csv", "sales.csv"])
def test_the_year_of_a_purchase_stands_beside_the_day_of_its_sale(name):
    sheet = (
        "Description,Year he bought it,He paid,Date sold,Sold for\n"
        "Sixth plate ambrotype of a tailor,1994,$140,3/14/2023,$185\n"
        "Ninth plate tintype of a boy,1996,$45,3/30/2023,$62\n"
    )
    found = read_csv(sheet.encode(), name)
    told = [(one.record, str(one.date)) for one in found.entries]
    assert told[:2] == [("bought", "1994"), ("sold", "2023-03-14")]
    assert told[2:] == [("bought", "1996"), ("sold", "2023-03-30")]
