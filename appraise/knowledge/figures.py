"""The drawings that ship, and the answers and checks that name them."""

from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from appraise.base.drawing import Stroke, strokes
from appraise.base.errors import InputError
from appraise.base.places import shipped_data
from appraise.base.spelling import did_you_mean
from appraise.knowledge.records import Check, Knowledge, Problem

FOLDER, ENDING = "figures", ".svg"


def names(root: Path | None = None) -> tuple[str, ...]:
    """The drawings of a directory of knowledge, the one that ships unless said otherwise."""
    found = ((root or shipped_data()) / FOLDER).glob(f"*{ENDING}")
    return tuple(sorted(path.stem for path in found))


@lru_cache(maxsize=256)
def drawing(name: str, root: Path | None = None) -> tuple[Stroke, ...]:
    """The strokes of a drawing by its name.

    Raises:
        InputError: when there is none of that name, or it holds what is not drawn.
    """
    return strokes(source(name, root), f"{FOLDER}/{name}{ENDING}")


def source(name: str, root: Path | None = None) -> str:
    """A drawing as it is written, an SVG.

    Raises:
        InputError: when there is none of that name.
    """
    path = (root or shipped_data()) / FOLDER / f"{name}{ENDING}"
    try:
        return path.read_text(encoding="utf-8").strip()
    except OSError:
        known = names(root)
        raise InputError(
            f"there is no drawing '{name}'", path.name, did_you_mean(name, known)
        ) from None


def named(check: Check) -> Iterator[tuple[str, str, str]]:
    """What a check's drawings show: name, answer or '' for how to look, words."""
    if check.figure:
        yield check.figure, "", check.ask
    yield from ((one.figure, one.id, one.says) for one in check.answers if one.figure)


def figure_problems(knowledge: Knowledge, root: Path) -> list[Problem]:
    """Drawings that a row names in vain, and drawings that no row names.

    Where a row of the user's own stands for a shipped one, a drawing may have lost its only row.
    """
    known = set(names(root))
    found, used = [], set[str]()
    for check in knowledge.checks.values():
        for name, answer, _ in named(check):
            used.add(name)
            if name not in known:
                where = ".".join(filter(None, (f"{check.file}:{check.line} {check.id}", answer)))
                mend = did_you_mean(name, known)
                found.append(Problem(where, f"there is no drawing '{name}'", mend))
    for name in sorted(known - used) if not knowledge.overridden else ():
        where = f"{root.name}/{FOLDER}/{name}{ENDING}"
        found.append(Problem(where, "no check or answer names it", "Name it, or remove the file."))
    return found
