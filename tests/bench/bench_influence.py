"""The most influential numbers of the model: how far a fifth more moves the verdicts of the pieces.

    PYTHONPATH=tests python tests/bench/bench_influence.py [HOW MANY]

Every number in `data/` that the reading computes with is made a fifth larger by itself (a fifth
smaller where larger is none that it can be), and the external pieces that it can touch are read
again: those of `tests/external/pieces` and `tests/external/whole`. A fifth of a year number or of a
plate's breadth would be another age or another plate: of a trapezoid's four years each moves by a
fifth of the span from first to last, and a format's size by a fifth of its tolerance.

How far a verdict moves is the greatest of the total variation distances of its belonging, its
process families, its years and its format, and of the change of the log of the price share that its
damage leaves: 0 not at all, 1 altogether. A number's figure is the mean over all pieces, those that
it cannot touch included. What bears on money alone (price ratios, shares of value) is left out,
since the pieces have no price log of their own.
"""

import os
import re
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np
import yaml
from external.whole.scoring import cases

from appraise.base.errors import InputError
from appraise.base.yamls import Row
from appraise.knowledge import load
from appraise.knowledge.checks import read_check, read_defect
from appraise.knowledge.citing import keys_of
from appraise.knowledge.crossing import scale_shares
from appraise.knowledge.naturerows import read_housing, read_process
from appraise.knowledge.records import Check, Knowledge
from appraise.knowledge.shelf import Placed, Shelf
from appraise.knowledge.surroundings import Surroundings
from appraise.knowledge.topics import read_format, read_offset, read_part, read_source
from appraise.knowledge.weights import read_weights
from appraise.reading.evidence import with_implied
from appraise.reading.reading import Reading, read
from appraise.reading.usual import beside_usual
from appraise.records.piece import Piece
from appraise.records.piece_file import read_piece

DATA = Path(__file__).parents[2] / "data"
PIECES = Path(__file__).parents[1] / "external" / "pieces"
SHOWN = 20
FIFTH = 0.2
_NUMBER = re.compile(r"(?<![\w.])(x?)(\d*\.?\d+)(?![\w.])")
# Keys of a row under which nothing stands that the reading computes with.
SILENT = frozenset(
    (
        *("seconds", "ask", "how", "misleads", "innocent", "note", "ref", "source", "basis"),
        *("name", "says", "before", "worth-of", "family", "steps", "formerly", "cautions"),
        *("when", "only", "suits", "kinds", "risk", "sort", "group", "stability", "history"),
        *("do", "never", "part", "reversible", "asking", "gate", "half-seen", "warnings"),
        *("looks-right", "late", "holds", "mark", "implies", "unacceptable"),
    )
)
HOUSING_SILENT = frozenset(("worth",))


@dataclass(frozen=True)
class Number:
    """One number of the data.

    Attributes:
        where: File, line and keys.
        value: As it is written.
        basis: What its row rests on.
        topic, key: The row.
        path: The keys below it.
        place: Which of the numbers in its text.
    """

    where: str
    value: str
    basis: str
    topic: str
    key: str
    path: tuple[str, ...]
    place: int


@dataclass(frozen=True)
class Look:
    """What is compared of a reading."""

    states: np.ndarray
    families: Mapping[str, float]
    years: np.ndarray
    formats: Mapping[str, float]
    kept: float


def looked(piece: Piece, knowledge: Knowledge, damage: bool = True) -> list[Look]:
    """The reading of each image of a piece; what its damage leaves only where that is asked for."""
    whole = read(piece, knowledge)
    kept = float(np.log(beside_usual(whole, knowledge))) if damage else 0.0
    return [_look(one, kept) for one in ([one for _, one in whole.images] or [whole])]


def _look(reading: Reading, kept: float) -> Look:
    return Look(
        np.array(reading.states),
        reading.families,
        np.array(reading.year_weights),
        reading.formats.probabilities,
        kept,
    )


def moved(before: Sequence[Look], after: Sequence[Look]) -> float:
    """How far a verdict moved, 0 to 1; of several images the one that moved most."""
    return max(_moved(one, other) for one, other in zip(before, after, strict=True))


def _moved(a: Look, b: Look) -> float:
    return max(
        0.5 * float(np.abs(a.states - b.states).sum()),
        _apart(a.families, b.families),
        0.5 * float(np.abs(a.years - b.years).sum()),
        _apart(a.formats, b.formats),
        min(1.0, abs(a.kept - b.kept)),
    )


def _apart(a: Mapping[str, float], b: Mapping[str, float]) -> float:
    return 0.5 * sum(abs(a.get(word, 0.0) - b.get(word, 0.0)) for word in {*a, *b})


class Model:
    """The shipped data as it lies in its files, and the knowledge with single rows read anew."""

    def __init__(self) -> None:
        self.shelf = Shelf()
        self.shelf.gather(DATA, shipped=True)
        self.knowledge = load(DATA)
        keys = keys_of(self.shelf.read("sources", read_source).values())
        families: dict[str, tuple[str, ...]] = {}
        for one in self.knowledge.processes.values():
            families[one.family] = (*families.get(one.family, ()), one.id)
        for members in list(families.values()):
            families.update({member: (member,) for member in members})
        self._keys = keys
        self._around = Surroundings(
            keys,
            self.shelf.read("parts", read_part),
            families,
            {name: (name,) for name in self.knowledge.housings},
            self.knowledge.weights.floors,
        )
        read: tuple[tuple[str, Callable[..., Check]], ...] = (
            ("checks", read_check),
            ("defects", read_defect),
        )
        self._checks = {  # before their shares are scaled to fit one year
            key: reader(placed.row, key, self._around, placed.kinds)
            for topic, reader in read
            for key, (placed,) in self.shelf.rows[topic].items()
        }

    def numbers(self) -> Iterator[Number]:
        """Every number that the reading computes with."""
        topics = ("weights", "processes", "housings", "formats", "offsets", "checks", "defects")
        for topic in topics:
            for key, (placed,) in self.shelf.rows[topic].items():
                for path, node in _leaves(placed.row.twin(), topic):
                    for place, found in enumerate(_NUMBER.finditer(node.value)):
                        name = f"{placed.row.file}:{node.start_mark.line + 1}"
                        keys = ".".join((topic, key, *path) if topic != key else (topic, *path))
                        basis = self._basis(placed, path)
                        yield Number(f"{name} {keys}", found[0], basis, topic, key, path, place)

    def _basis(self, placed: Placed, path: Sequence[str]) -> str:
        """What the nearest row around a number rests on."""
        told, node = "judgement", placed.row.twin()
        for key in ("", *path):
            if key:
                node = next((v for k, v in node.value if k.value == key), node)
            if not isinstance(node, yaml.MappingNode):
                break
            fields = {k.value: v for k, v in node.value}
            if "basis" in fields:
                told = fields["basis"].value
            elif "source" in fields:
                told = "source"
        return told

    def changed(self, number: Number) -> Knowledge | None:
        """The knowledge with one number a fifth larger, or else smaller; None where neither is."""
        for factor in (1 + FIFTH, 1 - FIFTH):
            try:
                return self._with(number, factor)
            except InputError:
                continue
        return None

    def _with(self, number: Number, factor: float) -> Knowledge:
        (placed,) = self.shelf.rows[number.topic][number.key]
        node = _own(placed.row.twin())
        _multiply(node, number, factor)
        row, known = Row(node, placed.row.file, placed.row.path, placed.row.line), self.knowledge
        key, keys = number.key, self._keys
        if number.topic == "weights":
            weights = read_weights(row, keys)
            scaled = {name: scale_shares(one, weights) for name, one in self._checks.items()}
            return replace(known, weights=weights, checks=scaled)
        made: Mapping[str, Callable[[], Any]] = {
            "processes": lambda: read_process(row, key, keys),
            "housings": lambda: read_housing(row, key, keys),
            "formats": lambda: read_format(row, key, keys),
            "offsets": lambda: read_offset(row, key, keys),
            "checks": lambda: read_check(row, key, self._around, placed.kinds),
            "defects": lambda: read_defect(row, key, self._around, placed.kinds),
        }
        one = made[number.topic]()
        if number.topic in ("checks", "defects"):
            scaled = scale_shares(one, known.weights)
            return replace(known, checks={**known.checks, key: scaled})
        return replace(known, **{number.topic: {**getattr(known, number.topic), key: one}})


def _own(node: yaml.Node) -> Any:
    """A node that shares no text with the one in the file."""
    if isinstance(node, yaml.ScalarNode):
        return yaml.ScalarNode(node.tag, node.value, node.start_mark, node.end_mark)
    pairs = isinstance(node, yaml.MappingNode)
    held = [(k, _own(v)) for k, v in node.value] if pairs else [_own(v) for v in node.value]
    return type(node)(node.tag, held, node.start_mark, node.end_mark)


def _leaves(node: yaml.Node, topic: str) -> Iterator[tuple[tuple[str, ...], yaml.ScalarNode]]:
    """Texts below a row that hold numbers of the model, with the keys that lead to them."""
    if isinstance(node, yaml.ScalarNode):
        yield (), node
    elif isinstance(node, yaml.SequenceNode):
        for place, one in enumerate(node.value):
            for path, leaf in _leaves(one, topic):
                yield (str(place), *path), leaf
    else:
        for key, value in node.value:
            silent = SILENT | (HOUSING_SILENT if topic == "housings" else frozenset())
            if key.value not in silent:
                for path, leaf in _leaves(value, topic):
                    yield (key.value, *path), leaf


def _multiply(node: yaml.Node, number: Number, factor: float) -> None:
    """Change one number inside a copied row; the others of its row of chances make room."""
    inner = node
    for key in number.path:
        if isinstance(inner, yaml.SequenceNode):
            inner = inner.value[int(key)]
        else:
            inner = next(value for name, value in inner.value if name.value == key)
    found = list(_NUMBER.finditer(inner.value))
    values = [float(one[2]) for one in found]
    keys = set(number.path)
    if keys & {"years", "image-years"}:
        step = (factor - 1) * (values[-1] - values[0])
        values[number.place] = round(values[number.place] + step)
        values = _in_order(values, number.place)
    elif number.topic == "formats" and "size" in keys:
        fields = {name.value: value for name, value in node.value}
        values[number.place] += (factor - 1) * float(fields["tolerance"].value)
    else:
        values[number.place] *= factor
        if number.path[0] == "rates" or number.path[-1] == "lags":
            values = _summing(values, number.place, sum(float(one[2]) for one in found))
    texts, end = [], 0
    for one, value in zip(found, values, strict=True):
        texts += [inner.value[end : one.start()], one[1], f"{value:.10g}"]
        end = one.end()
    inner.value = "".join((*texts, inner.value[end:]))


def _in_order(values: list[float], place: int) -> list[float]:
    """Years in order, where one was moved past its neighbours."""
    at = values[place]
    return [min(v, at) if i < place else max(v, at) for i, v in enumerate(values)]


def _summing(values: list[float], place: int, total: float) -> list[float]:
    """The others scaled so that the sum stays."""
    rest = sum(values) - values[place]
    scale = (total - values[place]) / rest if rest > 0 else 0.0
    if scale < 0:
        raise InputError("more than all")
    return [v if i == place else v * scale for i, v in enumerate(values)]


def touched(number: Number, pieces: Sequence[Piece], knowledge: Knowledge) -> list[int]:
    """The pieces that a number can touch at all."""
    if number.topic in ("checks", "defects"):
        shown = {number.key}
        return [i for i, one in enumerate(pieces) if shown & _answered(one, knowledge)]
    if number.topic in ("formats", "offsets"):
        form = knowledge.formats.get(number.key)
        sized = [i for i, one in enumerate(pieces) if one.measured or one.named_format]
        return [i for i in sized if form is None or pieces[i].kind in form.kinds]
    if number.topic == "processes":
        shares = knowledge.processes[number.key].shares
        return [i for i, one in enumerate(pieces) if one.kind in shares and _there(number, one)]
    if number.topic == "housings":
        housed = ("cased", "empty-case")
        return [i for i, one in enumerate(pieces) if one.kind in housed and _there(number, one)]
    return list(range(len(pieces)))


def _there(number: Number, piece: Piece) -> bool:
    """Whether a number that holds for one kind or region holds for a piece."""
    words = {word for key in number.path for word in key.split()}
    regions, kinds = words & {"us", "gb", "eu", "au"}, words & {"cased", "loose-plate", "card"}
    return (not regions or piece.region in regions or piece.region == "unknown") and (
        not kinds or piece.kind in kinds
    )


def _answered(piece: Piece, knowledge: Knowledge) -> set[str]:
    found = set(with_implied(piece, knowledge))
    for image in piece.images:
        found |= set(image.findings)
    return found


def every_piece(knowledge: Knowledge) -> list[tuple[str, Piece]]:
    """The documented pieces and the whole ones."""
    files = [path for path in sorted(PIECES.glob("*.yaml")) if path.name != "index.yaml"]
    found = [(path.stem, read_piece(path, knowledge)) for path in files]
    return [*found, *((case.id, case.piece(knowledge)) for case in cases())]


def influences(part: int, parts: int) -> list[tuple[float, float, str, Number]]:
    """Every so many-th number that can touch a piece: mean and most movement, and where most."""
    model = Model()
    names, pieces = zip(*every_piece(model.knowledge), strict=True)
    before = {
        full: [looked(one, model.knowledge, full) for one in pieces] for full in (True, False)
    }
    rows = []
    for place, number in enumerate(model.numbers()):
        at = touched(number, pieces, model.knowledge) if place % parts == part else []
        changed = model.changed(number) if at else None
        if changed is None:
            continue
        full = number.topic == "defects"
        far = {i: moved(before[full][i], looked(pieces[i], changed, full)) for i in at}
        most = max(far, key=lambda i: far[i])
        rows.append((sum(far.values()) / len(pieces), far[most], names[most], number))
    return rows


def main(shown: int = SHOWN) -> None:
    """Print the table."""
    start, parts = time.perf_counter(), os.cpu_count() or 1
    with ProcessPoolExecutor() as pool:
        found = pool.map(influences, range(parts), [parts] * parts)
        rows = sorted((row for part in found for row in part), key=lambda row: -row[0])
    took, count = time.perf_counter() - start, len(every_piece(load(DATA)))
    print(f"{len(rows)} numbers that can touch one of {count} pieces, in {took:.0f} s")
    print("a fifth more of each; how far the verdicts move, in hundredths: mean, and most\n")
    print(f"{'mean':>6} {'most':>6}  {'basis':<10} {'number':<10} where (the piece moved most)")
    for mean, most, name, number in rows[:shown]:
        print(
            f"{100 * mean:6.2f} {100 * most:6.1f}  {number.basis:<10} {number.value:<10} "
            f"{number.where} ({name})"
        )


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]))
