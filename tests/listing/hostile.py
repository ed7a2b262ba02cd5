"""Texts of random, hostile and foreign shapes, and what must hold of any text that is read."""

import random

from appraise.listing.records import Listing

SCRIPTS = [(32, 126), (0xA0, 0x17F), (0x370, 0x4FF), (0x5D0, 0x5EA), (0x600, 0x6FF),
           (0x900, 0x97F), (0xE00, 0xE7F), (0x3040, 0x30FF), (0x4E00, 0x9FFF), (0xAC00, 0xD7A3),
           (0x300, 0x36F), (0x2000, 0x206F), (0x1F300, 0x1F6FF), (0, 31)]  # fmt: skip
BITS = (
    "ambrotype", "sixth plate", "1/6", "½", "not", "no", "unlike", "crack", "glass", "hinge",
    "taped", "$45", "€ 1.250,00", "c. 1855", "1850s", "2 3/4 x 3 1/4", '"', "“", "”", "(", ")",
    ".", ",", "\n", "- ", "1) ", "my aunt said", "union case", "union army", "missing", "of the",
    "reads", "stamped", "S. Peck", "two", "lot of", "replaced", "never opened", "e\u0301", "銀板",
    "🜨", "\u202e", "\x00", "'", "x", "/", "kr", "shipping", "free shipping", "1,1,", "x 1 x",
    "portrait of Aa Bb", "{a}", "%s", "<b>", "\\", "\ufffd",
)  # fmt: skip
SHAPES = {
    "spaces": " ", "line breaks": "\n", "digits": "1", "numbers": "1 ", "sizes": "1 x ",
    "prices": "$1 ", "fractions": "1/6 ", "quotations": '"a b" ', "denials": "no ",
    "denied lists": "no cracks, ", "damage": "hinge crack ", "marks": "marked Aa Bb ",
    "years": "1850 ", "processes": "ambrotype ", "brackets": "(", "bullets": "- ambrotype\n",
    "letters": "a", "ideographs": "銀板写真", "accents": "e\u0301", "names": "portrait of Aa Bb ",
}  # fmt: skip


def hostile(rng: random.Random) -> str:
    """A text of a random shape and length: most short, some up to a million characters."""
    size = int(10 ** rng.uniform(0, 3.3)) if rng.random() < 0.998 else int(10 ** rng.uniform(4, 6))
    kind = rng.randrange(5)
    if kind == 0:
        bits = [rng.choice(BITS) for _ in range(size // 6 + 1)]
        return rng.choice((" ", "", "\n")).join(bits)[:size]
    if kind == 1:
        low, high = rng.choice(SCRIPTS)
        return "".join(chr(rng.randint(low, high)) for _ in range(size))
    if kind == 2:
        return "".join(chr(rng.randint(*rng.choice(SCRIPTS))) for _ in range(size))
    if kind == 3:
        bit = rng.choice((*BITS, *SHAPES.values()))
        return (bit * (size // len(bit) + 1))[:size]
    letters = "abcdefghijklmnopqrstuvwxyz"
    words = ["".join(rng.choices(letters, k=rng.randint(1, 14))) for _ in range(size // 8 + 1)]
    return " ".join(words)[:size]


def sound(found: Listing) -> bool:
    """Whether every span lies inside the text and holds the words that it names."""
    size = len(found.text)
    spans = all(
        0 <= one.start < one.end <= size and found.text[one.start : one.end] == one.text
        for one in found.claims
    )
    return spans and all(
        flag.start is None or flag.end is None or 0 <= flag.start < flag.end <= size
        for flag in found.flags
    )
