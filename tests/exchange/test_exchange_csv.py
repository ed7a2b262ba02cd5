"""CSV in and out: recognised or asked, whole or not at all, harmless to a spreadsheet."""

import csv
import datetime as dt
import io
from decimal import Decimal

import pytest
from every import every
from hypothesis import given
from hypothesis import strategies as st
from store import logkit
from store.logkit import bought, opened, usd
from thorough import tries

from appraise.base.errors import InputError
from appraise.base.logday import UNKNOWN_DAY
from appraise.base.money import Money
from appraise.exchange.csv_file import HEADER, harmless, plain, to_csv
from appraise.exchange.intake import take_in
from appraise.exchange.sheet_cells import amount, flag, point_of, settle_point
from appraise.exchange.sheet_days import day, settle_order
from appraise.exchange.sheets import ReadAs, import_csv, read_csv
from appraise.store.backup import backups


def read(text, **read_as):
    data = text if isinstance(text, bytes) else text.encode()
    return read_csv(data, "prices.csv", ReadAs(**read_as))


SIMPLE = """\
Date,Type,Description,Process,Price paid,Where
2021-06-01,bought,girl with a basket,Ambrotype,45.00,Brimley Fair
2021-06-02,asking,soldier,tintype,"1,200.00",
"""


def test_a_plain_sheet_is_read_by_its_column_names():
    found = read(SIMPLE)
    assert [(each.header, each.field) for each in found.columns] == [
        ("Date", "date"),
        ("Type", "record"),
        ("Description", "title"),
        ("Process", "process"),
        ("Price paid", "paid"),
        ("Where", "venue"),
    ]
    assert (found.encoding, found.delimiter, found.questions, found.bad) == ("utf-8", ",", (), ())
    one, two = found.entries
    assert (one.title, one.process, one.paid, one.venue) == (
        "girl with a basket",
        "ambrotype",
        usd("45.00"),
        "Brimley Fair",
    )
    assert two.paid == usd("1200.00")


@every("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@every("delimiter", [",", ";", "\t", "|"])
@every("ending", ["\n", "\r\n", "\r"])
def test_encoding_and_delimiter_are_recognised(encoding, delimiter, ending):
    rows = [
        ["date", "record", "title", "paid"],
        ["2021-06-01", "bought", "Frühe Platte, mit Etui; gut", "£45.00"],
        ["2021-06-02", "bought", "zweite", "£12.50"],
    ]
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter, lineterminator=ending).writerows(rows)
    found = read(out.getvalue().encode(encoding))
    assert found.delimiter == delimiter
    assert [entry.title for entry in found.entries] == [rows[1][2], "zweite"]
    assert found.entries[0].paid == Money.parse("45 GBP")


def test_a_delimiter_told_by_the_sheet_is_believed():
    found = read("sep=;\ndate;record;title;paid\n2021-06-01;bought;a, b;1,50\n")
    assert (found.delimiter, found.entries[0].paid) == (";", usd("1.50"))


@pytest.mark.parametrize(
    ("cell", "point"),
    [
        ("45", ""),
        ("45.00", "."),
        ("45,00", ","),
        ("45,5", ","),
        ("1,234", "?"),
        ("1.234", "?"),
        ("0,123", ","),
        ("1234,567", ","),
        ("1,234.50", "."),
        ("1.234,50", ","),
        ("1,234,567", "."),
        ("1.234.567", ","),
        ("$1,234", "?"),
        ("12,50 EUR", ","),
        ("rubbish", ""),
    ],
)
def test_which_decimal_point_a_cell_must_have(cell, point):
    assert point_of(cell) == point


@pytest.mark.parametrize(
    ("cell", "point", "wanted"),
    [
        ("45", ".", "45 USD"),
        ("45.00", ".", "45 USD"),
        ("45.", ".", "45 USD"),
        (".50", ".", "0.50 USD"),
        ("1,234", ".", "1234 USD"),
        ("1,234", ",", "1.234 USD"),
        ("1.234,50", ".", "1234.50 USD"),
        ("$ 45", ".", "45 USD"),
        ("US$45", ".", "45 USD"),
        ("£12.50", ".", "12.50 GBP"),
        ("12,50 €", ",", "12.50 EUR"),
        ("12,50 eur", ",", "12.50 EUR"),
        ("GBP 8", ".", "8 GBP"),
        ("1 234,50", ",", "1234.50 USD"),
        ("1\u202f234,50 €", ",", "1234.50 EUR"),
        ("1'234.50", ".", "1234.50 USD"),
    ],
)
def test_amounts(cell, point, wanted):
    number, code = wanted.split()
    assert amount(cell, point, "USD") == Money(Decimal(number), code)


@pytest.mark.parametrize(
    "cell",
    ["-45", "(45)", "45-50", "about 45", "1,23,456", "1..2", "4 5.0.0", "45 ZZZ", "₿45", "."],
)
def test_what_is_no_amount(cell):
    with pytest.raises(InputError):
        amount(cell, ".", "USD")


@pytest.mark.parametrize(
    ("cells", "point"),
    [
        (["45", "50"], "."),
        (["1,234", "45.00"], "."),
        (["1,234", "45,00"], ","),
        (["1,234"], "?"),
        (["1,234", "45.00", "45,00"], "?"),
        (["45.00", "45,00"], "."),
        ([], "."),
    ],
)
def test_the_decimal_point_of_a_file(cells, point):
    assert settle_point(cells) == point


@pytest.mark.parametrize(
    ("cell", "order", "wanted"),
    [
        ("2024-05-31", "day", "2024-05-31"),
        ("2024/5/31", "day", "2024-05-31"),
        ("2024-05-31 12:30", "day", "2024-05-31"),
        ("2024-05-31T12:30:05Z", "day", "2024-05-31"),
        ("31/05/2024", "month", "2024-05-31"),
        ("05/31/2024", "day", "2024-05-31"),
        ("5/31/24 0:00", "day", "2024-05-31"),
        ("03/04/2024", "day", "2024-04-03"),
        ("03/04/2024", "month", "2024-03-04"),
        ("3.4.2024", "month", "2024-04-03"),
        ("31 May 2024", "day", "2024-05-31"),
        ("31-May-24", "day", "2024-05-31"),
        ("May 31, 2024", "day", "2024-05-31"),
        ("1/2/69", "day", "1969-02-01"),
        ("1/2/68", "day", "2068-02-01"),
    ],
)
def test_days(cell, order, wanted):
    # POSIX strptime %y: 69 to 99 are 1969 to 1999, 00 to 68 are 2000 to 2068
    assert day(cell, order) == dt.date.fromisoformat(wanted)


@pytest.mark.parametrize(
    "cell",
    ["yesterday", "31/31/2024", "30/02/2024", "2024-05-31-1", "", "443", "1234567"],
)
def test_what_is_no_day(cell):
    with pytest.raises(InputError):
        day(cell, "day")


@given(st.dates(dt.date(1969, 1, 1), dt.date(2068, 12, 31)))
def test_two_figures_of_a_year_are_read_as_posix_does(date):
    assert (
        day(date.strftime("%m/%d/%y"), "month")
        == dt.datetime.strptime(date.strftime("%m/%d/%y"), "%m/%d/%y").date()
    )


@pytest.mark.parametrize(
    ("cells", "order"),
    [
        (["03/04/2024", "31/01/2024"], "day"),
        (["03/04/2024", "01/31/2024"], "month"),
        (["03/04/2024"], "?"),
        (["03/04/2024", "31/01/2024", "01/31/2024"], "?"),
        (["03/03/2024"], "day"),
        (["2024-05-31"], "day"),
    ],
)
def test_the_order_of_a_files_days(cells, order):
    assert settle_order(cells) == order


def test_flags():
    assert [flag(each) for each in ("yes", "X", "1", "No", "false", "0")] == [True] * 3 + [
        False
    ] * 3
    with pytest.raises(InputError, match="'maybe' is neither yes nor no"):
        flag("maybe")


OPEN = 'day,asking\n03/04/2024,"1,234"\n'


def test_what_a_file_leaves_open_is_asked(tmp_path):
    found = read(OPEN)
    assert [(each.name, each.says, each.choices[:2]) for each in found.questions] == [
        ("point", "is '1,234' more than a thousand, or does it have decimals?", (".", ",")),
        ("order", "does '03/04/2024' begin with the day or with the month?", ("day", "month")),
    ]
    assert [(one.name, one.value, one.why) for one in found.guesses] == [
        ("record", "asking", "a column of asking prices")
    ]
    assert (found.entries, found.bad) == ((), ())
    with opened(tmp_path / "log.sqlite") as log:
        with pytest.raises(InputError, match=r"prices\.csv: is '1,234' more than a thousand"):
            import_csv(log, found)
        answered = read(OPEN, point=".", order="day", record="asking")
        assert answered.questions == ()
        import_csv(log, answered)
        (entry,) = log.entries()
    assert (entry.date, entry.asked, entry.record) == (
        dt.date(2024, 4, 3),
        usd("1234"),
        "asking",
    )


def test_a_price_goes_where_the_record_says():
    rows = "date,type,price\n" + "".join(
        f"2024-01-01,{record},10\n"
        for record in ("bought", "asking", "hammer", "refused", "unsold")
    )
    found = read(rows).entries
    ten = usd("10")
    assert [(each.paid, each.asked, each.hammer) for each in found] == [
        (ten, None, None),
        (None, ten, None),
        (None, None, ten),
        (None, ten, None),
        (None, None, ten),
    ]


def test_the_currency_of_a_row_and_of_a_cell():
    found = read(
        "date,type,paid,postage,currency\n2024-01-01,bought,10.00,£3.00,eur\n", currency="USD"
    )
    assert found.entries[0].paid == Money.parse("10 EUR")
    assert found.entries[0].postage == Money.parse("3 GBP")


def test_columns_of_ones_own_are_kept():
    found = read(
        "date,type,paid,Box number,id\n2024-01-01,bought,10,B12,17\n2024-01-02,bought,9,,\n"
    )
    assert [each.field for each in found.columns] == ["date", "record", "paid", "", ""]
    assert found.entries[0].extra == {"columns": {"Box number": "B12", "id": "17"}}
    assert found.entries[1].extra == {}


def test_columns_can_be_chosen():
    text = "when,what,paid,cost\n2024-01-01,bought,10,20\n"
    found = read(text, columns={"when": "date", "what": "record", "paid": "", "cost": "paid"})
    assert found.entries[0].paid == usd("20")
    for chosen, message in (
        ({"wen": "date"}, "prices.csv: there is no column 'wen'. Did you mean 'when'?"),
        ({"when": "dat"}, "prices.csv: field 'dat' is not known. Did you mean 'date'?"),
    ):
        with pytest.raises(InputError) as caught:
            read(text, columns=chosen)
        assert str(caught.value) == message


def test_the_callers_words_are_asked():
    def words(field, text):
        if text == "nonsense":
            raise InputError(f"'{text}' is not known")
        return {"ambro": "ambrotype", "1/6": "sixth"}.get(text, text)

    found = read(
        "date,type,process,plate size,paid\n2024-01-01,bought,ambro,1/6,5\n"
        "2024-01-01,bought,nonsense,1/6,5\n",
        words=words,
    )
    assert (found.entries[0].process, found.entries[0].format) == ("ambrotype", "sixth")
    assert found.bad[0].reason == "process: 'nonsense' is not known"


BAD = """\
date,type,title,paid,appeal
2024-01-01,bought,good,10.00,3

yesterday,bought,no day,10.00,
2024-01-02,bougt,no record,10.00,
2024-01-03,bought,no price,cheap,
2024-01-04,bought,no eye,10.00,9
2024-01-05,bought,too wide,10.00,1,more
2024-01-06,bought,"two
lines",10.00,
,bought,empty day,10.00,
2024-01-07,bought,\x1b[2J,1.00,
2024-01-08,bought,also good,1.005,
"""


def test_bad_rows_are_numbered_as_a_spreadsheet_does():
    found = read(BAD)
    titles = ["good", "too wide", "two lines", "empty day"]
    assert [entry.title for entry in found.entries] == titles
    assert found.entries[1].extra == {"columns": {"column F": "more"}}
    assert found.entries[3].date == UNKNOWN_DAY
    assert [(each.number, each.reason) for each in found.bad] == [
        (5, "record: 'bougt' is not known. Did you mean 'bought'?"),
        (7, "appeal: 9 is not a whole number from 1 to 5"),
        (11, "title: holds a control character (U+001B). Remove it."),
        (12, "paid: 1.005 has more decimals than USD. Round it to 1.01 USD."),
    ]
    assert [(each.number, each.reason) for each in found.doubtful] == [
        (4, "'yesterday' is not a day"),
        (6, "'cheap' is no amount"),
    ]
    assert found.doubtful[0].cells == ("yesterday", "bought", "no day", "10.00", "")


def test_all_or_nothing_or_only_the_good_ones(tmp_path):
    found = read(BAD)
    with opened(tmp_path / "log.sqlite") as log:
        with pytest.raises(InputError) as caught:
            import_csv(log, found)
        assert str(caught.value) == (
            "prices.csv: 4 of 8 rows cannot be read, first row 5 (record: 'bougt' is not known. "
            "Did you mean 'bought'?). Nothing was imported. Correct the rows, or import "
            "only the good rows: --only-good."
        )
        assert log.entries() == ()
        assert len(import_csv(log, found, only_good=True).added) == 4
        assert len(log.entries()) == 4


def test_twice_adds_nothing(tmp_path):
    twins = "date,type,title,paid\n" + "2024-01-01,bought,a plate,10\n" * 3
    with opened(tmp_path / "log.sqlite") as log:
        assert len(import_csv(log, read(twins)).added) == 3
        again = import_csv(log, read(twins))
        assert (again.added, again.known) == ((), 3)
        grown = import_csv(log, read(twins + "2024-01-01,bought,a plate,10\n"))
        assert (len(grown.added), grown.known) == (1, 3)
        assert [each.reason for each in backups(log.path)] == ["import"]


def test_what_was_edited_or_removed_stays_so(tmp_path):
    text = "date,type,title,paid\n2024-01-01,bought,one,10\n2024-01-02,bought,two,10\n"
    with opened(tmp_path / "log.sqlite") as log:
        one, two = import_csv(log, read(text)).added
        log.edit(bought("mended").named(one))
        log.commit(drop=[two])
        assert import_csv(log, read(text)).added == ()
        assert [entry.title for entry in log.entries()] == ["mended"]


def test_an_import_is_undone_whole_and_taken_in_again(tmp_path):
    text = "date,type,title,paid\n2024-01-01,bought,one,10\n2024-01-02,bought,two,10\n"
    with opened(tmp_path / "log.sqlite") as log:
        first = import_csv(log, read(text)).added
        assert log.undo().of == "import"
        assert log.entries() == ()
        assert sorted(import_csv(log, read(text)).added) == sorted(first)
        assert len(log.entries()) == 2
        log.undo()
        assert log.entries() == ()
        log.redo()
        assert len(log.entries()) == 2


def test_an_entry_that_differs_is_told_and_replaced_only_on_request(tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        kept = log.add(bought("one"))
        other = bought("one, mended").named(kept.id)
        assert take_in(log, [other]).differing == (kept.id,)
        assert log.entry(kept.id) == kept
        assert take_in(log, [other], update=True).edited == (kept.id,)
        assert log.entry(kept.id) == other
        assert log.undo().of == "import"
        assert log.entry(kept.id) == kept


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "the table is empty"),
        (b"\n\n,,\n", "the table is empty"),
        (b"just one column\nx\n", "has only one column. Name its delimiter, one of , ; tab |."),
        (
            b"a,b\n1,2\n",
            "has no column of days and none of amounts. "
            "Name one: --column 'HEADER=date' or 'HEADER=price'.",
        ),
        (b"date,b\x00\n1,2\n", "is not text in UTF-8, UTF-16 or Windows-1252. Save it as UTF-8."),
        (b"\x81\x8d\x8f", "is not text in UTF-8, UTF-16 or Windows-1252. Save it as UTF-8."),
        (b"\xff\xfea", "is not text in UTF-8, UTF-16 or Windows-1252. Save it as UTF-8."),
    ],
)
def test_what_is_no_table(data, message):
    with pytest.raises(InputError) as caught:
        read(data)
    assert str(caught.value) == f"prices.csv: {message}"


def test_a_quotation_mark_left_open_swallows_nothing():
    text = 'date,type,title,paid\n2024-01-01,bought,"open,10\n2024-01-02,bought,two,10\n'
    with pytest.raises(
        InputError, match=r"prices\.csv:3: the quotation marks of row 2 do not match"
    ):
        read(text, delimiter=",")


def test_an_unknown_encoding_is_refused():
    with pytest.raises(InputError, match=r"encoding 'utf-9' is not known\. Known: utf-8"):
        read(SIMPLE, encoding="utf-9")


# Out


FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "＝1", "'=1", "'", "''x"]


@pytest.mark.parametrize("text", FORMULAS)
def test_no_cell_is_run_by_a_spreadsheet(text):
    # OWASP, "CSV Injection": = + - @, tab, carriage return, and their full-width forms
    assert harmless(text)[0] == "'"
    assert plain(harmless(text)) == text


@given(st.text())
def test_neutralising_can_be_taken_back(text):
    assert plain(harmless(text)) == text
    assert not harmless(text).startswith(tuple("=+-@\t\r\n＝＋－＠"))


def test_every_cell_of_an_export_is_harmless():
    evil = '=HYPERLINK("http://x","y")'
    entry = bought(
        evil, motif=evil, venue="@x", note="+1\n=2", extra={"=k": evil}, piece="-piece: 1"
    )
    rows = list(csv.reader(io.StringIO(to_csv([entry]).decode("utf-8-sig"))))
    assert rows[0] == list(HEADER)
    assert not [cell for row in rows for cell in row if cell.startswith(tuple("=+-@\t\r"))]


ids = st.just("") | st.text("0123456789abcdef", min_size=16, max_size=16)
named = st.lists(st.builds(lambda entry, key: entry.named(key), logkit.entries, ids), max_size=3)


@tries(75)
@given(named.filter(bool), st.sampled_from(",;\t|"))
def test_what_goes_out_comes_in_again(entries, delimiter):
    found = read_csv(to_csv(entries, delimiter=delimiter), "out.csv", ReadAs(delimiter=delimiter))
    assert (found.bad, found.questions) == ((), ())
    assert found.entries == tuple(entries)


def test_an_export_taken_in_elsewhere_is_the_same_log(tmp_path):
    with opened(tmp_path / "a" / "log.sqlite") as log:
        log.add_all([bought("one"), bought("two", "12.50", note="several\nlines")])
        data, wanted = to_csv(log.entries()), log.entries()
    with opened(tmp_path / "b" / "log.sqlite", "laptop") as log:
        import_csv(log, read(data))
        assert set(log.entries()) == set(wanted)
        assert import_csv(log, read(data)).known == 2


@tries(150)
@given(
    st.binary(max_size=300)
    | st.text(max_size=300).map(str.encode)
    | st.text('date,type;"\n\r\t=1./-', max_size=300).map(
        lambda text: b"date,type\n" + text.encode()
    )
)
def test_any_bytes_are_read_or_refused_in_one_line(data):
    line = ""
    try:
        found = read_csv(data, "prices.csv")
    except InputError as error:
        line = str(error)
    else:
        assert all("\n" not in each.reason for each in found.bad)
    assert "\n" not in line


def test_a_cell_too_long_is_told_as_such():
    data = b'date,type,title\n2024-01-01,bought,"' + b"x" * 5_000_000 + b'"\n'
    with pytest.raises(InputError) as caught:
        read(data)
    assert str(caught.value) == (
        "prices.csv:2: a cell of row 2 is longer than 4,000,000 characters. "
        "Shorten it, or look for a quotation mark that was left open."
    )


def test_a_message_quotes_no_more_than_a_line_bears():
    for cell in (b"9" * 400, b"x" * 400):
        found = read(b"date,type,paid\n2024-01-01,bought," + cell + b"\n")
        (row,) = (*found.bad, *found.doubtful)
        assert "is not an amount of money" in row.reason or "is no amount" in row.reason
        assert len(row.reason) < 120


def test_marks_that_turn_the_reading_direction_are_taken_out():
    # Unicode Standard Annex 9: LRE to RLO and LRI to PDI reorder what stands around them
    found = read("date,type,title\n2024-01-01,bought,vine\u202e gnp.exe\u2066\n".encode())
    assert found.entries[0].title == "vine gnp.exe"
