"""What `appraise log import` says and asks of a spreadsheet before anything is kept."""

import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from appraise.base.errors import InputError
from appraise.base.files import write_new
from appraise.base.jsonvalues import picked
from appraise.base.oneline import counted
from appraise.cli.asking import ask
from appraise.documents.entry import entry_json, entry_line

if TYPE_CHECKING:
    from appraise.exchange.intake import Taken
    from appraise.exchange.preview import Preview, ReadAs, SheetQuestion
    from appraise.exchange.words import WordUse

SHOWN = 5  # rows told one by one
WORDS = 40  # words of one field told one by one
NOTHING = "-"  # typed to leave a word out


def answered(data: bytes, preview: "Preview", read_as: "ReadAs") -> "Preview":
    """Ask what the file leaves open, and read it anew; enter alone leaves it open."""
    from appraise.exchange.sheets import read_csv

    passed = set[str]()
    while open_ones := [one for one in preview.questions if one.name not in passed]:
        question = open_ones[0]
        answer = _meant(preview) if question.name == "meant" else _choice(question)
        if not answer and question.needed:
            return preview
        if not answer:
            passed.add(question.name)
            continue
        value = {**read_as.meant, **answer} if isinstance(answer, dict) else answer
        again: dict[str, Any] = {question.name: value}
        try:
            preview = read_csv(data, preview.file, replace(read_as, **again))
            read_as = replace(read_as, **again)
        except InputError as error:
            print(f"  {error}", file=sys.stderr)
    return preview


def _choice(question: "SheetQuestion") -> str:
    known = {choice.lower(): choice for choice in question.choices}
    while True:
        answer = ask(f"  {question.says} [{' '.join(question.choices)}]").lower()
        if not answer or answer in known:
            return known.get(answer, "")


def _meant(preview: "Preview") -> dict[str, str]:
    """The meaning of one word that is not understood; empty where it stays open."""
    use = next(use for use in preview.words if use.open)
    offered = f" [{use.offers[0]}]" if use.offers else ""
    answer = ask(
        f"  {use.field} '{use.text}' ({counted(use.rows, 'row')}) is not understood. "
        f"Which word? {NOTHING} leaves it out{offered}"
    )
    if not answer:
        return {f"{use.field}:{use.text}": use.offers[0]} if use.offers else {}
    return {f"{use.field}:{use.text}": "" if answer == NOTHING else answer}


def tell_preview(preview: "Preview", whole: bool = False) -> None:
    """How a file was read, as talk: columns with samples, words, and what is open.

    `whole`: name every row that cannot be read, and not the first ones only.
    """
    shown = len(preview.bad) if whole else SHOWN
    lines = [f"read as {preview.encoding}"]
    for column, samples in zip(preview.columns, preview.samples, strict=True):
        cells = f": {' | '.join(samples)}" if samples else ""
        why = f" ({column.why})" if column.why not in ("", "its name") else ""
        lines.append(f"{column.header} -> {column.field or 'kept beside'}{why}{cells}")
    lines += [f"{one.name}: {one.value}, by {one.why}" for one in preview.guesses]
    lines += _word_lines(preview.words)
    found = preview.currencies
    seen = ", ".join(f"{code} {many:,}" for code, many in found.seen.items())
    lines += [f"currencies told: {seen}"] if seen else []
    if found.bare and found.usual:
        lines.append(f"amounts without a currency are {found.usual}, such as {found.bare}")
    lines += [f"open: {InputError(one.says, mend=one.mend)}" for one in preview.questions]
    lines += [entry_line(entry).strip() for entry in preview.entries[:SHOWN]]
    if len(preview.entries) > SHOWN:
        lines.append(f"and {len(preview.entries) - SHOWN:,} more like these")
    unwanted = sorted((*preview.aside, *preview.doubtful), key=lambda one: one.number)
    lines += [f"row {one.number} is left out: {one.reason}" for one in unwanted]
    lines += [f"row {bad.number}: {bad.reason}" for bad in preview.bad[:shown]]
    if len(preview.bad) > shown:
        lines.append(f"and {len(preview.bad) - shown:,} more rows that cannot be read")
    for line in lines:
        print(f"  {line}", file=sys.stderr)


def _word_lines(uses: "tuple[WordUse, ...]") -> list[str]:
    """A line for each field: its words with their meaning, and those not understood."""
    lines = []
    for field in dict.fromkeys(use.field for use in uses):
        mine = [use for use in uses if use.field == field]
        told = [
            use.text if use.meaning == use.text else f"{use.text} = {use.meaning}"
            for use in mine
            if use.meaning
        ]
        if told:
            lines.append(f"{field}: {_many(told)}")
        out = [use.text for use in mine if not use.meaning and not use.open]
        if out:
            lines.append(f"{field}, left out: {_many(out)}")
        asked = [_asked(use) for use in mine if use.open]
        if asked:
            lines.append(f"{field}, not understood: {_many(asked)}")
    return lines


def _asked(use: "WordUse") -> str:
    perhaps = f", perhaps {use.offers[0]}" if use.offers else ""
    return f"{use.text} ({counted(use.rows, 'row')}{perhaps}: {use.option})"


def _many(texts: list[str]) -> str:
    more = f"; and {len(texts) - WORDS:,} more" if len(texts) > WORDS else ""
    return f"{'; '.join(texts[:WORDS])}{more}"


def tell_left_out(preview: "Preview", file: Path) -> str:
    """Name every row that was left out; many of them in a file beside the one taken in.

    Returns:
        The name of that file; empty where none was written.
    """
    if len(preview.bad) <= SHOWN:
        return ""  # the preview has named each
    from appraise.exchange.csv_file import rows_to_csv

    header = ["row", "why", *(column.header for column in preview.columns)]
    rows = [[str(bad.number), bad.reason, *bad.cells] for bad in preview.bad]
    data = rows_to_csv([header, *rows])
    for number in range(1, 100):
        place = file.with_name(f"{file.stem}-left-out{'' if number == 1 else f'-{number}'}.csv")
        if place.exists():
            continue
        try:
            write_new(place, data)
        except InputError:
            break
        print(f"  the {len(rows):,} rows left out are in {place}", file=sys.stderr)
        return str(place)
    for bad in preview.bad[SHOWN:]:
        print(f"  row {bad.number}: {bad.reason}", file=sys.stderr)
    return ""


def tell_doubles(taken: "Taken") -> None:
    """Name what was left out because an entry has the same day and price."""
    for one in taken.doubles[:WORDS]:
        line = entry_line(one.entry).strip()
        print(f"  left out, {one.known[:8]} has its day and price: {line}", file=sys.stderr)
    if taken.doubles:
        print("  --doubles add takes them in all the same", file=sys.stderr)


def preview_json(preview: "Preview") -> dict[str, Any]:
    """The preview as one JSON object."""
    named = zip(preview.columns, preview.samples, strict=True)
    words = [
        picked(use, "field text rows offers open", meaning=use.meaning or None)
        for use in preview.words
    ]
    left = {
        name: [{"row": one.number, "why": one.reason} for one in getattr(preview, name)]
        for name in ("bad", "doubtful", "aside")
    }
    return {
        "schema": "appraise.import/1",
        "columns": {each.header: each.field for each in preview.columns},
        "samples": {each.header: list(samples) for each, samples in named},
        "words": words,
        "currencies": dict(preview.currencies.seen),
        "questions": [one.says for one in preview.questions],
        "good": len(preview.entries),
        **left,
        "guesses": [{"of": g.name, "is": g.value, "why": g.why} for g in preview.guesses],
        "why": {each.header: each.why for each in preview.columns if each.why},
        "rows": [entry_json(one) for one in preview.entries],
    }
