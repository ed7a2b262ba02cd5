"""Inputs of a fuzzed program: seeds of each sort, and what is done to them by chance."""

import random
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
SPECIAL = (
    "\x00", "\x1b[2J", "\x1b]0;title\x07", "\u202e", "\u2066", "\u200b", "\ufeff", "\r", "\n", "\t",
    "\u2028", "\x85", "½", "²", "٣", "𝟜", "１", "İ", "ß", "ﬁ", "e\u0301", "\ud800", "💰", "…", "’",
    "“", "\\", "'", '"', "`", "|", ";", ",", ":", "=", "-", "--", "+", "#", "%", "&", "*", "!", "?",
    "@", "~", "(", ")", "[", "]", "{", "}", "<", ">", "$", "£", "€", "0", "1", "9", "99", "1e400",
    "nan", "-0", "inf", "1/0", "10/11/12", "0000", "9999", "12345678901234567890",
    "9" * 400, " " * 50,
    "null", "yes", "~", "&a", "*a", "!!python/name:x", "<<", "- ", ": ", "XXXX", "19XX", "../..",
    "1850", "unknown", "USD", "usd", "mm", "in", '"', "cm", "x", "..", "1..2", "'s", "-1", "None",
)  # fmt: skip
LETTERS = "abcdefghijklmnopqrstuvwxyz ABC 0123456789"


def mangled(chance: random.Random, seeds: Sequence[str], longest: int = 4_000) -> str:
    """A seed after up to twelve changes; now and then it is left as it is, or is all noise."""
    way = chance.random()
    if way < 0.03:
        return "".join(chance.choice(SPECIAL) for _ in range(chance.randrange(12)))
    if way < 0.06:
        return "".join(map(chr, (chance.randrange(0x2FF) for _ in range(chance.randrange(60)))))
    text = chance.choice(seeds)
    if way < 0.1:
        return text
    for _ in range(1 + int(chance.expovariate(0.5)) % 12):
        text = _changed(chance, text, seeds)[:longest]
    return text


def _changed(chance: random.Random, text: str, seeds: Sequence[str]) -> str:
    start = chance.randrange(len(text) + 1)
    end = min(start + int(chance.expovariate(0.2)), len(text))
    way = chance.randrange(9)
    if way == 0:
        return text[:start] + text[end:]
    if way == 1:
        return text[:start] + chance.choice(SPECIAL) + text[start:]
    if way == 2:
        return text[:start] + chance.choice(SPECIAL) + text[end:]
    if way == 3:
        return text[:end] + text[start:end] * chance.randrange(1, 6) + text[end:]
    if way == 4:
        other = chance.choice(seeds)
        cut = chance.randrange(len(other) + 1)
        return text[:start] + other[cut : cut + 80] + text[end:]
    if way == 5:
        return text[:start] + "".join(chance.choices(LETTERS, k=3)) + text[end:]
    if way == 6:
        return text[:start] + text[start:end].swapcase() + text[end:]
    if way == 7:
        words = text.split(" ")
        chance.shuffle(words)
        return " ".join(words)
    lines = text.split("\n")
    return "\n".join(chance.sample(lines, chance.randint(1, len(lines))))


def listings() -> list[str]:
    """Texts of listings, as the tests of the reader have them."""
    import yaml

    found = list[str]()
    for path in sorted((ROOT / "tests/listing/corpus").rglob("*.yaml")):
        _texts(yaml.safe_load(path.read_text(encoding="utf-8")), found)
    return [text[:1_500] for text in found if len(text) > 15]


def _texts(value: object, found: list[str]) -> None:
    if isinstance(value, str):
        found.append(value)
    elif isinstance(value, dict):
        for name, one in value.items():
            if name in ("text", "line", "listing", "texts", "lines") or not isinstance(one, str):
                _texts(one, found)
    elif isinstance(value, list):
        for one in value:
            _texts(one, found)


def sheets() -> list[str]:
    """Spreadsheets of strangers as text."""
    places = sorted((ROOT / "tests/exchange/strangers").rglob("*"))
    return [
        path.read_bytes().decode("latin-1")[:3_000]
        for path in places
        if path.suffix in (".csv", ".txt", ".tsv")
    ]
