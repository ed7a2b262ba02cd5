"""Loads data/ and the user's overlay: strict row by row, and whole whatever one row does.

A file holds any of the topics below as top-level keys, so that it can be arranged by what a
person would look for. A row that cannot be used becomes a `Problem` with file, line, key and the
nearest spelling; the others load. Rows of the overlay replace shipped rows of the same id.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from appraise.base.collecting import without_collecting
from appraise.base.errors import InputError, KnowledgeError
from appraise.base.places import shipped_data
from appraise.knowledge.bench import Fitting
from appraise.knowledge.benchrows import read_fitting, read_material, read_spare
from appraise.knowledge.checks import read_check, read_defect, with_answers
from appraise.knowledge.citing import Keys, keys_of
from appraise.knowledge.crossing import cross_check
from appraise.knowledge.figures import figure_problems
from appraise.knowledge.naturerows import read_housing, read_process
from appraise.knowledge.patterns import word_index
from appraise.knowledge.records import (
    KINDS,
    Check,
    Knowledge,
    Own,
    Problem,
    Process,
    Ratios,
    Weights,
)
from appraise.knowledge.shelf import Placed, Shelf
from appraise.knowledge.surroundings import Surroundings
from appraise.knowledge.topics import (
    read_care,
    read_caution,
    read_format,
    read_never,
    read_offset,
    read_part,
    read_plain,
    read_ratios,
    read_record,
    read_source,
)
from appraise.knowledge.weights import read_weights
from appraise.knowledge.wordchecks import word_problems
from appraise.knowledge.wordrows import read_gap, read_phrase, read_sheet, read_term


def load(data: Path | None = None, overlay: Path | None = None) -> Knowledge:
    """The trade's knowledge.

    Args:
        data: The directory of shipped rows; None takes the one that ships.
        overlay: A directory of the user's rows, laid over the shipped ones; may be absent.

    Returns:
        All that can be used; what of the user's own cannot is left out, and told in `problems`.

    Raises:
        KnowledgeError: when the shipped knowledge lacks what nothing can do without.
    """
    root = data or shipped_data()
    if overlay is None:
        return _loaded(root, None)
    try:
        return _loaded(root, overlay)
    except KnowledgeError:
        raise
    except Exception as error:  # whatever the user's own files hold, the shipped rows are there
        says = f"these files cannot be used ({type(error).__name__}: {error})"
        found = _loaded(root, None)
        problem = Problem(overlay.name, says, "Move the one changed last elsewhere.")
        return replace(found, problems=(*found.problems, problem))


def _loaded(root: Path, overlay: Path | None) -> Knowledge:
    shelf = Shelf()
    with without_collecting():
        shelf.gather(root, shipped=True)
        if overlay is not None and overlay.is_dir():
            shelf.gather(overlay, shipped=False)
        elif overlay is not None and overlay.exists():
            shelf.blame(InputError("is not a directory", overlay.name, "Make it one."))
        return _build(shelf, root)


def _build(shelf: Shelf, root: Path) -> Knowledge:
    sources = shelf.read("sources", read_source)
    keys = keys_of(sources.values())
    parts = shelf.read("parts", read_part)
    weights = _weights(shelf, keys, root)
    processes = shelf.read("processes", read_process, keys)
    housings = shelf.read("housings", read_housing, keys)
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
        formats=shelf.read("formats", read_format, keys),
        offsets=shelf.read("offsets", read_offset, keys),
        cautions=shelf.read("cautions", read_caution, keys),
        sources=sources,
        parts=parts,
        weights=weights,
        ratios=shelf.read("ratios", read_ratios, keys).get("ratios", Ratios()),
        terms=shelf.read("terms", read_term, keys),
        phrases=shelf.read("phrases", read_phrase, keys),
        gaps=shelf.read("gaps", read_gap, keys),
        sheets=shelf.read("sheets", read_sheet, keys),
        never=shelf.read("never", read_never, keys),
        care=shelf.read("care", read_care, keys),
        plain=shelf.read("plain", read_plain, keys, _things(processes, housings)),
        spares=shelf.read("spares", read_spare, keys, parts),
        materials=shelf.read("materials", read_material, keys),
        fitting=shelf.read("fitting", read_fitting, keys).get("fitting", Fitting()),
        record=shelf.read("record", read_record, keys),
        own=tuple(shelf.own),
        digest=shelf.digest.hexdigest()[:12],
    )
    return _crossed(knowledge, shelf, keys, root)


def _crossed(knowledge: Knowledge, shelf: Shelf, keys: Keys, root: Path) -> Knowledge:
    """The knowledge with what no single row can know, its problems in the order of the files."""
    found = [*shelf.problems, *word_problems(knowledge), *figure_problems(knowledge, root)]
    whole = cross_check(knowledge, found, keys.cited)
    problems = sorted(map(shelf.located, whole.problems), key=_place)
    words = word_index(whole.phrases.values(), whole.terms.values())
    return replace(whole, problems=tuple(problems), notes=tuple(keys.notes), words=words)


def _place(problem: Problem) -> tuple[str, int]:
    """File and line of a problem, to tell them in the order of the files."""
    name, _, rest = problem.where.partition(":")
    line = rest.split()[0] if rest else ""
    return name, int(line) if line.isdecimal() else 0


def _weights(shelf: Shelf, sources: Keys, root: Path) -> Weights:
    """The model's settings; nothing can be computed without them."""
    found = shelf.read("weights", lambda row, _: read_weights(row, sources))
    if found:
        weights: Weights = found["weights"]
        return weights
    if shelf.rows["weights"]:
        last = shelf.problems[-1]
        raise KnowledgeError(last.what, last.where, last.mend)
    raise KnowledgeError(
        "no 'weights:' among the knowledge files", str(root), "Reinstall, or mend the file."
    )


def _things(processes: Mapping[str, Process], housings: Iterable[str]) -> frozenset[str]:
    """The words of process families and of housings."""
    return frozenset([*(one.family for one in processes.values()), *housings])


def _words(processes: Iterable[Any]) -> dict[str, tuple[str, ...]]:
    """Process and family words with the processes each stands for."""
    words: dict[str, tuple[str, ...]] = {}
    for process in processes:
        words[process.family] = (*words.get(process.family, ()), process.id)
    for members in list(words.values()):
        words.update({member: (member,) for member in members})
    return words


def _checks(shelf: Shelf, around: Surroundings) -> dict[str, Check]:
    found: dict[str, Check] = {}
    for topic, reader in (("checks", read_check), ("defects", read_defect)):

        def made(placed: Placed, key: str, reader: Any = reader) -> Check:
            if key in found:
                raise placed.row.error("", f"'{key}' is both a check and a defect")
            check: Check = reader(placed.row, key, around, placed.kinds or KINDS)
            return check

        found.update(shelf.read_placed(topic, made))
    changed = shelf.read("answers", with_answers, found, around)
    shelf.own = [_over_answers(one, found, changed) for one in shelf.own]
    return {**found, **changed}


def _over_answers(own: Own, shipped: dict[str, Check], changed: dict[str, Check]) -> Own:
    """Single answers that stand for shipped ones name the check whose answers those were."""
    if own.topic != "answers" or own.id not in shipped:
        return own
    was = shipped[own.id]
    kept = {one.id: one for one in changed[own.id].answers}
    replaced = any(kept[one.id] is not one for one in was.answers)
    return replace(own, over=f"{was.file}:{was.line} {was.id}") if replaced else own
