"""What somebody means who names a material: kinds, processes, families and housings."""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from appraise.base.errors import InputError
from appraise.base.spelling import did_you_mean
from appraise.knowledge.records import KINDS, Knowledge
from appraise.listing.patterns import spelt_out
from appraise.listing.words import cut

FIELDS = ("process", "case.material")  # fields of terms that name a material
Words = tuple[str, ...]


def materials_named(typed: Sequence[str], knowledge: Knowledge) -> frozenset[str]:
    """The words of `materials:` for what was typed; empty when nothing was.

    The longest name counts: 'gem tintype' is one thing. A process brings its family, and a housing
    the kind of piece that has one.

    Args:
        typed: Words as on a command line; 'salted paper', 'union case' and 'tintype-gem' all do.
        knowledge: For the names of things.

    Raises:
        InputError: when a word names none of them.
    """
    names = _names(knowledge)
    words = _folded(" ".join(typed).replace("-", " "))
    found: set[str] = set()
    while words:
        length = next((n for n in range(len(words), 0, -1) if words[:n] in names), 0)
        if not length:
            known = [" ".join(name) for name in names]
            raise InputError(f"'{words[0]}' is not a material", mend=did_you_mean(words[0], known))
        found |= names[words[:length]]
        words = words[length:]
    return frozenset(found)


@lru_cache(maxsize=4)
def _names(knowledge: Knowledge) -> Mapping[Words, frozenset[str]]:
    """By every name, as words, what it stands for; what an id says goes before other names."""
    found: dict[Words, frozenset[str]] = {}
    for value, told in _told(knowledge):
        for name in told:
            if name:
                found.setdefault(name, _means(value, knowledge))
    return found


def _told(knowledge: Knowledge) -> Iterator[tuple[str, list[Words]]]:
    families = [process.family for process in knowledge.processes.values()]
    for word in (*KINDS, *families, *knowledge.processes, *knowledge.housings):
        yield word, [_folded(word.replace("-", " "))]
    for process in knowledge.processes.values():
        yield process.id, [_folded(process.name)]
    for housing in knowledge.housings.values():
        yield housing.id, [_folded(housing.name)]
    for term in knowledge.terms.values():
        if term.field in FIELDS:
            patterns = (*term.synonyms, *term.brief)
            yield term.value, [form for one in patterns for form in spelt_out(one)]


def _means(value: str, knowledge: Knowledge) -> frozenset[str]:
    words = {value}
    process = knowledge.processes.get(value)
    if process is not None:
        words.add(process.family)
    if value in knowledge.housings and process is None:
        words.add("cased" if value != "none" else "loose-plate")
    return frozenset(words)


def _folded(text: str) -> Words:
    return tuple(word.norm for word in cut(text) if not word.is_mark)
