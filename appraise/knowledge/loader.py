"""Loads data/ and the user's overlay: strict row by row, and whole whatever one row does.

A file holds any of the topics below as top-level keys, so that it can be arranged by what a
person would look for. A row that cannot be used becomes a `Problem` with file, line, key and the
nearest spelling; the others load. Rows of the overlay replace shipped rows of the same id.
"""

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from appraise.base.errors import InputError, KnowledgeError
from appraise.base.places import shipped_data
from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row, compose
from appraise.knowledge.checks import Surroundings, read_check, read_defect
from appraise.knowledge.crossing import cross_check
from appraise.knowledge.records import KINDS, Check, Knowledge, Problem, Ratios, Weights
from appraise.knowledge.topics import (
    read_care,
    read_caution,
    read_format,
    read_housing,
    read_never,
    read_offset,
    read_part,
    read_process,
    read_ratios,
    read_source,
)
from appraise.knowledge.weights import read_weights
from appraise.knowledge.wordchecks import word_problems
from appraise.knowledge.wordrows import read_gap, read_phrase, read_term

TOPICS = (
    "sources", "parts", "weights", "processes", "housings", "formats", "offsets", "checks",
    "defects", "cautions", "never", "care", "ratios", "terms", "phrases",
    "gaps",
)  # fmt: skip
SINGLE = ("weights", "ratios")  # topics that are one row
HEADINGS = ("about", "kinds")


@dataclass(slots=True)
class _Shelf:
    """Rows found so far, by topic and id, and what went wrong."""

    rows: dict[str, dict[str, tuple[Row, tuple[str, ...]]]] = field(
        default_factory=lambda: {topic: {} for topic in TOPICS}
    )
    problems: list[Problem] = field(default_factory=list)
    overridden: list[str] = field(default_factory=list)
    digest: Any = field(default_factory=hashlib.sha256)

    def blame(self, error: InputError) -> None:
        self.problems.append(Problem(error.where, error.what, error.mend))


def load(data: Path | None = None, overlay: Path | None = None) -> Knowledge:
    """The trade's knowledge.

    Args:
        data: The directory of shipped rows; None takes the one that ships.
        overlay: A directory of the user's rows, laid over the shipped ones; may be absent.

    Raises:
        KnowledgeError: when the shipped knowledge lacks what nothing can do without.
    """
    shelf = _Shelf()
    root = data or shipped_data()
    _gather(shelf, root, shipped=True)
    if overlay is not None and overlay.is_dir():
        _gather(shelf, overlay, shipped=False)
    return _build(shelf, root)


def _gather(shelf: _Shelf, root: Path, shipped: bool) -> None:
    for path in sorted(root.rglob("*.yaml")):
        try:
            text = path.read_text(encoding="utf-8-sig")
            shelf.digest.update(text.encode())
            top = compose(text, f"{root.name}/{path.relative_to(root).as_posix()}")
            _shelve(shelf, top, shipped)
        except InputError as error:
            shelf.blame(error)
        except (OSError, UnicodeDecodeError) as error:
            shelf.problems.append(Problem(str(path), f"cannot be read: {error}"))


def _shelve(shelf: _Shelf, top: Row, shipped: bool) -> None:
    top.text("about", "")
    kinds = top.words("kinds", ("cased",))
    for topic in top:
        if topic in HEADINGS:
            continue
        if topic not in TOPICS:
            shelf.blame(top.error(topic, f"'{topic}' is no topic", did_you_mean(topic, TOPICS)))
            continue
        _shelve_topic(shelf, top, topic, kinds, shipped)


def _shelve_topic(
    shelf: _Shelf, top: Row, topic: str, kinds: tuple[str, ...], shipped: bool
) -> None:
    try:
        rows = top.row(topic)
        if topic in SINGLE:
            shelf.rows[topic][topic] = (rows, kinds)
            return
        for key in rows:
            seen = shelf.rows[topic].get(key)
            if seen and shipped:
                raise rows.error(key, f"'{key}' is there already, at {seen[0].where()}")
            if seen:
                shelf.overridden.append(key)
            shelf.rows[topic][key] = (rows.row(key), kinds)
    except InputError as error:
        shelf.blame(error)


def _read_all(shelf: _Shelf, topic: str, reader: Callable[..., Any], *more: Any) -> dict[str, Any]:
    found = {}
    for key, (row, _) in shelf.rows[topic].items():
        try:
            found[key] = reader(row, key, *more)
        except InputError as error:
            shelf.blame(error)
    return found


def _build(shelf: _Shelf, root: Path) -> Knowledge:
    sources = _read_all(shelf, "sources", read_source)
    keys = frozenset(sources)
    parts = _read_all(shelf, "parts", read_part)
    weights = _weights(shelf, keys, root)
    processes = _read_all(shelf, "processes", read_process, keys)
    housings = _read_all(shelf, "housings", read_housing, keys)
    around = Surroundings(
        sources=keys,
        parts=parts,
        processes=_words(processes.values()),
        housings={name: (name,) for name in housings},
        floors=weights.floors,
    )
    knowledge = Knowledge(
        checks=_checks(shelf, around),
        processes=processes,
        housings=housings,
        formats=_read_all(shelf, "formats", read_format, keys),
        offsets=_read_all(shelf, "offsets", read_offset, keys),
        cautions=_read_all(shelf, "cautions", read_caution, keys),
        sources=sources,
        parts=parts,
        weights=weights,
        ratios=_read_all(shelf, "ratios", read_ratios, keys).get("ratios", Ratios()),
        terms=_read_all(shelf, "terms", read_term, keys),
        phrases=_read_all(shelf, "phrases", read_phrase, keys),
        gaps=_read_all(shelf, "gaps", read_gap, keys),
        never=_read_all(shelf, "never", read_never, keys),
        care=_read_all(shelf, "care", read_care, keys),
        overridden=tuple(shelf.overridden),
        digest=shelf.digest.hexdigest()[:12],
    )
    return cross_check(knowledge, [*shelf.problems, *word_problems(knowledge)])


def _weights(shelf: _Shelf, sources: frozenset[str], root: Path) -> Weights:
    """The model's settings; nothing can be computed without them."""
    if "weights" not in shelf.rows["weights"]:
        raise KnowledgeError(
            "no 'weights:' among the knowledge files", str(root), "Reinstall, or mend the file."
        )
    try:
        return read_weights(shelf.rows["weights"]["weights"][0], sources)
    except InputError as error:
        raise KnowledgeError(error.what, error.where, error.mend) from None


def _words(processes: Iterable[Any]) -> dict[str, tuple[str, ...]]:
    """Process and family words with the processes each stands for."""
    words: dict[str, tuple[str, ...]] = {}
    for process in processes:
        words[process.family] = (*words.get(process.family, ()), process.id)
    for members in list(words.values()):
        words.update({member: (member,) for member in members})
    return words


def _checks(shelf: _Shelf, around: Surroundings) -> dict[str, Check]:
    found: dict[str, Check] = {}
    for topic, reader in (("checks", read_check), ("defects", read_defect)):
        for key, (row, kinds) in shelf.rows[topic].items():
            try:
                if key in found:
                    raise row.error("", f"'{key}' is both a check and a defect")
                found[key] = reader(row, key, around, kinds or KINDS)
            except InputError as error:
                shelf.blame(error)
    return found
