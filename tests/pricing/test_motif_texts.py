import math

import numpy as np
import pytest

from appraise.pricing.texts import TextRows, WordWeights, words

TEXTS = ["Girl with a basket", "boy with a hoop", "", "girl, basket; girl"]


def rows(texts: list[str]) -> np.ndarray:
    vocabulary = WordWeights.of(TEXTS)
    return TextRows.of(texts, vocabulary).dense(np.arange(len(texts)))


def test_words_are_lower_case_without_signs() -> None:
    assert words("Girl, with-basket_2 (ö)!") == ["girl", "with", "basket", "2", "ö"]


def test_weights_fall_with_use() -> None:
    vocabulary = WordWeights.of(TEXTS)
    assert vocabulary.weight["girl"] == pytest.approx(math.log(5 / 3) + 1)
    assert vocabulary.weight["hoop"] > vocabulary.weight["girl"]
    assert vocabulary.unseen > vocabulary.weight["hoop"]


def test_vectors_have_length_one_or_none() -> None:
    lengths = np.linalg.norm(rows(TEXTS), axis=1)
    assert lengths == pytest.approx([1.0, 1.0, 0.0, 1.0])


def test_a_word_unknown_to_the_log_makes_a_text_less_like_all_of_it() -> None:
    known, strange = rows(["girl basket", "girl basket zeppelin"])
    assert np.linalg.norm(strange) < np.linalg.norm(known) == pytest.approx(1.0)


def test_cosines_equal_dense_products() -> None:
    vocabulary = WordWeights.of(TEXTS)
    stored = TextRows.of(TEXTS, vocabulary)
    dense = stored.dense(np.arange(4))
    subject = TextRows.of(["a girl"], vocabulary).dense(np.arange(1))[0]
    assert stored.cosines(subject) == pytest.approx(dense @ subject)


def test_a_choice_of_rows_keeps_their_order() -> None:
    stored = TextRows.of(TEXTS, WordWeights.of(TEXTS))
    whole = stored.dense(np.arange(4))
    assert np.array_equal(stored.dense(np.array([3, 0])), whole[[3, 0]])
