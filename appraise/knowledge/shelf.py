"""Rows as they lie in the files, shipped and the user's own, before anything is made of them."""

import hashlib
from collections.abc import Callable
from dataclasses import field
from pathlib import Path
from typing import Any

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.spelling import did_you_mean
from appraise.base.yamls import Row, compose
from appraise.base.yamltext import read_text
from appraise.knowledge.records import Own, Problem

TOPICS = (
    "sources", "parts", "weights", "processes", "housings", "formats", "offsets", "checks",
    "answers", "defects", "cautions", "never", "care", "record", "ratios", "terms", "phrases",
    "gaps", "plain", "spares", "materials", "fitting", "sheets",
)  # fmt: skip
SINGLE = ("weights", "ratios", "fitting")  # topics that are one row
HEADINGS = ("about", "kinds")


@dataclass(frozen=True, slots=True)
class Placed:
    """One row where it was found, with the kinds of its file."""

    row: Row
    kinds: tuple[str, ...]
    path: Path
    shipped: bool


@dataclass(slots=True)
class Shelf:
    """Rows found so far, by topic and id, and what went wrong.

    Of one id there may be two: the user's own first, then the shipped one that it replaces.
    """

    rows: dict[str, dict[str, tuple[Placed, ...]]] = field(
        default_factory=lambda: {topic: {} for topic in TOPICS}
    )
    problems: list[Problem] = field(default_factory=list)
    own: list[Own] = field(default_factory=list)
    digest: Any = field(default_factory=hashlib.sha256)

    def blame(self, *errors: InputError) -> None:
        """Note what cannot be used."""
        self.problems += [Problem(error.where, error.what, error.mend) for error in errors]

    def gather(self, root: Path, shipped: bool) -> None:
        """Every row of every YAML file below a directory; a file that cannot be used is blamed."""
        for path in sorted(root.rglob("*.yaml")):
            name = f"{root.name}/{path.relative_to(root).as_posix()}"
            try:
                if path.exists() and not path.is_file():
                    raise InputError("is not a file", name, "Move it elsewhere.")
                text = read_text(path, name)
                self.digest.update(text.encode())
                self._take(compose(text, name), path, shipped)
            except InputError as error:
                self.blame(error)

    def _take(self, top: Row, path: Path, shipped: bool) -> None:
        top.text("about", "")
        kinds = top.words("kinds", ("cased",))
        for topic in top:
            if topic in HEADINGS:
                continue
            try:
                if topic not in TOPICS:
                    mend = did_you_mean(topic, TOPICS)
                    raise top.error(topic, f"'{topic}' is not a topic", mend)
                rows = top.row(topic)
                if topic in SINGLE:
                    self._put(topic, topic, Placed(rows, kinds, path, shipped))
                    continue
            except InputError as error:
                self.blame(error)
                continue
            for key in rows:
                try:
                    self._put(topic, key, Placed(rows.row(key), kinds, path, shipped))
                except InputError as error:
                    self.blame(error)

    def _put(self, topic: str, key: str, placed: Placed) -> None:
        seen = self.rows[topic].get(key, ())
        if any(one.shipped == placed.shipped for one in seen):
            raise placed.row.error("", f"'{key}' is there already, at {seen[0].row.where()}")
        self.rows[topic][key] = (placed, *seen)

    def read(self, topic: str, reader: Callable[..., Any], *more: Any) -> dict[str, Any]:
        """What a reader makes of a topic's rows, by id; `reader(row, id, *more)`."""
        return self.read_placed(topic, lambda placed, key: reader(placed.row, key, *more))

    def read_placed(self, topic: str, reader: Callable[[Placed, str], Any]) -> dict[str, Any]:
        """The same for readers that want the row's surroundings as well.

        A row of one's own that cannot be used leaves the shipped one of its id in force.
        """
        found = {}
        for key, candidates in self.rows[topic].items():
            for placed in candidates:
                try:
                    found[key] = reader(placed, key)
                except InputError as error:
                    self.blame(error, *_further(error, placed, topic, key, reader))
                    continue
                if not placed.shipped:
                    over = candidates[-1].row.where() if len(candidates) > 1 else ""
                    self.own.append(Own(topic, key, placed.row.where(), over))
                break
        return found

    def located(self, problem: Problem) -> Problem:
        """The problem with file and line, where it names its row by topic and id alone."""
        topic, _, rest = problem.where.partition(".")
        placed = self.rows.get(topic, {}).get(rest)
        return Problem(placed[0].row.where(), problem.what, problem.mend) if placed else problem


def _further(
    error: InputError,
    placed: Placed,
    topic: str,
    key: str,
    reader: Callable[[Placed, str], Any],
) -> list[InputError]:
    """What else is wrong with a row that has one fault."""
    from appraise.knowledge.second_look import further  # only on the way to an error

    def again(row: Row) -> None:
        reader(Placed(row, placed.kinds, placed.path, placed.shipped), key)

    return [] if topic in SINGLE else further(error, placed.row, again)
