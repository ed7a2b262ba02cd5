"""What a spreadsheet's rows tell of: purchases, sales, prices seen, or nothing that happened.

The words are common practice in English, German, French, Italian, Spanish and Dutch.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from appraise.base.oneline import folded
from appraise.exchange import sheet_cells, sheet_days
from appraise.exchange.columns import Columns, speaks_of_purchase
from appraise.exchange.header_words import DATE_TARGETS, MONEY_TARGETS, PURCHASE, plain_name
from appraise.exchange.words import Words, listed, short_words

_WORDS: Mapping[str, str] = {
    "bought": """
        won; win; purchase; got it; mine; owned; in collection; collection; kept; keeper; have;
        acquired; yes bought; gekauft; kauf; ersteigert; gewonnen; erworben; ankauf; sammlung;
        achete; achat; gagne; remporte; acquis; comprato; acquisto; acquistato; vinto; comprado;
        compra; ganado; adquirido; gekocht; aankoop; gewonnen bod; aangekocht
    """,
    "sold": """
        sold on; resold; verkauft; verkauf; vendu; vente; venduto; vendita; vendido; venta;
        verkocht; verkoop
    """,
    "asking": """
        asked; passed; pass; left; left it; not bought; did not buy; seen; walked away; too
        dear; gesehen; gelassen; nicht gekauft; verlangt; gefordert; vu; laisse; pas achete;
        visto; lasciato; non comprato; dejado; no comprado; gezien; laten liggen; niet gekocht
    """,
    "hammer": """
        lost; outbid; underbidder; lost bid; zuschlag; verloren; uberboten; perdu; surencheri;
        adjuge; perso; aggiudicato; perdido; rematado; overboden; toegewezen
    """,
    "unsold": """
        no sale; bought in; not sold; passed in; reserve not met; unverkauft; nicht verkauft;
        zuruckgezogen; invendu; non vendu; invenduto; non venduto; no vendido; desierto;
        onverkocht; niet verkocht
    """,
    "gift": """
        present; given to me; inherited; heirloom; geschenk; geerbt; erbstuck; cadeau; offert;
        herite; regalo; regalato; ereditato; regalado; heredado; geschonken; geerfd; erfenis
    """,
    "swap": """
        trade; traded; exchange; tausch; getauscht; echange; scambio; cambio; intercambio; ruil
    """,
    "returned": """
        return; refund; zuruckgegeben; ruckgabe; rendu; retour; reso; devuelto; teruggestuurd
    """,
    "refused": """
        offer refused; offer declined; refused offer; abgelehnt; refuse; offre refusee;
        rifiutato; rechazado; geweigerd
    """,
}
_RECORD = {word: name for name, words in _WORDS.items() for word in listed(words)}
_NO_EVENT = frozenset(
    listed(
        """
        wanted; want; wish; wish list; wishlist; watching; watch; to buy; pending; cancelled;
        canceled; unpaid; on hold; reserved; planned; maybe; wunsch; gesucht; storniert;
        beobachtet; merken; offen; souhaite; annule; en attente; recherche; cercasi; annullato;
        in attesa; buscado; anulado; cancelado; pendiente; gezocht; geannuleerd; nog kopen
        """
    )
)
_RESULTS = ("hammer", "unsold")
_TITLES: Mapping[str, str] = {
    "bought": """
        purchases purchase bought collection inventory acquisitions buying einkauf einkaufe
        kaufe ankaufe sammlung sammlungsliste bestand achats collezione acquisti compras
        coleccion aankopen verzameling
    """,
    "sold": """
        sales verkaufe ventes vendite ventas verkopen
    """,
    "hammer": """
        results realised realized hammer zuschlage ergebnisse resultats risultati resultados
        uitslagen
    """,
    "asking": """
        seen asking offers
    """,
}
_TITLED = {word: name for name, words in _TITLES.items() for word in words.split()}
_TOTALS = re.compile(
    r"(?:grand |sub)?-?totals?|sums?|summe|gesamt|gesamtsumme|zwischensumme|insgesamt|somme|"
    r"total general|sous-total|totale|subtotale|somma|suma|totaal|subtotaal|som|average|mean|"
    r"median|moyenne|durchschnitt|mittelwert|media|gemiddelde|count|anzahl|nombre|balance|saldo|"
    r"ubertrag"
)
_OTHER_THINGS = re.compile(
    r"\b(?:books?|magazine|loupe|magnifier|catalogue (?:of|subscription)|subscription|membership|"
    r"storage box(?:es)?|sleeves|display stand|entry fee|admission|parking|petrol|train ticket|"
    r"hotel|archival (?:sleeves|box(?:es)?|paper)|acid.free|buch|bucher|lupe|eintritt|fahrkarte|"
    r"livres?|revue|entree|abonnement|libri|libro|libros|ingresso|lente|entrada|boek|boeken|"
    r"tijdschrift|vergrootglas|toegang)\b"
)
_STATES = frozenset(
    listed("in collection; owned; have; kept; keeper; keep; collection; sammlung; in sammlung")
)
_LONGEST = 60  # characters of a word of what happened
_ABOUT = frozenset(listed("on; about; of; for; uber; zu; sur; de; des; su; sui; sobre; over"))


@dataclass(frozen=True, slots=True)
class EventGuess:
    """Something that the program took for so, and why.

    Attributes:
        name: The field of `ReadAs` that says otherwise.
        value: What it was taken for.
        why: The reason.
    """

    name: str
    value: str
    why: str


def with_records(words: Words, columns: Columns, cells: Iterable[str]) -> Words:
    """The words of what happened in six languages, before all other words.

    In a column that tells of lots that did not sell, and of none that was bought, 'sold' is a
    hammer price that somebody else paid and 'passed' is unsold. In one that says where pieces are
    now whose price was paid, a piece that was sold since was bought.
    """
    said = {_RECORD.get(folded(cell), folded(cell)) for cell in cells}
    told = {folded(cell) for cell in cells}
    hammered = any(each.field == "hammer" for each in columns) or "unsold" in said
    results = hammered and "bought" not in said and bool({"unsold", "passed"} & (said | told))
    bought_once = _is_status(columns, told)

    words = short_words(words)

    def word(name: str, text: str) -> str:
        if name != "record" or len(text) > _LONGEST:
            return words(name, text)
        plain = folded(text.strip(" .!"))
        if results and plain in ("sold", "passed", "pass"):
            return _RESULTS[plain != "sold"]
        if bought_once and _RECORD.get(plain, plain) == "sold":
            return "bought"
        return _RECORD.get(plain) or words(name, text)

    return word


def _is_status(columns: Columns, told: set[str]) -> bool:
    """Whether a column of what happened says where pieces are now that were all bought once."""
    status = next((each for each in columns if each.field == "record"), None)
    paid = any(each.field == "paid" for each in columns)
    if status is None or not paid or any(each.field == "sold_price" for each in columns):
        return False
    name = set(plain_name(status.header).split())
    return bool(_STATES & told) or bool({"status", "stand", "statut", "stato", "state"} & name)


def is_no_event(cell: str) -> bool:
    """Whether a cell of what happened says that nothing did."""
    return folded(cell.strip(" .!")) in _NO_EVENT


def is_gift(cell: str) -> bool:
    """Whether a cell of an amount says that it was a gift."""
    plain = folded(cell.strip(" .!"))
    return _RECORD.get(plain) == "gift" or plain == "gift"


def record_of(columns: Columns, above: Sequence[str], file: str) -> EventGuess | None:
    """What happened in rows that do not say so themselves; None where nothing tells."""
    fields = {each.field for each in columns}
    told = next(speaks_of_purchase(columns), "")
    if told:
        return EventGuess("record", "bought", f"the column '{told}'")
    if "hammer" in fields and "paid" not in fields:
        beside = fields & {"premium", "postage"}
        found = "bought" if beside else "hammer"
        why = f"a hammer price with its {min(beside)}" if beside else "a column of hammer prices"
        return EventGuess("record", found, why)
    for text in (*above, file.rpartition(".")[0]):
        words = plain_name(text.replace("-", " ").replace("_", " ")).split()
        named = [_TITLED[word] for word in words if word in _TITLED]
        if not named and PURCHASE & set(words):
            named = ["bought"]
        if named:
            return EventGuess("record", named[0], f"'{sheet_cells.shortened(text)}'")
    if "asked" in fields and not fields & {"paid", "price"}:
        return EventGuess("record", "asking", "a column of asking prices")
    beside = fields & {"postage", "premium", "total", "tax", "fees"}
    if beside:
        return EventGuess("record", "bought", f"amounts of {' and '.join(sorted(beside))}")
    return None


def aside(cells: Sequence[str], columns: Columns) -> str:
    """Why a row is no entry: totals, a heading, a line, the header again; '' where it is one."""
    told = [cell.strip() for cell in cells if cell.strip()]
    if all(re.fullmatch(r"[-=_*.~ ]+", cell) for cell in told):
        return "a line"
    headers = [each.header.strip() for each in columns]
    if [cell.strip() for cell in cells[: len(columns)]] == headers:
        return "the header again"
    dated = any(
        each.field in DATE_TARGETS and sheet_days.is_day(cell)
        for cell, each in zip(cells, columns, strict=False)
    )
    if not dated and any(_TOTALS.match(folded(cell.strip(" :"))) for cell in told[:3]):
        first = next(c for c in told[:3] if _TOTALS.match(folded(c.strip(" :"))))
        if _TOTALS.fullmatch(re.sub(r"\W*\d.*|\W+\Z", "", folded(first))) or len(first) < 20:
            return "a row of totals"
    if len(told) == 1 and not dated:
        only = next(each for cell, each in zip(cells, columns, strict=False) if cell.strip())
        if only.field not in MONEY_TARGETS:
            return "a heading or a note"
    return ""


def year_of_heading(cells: Sequence[str]) -> str:
    """The year that a heading names; '' for none."""
    text = " ".join(cells)
    found = re.findall(r"\b(?:19|20)\d\d\b", text)
    return found[0] if len(set(found)) == 1 else ""


def is_other_thing(title: str, known: bool) -> bool:
    """Whether a title names what is no piece: a book, a loupe, boxes.

    Args:
        title: The title.
        known: Whether it names a process or a format: 'tintype in a book case' is a piece, 'book on
            tintypes' is none.
    """
    text = folded(title)
    found = _OTHER_THINGS.search(text)
    if not found or not known:
        return found is not None
    rest = text[found.end() :].split()[:1]
    return found.start() == 0 and (not rest or rest[0] in _ABOUT)
