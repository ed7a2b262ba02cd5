"""How many rows the knowledge holds, by topic, and on what they rest."""

from collections import Counter
from collections.abc import Mapping
from typing import Any

from appraise.knowledge.basics import Basis, Mark
from appraise.knowledge.records import Knowledge

MARKS: tuple[Mark, ...] = ("source", "practice", "judgement", "memory")


def rows_by_topic(knowledge: Knowledge) -> dict[str, Mapping[str, Any]]:
    """Every topic that has rows with ids, and its rows."""
    checks = knowledge.checks
    return {
        "checks": {name: one for name, one in checks.items() if not one.defect},
        "defects": {name: one for name, one in checks.items() if one.defect},
        "processes": knowledge.processes,
        "housings": knowledge.housings,
        "formats": knowledge.formats,
        "offsets": knowledge.offsets,
        "cautions": knowledge.cautions,
        "never": knowledge.never,
        "care": knowledge.care,
        "plain": knowledge.plain,
        "spares": knowledge.spares,
        "materials": knowledge.materials,
        "record": knowledge.record,
        "terms": knowledge.terms,
        "phrases": knowledge.phrases,
        "gaps": knowledge.gaps,
        "sheets": knowledge.sheets,
        "parts": knowledge.parts,
        "sources": knowledge.sources,
    }


def by_basis(knowledge: Knowledge) -> dict[str, dict[str, int]]:
    """Rows by topic and by the weakest thing that they rest on; the marks of `MARKS` in order.

    Answers that carry years and a basis of their own count as rows of the topic `dated answers`.
    """
    found = {
        topic: _counted([row.basis for row in rows.values()])
        for topic, rows in rows_by_topic(knowledge).items()
        if topic not in ("parts", "sources")
    }
    dated = [
        answer.basis or check.basis
        for check in knowledge.checks.values()
        for answer in check.answers
        if answer.years
    ]
    return {**found, "dated answers": _counted(dated)}


def _counted(bases: list[Basis]) -> dict[str, int]:
    marks = Counter(basis.mark for basis in bases)
    return {str(mark): marks[mark] for mark in MARKS}
