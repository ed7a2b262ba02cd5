"""Spreadsheets as people keep them, without any option; all that they hold is invented.

Each stands with the entries that it gives: day, record, process, format, housing, amounts, place.
"""

import csv
import io
import json

import pytest
from store.logkit import bought, opened, usd

from appraise.base.errors import InputError
from appraise.base.logday import read_log_day
from appraise.cli.main import run
from appraise.exchange.csv_file import to_csv
from appraise.exchange.header_words import named_field
from appraise.exchange.sheets import ReadAs, import_csv, read_csv
from appraise.exchange.tables import table
from appraise.exchange.vocabulary import shipped_vocabulary
from appraise.knowledge import load
from appraise.listing.cellwords import sheet_words
from appraise.listing.title_words import title_words
from appraise.records.entry import MONEY_FIELDS

ORDERS = io.StringIO()
csv.writer(ORDERS).writerows(
    [
        ["Order ID", "Order Date", "Item Title", "Seller Name", "Item Price",
         "Shipping And Handling", "Sales Tax", "Order Total", "Currency",
         *(f"Extra {number}" for number in range(38)), "", "", "Note", "Note"],
        ["12-1", "Mar 3, 2021", "Antique Sixth Plate Tintype Soldier", "barn pictures", "$45.00",
         "$5.50", "$3.71", "$54.21", "USD", *["v"] * 38, "a", "b", "n1", "n2"],
        ["12-2", "Apr 13, 2021", "1/9 plate daguerreotype young woman", "plate man", "$125.00",
         "Free", "$10.31", "$135.31", "USD", *["v"] * 38, "", "c", "", ""],
    ]
)  # fmt: skip

SHEETS = {
    "titles above, days in part, a purchase and its sale, a gift, totals": (
        """
My cased photograph collection,,,,,,,
Last updated March 2024,,,,,,,
,,,,,,,
Date bought,Item,Where from,Price paid,P&P,Condition,Date sold,Sold for
12/03/2019,Sixth plate ambrotype of a lady in leather case,Harbour fair,£45.00,,VG,,
Spring 2019,Ninth plate dag of a boy,Online,£120,£6.50,Good,14/02/2021,£180
,"Tintype, two men in hats, no case",boot sale,£5,,,,
05/2020,Union case with sixth plate ambrotype of a girl,auction,£1250.00,£12.00,crack,,
about 2015,Half plate ambro family group,An attic,gift,,,,
Total,,,"£1,420.00",£18.50,,,£180
""",
        [
            "2019-03-12 bought ambrotype sixth leather-wood paid 45.00 GBP at Harbour fair",
            "2019-21 bought daguerreotype ninth - paid 120.00 GBP postage 6.50 GBP at Online",
            "2021-02-14 sold daguerreotype ninth - paid 180.00 GBP",
            "unknown bought tintype - - paid 5.00 GBP at boot sale",
            "2020-05 bought ambrotype sixth thermoplastic paid 1250.00 GBP postage 12.00 GBP "
            "at auction",
            "2015~ gift ambrotype half - at An attic",
        ],
        {10: "a row of totals"},
    ),
    "no header": (
        """
2021-03-04,Sixth plate tintype of soldier,Quay market,£38.00
2021-04-11,Ninth plate ambrotype lady,Quay market,£22.50
2021-05-02,Carte de visite of dog,online,£9.00
""",
        [
            "2021-03-04 bought tintype sixth - paid 38.00 GBP at Quay market",
            "2021-04-11 bought ambrotype ninth - paid 22.50 GBP at Quay market",
            "2021-05-02 bought - carte-de-visite - paid 9.00 GBP at online",
        ],
        {},
    ),
    "lots won, lost and passed": (
        """
Sale Date,Lot,Description,Estimate,My max,Hammer,BP,Result
03/14/2022,112,"Quarter plate daguerreotype, man with violin",$200-300,$260,$240,$60,Won
03/14/2022,118,Sixth plate ambrotype of a woman,$80-120,$100,$170,,Lost
05/21/2022,9,Ninth plate daguerreotype baby,$100-150,$90,,,Passed
""",
        [
            "2022-03-14 bought daguerreotype quarter - offered 260.00 USD hammer 240.00 USD "
            "premium 60.00 USD",
            "2022-03-14 hammer ambrotype sixth - offered 100.00 USD hammer 170.00 USD",
            "2022-05-21 asking daguerreotype ninth - offered 90.00 USD",
        ],
        {},
    ),
    "serial days, money that went out, UTF-16": (
        "Date\tDescription\tAmount\n43525\tsixth plate ambrotype of man\t-45.00\n"
        "43900\tQuarter plate dag\t-210.50\n".encode("utf-16"),
        # 43525 is 1 March 2019: ECMA-376 part 1, 18.17.4.1, the 1900 date base
        [
            "2019-03-01 bought ambrotype sixth - paid 45.00 USD",
            "2020-03-10 bought daguerreotype quarter - paid 210.50 USD",
        ],
        {},
    ),
    "years as headings": (
        """
2019,,,
Date,What,Cost,Notes
12 May,sixth plate ambro,$38,nice tones
2020,,,
2 Feb,ninth plate tintype,$25,
Subtotal,,$63,
""",
        [
            "2019-05-12 bought ambrotype sixth - paid 38.00 USD",
            "2020-02-02 bought tintype ninth - paid 25.00 USD",
        ],
        {4: "a heading or a note", 6: "a row of totals"},
    ),
    "what is no event": (
        """
Bought?,Item,Price,Date
TRUE,"1/6 plate daguerreotype, lady",95,6/1/2023
FALSE,"1/4 plate ambrotype, couple",150,6/4/2023
TRUE,Book on tintypes,18,6/19/2023
TRUE,ninth plate tintype boy,0,6/20/2023
TRUE,a frame,,
""",
        ["2023-06-01 bought daguerreotype sixth - paid 95.00 USD"],
        {
            3: "Bought? is FALSE",
            4: "it may be no photograph",
            5: "a price of 0",
            6: "neither a day nor an amount",
        },
    ),
    "groups of columns above the header": (
        """
,Purchase,,,Sale,,
Piece,Date,Price,From,Date,Price,To
Sixth plate ambrotype lady,2018-05-01,45 GBP,fair,2020-01-02,80 GBP,dealer
Ninth plate dag man,2018-06-01,145 GBP,fair,,,
""",
        [
            "2018-05-01 bought ambrotype sixth - paid 45.00 GBP at fair",
            "2020-01-02 sold ambrotype sixth - paid 80.00 GBP at dealer",
            "2018-06-01 bought daguerreotype ninth - paid 145.00 GBP at fair",
        ],
        {},
    ),
    "merged cells": (
        """
Date,Fair,Description,Paid
2022-05-07,Harbour fair,sixth plate ambrotype man,£30
,,ninth plate tintype child,£12
2022-06-11,Town hall fair,quarter plate daguerreotype,£220
,,sixth plate tintype couple,£18
""",
        [
            "2022-05-07 bought ambrotype sixth - paid 30.00 GBP at Harbour fair",
            "2022-05-07 bought tintype ninth - paid 12.00 GBP at Harbour fair",
            "2022-06-11 bought daguerreotype quarter - paid 220.00 GBP at Town hall fair",
            "2022-06-11 bought tintype sixth - paid 18.00 GBP at Town hall fair",
        ],
        {},
    ),
    "German, Windows-1252": (
        """
Nr.;Kaufdatum;Gegenstand;Verfahren;Größe;Kaufpreis;Aufgeld;MwSt;Porto;Verkäufer
1;12.3.19;Dame mit Haube;Daguerreotypie;1/6;1.250,00 €;287,50 €;54,63 €;12,-;Auktionshaus
2;Sommer 2018;Soldat;Ferrotypie;CDV;15,- €;;;frei;Flohmarkt
""".encode("cp1252"),
        [
            "2019-03-12 bought daguerreotype sixth - paid 1250.00 EUR premium 287.50 EUR "
            "tax 54.63 EUR postage 12.00 EUR at Auktionshaus",
            "2018-22 bought tintype carte-de-visite - paid 15.00 EUR at Flohmarkt",
        ],
        {},
    ),
    "French": (
        """
Date d'achat;Titre;Procédé;Format;Prix d'achat (€);Frais de port;Lieu;Date de vente;Prix de vente
3 mai 2018;Portrait d'homme;daguerréotype;1/6 plaque;180,00;;Brocante;;
été 2019;Femme assise;ambrotype;1/9 plaque;45,00;6,00;Vide-grenier;12 juin 2021;90,00
""",
        [
            "2018-05-03 bought daguerreotype sixth - paid 180.00 EUR at Brocante",
            "2019-22 bought ambrotype ninth - paid 45.00 EUR postage 6.00 EUR at Vide-grenier",
            "2021-06-12 sold ambrotype ninth - paid 90.00 EUR",
        ],
        {},
    ),
    "Italian": (
        """
Data;Descrizione;Tecnica;Formato;Prezzo;Diritti d'asta;Spedizione;Venditore;Esito
12/03/2019;Ritratto di donna;dagherrotipo;1/6;€ 180,00;€ 45,00;€ 15,00;Casa d'aste;vinto
03/04/2019;Uomo con cappello;ambrotipo;1/9;€ 60,00;;;Mercatino;comprato
25/05/2019;Bambino;ferrotipia;CDV;€ 22,00;;;Casa d'aste;perso
""",
        [
            "2019-03-12 bought daguerreotype sixth - hammer 180.00 EUR premium 45.00 EUR "
            "postage 15.00 EUR at Casa d'aste",
            "2019-04-03 bought ambrotype ninth - paid 60.00 EUR at Mercatino",
            "2019-05-25 hammer tintype carte-de-visite - hammer 22.00 EUR at Casa d'aste",
        ],
        {},
    ),
    "Spanish, with columns of no name": (
        """
Fecha;Descripción;Precio;Envío;Vendedor;Notas;;Notas
15 de mayo de 2019;Ambrotipo sexto de placa, hombre;45,00 €;5,00 €;Rastro;ok;x;y
otoño 2020;Daguerrotipo;1.200,00 €;;Subasta;;;
""",
        [
            "2019-05-15 bought ambrotype sixth - paid 45.00 EUR postage 5.00 EUR at Rastro",
            "2020-23 bought daguerreotype - - paid 1200.00 EUR at Subasta",
        ],
        {},
    ),
    "Dutch, days and months by the header's language": (
        """
sep=;
"Datum";"Omschrijving";"Techniek";"Prijs (EUR)";"Verzendkosten";"Verkocht op";"Verkoopprijs"
"12-03-18";"Ambrotypie 1/6 plaat vrouw";"ambrotypie";"45,00";"6,95";"";""
"voorjaar 2019";"Daguerreotypie man";"daguerreotypie";"1.150,00";"";"3-11-2021";"1.400,00"
""",
        [
            "2018-03-12 bought ambrotype sixth - paid 45.00 EUR postage 6.95 EUR",
            "2019-21 bought daguerreotype - - paid 1150.00 EUR",
            "2021-11-03 sold daguerreotype - - paid 1400.00 EUR",
        ],
        {},
    ),
    "an export of orders with forty columns of its own": (
        ORDERS.getvalue(),
        [
            "2021-03-03 bought tintype sixth - paid 45.00 USD tax 3.71 USD postage 5.50 USD "
            "at barn pictures",
            "2021-04-13 bought daguerreotype ninth - paid 125.00 USD tax 10.31 USD at plate man",
        ],
        {},
    ),
    "where the pieces are now": (
        """
Year,Piece,Process,Paid,Where,Status
2016,lady with a fan,dag,£140,dealer,in collection
2017,boy with hoop,ambro,£55,fair,sold
?,old man,ambro,,from an aunt,in collection
2020,two clerks,dag,£320,auction,wanted
""",
        [
            "2016 bought daguerreotype - - paid 140.00 GBP at dealer",
            "2017 bought ambrotype - - paid 55.00 GBP at fair",
        ],
        {4: "neither a day nor an amount", 5: "'wanted' says that nothing happened"},
    ),
}


@pytest.fixture(scope="module")
def trade():
    knowledge = load()
    return {"words": sheet_words(knowledge), "titles": title_words(knowledge)}


def shown(entry):
    amounts = [(name, getattr(entry, name)) for name in MONEY_FIELDS]
    parts = [
        str(entry.date),
        entry.record,
        *(word or "-" for word in (entry.process, entry.format, entry.housing)),
        *(f"{name} {one}" for name, one in amounts if one is not None),
        *([f"at {entry.venue}"] if entry.venue else []),
    ]
    return " ".join(parts)


def read(data, trade, name="purchases.csv", **said):
    data = data if isinstance(data, bytes) else data.lstrip("\n").encode()
    return read_csv(data, name, ReadAs(**trade, **said))


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_comes_in_without_options(name, trade):
    data, rows, left = SHEETS[name]
    found = read(data, trade)
    assert found.open is None
    assert [shown(entry) for entry in found.entries] == rows
    assert found.bad == ()
    assert {one.number: one.reason for one in found.left_out} == left


def test_columns_of_ones_own_are_kept_by_name_or_letter(trade):
    first, second = read(
        SHEETS["an export of orders with forty columns of its own"][0], trade
    ).entries
    kept = first.extra["columns"]
    assert (kept["column AV"], kept["column AW"], kept["Note (2)"]) == ("a", "b", "n2")
    assert first.note == "n1"
    assert len([name for name in kept if name.startswith("Extra")]) == 38
    assert kept["Order Total"] == "$54.21"
    assert "column AV" not in second.extra["columns"]


def test_every_guess_has_a_reason_and_is_changed_by_one_option(trade):
    found = read(SHEETS["no header"][0], trade)
    assert {each.header: (each.field, each.why) for each in found.columns} == {
        "column A": ("date", "its cells are days"),
        "column B": ("title", "its cells are descriptions"),
        "column C": ("venue", "its cells are places and people"),
        "column D": ("price", "its cells are amounts"),
    }
    assert [(one.name, one.value) for one in found.guesses] == [("record", "bought")]
    other = read(SHEETS["no header"][0], trade, columns={"column C": "note"}, record="asking")
    assert shown(other.entries[0]).endswith("asked 38.00 GBP")
    merged = read(SHEETS["merged cells"][0], trade, blank_days="unknown")
    assert [str(one.date) for one in merged.entries][:2] == ["2022-05-07", "unknown"]
    doubtful = read(SHEETS["what is no event"][0], trade, doubtful="import")
    assert len(doubtful.entries) == 5


def test_what_nothing_tells_is_asked_but_for_a_purchase(trade):
    found = read("Date,What,Price\n01/02/2020,tintype,45\n", trade, name="list.csv")
    assert [one.name for one in found.questions] == ["order"]
    assert [(one.name, one.value) for one in found.guesses] == [("record", "bought")]


@pytest.mark.parametrize(
    ("rows", "order"),
    [
        ("01/02/2020 03/04/2020 12/05/2020 04/06/2020 07/08/2020", "day"),
        ("01/02/2020 01/07/2020 02/03/2020 02/09/2020 04/05/2020", "month"),
    ],
)
def test_the_order_in_which_days_follow_one_another(rows, order, trade):
    lines = "".join(f"{day},tintype,45\n" for day in rows.split())
    found = read(f"Date,What,Cost\n{lines}", trade)
    (guess,) = [one for one in found.guesses if one.name == "order"]
    assert (guess.value, guess.why) == (order, "so the rows follow one another in time")


def test_the_same_file_adds_nothing_whatever_options_are_given(trade, tmp_path):
    data = SHEETS["titles above, days in part, a purchase and its sale, a gift, totals"][0]
    with opened(tmp_path / "log.sqlite") as log:
        assert len(import_csv(log, read(data, trade)).added) == 6
        for said in (
            {"record": "asking"},
            {"columns": {"Item": "note"}},
            {"currency": "EUR", "channel": "fair"},
            {"order": "month"},
        ):
            again = import_csv(log, read(data, trade, **said))
            assert (again.added, again.known, again.doubles) == ((), 6, ())
        assert len(log.entries()) == 6


def test_day_and_price_of_an_entry_are_asked_about(trade, tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        known = log.add(bought("typed by hand", "38.00", date=read_log_day("2021-03-04")))
        data = SHEETS["no header"][0].replace("£", "$")
        taken = import_csv(log, read(data, trade))
        assert [one.known for one in taken.doubles] == [known.id]
        assert len(taken.added) == 2
        assert import_csv(log, read(data, trade)).added == ()
        assert len(import_csv(log, read(data, trade), doubles="add").added) == 1


def test_update_takes_what_the_file_tells_and_leaves_the_rest(trade, tmp_path):
    with opened(tmp_path / "log.sqlite") as log:
        kept = log.add(bought("girl", "45.00", venue="fair", note="kept"))
        data = f"id,date,record,title,paid\n{kept.id},2024-05-30,bought,girl with drum,46\n"
        assert import_csv(log, read(data, trade)).differing == (kept.id,)
        assert import_csv(log, read(data, trade), update=True).edited == (kept.id,)
        now = log.entry(kept.id)
        assert (now.title, now.paid, now.venue, now.note) == (
            "girl with drum", usd("46"), "fair", "kept",
        )  # fmt: skip
        out = to_csv(log.entries()).replace(b"girl with drum", b"girl again")
        assert import_csv(log, read_csv(out, "log.csv"), update=True).edited == (kept.id,)
        assert log.entry(kept.id).title == "girl again"


def test_ids_that_a_spreadsheet_has_spoilt_are_refused(trade):
    rows = "0123456789abcdef,2024-01-01,bought,5\n1.23457E+15,2024-01-02,bought,6\n"
    with pytest.raises(InputError, match="was an id before a spreadsheet took it for a number"):
        read(f"id,date,record,paid\n{rows}", trade)


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"]
)
def test_encodings(encoding):
    found = table("Datum;Größe\n1.2.2020;groß\n".encode(encoding), "p.csv", shipped_vocabulary())
    assert found.header == ("Datum", "Größe")


@pytest.mark.parametrize(
    ("name", "field"),
    [
        ("Price I paid", "paid"),
        ("What I paid for it", "paid"),
        ("Price paid (USD)", "paid"),
        ("Estimate low", ""),
        ("Insurance value", ""),
        ("Buyer's premium", "premium"),
        ("Kaufpreis EUR", "paid"),
        ("Prix d'achat", "paid"),
        ("Fecha de compra", "date"),
        ("Lot no.", ""),
    ],
)
def test_names_of_columns(name, field):
    assert named_field(name, shipped_vocabulary()) == field


def test_the_command_names_what_it_leaves_out_and_why(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("APPRAISE_HOME", str(tmp_path / "home"))
    path = tmp_path / "finds.csv"
    path.write_text(SHEETS["what is no event"][0].lstrip("\n"), encoding="utf-8")
    assert run(["log", "import", str(path), "--json"]) == 0
    told = capsys.readouterr()
    document = json.loads(told.out)
    assert len(document["added"]) == 1
    assert document["left_out"] == [3, 4, 5, 6]
    assert "row 4 is left out: it may be no photograph" in told.err
    assert "--doubtful import takes them in" in told.err


@pytest.mark.parametrize(
    "field", ["date", "record", "title", "paid", "postage", "process", "appeal"]
)
@pytest.mark.parametrize("mark", [" ", "1 ", "(", "-", "1.", ";", "x 1"])
def test_a_cell_of_any_length_is_read_in_a_line(field, mark, trade):
    """No pattern goes over a long cell again and again: its work is counted, not its time."""
    cell = f"4{(mark * 32_000)[:32_000]}x"
    looked = []
    taught = trade["words"]
    counted = {**trade, "words": lambda name, text: looked.append(len(text)) or taught(name, text)}
    columns = [name for name in ("date", "record", "paid") if name != field]
    usual = {"date": "2024-05-31", "record": "bought", "paid": "5"}
    rows = [[*(usual[name] for name in columns), text] for text in (cell, "5")]
    out = io.StringIO()
    csv.writer(out).writerows([[*columns, field], *rows])
    found = read(out.getvalue(), counted)
    assert len(found.entries) + len(found.bad) + len(found.doubtful) in (0, 1, 2)
    assert max(looked, default=0) <= 200
