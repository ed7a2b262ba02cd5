"""The words by which patterns begin: all of them, whatever the files say, kept with the rest."""

import random
import string

from listing.listingkit import knowledge
from shipped import LOAD, READY
from thorough import times

from appraise.knowledge.patterns import (
    MOST,
    choices_of,
    first_words,
    is_pair,
    patterns_of,
    word_index,
)
from appraise.listing.patterns import spelt_out
from appraise.listing.vocabulary import vocabulary

OWN = """
terms:
  quillwork:
    field: process
    value: ambrotype
    synonyms: ["quillwork|quilled? plate", the? quilling]
    basis: practice
"""


def rows(known):
    return [*known.phrases.values(), *known.terms.values()]


def test_every_pattern_is_found_by_each_word_that_it_may_begin_with():
    known = knowledge()
    all_rows, words = rows(known), set(known.words.known)
    for at, one in [*enumerate(all_rows)][:: times(3, 1)]:
        for pattern in patterns_of(one):
            spelt = [row for row in spelt_out(pattern) if row and row[0] not in MOST]
            assert spelt
            for row in spelt:
                assert at in known.words.begins[row[0]]
                if not isinstance(one, type(all_rows[-1])) or one.field != "era":
                    assert words.issuperset(set(row) - MOST.keys())
    for word, places in known.words.begins.items():
        assert list(places) == sorted(set(places))
        for at in places:
            starts = [first_words(choices_of(each)) for each in patterns_of(all_rows[at])]
            assert any(word in each for each in starts), (word, at)


def test_first_words_are_those_of_the_rows_that_a_pattern_stands_for():
    chance = random.Random(20_261_201)
    for _ in range(300):
        pieces = []
        for _ in range(chance.randint(1, 4)):
            words = ["".join(chance.choices(string.ascii_lowercase, k=3)) for _ in range(2)]
            pieces.append("|".join(words[: chance.randint(1, 2)]) + chance.choice(("", "?")))
        pattern = " ".join((*pieces, "end"))
        assert set(first_words(choices_of(pattern))) == {row[0] for row in spelt_out(pattern)}


def test_pairs_are_no_patterns_of_words():
    assert not any(is_pair(each) for one in rows(knowledge()) for each in patterns_of(one))


def test_the_index_is_kept_with_the_knowledge_and_follows_the_users_own_words(tmp_path):
    kept, own = tmp_path / "kept", tmp_path / "knowledge"
    first = READY(kept, own)
    assert READY(kept, own).words == first.words == knowledge().words
    own.mkdir()
    (own / "mine.yaml").write_text(OWN)
    for _ in range(2):  # read, and taken up
        mine = READY(kept, own)
        assert mine.problems == ()
        assert mine.words == LOAD(None, own).words
        assert mine.words == word_index(mine.phrases.values(), mine.terms.values())
        assert {"quillwork", "quilled", "the", "quilling"} <= mine.words.begins.keys()
        assert "quilled" in vocabulary(mine).known
    (own / "mine.yaml").unlink()
    assert READY(kept, own).words == knowledge().words
