"""What a piece lies in, by the words of a title or a cell: a material beside a case, or a frame.

'leather covered wood case', 'custodia in cuoio', 'Lederetui', 'madera y papel', ', cadre noir'.
"""

import re
from collections.abc import Mapping
from functools import lru_cache

_LONGEST = 400  # characters of a title that is read
_BETWEEN = 3  # words that may stand between a material and the case
_FRAMED = 4  # words of the part of a title that names a frame
_PARTS = re.compile(r"[,;()]|\s[-\u2013]\s")
Words = frozenset[str]


def housing_in(text: str, materials: Mapping[str, str], groups: Mapping[str, Words]) -> str:
    """The housing of which a title tells the material or that it is a frame; '' for none.

    Args:
        text: The title, folded.
        materials: Words of materials, and the housing of each.
        groups: The words by place: `container`, `between`, `framed`, `framed-by` and `lacking`.
    """
    if len(text) > _LONGEST:
        return ""
    sets = tuple(groups.get(name, frozenset()) for name in ("container", "between"))
    for found in _cased(frozenset(materials), *sets).finditer(text):
        before = re.findall(r"\w+", text[: found.start()])[-1:]
        if not groups.get("lacking", frozenset()) & {*before}:
            return materials[found["led"] or found["behind"] or found["joined"]]
    _, *parts = _PARTS.split(text)
    framed = any(_is_frame(re.findall(r"\w+", part), groups) for part in parts)
    named = groups.get("framed", frozenset()) | groups.get("framed-by", frozenset())
    return "frame" if framed or _within(named).search(text) else ""


def housing_of_cell(cell: str, materials: Mapping[str, str], groups: Mapping[str, Words]) -> str:
    """The one housing whose materials a cell of housings, folded, names; '' for none or several.

    A word that ends as one for a sleeve does is one: 'Pergaminhülle'.
    """
    words = re.findall(r"\w+", cell)
    if any(word.endswith(tuple(groups.get("sleeve", ()))) for word in words):
        return "sleeve"
    found = {materials[word] for word in words if word in materials}
    return found.pop() if len(found) == 1 else ""


def _is_frame(words: list[str], groups: Mapping[str, Words]) -> bool:
    if not words or len(words) > _FRAMED or {*words} & groups.get("lacking", frozenset()):
        return False
    by = bool({*words} & groups.get("framed-by", frozenset()))
    return by or words[-1] in groups.get("framed", ())


@lru_cache(maxsize=8)
def _within(frames: Words) -> re.Pattern[str]:
    """A frame behind a word for being in it: 'in velvet frame', 'dans un petit cadre'."""
    return re.compile(rf"\b(?:in|im|dans|sous|en|con)\W+(?:\w+\W+){{0,2}}(?:{_any(frames)})\b")


@lru_cache(maxsize=8)
def _cased(materials: Words, containers: Words, between: Words) -> re.Pattern[str]:
    """A material and a case with small words between them, or both as one word."""
    material, case, small = map(_any, (materials, containers, between))
    apart = rf"\W+(?:(?:{small})\W+){{0,{_BETWEEN}}}"
    return re.compile(
        rf"\b(?:(?P<led>{material}){apart}(?:{case})|(?:{case}){apart}(?P<behind>{material})"
        rf"|(?P<joined>{material})(?:{case}))\b"
    )


def _any(words: Words) -> str:
    return "|".join(map(re.escape, sorted(words, key=len, reverse=True))) or "(?!)"
