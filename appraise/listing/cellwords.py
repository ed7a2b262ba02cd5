"""Words in a spreadsheet's cells, understood as the trade understands them.

'ambro', '6th plate' and 'union case' become the words that an entry of the log uses.
"""

from collections.abc import Callable, Mapping
from functools import lru_cache

from appraise.knowledge.records import Knowledge
from appraise.listing.passage import Passage
from appraise.log.csvin import as_written
from appraise.log.entries import CLOSED_WORDS

MEANT: Mapping[str, str] = {"housing": "case.material"}
"""The vocabulary's name of a field, where it is not the entry's."""


def cell_words(knowledge: Knowledge) -> Callable[[str, str], str]:
    """A reader of single cells: (field, text) to the field's word.

    A cell that is a word of the field stands as it is; else it is what the vocabulary names in
    it, when that is one thing and not denied; else it stays as it was written, in small letters
    with hyphens. Each cell is read once, since columns repeat themselves.
    """

    @lru_cache(maxsize=4_096)
    def word(field: str, text: str) -> str:
        plain = as_written(field, text)
        if plain in _known(knowledge, field):
            return plain
        passage, scope = Passage(text, knowledge, brief=True), Passage(text, knowledge).scope
        values = {
            hit.term.value
            for hit in (*passage.things, *passage.hits("deal"))
            if hit.term.field == MEANT.get(field, field) and scope.claims(hit.first, hit.last)
        }
        found = values.pop() if len(values) == 1 else ""
        return found if found in CLOSED_WORDS.get(field, (found,)) and found else plain

    return word


def _known(knowledge: Knowledge, field: str) -> frozenset[str]:
    """The words of a field."""
    if field in CLOSED_WORDS:
        return frozenset(CLOSED_WORDS[field])
    meant = MEANT.get(field, field)
    return frozenset(term.value for term in knowledge.terms.values() if term.field == meant)
