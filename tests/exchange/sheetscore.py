"""How spreadsheets that strangers wrote come in, held against what they say of each event.

    PYTHONPATH=.:tests python tests/exchange/sheetscore.py FOLDER [--errors]

A folder holds pairs `NAME.csv` (or .tsv, .txt) and `NAME.yaml`. Each sheet is imported by the
command, without an option, into a home of its own that has the sheet's currency and region.

A title may leave out, before and behind, what the entry tells elsewhere: 'Bought a tintype at the
fair, 12 euros' is 'tintype'; `--strict` takes titles only as the labels have them.
"""

import argparse
import contextlib
import io
import json
import os
import re
import tempfile
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml
from store.logkit import opened

from appraise.base.money import EXPONENTS, Money
from appraise.base.moneytext import currency_named
from appraise.base.oneline import folded
from appraise.cli.main import run
from appraise.exchange.vocabulary import SheetWords, shipped_vocabulary
from appraise.records.entry import Entry

AMOUNTS = ("asked", "offered", "paid", "hammer", "premium", "tax", "fees", "postage")
SCORED = ("record", "date", "format", "process", "housing", "title", *AMOUNTS)


FORMATS = (
    "whole", "half", "third", "quarter", "sixth", "eighth", "ninth", "sixteenth", "gem",
    "carte-de-visite", "cabinet", "stereo", "boudoir", "imperial", "promenade", "victoria",
)  # fmt: skip
"""Formats that the labels know; others are not compared."""
JOINING = frozenset(
    re.findall(
        r"\w+",
        "a an the at in on for from to and plus of lot el la los las en por para de del y mas le "
        "les un une au aux chez pour et il lo da dal di per e der die das den ein eine bei fur auf "
        "und het een op bij voor met van",
    )
)
"""Words that join what stands before and behind a piece in a sentence."""
BESIDE = ("premium", "tax", "fees", "postage")
OF_PIECE = ("format", "process", "housing", "title")


class Loader(yaml.SafeLoader):
    """Days and amounts stay the texts that were written."""


Loader.yaml_implicit_resolvers = {
    start: [(tag, form) for tag, form in rules if "timestamp" not in tag and "float" not in tag]
    for start, rules in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


@dataclass
class Outcome:
    """What became of a sheet."""

    name: str
    options: str
    status: int
    talk: str
    asked: bool
    stored: list[dict[str, str]]
    wrong: list[str] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)
    values: int = 0

    @property
    def right(self) -> bool:
        """Every entry with every value and no other; or a question, where one is due."""
        if self.options != "none":
            return self.asked and not self.wrong
        return self.status == 0 and not self.wrong and not self.missing


def text_of(value: Any) -> str:
    """A label as text; amounts in one form."""
    return " ".join(str("" if value is None else value).split())


def money(text: str) -> str:
    """An amount in one form; one of a currency that is no more stays as it is written."""
    number, _, code = text_of(text).rpartition(" ")
    return str(Money.parse(number, code, ".")) if code in EXPONENTS else text


def labelled(given: Mapping[str, Any]) -> dict[str, str]:
    """The values that an entry must have."""
    told = {name: text_of(given.get(name)) for name in SCORED}
    for name in AMOUNTS:
        told[name] = money(told[name]) if told[name] else ""
    return without_noughts(told)


def without_noughts(told: dict[str, str]) -> dict[str, str]:
    """The values, in which a nought beside the price is as good as none: 'postage 0.00'."""
    noughts = [one for one in BESIDE if re.match(r"0(?:\.0+)? ", told[one])]
    return {**told, **dict.fromkeys(noughts, "")}


def stored(entry: Entry) -> dict[str, str]:
    """The values that an entry has, by the labels' names of them.

    The log keeps what a piece was sold for as `paid`, and what was bought at a hammer price as
    `hammer`; the labels call the first `hammer` and the second `paid`.
    """
    found = {name: text_of(getattr(entry, name)) for name in SCORED}
    found["elsewhere"] = text_of(f"{entry.venue} {entry.note} {entry.extra}")
    found["date"] = "" if found["date"] == "unknown" else found["date"]
    found["format"] = found["format"] if found["format"] in FORMATS else ""
    for name in AMOUNTS:
        value = getattr(entry, name)
        found[name] = str(value) if value is not None else ""
    ours, theirs = {"sold": ("paid", "hammer")}.get(entry.record, ("hammer", "paid"))
    if entry.record in ("sold", "bought", "returned") and found[ours] and not found[theirs]:
        found[ours], found[theirs] = "", found[ours]
    return without_noughts(found)


def imported(sheet: Path, home: Mapping[str, str]) -> tuple[int, str, dict[str, Any], list[Entry]]:
    """Status, talk, document and the entries in the order in which they were written."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        os.environ["APPRAISE_HOME"] = str(place)
        (place / "settings.yaml").write_text(f"region: {home['region']}\n", encoding="utf-8")
        out, err = io.StringIO(), io.StringIO()
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            assert run(["log", "currency", home["currency"]]) == 0
            out.truncate(0)
            out.seek(0)
            status = run(["log", "import", str(sheet), "--json"])
        with opened(place / "log.sqlite") as log:
            rows = log.connection.execute(
                "SELECT entry FROM shelf JOIN revision USING (entry) ORDER BY revision.number"
            ).fetchall()
            entries = [log.entry(name) for (name,) in rows]
    told = out.getvalue().strip()
    return status, err.getvalue(), json.loads(told) if told else {}, entries


def scored(sheet: Path, label: Path, strict: bool = False) -> Outcome:
    """Import a sheet and compare."""
    said = yaml.load(label.read_text(encoding="utf-8"), Loader)
    status, talk, document, entries = imported(sheet, said["home"])
    got = [stored(entry) for entry in entries]
    want = [labelled(each) for each in said.get("entries") or ()]
    options = str(said.get("options", "none"))
    asked = "open:" in talk and (not got or "--" in talk)
    result = Outcome(sheet.stem, options, status, talk, asked, got)
    if not any(one["title"] for one in want):
        got = [{**one, "title": ""} for one in got]  # titles are not labelled
    result.values = sum(1 for each in want for value in each.values() if value)
    if options != "none" and not got:
        return result
    for ours, theirs in aligned(want, got):
        if ours and theirs and theirs["record"] == "sold" and not any(ours[n] for n in OF_PIECE):
            theirs = {**theirs, **dict.fromkeys(OF_PIECE, "")}  # told by the purchase of its row
        compare(result, ours, theirs, strict)
    told = set(document.get("left_out", ()))
    for line in said.get("doubtful") or ():
        if status == 0 and line not in told:
            result.wrong.append(f"line {line} is doubtful, and was not named")
    return result


def compare(
    result: Outcome,
    want: dict[str, str] | None,
    got: dict[str, str] | None,
    strict: bool = False,
) -> None:
    """Count what differs."""
    if want is None:
        assert got is not None
        result.wrong.append(f"an entry too many: {_short(got)}")
        return
    if got is None:
        result.missing.append(f"no entry: {_short(want)}")
        return
    for name in SCORED:
        if want[name] == got[name] or (name == "title" and not strict and is_title(want, got)):
            continue
        place = result.wrong if got[name] else result.missing
        place.append(f"{name} '{got[name]}' for '{want[name]}' in {_short(want)}")


def is_title(want: Mapping[str, str], got: Mapping[str, str]) -> bool:
    """Whether a title is the label's but for what the entry tells elsewhere, before or behind."""
    short, long = sorted((folded(want["title"]), folded(got["title"])), key=len)
    if not short or short not in long:
        return False
    before, _, behind = long.partition(short)
    say, elsewhere = shipped_vocabulary(), {*re.findall(r"\w+", folded(got["elsewhere"]))}
    return all(_is_told(part, elsewhere, say) for part in (before, behind))


def _is_told(part: str, elsewhere: set[str], say: SheetWords) -> bool:
    """Whether words are of what happened, of amounts, or told by other fields."""
    kept = [each for each in re.split(r"[,;:()]|\s[-\u2013]\s", part) if not say.event(each)]
    return all(
        re.search(r"\d", word) or word in JOINING or word in elsewhere
        or currency_named(word) or say.event(word) or word in say.money
        for each in kept
        for word in re.findall(r"[\w$£€]+", each)
    )  # fmt: skip


def _short(entry: Mapping[str, str]) -> str:
    return " | ".join(value for name, value in entry.items() if value and name != "elsewhere")[:110]


Pair = tuple[dict[str, str] | None, dict[str, str] | None]


def aligned(want: list[dict[str, str]], got: list[dict[str, str]]) -> list[Pair]:
    """Pairs in the order of the file, so that as many values as can be are equal."""
    best = [[0] * (len(got) + 1) for _ in range(len(want) + 1)]
    for at in reversed(range(len(want))):
        for to in reversed(range(len(got))):
            both = best[at + 1][to + 1] + _alike(want[at], got[to])
            best[at][to] = max(both, best[at + 1][to], best[at][to + 1])
    pairs, at, to = list[Pair](), 0, 0
    while at < len(want) or to < len(got):
        here = best[at][to]
        if at < len(want) and to < len(got):
            alike = _alike(want[at], got[to])
            if alike and here == best[at + 1][to + 1] + alike:
                pairs.append((want[at], got[to]))
                at, to = at + 1, to + 1
                continue
        if at < len(want) and (to == len(got) or here == best[at + 1][to]):
            pairs.append((want[at], None))
            at += 1
        else:
            pairs.append((None, got[to]))
            to += 1
    return pairs


def _alike(want: Mapping[str, str], got: Mapping[str, str]) -> int:
    return sum(1 for name in SCORED if want[name] and want[name] == got[name])


def sheets(folder: Path) -> Iterator[tuple[Path, Path]]:
    """The sheets of a folder with their labels."""
    for label in sorted(folder.glob("*.yaml")):
        yield next(one for one in folder.glob(f"{label.stem}.*") if one != label), label


def outcomes(folder: Path, strict: bool) -> list[Outcome]:
    """What becomes of each sheet of a folder."""
    return [scored(sheet, label, strict) for sheet, label in sheets(folder)]


def told(found: list[Outcome], say: Callable[[str], None], errors: bool) -> None:
    """The score, a line a sheet; the errors below."""
    for one in found:
        state = "right" if one.right else "-"
        say(
            f"{one.name:36} {state:5} values {one.values:3} wrong {len(one.wrong):3} "
            f"missing {len(one.missing):3} status {one.status} asked {int(one.asked)}"
        )
        if errors and not one.right:
            lines = [*(f"wrong: {each}" for each in one.wrong), *one.missing[:40]]
            for each in lines:
                say(f"    {each}")
            if one.status or errors:
                say("\n".join(f"      > {line}" for line in one.talk.splitlines()[:60]))
    many = sum(one.right for one in found)
    say(
        f"right {many} of {len(found)}; values {sum(one.values for one in found)}, "
        f"wrong {sum(len(one.wrong) for one in found)}, "
        f"missing {sum(len(one.missing) for one in found)}"
    )


def main() -> None:
    """Score a folder."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--errors", action="store_true")
    parser.add_argument("--strict", action="store_true", help="titles only as they are labelled")
    chosen = parser.parse_args()
    told(outcomes(chosen.folder, chosen.strict), print, chosen.errors)


if __name__ == "__main__":
    main()
