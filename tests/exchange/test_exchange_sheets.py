"""Whole spreadsheets as ordinary programs export them; all that they hold is invented.

Each sheet stands with what it means: entries as (date, record, format, process, housing, amounts),
and what has to be asked first. The sizes of plates in inches are common practice: a sixth plate is
2 3/4 x 3 1/4, a ninth 2 x 2 1/2, a quarter 3 1/4 x 4 1/4, a carte de visite 2 1/2 x 4.
"""

from dataclasses import dataclass, field

import pytest
from store.logkit import opened

from appraise.base.errors import InputError
from appraise.exchange.sheets import ReadAs, import_csv, read_csv
from appraise.knowledge import load
from appraise.listing.cellwords import sheet_words


@dataclass(frozen=True)
class Sheet:
    """A file, how it is read, what is asked, and what comes of it."""

    data: bytes
    rows: list[str]  # date record format process housing | amounts | title
    said: dict = field(default_factory=dict)  # of ReadAs
    asked: tuple[str, ...] = ()  # names of the questions before anything is said
    bad: tuple[int, ...] = ()
    aside: tuple[int, ...] = ()


def text(sheet, encoding="utf-8", ending="\r\n", tabs=""):
    whole = sheet.strip("\n").replace(tabs, "\t") if tabs else sheet.strip("\n")
    return f"{whole}\n".replace("\n", ending).encode(encoding)


SHEETS = {
    "a British sheet, currency in the header, a fraction that became a day": Sheet(
        text("""
Date,Type,Description,Process,Size,Case,Price (GBP),Postage (£),Where bought
31/05/2024,bought,Girl with a drum,Ambro,2 3/4 x 3 1/4,Leather,38,4.50,Harbour market
02/06/2024,bought,Man in a cap,Ambrotype,01-Jun,leather,1250.00,,Harbour market
14/06/2024,Purchased,Two clerks,tin type,1/9,union case,22,,Online
20/06/2024,bought,A dog,dag,2x2½ in,,85,6,Online
"""),
        [
            "2024-05-31 bought sixth ambrotype leather-wood | paid 38 GBP postage 4.50 GBP",
            "2024-06-02 bought sixth ambrotype leather-wood | paid 1250 GBP",
            "2024-06-14 bought ninth tintype thermoplastic | paid 22 GBP",
            "2024-06-20 bought ninth daguerreotype - | paid 85 GBP postage 6 GBP",
        ],
        {"meant": {"01-Jun": "sixth"}, "order": "day"},
        ("meant",),
    ),
    "a German sheet in Windows-1252 with semicolons": Sheet(
        text(
            """
Datum;Art;Gegenstand;Verfahren;Größe;Etui;Preis EUR;Porto;Ort
31.05.2024;bought;Mädchen;Ambrotypie;7 x 8,3 cm;Leder;85,-;5,50;Flohmarkt
01.06.2024;bought;Herr;Daguerreotypie;1/6;foo;1.250,00;;Messe
02.06.2024;bought;Paar;Ferrotypie;carte de visite;-;18,-;3,-;Flohmarkt
""",
            "cp1252",
        ),
        [
            "2024-05-31 bought sixth ambrotype leather-wood | paid 85 EUR postage 5.50 EUR",
            "2024-06-01 bought sixth daguerreotype - | paid 1250 EUR",
            "2024-06-02 bought carte-de-visite tintype - | paid 18 EUR postage 3 EUR",
        ],
        {"meant": {"foo": ""}},
        ("meant",),
    ),
    "a Swiss sheet, tabs and UTF-16": Sheet(
        text(
            """
date~record~piece~format~paid~postage
2024-05-31~bought~old frame, not opened~quarter plate~Fr. 15.–~2.–
2024-06-01~bought~a big one~whole plate~1’480.–~
2024-06-02~bought~small~6th~Fr. 45.50~7.–
""",
            "utf-16",
            tabs="~",
        ),
        [
            "2024-05-31 bought quarter - - | paid 15 CHF postage 2 CHF | old frame, not opened",
            "2024-06-01 bought whole - - | paid 1480 CHF | a big one",
            "2024-06-02 bought sixth - - | paid 45.50 CHF postage 7 CHF | small",
        ],
    ),
    "an American sheet with times, quotes and a row of totals": Sheet(
        text(
            """
"Date Acquired","Item","Medium","Plate Size","Total Paid","Shipping","Seller","Notes"
"5/31/2024 0:00","Woman, seated","Tintype","1/6 plate","$1,200.00","$8.95","Barn fair","x"
"6/13/2024 0:00","Boy","Daguerreotype","3.25 x 4.25","$85.00","","Barn fair",""
"6/14/2024 0:00","Card","Albumen","2 1/2 x 4","$5","","",""
"Total","","","","$1,290.00","$8.95","",""
""",
            ending="\n",
        ),
        [
            "2024-05-31 bought sixth tintype - | paid 1200 USD postage 8.95 USD",
            "2024-06-13 bought quarter daguerreotype - | paid 85 USD",
            "2024-06-14 bought carte-de-visite albumen - | paid 5 USD",
        ],
        {"record": "bought"},
        (),
        aside=(5,),
    ),
    "mixed currencies in the cells, one with its postage": Sheet(
        text("""
date,record,title,price,postage
2024-05-31,bought,one,£45,3
2024-06-01,bought,two,"38 EUR, postage 5",
2024-06-02,bought,three,C$85,
2024-06-03,bought,four,45 dollars,
2024-06-04,asking,five,£20,
2024-06-05,bought,six,21,
2024-06-06,bought,seven,A$45 + 6 post,
"""),
        [
            "2024-05-31 bought - - - | paid 45 GBP postage 3 GBP",
            "2024-06-01 bought - - - | paid 38 EUR postage 5 EUR",
            "2024-06-02 bought - - - | paid 85 CAD",
            "2024-06-03 bought - - - | paid 45 USD",
            "2024-06-04 asking - - - | asked 20 GBP",
            "2024-06-05 bought - - - | paid 21 GBP",
            "2024-06-06 bought - - - | paid 45 AUD postage 6 AUD",
        ],
    ),
    "bare dollars where the user's own currency is none": Sheet(
        text("""
date;record;title;price;postage
2024-05-31;bought;one;$45;3
2024-06-01;bought;two;$ 38.50;
2024-06-02;bought;three;12;
"""),
        [
            "2024-05-31 bought - - - | paid 45 AUD postage 3 AUD",
            "2024-06-01 bought - - - | paid 38.50 AUD",
            "2024-06-02 bought - - - | paid 12 AUD",
        ],
        {"base": "GBP", "dollar": "AUD"},
        ("dollar",),
    ),
    "signs that speak against each other": Sheet(
        text("""
date,record,title,paid
2024-05-31,bought,one,£45
2024-06-01,bought,two,€38
2024-06-02,bought,three,20
"""),
        [
            "2024-05-31 bought - - - | paid 45 GBP",
            "2024-06-01 bought - - - | paid 38 EUR",
            "2024-06-02 bought - - - | paid 20 EUR",
        ],
        {"currency": "EUR"},
        ("currency",),
    ),
    "a Dutch sheet": Sheet(
        text("""
Datum;Omschrijving;Techniek;Formaat;Prijs;Verzending;Plaats
3-5-2024;Meisje;ambrotypie;1/6;€ 45,-;€ 6,95;markt
14-5-2024;Man;ferrotypie;CDV;€ 12,50;;markt
"""),
        [
            "2024-05-03 bought sixth ambrotype - | paid 45 EUR postage 6.95 EUR | Meisje",
            "2024-05-14 bought carte-de-visite tintype - | paid 12.50 EUR | Man",
        ],
        {"record": "bought"},
        (),
    ),
    "a French sheet": Sheet(
        text("""
Date;Titre;Procédé;Taille;Prix (€);Port;Vendeur
03/05/2024;Femme;Daguerréotype;1/4 plaque;1 250,00;8,00;brocante
28/05/2024;Homme;ambrotype;1/9;45,00;;brocante
"""),
        [
            "2024-05-03 bought quarter daguerreotype - | paid 1250 EUR postage 8 EUR",
            "2024-05-28 bought ninth ambrotype - | paid 45 EUR",
        ],
        {"record": "bought"},
        (),
    ),
    "a column 'type' that holds the process": Sheet(
        text("""
Date,Type,Size,Cost,Ship
5/13/2024,Tintype,CDV,5,$2
5/14/2024,Dag,1/6,45,
"""),
        [
            "2024-05-13 bought carte-de-visite tintype - | paid 5 USD postage 2 USD",
            "2024-05-14 bought sixth daguerreotype - | paid 45 USD",
        ],
        {"record": "bought"},
        (),
    ),
    "amounts as a spreadsheet's money format writes them": Sheet(
        text("""
Date;Description;Amount
13/05/2024;Girl; £ 45.00\u0020
14/05/2024;Boy; £ 1,145.00\u0020
15/05/2024;A gift; £ -   \u0020
"""),
        [
            "2024-05-13 bought - - - | paid 45 GBP",
            "2024-05-14 bought - - - | paid 1145 GBP",
            "2024-05-15 bought - - - | ",
        ],
        {"record": "bought"},
    ),
    "yen have no decimals": Sheet(
        text("""
date,record,price,postage
2024-05-13,bought,"¥4,500",500
2024-05-14,bought,"¥12,000",
"""),
        [
            "2024-05-13 bought - - - | paid 4500 JPY postage 500 JPY",
            "2024-05-14 bought - - - | paid 12000 JPY",
        ],
    ),
    "crowns of the user's own country": Sheet(
        text("""
date;record;price
2024-05-13;bought;450 kr
2024-05-14;bought;1.250,00 kr.
"""),
        [
            "2024-05-13 bought - - - | paid 450 DKK",
            "2024-05-14 bought - - - | paid 1250 DKK",
        ],
        {"base": "DKK"},
    ),
    "postage told with the price, and what stays unclear": Sheet(
        text("""
date,record,price
2024-05-13,bought,£38 + £5 p&p
2024-05-14,bought,£38 plus 5 postage
2024-05-15,bought,£38 (postage £5)
2024-05-16,bought,38.5.2
2024-05-17,bought,£38 incl. postage
"""),
        [
            "2024-05-13 bought - - - | paid 38 GBP postage 5 GBP",
            "2024-05-14 bought - - - | paid 38 GBP postage 5 GBP",
            "2024-05-15 bought - - - | paid 38 GBP postage 5 GBP",
            "2024-05-17 bought - - - | paid 38 GBP",
        ],
        bad=(5,),
    ),
    "a sheet that says dollars are its own": Sheet(
        text("""
date|record|title|price|cur
2024-05-31|bought|one|$45|AUD
2024-06-01|bought|two|38|NZD
"""),
        [
            "2024-05-31 bought - - - | paid 45 AUD",
            "2024-06-01 bought - - - | paid 38 NZD",
        ],
        {"base": "GBP"},
    ),
}


@pytest.fixture(scope="module")
def words():
    return sheet_words(load())


def shown(entry):
    money = [(name, getattr(entry, name)) for name in ("asked", "paid", "hammer", "postage")]
    told = " ".join(
        f"{name} {one.plain.removesuffix('.00')} {one.currency}" for name, one in money if one
    )
    fields = (entry.format or "-", entry.process or "-", entry.housing or "-")
    return f"{entry.date} {entry.record} {' '.join(fields)} | {told}", entry.title


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_is_read_as_meant(name, words):
    sheet = SHEETS[name]
    asked = {"words": words, **{key: sheet.said[key] for key in ("base",) if key in sheet.said}}
    first = read_csv(sheet.data, "prices.csv", ReadAs(**asked))
    assert tuple(one.name for one in first.questions) == sheet.asked
    assert bool(first.entries) == (first.open is None)
    found = read_csv(sheet.data, "prices.csv", ReadAs(words=words, **sheet.said))
    assert [str(one.says) for one in found.questions] == []
    for entry, wanted in zip(found.entries, sheet.rows, strict=True):
        fields, amounts, *titled = wanted.split(" | ")
        said, title = shown(entry)
        assert said == f"{fields} | {amounts}"
        assert [title] == (titled or [title])
    assert tuple(one.number for one in found.bad) == sheet.bad
    assert tuple(one.number for one in found.aside) == sheet.aside


def test_what_came_back_with_a_minus_is_asked_about_and_stops_nothing(words):
    rows = ("18,a tintype,38", "18,an ambrotype,40", "18,a cabinet card,5", "19,a tintype,-38")
    data = "\n".join(("date,title,price", *(f"2024-05-{row}" for row in rows))).encode()
    found = read_csv(data, "prices.csv", ReadAs(words=words, record="bought", base="GBP"))
    assert [one.paid.plain for one in found.entries] == ["38.00", "40.00", "5.00"]
    assert [(one.number, one.reason) for one in found.doubtful] == [
        (5, "'-38' stands with a minus")
    ]
    assert not found.bad


@pytest.mark.parametrize(
    ("cell", "wanted"),
    [
        ("2 3/4 x 3 1/4", "sixth"),
        ("2-3/4 x 3-1/4", "sixth"),
        ('2¾" × 3¼"', "sixth"),
        ("3.25 x 2.75 in", "sixth"),
        ("70 x 83 mm", "sixth"),
        ("7 x 8.3 cm", "sixth"),
        ("3 1/4 x 4 1/4", "quarter"),
        ("2 x 2 1/2", "ninth"),
        ("4 1/4 x 5 1/2", "half"),
        ("6 1/2 x 8 1/2 inches", "whole"),
        ("sixth plate, 2 3/4 x 3 1/4", "sixth"),
        ("1/6 plate (2 3/4 x 3 1/4)", "sixth"),
        ("2 1/2 x 4", "carte-de-visite"),
        ("1/6", "sixth"),
        ("¼ plate", "quarter"),
    ],
)
def test_a_size_is_the_format_that_it_measures(words, cell, wanted):
    assert words("format", cell) == wanted


@pytest.mark.parametrize(
    ("field_", "cell", "offered"),
    [
        ("format", "01-Jun", "sixth"),
        ("format", "1. Jun", "sixth"),
        ("format", "Jun-01", "sixth"),
        ("format", "06-Jan", "sixth"),
        ("format", "01-Sep", "ninth"),
        ("format", "Jan-04", "quarter"),
        ("format", "12-Jun", ""),
        ("format", "2 3/4", ""),
        ("format", "2 1/2 x 3", ""),
        ("format", "quarter plate 2 3/4 x 3 1/4", "quarter"),
        ("format", "big", ""),
        ("housing", "Leder", "leather-wood"),
        ("housing", "foo", ""),
        ("process", "wibble", ""),
        ("process", "not an ambrotype", ""),
        ("subjects", "zzz", ""),
    ],
)
def test_what_is_not_understood_is_offered_and_never_taken(words, field_, cell, offered):
    with pytest.raises(InputError) as caught:
        words(field_, cell)
    assert (caught.value.offers or ("",))[0] == offered


def test_unknown_words_are_named_and_kept_beside(words, tmp_path):
    data = text("""
date,record,title,housing,size,paid
2024-05-31,bought,one,ledr,01-Jun,5
2024-06-01,bought,two,foo bar,sixth,5
""")
    found = read_csv(data, "prices.csv", ReadAs(words=words))
    (asked,) = found.questions
    assert (asked.name, asked.needed) == ("meant", False)
    assert f"{asked.says}. {asked.mend}" == (
        "words that are not understood: housing: 'ledr', 'foo bar'; format: '01-Jun'. "
        "Write what each means, or nothing to leave it out: --word ledr=leather-wood "
        '--word "foo bar=" --word 01-Jun=sixth'
    )
    with opened(tmp_path / "log.sqlite") as log:
        import_csv(log, found)
        assert {one.housing for one in log.entries()} == {""}
        kept = [one.extra["columns"] for one in log.entries(sort="date")]
        assert [one["housing"] for one in kept] == ["ledr", "foo bar"]


def test_a_word_of_what_happened_that_is_not_understood_takes_nothing_in(words, tmp_path):
    data = b"date,record,paid\n2024-05-31,bought,5\n2024-06-01,blub,5\n"
    found = read_csv(data, "prices.csv", ReadAs(words=words))
    assert found.open is not None
    with opened(tmp_path / "log.sqlite") as log:
        with pytest.raises(InputError, match="words that are not understood: record: 'blub'"):
            import_csv(log, found)
        assert log.entries() == ()


def test_a_word_left_out_is_kept_aside(words):
    data = b"date,record,housing,paid\n2024-05-31,bought,foo,5\n"
    (entry,) = read_csv(data, "p.csv", ReadAs(words=words, meant={"FOO": ""})).entries
    assert entry.housing == ""
    assert entry.extra == {"columns": {"housing": "foo"}}


def test_one_text_may_mean_two_things_in_two_columns(words):
    data = b"date,record,process,housing,paid\n2024-05-31,bought,zz,zz,5\n"
    meant = {"process:zz": "tintype", "housing:zz": "paper-wood"}
    (entry,) = read_csv(data, "p.csv", ReadAs(words=words, meant=meant)).entries
    assert (entry.process, entry.housing) == ("tintype", "paper-wood")


@pytest.mark.parametrize(
    ("meant", "told"),
    [
        ({"fo": "leather-wood"}, "--word: there is no cell 'fo'. Did you mean 'foo'?"),
        ({"foo": "tinfoil"}, "--word: 'tinfoil' is not a known housing"),
        (
            {"foo": "lether"},
            "--word: 'lether' is not a known housing. Did you mean 'leather-wood'?",
        ),
    ],
)
def test_a_choice_of_words_that_does_not_fit_is_one_line(words, meant, told):
    data = b"date,record,housing,paid\n2024-05-31,bought,foo,5\n"
    with pytest.raises(InputError) as caught:
        read_csv(data, "p.csv", ReadAs(words=words, meant=meant))
    assert str(caught.value) == told


def test_a_header_piece_holds_piece_files_where_its_cells_are_such(words):
    own = read_csv(
        b'date,record,piece,paid\n2024-05-31,bought,"piece: 1\nkind: cased",5\n', "p.csv"
    )
    assert own.entries[0].piece.startswith("piece: 1")
    both = read_csv(b"date,record,title,piece,paid\n2024-05-31,bought,a,b,5\n", "p.csv")
    assert (both.entries[0].title, both.entries[0].extra) == ("a", {"columns": {"piece": "b"}})
