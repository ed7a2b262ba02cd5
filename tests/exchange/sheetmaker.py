"""Made-up spreadsheets as people keep them, with what they mean: a measure of the importer.

    PYTHONPATH=.:tests python tests/exchange/sheetmaker.py [HOW-MANY] [--from SEED] [--errors]

Each sheet is drawn from its number alone: language, country, kind of list, habits of days and
amounts, order and names of columns, rows that are no events. The words are those of
`made/words.yaml`, which were written without the program's own.
"""

import argparse
import csv
import datetime as dt
import io
import random
from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any

import yaml

WORDS: dict[str, Mapping[str, Any]] = yaml.safe_load(
    (Path(__file__).parent / "made" / "words.yaml").read_text(encoding="utf-8")
)
BANK: Mapping[str, Mapping[str, Any]] = WORDS.pop("bank")
HOMES = {
    "en": (("GBP", "gb"), ("GBP", "gb"), ("USD", "us"), ("USD", "us"), ("AUD", "au"),
           ("EUR", "eu")),
    "de": (("EUR", "eu"), ("EUR", "eu"), ("CHF", "eu")),
    "fr": (("EUR", "eu"), ("EUR", "eu"), ("CHF", "eu")),
    "nl": (("EUR", "eu"),),
    "es": (("EUR", "eu"),),
    "it": (("EUR", "eu"),),
}  # fmt: skip
SIGNS = {"GBP": "£", "USD": "$", "AUD": "$", "EUR": "€", "CHF": "Fr."}


@dataclass
class Made:
    """A sheet: its file, its home, and the events that it tells."""

    name: str
    data: bytes
    home: tuple[str, str]
    events: list[dict[str, str]]


@dataclass
class Maker:
    """One sheet's habits, drawn from its number."""

    seed: int
    kind: str = ""
    draw: random.Random = field(init=False)

    def __post_init__(self) -> None:
        self.draw = random.Random(self.seed)
        draw = self.draw
        self.tongue = draw.choice(list(WORDS))
        self.words = WORDS[self.tongue]
        self.code, self.region = draw.choice(HOMES[self.tongue])
        self.kind = self.kind or draw.choice(KINDS)
        swiss, english = self.code == "CHF", self.tongue == "en"
        self.point = "." if english or swiss else ","
        self.group = (
            ","
            if english
            else "'"
            if swiss
            else draw.choice(" \u00a0")
            if self.tongue == "fr"
            else "."
        )
        self.money_style = draw.choice(["bare", "bare", "sign", "sign", "header", "code", "after"])
        self.cents = draw.choice(["all", "needed", "needed"])
        self.dash = not english and draw.random() < 0.15
        habits = "figures figures figures short names abbreviated iso partial serial heading month"
        self.days = draw.choice(habits.split())
        self.mark = draw.choice("/.-") if self.tongue != "en" else draw.choice("//-")
        self.lower = draw.random() < 0.3

    def one(self, concept: str) -> str:
        """A word for something, in the list's language."""
        return str(self.draw.choice(self.words[concept]))

    def head(self, concept: str) -> str:
        """The name of a column."""
        name = self.one(concept)
        return name.lower() if self.lower else name

    # days

    def dates(self, many: int) -> list[tuple[str, str]]:
        """Days in order of time, as they are written and what they are."""
        start = dt.date(2009, 1, 1) + dt.timedelta(days=self.draw.randrange(3000))
        steps = [self.draw.choice([0, 3, 12, 40, 97, 150, 222]) for _ in range(many)]
        days, at = list[dt.date](), start
        for step in steps:
            at += dt.timedelta(days=step)
            days.append(at)
        if self.days in ("figures", "short") and not any(day.day > 12 for day in days):
            days[-1] = days[-1].replace(day=28)
        if self.draw.random() < 0.2 and self.days != "heading":
            days.reverse()
        return [self.written(day) for day in days]

    def written(self, day: dt.date) -> tuple[str, str]:
        """A day as this list writes it."""
        us = self.region == "us"
        long, short = self.words["months"][day.month - 1], self.words["short"][day.month - 1]
        zero = self.seed % 2
        d, m = (f"{day.day:02}", f"{day.month:02}") if zero else (str(day.day), str(day.month))
        first, second = (m, d) if us else (d, m)
        mark = "." if self.tongue == "de" else "/" if us else self.mark
        iso, year = day.isoformat(), day.year
        style = self.days
        if style == "partial":
            style = self.draw.choice(
                ["figures", "month", "month", "season", "year", "about", "names"]
            )
        if style == "figures":
            return f"{first}{mark}{second}{mark}{year}", iso
        if style == "short":
            return f"{first}{mark}{second}{mark}{year % 100:02}", iso
        if style == "iso":
            return iso, iso
        if style == "serial":
            return str((day - dt.date(1899, 12, 30)).days), iso
        if style == "month":
            form = self.seed % 3
            text = (
                f"{long} {year}"
                if form == 0
                else f"{short} {year}"
                if form == 1
                else f"{short.strip('.')}-{year % 100:02}"
            )
            return text, f"{year}-{day.month:02}"
        if style == "season":
            at = self.draw.randrange(4)
            return f"{self.words['spring'][at]} {year}", f"{year}-{21 + at}"
        if style == "year":
            return str(year), str(year)
        if style == "about":
            return f"{self.one('about')} {year}", f"{year}~"
        if style == "abbreviated":
            return (f"{short} {day.day}, {year}" if us else f"{day.day} {short} {year}"), iso
        if style == "heading":
            texts = [f"{day.day} {short}", f"{day.day} {long}"]
            texts += [f"{day.day}.{day.month}."] if self.tongue == "de" else []
            return texts[self.seed % len(texts)], iso
        de, of = ("." if self.tongue == "de" else ""), (" de" if self.tongue == "es" else "")
        return (f"{long} {day.day}, {year}" if us else f"{day.day}{de}{of} {long}{of} {year}"), iso

    # amounts

    def amount(self, low: int = 2, high: int = 400) -> tuple[str, str]:
        """An amount as it is written, and what it is."""
        whole = (
            self.draw.choice(
                [
                    self.draw.randint(low, high),
                    self.draw.randint(low, high),
                    self.draw.randint(1000, 2400),
                ]
            )
            if high > 100
            else self.draw.randint(low, high)
        )
        cents = self.draw.choice([0, 0, 50, 95])
        return self.money(whole, cents), f"{whole}.{cents:02} {self.code}"

    def money(self, whole: int, cents: int = 0) -> str:
        """An amount as it is written."""
        figures = f"{whole:,}".replace(",", self.group) if self.seed % 5 else str(whole)
        if cents or self.cents == "all":
            figures += f"{self.point}{cents:02}"
        elif self.dash:
            figures += ".–" if self.code == "CHF" else ",-"
        sign = SIGNS[self.code]
        if self.money_style == "sign":
            return f"{sign} {figures}" if self.tongue != "en" else f"{sign}{figures}"
        if self.money_style == "after":
            return f"{figures} {sign}" if self.tongue != "en" else f"{sign}{figures}"
        return f"{figures} {self.code}" if self.money_style == "code" else figures

    def money_head(self, concept: str) -> str:
        """The name of a column of amounts."""
        name = self.head(concept)
        if self.money_style != "header":
            return name
        sign = self.code if self.code in ("CHF", "AUD") else SIGNS[self.code]
        return f"{name} ({sign})" if self.seed % 2 else f"{name} {self.code}"

    # pieces

    def piece(self) -> dict[str, str]:
        """What a piece is, and the words for it."""
        told = {"subject": self.one("subjects")}
        if self.draw.random() < 0.35:
            name = self.draw.choice(list(self.words["card_words"]))
            said = self.draw.choice(self.words["card_words"][name])
            told |= {"format": name, "size": said, "process_said": ""}
            if name == "gem":
                told["process"] = "tintype"
            return told
        name = self.draw.choice(list(self.words["process_words"]))
        told |= {
            "process": name,
            "process_said": self.draw.choice(self.words["process_words"][name]),
        }
        if name in ("daguerreotype", "ambrotype", "tintype"):
            if self.draw.random() < 0.7:
                told["format"] = self.draw.choice(list(self.words["size_words"]))
                told["size"] = self.draw.choice(self.words["size_words"][told["format"]])
            if self.draw.random() < 0.35:
                told["housing"] = self.draw.choice(list(self.words["case_words"]))
                told["case"] = self.draw.choice(self.words["case_words"][told["housing"]])
        return told

    def text(self, piece: Mapping[str, str]) -> str:
        """All of a piece in one cell."""
        process, size = piece["process_said"], piece.get("size", "")
        case, subject = piece.get("case", ""), piece["subject"]
        forms = [
            f"{size} {process} {subject}",
            f"{process}, {subject}, {size}",
            f"{subject}, {process} {size}",
            f"{process} {size}, {subject}",
        ]
        if self.tongue == "en":
            forms = [f"{size} {process} of a {subject}", f"{size} {process}, {subject}", *forms[2:]]
        made = " ".join(
            forms[(self.seed + self.draw.randrange(2)) % len(forms)].replace(" ,", ",").split()
        )
        made = ", ".join(part for part in made.strip(" ,").split(", ") if part)
        made = f"{made}, {case}" if case else made
        return made[:1].upper() + made[1:] if self.seed % 3 else made

    def truth(self, piece: Mapping[str, str], title: str, **more: str) -> dict[str, str]:
        """An event as the labels tell it."""
        named = {name: piece[name] for name in ("format", "process", "housing") if name in piece}
        return {"title": title, **named, **more}

    # files

    def packed(
        self, name: str, rows: Sequence[Sequence[str]], events: list[dict[str, str]]
    ) -> Made:
        """The rows as the bytes of a file."""
        mark = "," if self.tongue == "en" else self.draw.choice(";;;\t")
        out = io.StringIO()
        csv.writer(out, delimiter=mark, lineterminator=self.draw.choice(["\n", "\r\n"])).writerows(
            rows
        )
        coding = self.draw.choice(
            ["utf-8", "utf-8-sig", "cp1252", "utf-16" if mark == "\t" else "utf-8"]
        )
        return Made(
            name,
            out.getvalue().encode(coding, "replace" if coding == "cp1252" else "strict"),
            (self.code, self.region),
            events,
        )

    def with_extras(
        self, rows: list[list[str]], title_at: int, price_at: int, sums: bool = True
    ) -> list[list[str]]:
        """Titles above, blanks and remarks between, totals below."""
        width = len(rows[0])

        def lone(text: str, at: int = 0) -> list[str]:
            return [text if place == at else "" for place in range(width)]

        if self.draw.random() < 0.2:
            rows.append(lone(""))
        if sums and self.draw.random() < 0.4:
            row = lone(
                self.one("total_row"),
                self.draw.choice([0, max(0, price_at - 1)]) if price_at else 1,
            )
            row[price_at] = self.money(4321, 50)
            rows.append(row)
        if self.draw.random() < 0.25:
            rows.append(lone(self.one("remark"), self.draw.choice([0, title_at])))
        if self.draw.random() < 0.3:
            rows.insert(0, lone(self.one("title")))
            if self.draw.random() < 0.3:
                rows.insert(1, lone(""))
        return rows


def purchases(make: Maker, headed: bool = True) -> Made:
    """A list of purchases without a word of what happened."""
    draw = make.draw
    apart = draw.random() < 0.5
    fields = ["date", "what", "where", "price"]
    fields += ["process", "size"] if apart else []
    fields += ["case"] if apart and draw.random() < 0.6 else []
    fields += ["postage"] if draw.random() < 0.35 and headed else []
    if draw.random() < 0.4:
        draw.shuffle(fields)
    if headed:
        for name in draw.sample(make.words["useless"], draw.randrange(3)):
            fields.insert(draw.randrange(len(fields) + 1), f"-{name}")
        if draw.random() < 0.4:
            fields.append("note")
        if make.days == "heading" and fields.index("date"):
            fields.remove("date")
            fields.insert(0, "date")
    elif make.days == "heading":
        make.days = "figures"
    names = {
        each: each[1:]
        if each[0] == "-"
        else make.money_head(each)
        if each in ("price", "postage")
        else make.head("sheet_dates" if each == "date" else each)
        for each in fields
    }
    if not headed and make.money_style == "header":
        make.money_style = "sign"
    rows, events, year = (
        [[names[one] for one in fields]] if headed else [],
        list[dict[str, str]](),
        "",
    )
    merged = (
        headed
        and draw.random() < 0.2
        and make.days not in ("partial", "heading")
        and fields[0] == "date"
    )
    dittos = not merged and draw.random() < 0.2 and make.days != "heading"
    last_day = last_place = ""
    days = make.dates(draw.randint(6, 16))
    merged = merged and sum(a == b for a, b in pairwise(days)) >= max(2, 0.3 * len(days))
    for day, iso in days:
        piece, place = make.piece(), make.one("places")
        title = piece["subject"] if apart else make.text(piece)
        price, paid = make.amount()
        if make.days == "heading" and iso[:4] != year:
            year = iso[:4]
            rows.append([year if one == "date" else "" for one in fields])
        cells = {"date": day, "what": title, "where": place, "price": price,
                 "process": piece.get("process_said", ""), "size": piece.get("size", ""),
                 "case": piece.get("case", ""),
                 "note": draw.choice(["", "", make.one("subjects")])}  # fmt: skip
        told = {} if "case" in fields or not apart else {"housing": ""}
        event = {**make.truth(piece, title, date=iso, record="bought", paid=paid), **told}
        if day == last_day and merged:
            cells["date"] = ""
        if day == last_day and place == last_place and dittos:
            cells["date"] = cells["where"] = make.words["ditto"][
                make.seed % len(make.words["ditto"])
            ]
        if day == last_day and dittos and draw.random() < 0.6:
            cells["date"] = make.words["ditto"][make.seed % len(make.words["ditto"])]
        last_day, last_place = day, place
        if "postage" in fields and draw.random() < 0.4:
            cells["postage"], event["postage"] = make.amount(2, 15)
        odd = draw.random() if headed else 1.0
        if odd < 0.04:
            cells["price"] = f"{price} {make.one('bundle')}"
        elif odd < 0.07:
            cells["price"], event = make.one("free"), {}
        elif odd < 0.09:
            cells["price"], event = make.words["see"][0], {}
        elif odd < 0.13:
            cells |= {"what": make.one("other"), "process": "", "size": "", "case": ""}
            event = {}
        for name in fields:
            if name[0] == "-":
                cells[name] = (
                    str(len(rows))
                    if name[1:] in ("No.", "Nr.", "N°", "N.º", "N.", "Lfd. Nr.", "Ref", "Réf.")
                    else draw.choice(["A", "B", "2", ""])
                )
        rows.append([cells.get(one, "") for one in fields])
        if event:
            events.append(event)
    if headed:
        rows = make.with_extras(rows, fields.index("what"), fields.index("price"))
    return make.packed(f"{make.seed}-list.csv", rows, events)


def headless(make: Maker) -> Made:
    """A list without names of columns."""
    return purchases(make, headed=False)


def resold(make: Maker) -> Made:
    """Purchase and later sale in one row."""
    draw = make.draw
    make.days = (
        make.days if make.days in ("figures", "short", "iso", "names", "abbreviated") else "figures"
    )
    heads = [
        make.head("sheet_dates") if draw.random() < 0.5 else make.head("date"),
        make.head("what"),
        make.head("where"),
        make.money_head("price"),
        make.head("sold_date"),
        make.money_head("sold_price"),
    ]
    fees = draw.random() < 0.4
    heads += [make.money_head("fees")] if fees else []
    rows, events = [heads], list[dict[str, str]]()
    for day, iso in make.dates(draw.randint(6, 14)):
        piece = make.piece()
        title, (price, paid) = make.text(piece), make.amount()
        row = [day, title, make.one("places"), price, "", "", *([""] if fees else [])]
        events.append(make.truth(piece, title, date=iso, record="bought", paid=paid))
        if draw.random() < 0.45:
            later = make.written(
                dt.date.fromisoformat(iso) + dt.timedelta(days=draw.randrange(30, 500))
            )
            row[4], (row[5], got) = later[0], make.amount()
            events.append({"date": later[1], "record": "sold", "hammer": got})
            if fees and draw.random() < 0.7:
                row[6], events[-1]["fees"] = make.amount(2, 30)
        rows.append(row)
    return make.packed(f"{make.seed}-list.csv", make.with_extras(rows, 1, 3), events)


def watched(make: Maker) -> Made:
    """Auction results that somebody followed, with a few lots of his own."""
    draw = make.draw
    make.days = make.days if make.days in ("figures", "short", "iso", "names") else "figures"
    mine = draw.random() < 0.6
    marked = draw.random() < 0.5
    heads = [
        make.head("sheet_dates"),
        make.head("house"),
        make.head("lot"),
        make.head("what"),
        make.head("estimate"),
        make.money_head("hammer"),
        make.money_head("premium"),
        make.head("buyer") if mine and marked else make.head("note"),
    ]
    rows, events, lot = [heads], list[dict[str, str]](), 0
    everywhere = draw.random() < 0.5
    for number, (day, iso) in enumerate(make.dates(draw.randint(8, 14))):
        piece, lot = make.piece(), lot + draw.randint(1, 30)
        title, low = make.text(piece), draw.randint(2, 40) * 10
        price, fetched = make.amount(20, 600)
        premium, added = make.amount(5, 60)
        event = make.truth(piece, title, date=iso, record="hammer", hammer=fetched)
        row = [day, make.words["places"][-1], str(lot), title, f"{low}-{low + 50}", price, "", ""]
        chance = 0.0 if number == 1 else draw.random()
        if chance < 0.2:
            row[5] = make.one("unsold")
            event = make.truth(piece, title, date=iso, record="unsold")
        elif chance < 0.25:
            row[5], event = make.one("withdrawn"), {}
        elif chance < 0.45 and mine:
            row[6], row[7] = (
                premium,
                make.one("me") if not marked or make.seed % 2 else make.one("yes"),
            )
            if not marked:
                row[7] = {
                    "en": "bought by me",
                    "de": "von mir gekauft",
                    "fr": "acheté par moi",
                    "nl": "zelf gekocht",
                    "es": "comprado por mí",
                    "it": "comprato da me",
                }[make.tongue]
            event |= {"record": "bought", "paid": event.pop("hammer"), "premium": added}
        elif everywhere:
            row[6] = premium
            event["premium"] = added
        rows.append(row)
        if event:
            events.append(event)
    rows = make.with_extras(rows, 3, 5, sums=False)
    if len(rows[0]) and rows[0][0] in make.words["title"]:
        rows[0][0] = make.one("watched")
    return make.packed(f"{make.seed}-list.csv", rows, events)


def bank(make: Maker) -> Made:
    """An account's bookings, some of them for pieces."""
    draw = make.draw
    said = BANK[make.tongue]
    heads, transfer, salary, shop = (said[n] for n in ("heads", "transfer", "salary", "shop"))
    make.days = draw.choice(["figures", "iso"])
    make.money_style, make.cents = "bare", "all"
    sort = draw.choice(["sides", "signed", "way"])
    way, out, into = said["way"]
    names = {"sides": heads, "signed": (heads[0], heads[1], BANK[make.tongue]["amount"], heads[4]),
             "way": (heads[0], heads[1], way, BANK[make.tongue]["amount"])}[sort]  # fmt: skip
    rows, events = [list(names)], list[dict[str, str]]()
    for number, (day, iso) in enumerate(make.dates(draw.randint(8, 14))):
        figures, paid = make.amount()
        piece = make.piece()
        title = make.text(piece)
        what = (
            "buy"
            if number == 0
            else "pay"
            if number == 1
            else draw.choice(["buy", "buy", "shop", "pay", "sell"])
        )
        place = make.one("places").upper()
        text = {
            "buy": f"{transfer} {place} - {title}",
            "sell": f"{transfer} {place} - {make.one('sold')} {title}",
            "shop": shop,
            "pay": salary,
        }[what]
        went = what in ("buy", "shop")
        row = {"sides": [day, text, figures if went else "", "" if went else figures, "1234.00"],
               "signed": [day, text, f"-{figures}" if went else figures, "1234.00"],
               "way": [day, text, out if went else into, figures]}[sort]  # fmt: skip
        if sort != "way":
            row[-1] = make.money(1234)
        rows.append(row)
        if what == "buy":
            events.append(make.truth(piece, title, date=iso, record="bought", paid=paid))
        if what == "sell":
            events.append(make.truth(piece, title, date=iso, record="sold", hammer=paid))
    return make.packed(f"{make.seed}-list.csv", rows, events)


def notes(make: Maker) -> Made:
    """A note of lines, years above."""
    draw = make.draw
    make.days = draw.choice(["heading", "figures", "names", "abbreviated"])
    make.money_style = draw.choice(["sign", "after", "sign"])
    between = draw.choice([" - ", ", ", " - "])
    lead = draw.random() < 0.5
    lines, events, year = list[str](), list[dict[str, str]](), ""
    if draw.random() < 0.6:
        lines.append(make.one("title"))
    for day, iso in make.dates(draw.randint(7, 14)):
        if make.days == "heading" and iso[:4] != year:
            year = iso[:4]
            lines += [*([""] if lines else []), year]
        piece, place = make.piece(), make.one("places")
        title, (price, paid) = make.text(piece), make.amount()
        place = f"{make.one('at')} {place}" if lead else place
        event = make.truth(piece, title, date=iso, record="bought", paid=paid)
        middle = (
            [title, place, price] if make.seed % 2 or between == ", " else [place, title, price]
        )
        if draw.random() < 0.12:
            middle = [f"{BANK[make.tongue]['sold']}: {title}", price]
            event = make.truth(piece, title, date=iso, record="sold", hammer=paid)
        lines.append(f"{day}{' ' if make.seed % 4 else ' - '}{between.join(middle)}")
        events.append(event)
    if draw.random() < 0.4:
        lines.append(make.one("remark"))
    return make.packed(f"{make.seed}-note.csv", [[line] for line in lines], events)


def haggled(make: Maker) -> Made:
    """Pieces seen at fairs, with what was asked, offered and paid."""
    draw = make.draw
    make.days = make.days if make.days in ("figures", "iso", "names", "month") else "figures"
    heads = [
        make.head("sheet_dates"),
        make.head("where"),
        make.head("what"),
        make.money_head("asked"),
        make.money_head("offered"),
        make.money_head("price"),
        make.head("outcome"),
    ]
    rows, events = [heads], list[dict[str, str]]()
    for day, iso in make.dates(draw.randint(7, 13)):
        piece = make.piece()
        title = make.text(piece)
        (asks, asked), (bid, offered), (price, paid) = make.amount(), make.amount(), make.amount()
        event = make.truth(piece, title, date=iso, asked=asked)
        row = [day, make.one("places"), title, asks, "", "", ""]
        what = draw.choice(["bought", "asking", "refused"])
        if what == "bought":
            row[5], event["paid"] = price, paid
        if what == "refused" or (what == "bought" and draw.random() < 0.5):
            row[4], event["offered"] = bid, offered
        row[6] = make.one(what)
        rows.append(row)
        events.append({**event, "record": what})
    return make.packed(f"{make.seed}-list.csv", rows, events)


def logged(make: Maker) -> Made:
    """A list with a column that says bought or sold."""
    draw = make.draw
    make.days = make.days if make.days not in ("heading", "serial") else "figures"
    fields = ["date", "record", "what", "price", "where"]
    draw.shuffle(fields)
    rows = [
        [
            make.money_head(one)
            if one == "price"
            else make.head("sheet_dates" if one == "date" else one)
            for one in fields
        ]
    ]
    if rows[0][fields.index("price")].split()[0].lower() in (
        "paid",
        "bezahlt",
        "payé",
        "betaald",
        "pagado",
        "pagato",
        "gave",
    ):
        rows[0][fields.index("price")] = BANK[make.tongue]["amount"]
    events = list[dict[str, str]]()
    for number, (day, iso) in enumerate(make.dates(draw.randint(7, 14))):
        piece = make.piece()
        title, (price, amount) = make.text(piece), make.amount()
        what = (
            ("bought", "sold")[number] if number < 2 else draw.choice(["bought", "bought", "sold"])
        )
        cells = {
            "date": day,
            "what": title,
            "price": price,
            "where": make.one("places"),
            "record": make.words[what][make.seed % 3],
        }
        rows.append([cells.get(one, "") for one in fields])
        events.append(
            make.truth(
                piece,
                title,
                date=iso,
                record=what,
                **{"paid" if what == "bought" else "hammer": amount},
            )
        )
    return make.packed(f"{make.seed}-list.csv", rows, events)


def two_tables(make: Maker) -> Made:
    """Purchases above, sales below, each with a heading and a header of its own."""
    make.days = make.days if make.days not in ("heading", "serial") else "figures"
    heads = [
        make.head("sheet_dates"),
        make.head("what"),
        make.head("where"),
        make.money_head("price"),
    ]
    later = [heads[0], heads[1], make.head("sold_venue"), heads[3]]
    rows, events = list[list[str]](), list[dict[str, str]]()
    days = make.dates(12)
    for title, names, some, record in (
        (make.one("title_bought"), heads, days[:8], "bought"),
        (make.one("title_sold"), later, days[8:], "sold"),
    ):
        rows += [[title, "", "", ""], list(names)]
        for day, iso in some:
            piece, (price, amount) = make.piece(), make.amount()
            text = make.text(piece)
            rows.append([day, text, make.one("places"), price])
            money = {"paid" if record == "bought" else "hammer": amount}
            events.append(make.truth(piece, text, date=iso, record=record, **money))
        rows.append(["", "", "", ""])
    return make.packed(f"{make.seed}-list.csv", rows, events)


def placed(make: Maker) -> Made:
    """Purchases of which one cell tells place and day."""
    make.days = make.draw.choice(["names", "abbreviated", "month", "figures"])
    heads = [make.head("what"), make.head("where"), make.money_head("price")]
    rows, events = [heads], list[dict[str, str]]()
    between = make.draw.choice([" ", ", ", " - "])
    for day, iso in make.dates(make.draw.randint(6, 12)):
        piece, (price, paid) = make.piece(), make.amount()
        title, place = make.text(piece), make.one("places")
        rows.append([title, f"{place}{between}{day}", price])
        events.append(make.truth(piece, title, date=iso, record="bought", paid=paid))
    return make.packed(f"{make.seed}-list.csv", rows, events)


def cash_book(make: Maker) -> Made:
    """What was spent and earned side by side, other things among the pieces."""
    make.days = make.draw.choice(["figures", "iso", "names"])
    spent, earned = make.words["spent"]
    heads = [make.head("sheet_dates"), make.head("what"), spent, earned]
    if make.seed % 2:
        heads = [heads[0], heads[1], heads[3], heads[2]]
    rows, events = [heads], list[dict[str, str]]()
    for number, (day, iso) in enumerate(make.dates(make.draw.randint(8, 14))):
        piece, (price, amount) = make.piece(), make.amount()
        title, sold = make.text(piece), number == 1 or make.draw.random() < 0.25
        other = number > 1 and make.draw.random() < 0.2
        cells = {spent: "" if sold else price, earned: price if sold else ""}
        rows.append(
            [day, make.one("other") if other else title, *(cells[one] for one in heads[2:])]
        )
        if not other:
            money = {"hammer" if sold else "paid": amount}
            record = "sold" if sold else "bought"
            events.append(make.truth(piece, title, date=iso, record=record, **money))
    return make.packed(f"{make.seed}-list.csv", rows, events)


SORTS: Mapping[str, Callable[[Maker], Made]] = {
    "purchases": purchases, "headless": headless, "resold": resold, "watched": watched,
    "bank": bank, "notes": notes, "haggled": haggled, "logged": logged,
    "two-tables": two_tables, "placed": placed, "cash-book": cash_book,
}  # fmt: skip
KINDS = ("purchases",) * 5 + (
    "resold",
    "resold",
    "watched",
    "watched",
    "bank",
    "notes",
    "notes",
    "haggled",
    "headless",
    "logged",
    "two-tables",
    "placed",
    "cash-book",
)


def made(seed: int, kind: str = "") -> tuple[Maker, Made]:
    """The sheet of a number."""
    make = Maker(seed, kind)
    return make, SORTS[make.kind](make)


@dataclass
class Held:
    """A sheet as it came in beside what it means."""

    make: Maker
    sheet: Made
    state: str
    wrong: list[str]
    missing: list[str]


def held(seed: int, kind: str = "") -> Held:
    """Import a sheet and compare every value."""
    from dataclasses import replace

    from exchange import sheetscore as score

    from appraise.base.errors import InputError
    from appraise.exchange.sheets import read_csv

    make, sheet = made(seed, kind)
    read_as = replace(reading(), base=sheet.home[0], region=sheet.home[1])
    result = score.Outcome(sheet.name, "none", 0, "", False, [])
    try:
        looked = read_csv(sheet.data, sheet.name, read_as)
    except InputError as error:
        return Held(make, sheet, f"asked: {error}", [], [])
    if looked.open or looked.bad:
        why = (
            looked.open.says
            if looked.open
            else f"row {looked.bad[0].number}: {looked.bad[0].reason}"
        )
        return Held(make, sheet, f"asked: {why}", [], [])
    want = [score.labelled(each) for each in sheet.events]
    got = [score.stored(entry) for entry in looked.entries]
    for ours, theirs in score.aligned(want, got):
        if (
            ours
            and theirs
            and theirs["record"] == "sold"
            and not any(ours[n] for n in score.OF_PIECE)
        ):
            theirs = {**theirs, **dict.fromkeys(score.OF_PIECE, "")}
        score.compare(result, ours, theirs)
    state = "wrong" if result.wrong else "missing" if result.missing else "right"
    return Held(make, sheet, state, result.wrong, result.missing)


_READ: list[Any] = []


def reading() -> Any:
    """How the command reads, with the knowledge that ships; loaded once."""
    if not _READ:
        from appraise.exchange.preview import ReadAs
        from appraise.exchange.vocabulary import sheet_vocabulary
        from appraise.knowledge import loader
        from appraise.listing.cellwords import sheet_words
        from appraise.listing.title_words import title_words

        known = loader.load()
        _READ.append(
            ReadAs(words=sheet_words(known), titles=title_words(known), say=sheet_vocabulary(known))
        )
    return _READ[0]


def all_held(first: int, many: int, kind: str = "") -> Iterator[Held]:
    """Many sheets."""
    for seed in range(first, first + many):
        yield held(seed, kind)


def main() -> None:
    """Score made sheets."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("many", type=int, nargs="?", default=400)
    parser.add_argument("--from", dest="first", type=int, default=0)
    parser.add_argument("--kind", default="")
    parser.add_argument("--errors", action="store_true")
    parser.add_argument("--show", action="store_true")
    chosen = parser.parse_args()
    states, sorts, wrong = Counter[str](), Counter[tuple[str, str]](), 0
    for one in all_held(chosen.first, chosen.many, chosen.kind):
        state = one.state.partition(":")[0]
        states[state] += 1
        sorts[one.make.kind, state] += 1
        wrong += len(one.wrong)
        if state != "right" and chosen.errors:
            print(one.make.seed, one.make.tongue, one.make.kind, one.make.days, one.state)
            print("\n".join(f"    wrong: {each}" for each in one.wrong[:4]))
            print("\n".join(f"    {each}" for each in one.missing[:4]))
        if chosen.show:
            print(one.sheet.data.decode("utf-8", "replace"))
    for (kind, state), many in sorted(sorts.items()):
        print(f"{kind:12} {state:8} {many}")
    print(dict(states), "wrong values", wrong)


if __name__ == "__main__":
    main()
