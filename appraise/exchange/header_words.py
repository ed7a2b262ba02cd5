"""What the columns of spreadsheets are called: in English, German, French, Italian, Spanish, Dutch.

The words are common practice: what people write above a column. A name is one of them as a whole,
or holds one that is long enough to mean nothing else.
"""

import re
from collections.abc import Mapping
from functools import lru_cache

from appraise.base.oneline import folded
from appraise.exchange.currencies import header_currency
from appraise.exchange.words import listed
from appraise.records.entry import ATTRIBUTES, BESIDE, MONEY_FIELDS

SALE = {"sold_date": "date", "sold_price": "paid", "sold_venue": "venue", "sold_fees": "fees",
        "sold_postage": "postage"}  # fmt: skip
"""Columns of a sale that stand in the row of a purchase, and the field of the sale's own entry."""
# `price` becomes paid, hammer or asked, as the record says; `total` is all of a bill, `currency`
# goes for all amounts, `done` is yes where it came to pass.
TARGETS = (*ATTRIBUTES, "price", "total", "currency", "done", *SALE)
MONEY_TARGETS = (*MONEY_FIELDS, "price", "total", "sold_price", "sold_fees", "sold_postage")
BESIDE_TARGETS = (*BESIDE, "sold_fees", "sold_postage")
DATE_TARGETS = ("date", "sold_date")

_SPELLINGS: Mapping[str, str] = {
    "record": """
        type; what happened; event; transaction; transaction type; status; outcome; result;
        action; won lost; art; vorgang; ergebnis; stand; operation; evenement; resultat; statut;
        esito; operazione; stato; resultado; operacion; estado; resultaat; soort
    """,
    "date": """
        day; when; date; bought on; date bought; date of purchase; purchase date; bought date;
        bought when; when bought; date purchased; purchased; purchased on; date acquired;
        acquired; acquired on; acquisition date; date of acquisition; auction date; sale date;
        date of sale; date seen; seen on; seen; datum; tag; kaufdatum; gekauft am; erworben;
        erworben am; erwerbsdatum; auktionsdatum; data; data acquisto; data di acquisto;
        acquistato il; comprato il; fecha; fecha de compra; fecha compra; comprado el; date
        achat; date d achat; achete le; acquis le; jour; aankoopdatum; gekocht op; datum
        aankoop; aangekocht; year; jahr; annee; anno; ano; jaar; year bought; year acquired;
        when acquired; month; date paid
    """,
    "sold_date": """
        date sold; sold on; sold date; when sold; date of my sale; verkauft am; verkaufsdatum;
        vendu le; date de vente; date vente; venduto il; data vendita; data di vendita; vendido
        el; fecha de venta; fecha venta; verkocht op; verkoopdatum; sold when
    """,
    "sold_price": """
        sold for; sold price; price sold; sale proceeds; sold at; selling price; sale price;
        resold for; verkauft fur; verkaufspreis; verkauft; vendu; vendu pour; prix de vente;
        venduto; venduto a; prezzo di vendita; vendido; vendido por; precio de venta; verkocht;
        verkocht voor; verkoopprijs; erlos; proceeds; sold
    """,
    "sold_venue": """
        sold to; sale to; sold where; where sold; buyer; sold via; verkauft an; kaufer; vendu a;
        acheteur; venduto a chi; acquirente; vendido a; comprador; verkocht aan; koper
    """,
    "sold_fees": """
        selling fees; selling fee; seller fees; seller fee; sale fees; commission;
        verkaufsgebuhren; frais de vente; commissioni; comision; verkoopkosten
    """,
    "sold_postage": """
        postage paid on sale; postage out; shipping out; outgoing postage
    """,
    "channel": """
        kind of place; source type; channel; venue type; type of venue; art des kaufs
    """,
    "kind": """
        category; kind; kategorie; categorie; categoria
    """,
    "process": """
        photo process; photographic process; process; technique; medium; photo type; image type;
        type of photo; type of image; type of photograph; verfahren; technik; fotoverfahren;
        procede; technique photographique; tecnica; procedimento; processo; techniek; procede;
        procedimiento; proceso; tipo de foto
    """,
    "housing": """
        case; case material; case type; housed in; housing; type of case; case or frame; frame;
        case frame; etui; gehause; etuimaterial; rahmen; fassung; coffret; ecrin; etui cadre;
        cadre; boitier; astuccio; custodia; cornice; estuche; marco; cassetta; doosje; lijst
    """,
    "format": """
        size; plate; plate size; photo size; format; image size; case size; dimensions; formaat;
        grosse; plattengrosse; plattenformat; mass; taille; dimension; plaque; formato;
        dimensioni; misura; lastra; tamano; medidas; placa; afmeting; maat; plaatmaat
    """,
    "title": """
        description; item; item name; item title; lot title; listing title; name; what; title;
        object; piece name; image description; details; item description; product; titel;
        beschreibung; gegenstand; bezeichnung; objekt; artikel; was; motiv und beschreibung;
        titre; objet; designation; description de l objet; article; omschrijving; voorwerp;
        titolo; descrizione; oggetto; articolo; titulo; descripcion; objeto; articulo; pieza;
        pezzo; stuck; piece description; what it is; what i bought; foto
    """,
    "motif": """
        pattern; case pattern; case motif; design; case design; motif; muster; motivo
    """,
    "subjects": """
        subject; subjects; sitter; subject type; shows; sitters; dargestellt; motiv; sujet;
        soggetto; sujeto; tema; onderwerp; afbeelding
    """,
    "quality": """
        image quality; picture quality; quality of image; quality
    """,
    "appeal": """
        rating; my rating; stars; appeal
    """,
    "identified": """
        sitter known; sitter identified; named; id d; identified
    """,
    "maker": """
        photographer; studio; made by; artist; maker; photographer or maker; fotograf;
        photographe; fotografo; atelier; hersteller; fotograaf; estudio
    """,
    "maker_known": """
        maker known; photographer known
    """,
    "condition_factor": """
        condition; condition share; zustand; etat; condizione; condizioni; estado de
        conservacion; conservacion; staat; toestand; conservazione
    """,
    "asked": """
        asking; asking price; ask; price asked; marked; marked price; asked; tag price; list
        price; listed at; buy it now; gefordert; preisvorstellung; verlangt; prix demande;
        prezzo richiesto; precio pedido; vraagprijs
    """,
    "offered": """
        offer; my offer; bid; my bid; max bid; maximum bid; my max; my max bid; offered; gebot;
        mein gebot; mon offre; enchere max; offerta; la mia offerta; oferta; mi oferta; bod;
        mijn bod
    """,
    "paid": """
        price paid; i paid; cost; purchase price; paid; spent; amount paid; what i paid; cost
        price; bought for; total paid; buying price; paid price; item price; my cost; bezahlt;
        kaufpreis; einkaufspreis; gekauft fur; gezahlt; kosten; prix paye; prix d achat; prix
        achat; paye; achete; cout; betaald; aankoopprijs; gekocht voor; pagato; prezzo pagato;
        prezzo d acquisto; prezzo di acquisto; spesa; costo; pagado; precio pagado; precio de
        compra; coste
    """,
    "hammer": """
        hammer price; hammer; winning bid; final bid; knocked down; hammered; realised; price
        realised; price realized; realized; final price; sold at auction; ended at; zuschlag;
        zuschlagspreis; hammerpreis; prix marteau; adjudication; adjuge; prix adjuge; martello;
        aggiudicazione; prezzo di martello; aggiudicato; remate; precio de remate; martillo;
        adjudicacion; precio martillo; hamerprijs
    """,
    "premium": """
        buyer s premium; buyers premium; premium; bp; auction premium; aufgeld; kauferaufgeld;
        premie; frais acheteur; commission acheteur; frais d adjudication; diritti d asta;
        commissione d asta; prima; prima del comprador; comision de subasta; opgeld;
        veilingkosten
    """,
    "tax": """
        tax; vat; sales tax; gst; import vat; import tax; duty; customs; mwst; ust; steuer;
        mehrwertsteuer; zoll; tva; taxe; taxes; iva; imposte; impuesto; impuestos; btw;
        belasting
    """,
    "fees": """
        fees; fee; handling; handling fee; bank fees; card fee; payment fee; platform fee; other
        costs; gebuhr; gebuhren; nebenkosten; frais; commissioni e spese; tasse; gastos; cargos;
        kosten veiling; toeslag
    """,
    "price": """
        amount; price; sale amount; preis; betrag; summe; prix; montant; prijs; bedrag; prezzo;
        importo; precio; importe; cena; unit price; item cost; prix unitaire; item total
    """,
    "total": """
        total; total cost; all in; total price; grand total; order total; total with postage;
        total incl postage; gesamt; gesamtpreis; gesamtkosten; endpreis; total ttc; prix total;
        totale; prezzo totale; precio total; totaal; totaalprijs; invoice total
    """,
    "postage": """
        shipping; ship; carriage; delivery; p p; post; postage; postage and packing; shipping
        cost; shipping costs; shipping paid; p and p; postage paid; shipping and handling; s h;
        porto; versand; versandkosten; frais de port; port; frais d envoi; livraison;
        verzending; verzendkosten; spedizione; spese di spedizione; envio; gastos de envio;
        portes; porti
    """,
    "venue": """
        where; place; location; market; auction; shop; bought where; where bought; bought from;
        bought at; seller; dealer; source; auction house; from; fair; purchased from; where
        from; seller name; acquired from; vendor; provenance; ort; gekauft bei; gekauft von;
        verkaufer; handler; quelle; herkunft; auktionshaus; wo; lieu; vendeur; achete a; achete
        chez; ou; maison de vente; provenance achat; plaats; verkoper; gekocht bij; waar; luogo;
        venditore; dove; comprato da; acquistato da; casa d aste; lugar; vendedor; donde;
        comprado a; comprado en; casa de subastas
    """,
    "note": """
        notes; note; comment; comments; remarks; remark; memo; other notes; my notes; misc;
        bemerkung; bemerkungen; notiz; notizen; anmerkung; anmerkungen; kommentar; remarque;
        remarques; commentaire; commentaires; observations; osservazioni; commenti;
        observaciones; notas; comentarios; opmerking; opmerkingen; notities
    """,
    "own_work": """
        own work; my work; made by me; assembled by me
    """,
    "currency": """
        cur; ccy; currency; currency code; curr; wahrung; devise; monnaie; valuta; moneda;
        divisa; munt
    """,
    "piece": """
        piece file; piece
    """,
    "done": """
        done; bought; got it; bought it; purchased y n; paid y n; completed; won; mine;
        erledigt; gekauft; fait; achete o n; fatto; comprato; hecho; comprado; gedaan; gekocht
    """,
    "id": """
        id; entry id
    """,
}


_NAMED: dict[str, str] = {
    **{name: field for field, text in _SPELLINGS.items() for name in listed(text)},
    **{folded(field.replace("_", " ")): field for field in TARGETS if field not in SALE},
}
# Names that hold one of these are of other figures than what was paid or asked for this piece.
_OTHER = frozenset(
    listed("""
    estimate; est; estimated; guide; insurance; insured; current; reserve; start; starting; low;
    high; target; resale; replacement; book; catalogue; retail; value; worth; market; profit;
    margin; gain; loss; hope; schatzung; schatzwert; wert; limit; valeur; stima; stimato; valore;
    estimacion; estimado; valor; waarde; schatting; per; unit; rate; percent; vs; avg; average;
    weight; gewicht; number; nr; no; code; url; link; ratio; roi; return; comp; comps; sold-comps;
    fair-value; minimum; maximum; min; max; previous; last; next
    """)
)
_WITHIN = sorted(
    (name for name in _NAMED if len(name) >= 5 or name in ("date", "paid")), key=len, reverse=True
)
_WEAK = frozenset(
    listed("""
    named; where; place; market; sale; value; other; frame; plate; piece; item; object; title;
    what; from; source; state; status; design; stand; place; print; event; bought; month; names;
    result; action; auction; vendu; acquired; seen; foto; estado; studio; gekauft; comprado;
    verkauft; achete; purchased; marco; cadre; lijst; plaque; placa; details; product; article;
    artikel; spent; total; prima; tasse; taxes; marked; premie; costo; kosten; frais; gastos;
    source; artist; buyer; dealer; offer; amount; location; type
    """)
)
_OF_A_SALE = frozenset(
    listed(
        "sale; sold; resale; verkauf; verkauft; vente; vendu; vendita; venduto; venta; vendido; "
        "verkoop"
    )
)
PURCHASE = frozenset(
    listed("""
    bought; purchase; purchased; acquired; acquisition; paid; cost; spent; kauf; kaufdatum;
    kaufpreis; gekauft; einkauf; einkaufspreis; erworben; bezahlt; achat; achete; acquis; paye;
    acquisto; acquistato; comprato; pagato; compra; comprado; pagado; aankoop; aankoopdatum;
    aankoopprijs; gekocht; betaald; buying; aangekocht
    """)
)
"""Words in the name of a column that speak of a purchase."""


def named_field(name: str) -> str:
    """The field that a column's name says, with or without its currency; '' for none."""
    _, bare = header_currency(name)
    return _field(plain_name(name)) or _field(plain_name(bare))


def second_field(name: str) -> str:
    """The field that a column's name may say beside, where its first one is taken; '' for none."""
    words = set(plain_name(name).split())
    first = named_field(name)
    if words & _OF_A_SALE:
        return {"date": "sold_date", "price": "sold_price", "postage": "sold_postage"}.get(
            first, ""
        )
    return ""


@lru_cache(maxsize=4_096)
def _field(words: str) -> str:
    if words in _NAMED:
        return _NAMED[words]
    parts = words.split()
    if not 1 < len(parts) <= 6 or _OTHER & set(parts):
        return ""
    padded = f" {words} "
    found = [name for name in _WITHIN if name not in _WEAK and f" {name} " in padded]
    if not found:
        return ""
    longest = {_NAMED[name] for name in found if len(name) == len(found[0])}
    return longest.pop() if len(longest) == 1 else ""


def plain_name(name: str) -> str:
    """'Price paid (USD):' and 'price_paid' are one."""
    if len(name) > 200:
        return ""
    return " ".join(re.sub(r"\([^)]*\)|[^a-z0-9]", " ", folded(name)).split())


def is_of_purchase(name: str) -> bool:
    """Whether a column's name speaks of a purchase."""
    return bool(PURCHASE & set(plain_name(name).split()))
