"""Which column of a spreadsheet is which field of an entry: by its name, corrected by its cells."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from appraise.base.errors import InputError
from appraise.base.oneline import folded
from appraise.base.spelling import did_you_mean
from appraise.exchange import sheet_cells
from appraise.exchange.csv_file import plain
from appraise.exchange.currencies import header_currency
from appraise.exchange.tables import SheetTable
from appraise.exchange.words import WORD_FIELDS, Words, is_word
from appraise.records.entry import ATTRIBUTES, MONEY_FIELDS

# `price` becomes paid, hammer or asked, as the record says; `currency` goes for all amounts.
TARGETS = (*ATTRIBUTES, "price", "currency")
MONEY_TARGETS = (*MONEY_FIELDS, "price")
_SPELLINGS: Mapping[str, str] = {
    "record": "type; what happened; event; transaction; art; vorgang",
    "date": "day; bought on; date bought; date of purchase; purchase date; sale date; sold on; "
    "date acquired; acquired; datum; kaufdatum; data; fecha; date d achat; aankoopdatum",
    "channel": "bought at; kind of place; source type",
    "kind": "category",
    "process": "photo process; photographic process; technique; medium; verfahren; technik; "
    "procede; tecnica; techniek; procedimiento",
    "housing": "case; case material; case type; housed in; etui; gehause; coffret; ecrin; estuche",
    "format": "size; plate; plate size; photo size; formaat; grosse; plattengrosse; taille; "
    "formato",
    "title": "description; item; name; what; titel; beschreibung; gegenstand; bezeichnung; titre; "
    "objet; omschrijving; titolo; descrizione; titulo; descripcion",
    "motif": "pattern; case pattern; case motif; design",
    "subjects": "subject; sitter; subject type; shows",
    "quality": "image quality; picture quality; quality of image",
    "appeal": "rating; my rating; stars",
    "identified": "sitter known; sitter identified; named; id d",
    "maker": "photographer; studio; made by; artist; fotograf; photographe; fotografo; atelier",
    "maker_known": "maker known; photographer known",
    "condition_factor": "condition; condition share",
    "asked": "asking; asking price; ask; price asked; marked; marked price",
    "offered": "offer; my offer; bid; my bid; max bid",
    "paid": "price paid; i paid; cost; purchase price; total paid; spent; bezahlt; kaufpreis; "
    "prix paye; betaald; pagato; pagado",
    "hammer": "hammer price; sold for; winning bid; final bid; zuschlag; hammerpreis",
    "price": "amount; value; sale price; preis; betrag; prix; prijs; prezzo; precio",
    "postage": "shipping; ship; carriage; delivery; p p; post; postage and packing; shipping cost; "
    "shipping costs; porto; versand; versandkosten; frais de port; port; verzending; "
    "spedizione; envio",
    "venue": "where; place; location; market; sale; auction; shop; bought where; where bought; "
    "bought from; seller; ort; gekauft bei; verkaufer; lieu; vendeur; plaats; luogo; lugar",
    "note": "notes; comment; comments; remarks; remark; memo; bemerkung; bemerkungen; notiz; "
    "anmerkung; remarque; remarques; opmerking",
    "own_work": "own work; my work; made by me; assembled by me",
    "currency": "cur; ccy; wahrung; devise; valuta; moneda",
    "piece": "piece file",
}
_NAMED: dict[str, str] = {
    **{spelling: field for field, text in _SPELLINGS.items() for spelling in text.split("; ")},
    **{folded(field.replace("_", " ")): field for field in TARGETS},
}


@dataclass(frozen=True, slots=True)
class SheetColumn:
    """A column and what it was taken for.

    Attributes:
        header: Its name in the file.
        currency: The currency that its name tells; '' where it tells none.
        field: One of `TARGETS`; empty when it is none of ours: its cells are kept under
            the entry's `extra`, in "columns".
    """

    header: str
    field: str
    currency: str = ""


def columns(header: Sequence[str], chosen: Mapping[str, str], file: str) -> tuple[SheetColumn, ...]:
    """The columns of a table, each field taken once, from the left.

    Args:
        header: The file's first row.
        chosen: Header to field where the user decided; an empty field leaves it out.
        file: Its name for messages.

    Raises:
        InputError: when the user's choice names a column or a field that there is not.
    """
    for name, field in chosen.items():
        if name not in header:
            raise InputError(f"there is no column '{name}'", file, did_you_mean(name, header))
        if field and field not in TARGETS:
            raise InputError(f"field '{field}' is not known", file, did_you_mean(field, TARGETS))
    taken = set(chosen.values())
    found = []
    for name in header:
        currency, bare = header_currency(name)
        guess = _NAMED.get(_plain(name), "") or _NAMED.get(_plain(bare), "")
        field = chosen.get(name, "" if guess in taken else guess)
        taken.add(field)
        found.append(SheetColumn(name, field, currency if field in MONEY_TARGETS else ""))
    return tuple(found)


def _plain(name: str) -> str:
    """'Price paid (USD):' and 'price_paid' are one."""
    return " ".join(re.sub(r"\([^)]*\)|[^a-z0-9]", " ", folded(name)).split())


_ID = re.compile(r"[0-9a-f]{16}\Z")
_PIECE_FILE = re.compile(r"\s*(?:#.*\n\s*)*piece:", re.IGNORECASE)


def fitted(
    named: tuple[SheetColumn, ...], found: SheetTable, chosen: Mapping[str, str], words: Words
) -> tuple[SheetColumn, ...]:
    """The columns of a table, where their cells say otherwise than their names.

    Args:
        named: The columns by their names.
        found: The table.
        chosen: Header to field where the user decided, which stands.
        words: Turns a cell of a word field into the field's word.
    """
    named = _with_true_ids(named, found)
    return _with_fitting_words(_with_titles(named, found, chosen), found, chosen, words)


def _with_true_ids(named: tuple[SheetColumn, ...], found: SheetTable) -> tuple[SheetColumn, ...]:
    """A column of the user's own numbers is not one of ids that a log gave."""
    for place, each in enumerate(named):
        cells = [row[place].strip() for _, row in found.rows if place < len(row)]
        if each.field == "id" and not all(_ID.match(cell) for cell in cells if cell):
            return (*named[:place], SheetColumn(each.header, ""), *named[place + 1 :])
    return named


def _with_titles(
    named: tuple[SheetColumn, ...], found: SheetTable, chosen: Mapping[str, str]
) -> tuple[SheetColumn, ...]:
    """A column 'piece' of plain words is the title, or is kept aside where there is one."""
    for place, each in enumerate(named):
        if each.field != "piece" or each.header in chosen:
            continue
        cells = [row[place] for _, row in found.rows if place < len(row)]
        if not all(_PIECE_FILE.match(plain(cell)) for cell in cells if cell.strip()):
            titled = any(one.field == "title" for one in named)
            one = SheetColumn(each.header, "" if titled else "title")
            return (*named[:place], one, *named[place + 1 :])
    return named


def _with_fitting_words(
    named: tuple[SheetColumn, ...], found: SheetTable, chosen: Mapping[str, str], words: Words
) -> tuple[SheetColumn, ...]:
    """A column 'type' of processes is the process: words that fit one other field move there."""
    for place, each in enumerate(named):
        if each.field not in WORD_FIELDS or each.header in chosen:
            continue
        cells = {row[place].strip() for _, row in found.rows if place < len(row)}
        cells = {cell for cell in cells if not sheet_cells.is_nothing(cell)}
        if not cells or any(is_word(each.field, cell, words) for cell in cells):
            continue
        taken = {one.field for one in named}
        fits = [
            name
            for name in WORD_FIELDS
            if name not in taken and all(is_word(name, cell, words) for cell in cells)
        ]
        if fits:
            named = (*named[:place], SheetColumn(each.header, fits[0]), *named[place + 1 :])
    return named
