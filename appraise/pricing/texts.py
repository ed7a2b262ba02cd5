"""Motif texts as word vectors: which entries tell of the same picture in the same words.

A text becomes a unit vector of its words, each word weighted by log((n + 1) / (d + 1)) + 1, with
d of n texts holding it (inverse document frequency: Sparck Jones 1972, Journal of Documentation
28, smoothed so that no word weighs nothing). An empty text is the zero vector: like nothing but
itself. The cosines of such vectors, with ones on the diagonal, are a positive semi-definite
matrix, so they may enter a covariance.
"""

import math
import re
from collections import Counter
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from appraise.base.dataclass import dataclass

Floats = NDArray[np.float64]
_WORD = re.compile(r"[^\W_]+")


def words(text: str) -> list[str]:
    """The words of a text in lower case, in order, without signs."""
    return _WORD.findall(text.lower())


@dataclass(frozen=True, slots=True)
class WordWeights:
    """The words of the log's texts with their weights.

    Attributes:
        index: Word to column.
        weight: Word to inverse document frequency.
        unseen: The weight of a word that no text of the log holds.
    """

    index: dict[str, int]
    weight: dict[str, float]
    unseen: float

    @classmethod
    def of(cls, texts: Sequence[str]) -> "WordWeights":
        """The vocabulary of `texts`, in order of first appearance."""
        count: Counter[str] = Counter()
        for text in texts:
            count.update(dict.fromkeys(words(text), 1))
        total = len(texts) + 1
        weight = {word: math.log(total / (seen + 1)) + 1.0 for word, seen in count.items()}
        return cls({word: i for i, word in enumerate(count)}, weight, math.log(total) + 1.0)


@dataclass(frozen=True, slots=True)
class TextRows:
    """Texts as sparse unit vectors: for entry e, value[e] stands in row row[e], column column[e].

    Attributes:
        row: Row of each stored value, ascending.
        column: Column (word) of each stored value; words outside the vocabulary are not stored.
        value: The values; a row's full vector, unseen words included, has length 1 or 0.
        count: Number of rows.
        width: Number of columns.
    """

    row: NDArray[np.intp]
    column: NDArray[np.intp]
    value: Floats
    count: int
    width: int

    @classmethod
    def of(cls, texts: Sequence[str], vocabulary: WordWeights) -> "TextRows":
        """The vectors of `texts` over `vocabulary`."""
        rows: list[int] = []
        columns: list[int] = []
        values: list[float] = []
        for i, text in enumerate(texts):
            tally = Counter(words(text))
            mass = {
                word: times * vocabulary.weight.get(word, vocabulary.unseen)
                for word, times in tally.items()
            }
            length = math.sqrt(sum(m * m for m in mass.values()))
            for word, m in mass.items():
                if word in vocabulary.index:
                    rows.append(i)
                    columns.append(vocabulary.index[word])
                    values.append(m / length)
        return cls(
            np.array(rows, dtype=np.intp),
            np.array(columns, dtype=np.intp),
            np.array(values),
            len(texts),
            len(vocabulary.index),
        )

    @classmethod
    def learnt(cls, texts: Sequence[str]) -> "tuple[WordWeights, TextRows]":
        """The vocabulary of `texts` and their vectors over it, each text read once."""
        index: dict[str, int] = {}
        tokens, lengths = list[int](), list[int]()
        for text in texts:
            told = [index.setdefault(word, len(index)) for word in words(text)]
            tokens += told
            lengths.append(len(told))
        width = max(len(index), 1)
        rows = np.repeat(np.arange(len(texts)), lengths)
        cell, times = np.unique(rows * width + np.array(tokens, dtype=int), return_counts=True)
        row, column = cell // width, cell % width
        total = len(texts) + 1
        seen = np.bincount(column, minlength=len(index))
        weight = np.log(total / (seen + 1)) + 1.0
        mass = times * weight[column]
        length = np.sqrt(np.bincount(row, weights=mass**2, minlength=len(texts)))
        weights = dict(zip(index, weight.tolist(), strict=True))
        vocabulary = WordWeights(index, weights, math.log(total) + 1.0)
        return vocabulary, cls(row, column, mass / length[row], len(texts), len(index))

    def dense(self, chosen: NDArray[np.intp]) -> Floats:
        """The chosen rows as a dense (k, width) array."""
        place = np.full(self.count, -1, dtype=np.intp)
        place[chosen] = np.arange(len(chosen))
        kept = place[self.row] >= 0
        out = np.zeros((len(chosen), self.width))
        out[place[self.row[kept]], self.column[kept]] = self.value[kept]
        return out

    def cosines(self, vector: Floats) -> Floats:
        """The cosine of every row with one dense unit vector of length `width`: (count,)."""
        summed: Floats = np.bincount(
            self.row, weights=self.value * vector[self.column], minlength=self.count
        ).astype(float)
        return summed
