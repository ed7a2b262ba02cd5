"""What the rows of listings refer to: checks with their answers, processes, formats, housings."""

import re
from collections.abc import Container, Iterable

from appraise.base.spelling import did_you_mean
from appraise.knowledge.basics import KINDS
from appraise.knowledge.records import Knowledge, Problem
from appraise.knowledge.wordings import ANSWERS, Term

_WORDS = re.compile(r"[^\s|?]+")


def word_problems(knowledge: Knowledge) -> list[Problem]:
    """Every term, phrase and gap that names something which does not exist."""
    families = {process.family for process in knowledge.processes.values()}
    known: dict[str, set[str]] = {
        "process": {*knowledge.processes, *families},
        "format": set(knowledge.formats),
        "case.material": set(knowledge.housings),
    }
    found: list[Problem] = []
    for term in knowledge.terms.values():
        where = f"terms.{term.id}"
        if term.field in known:
            found += _unknown(where, (term.value,), known[term.field], term.field)
        if term.field in ANSWERS:
            found += _unanswered(knowledge, where, *term.value.split())
        if term.denied:
            found += _unanswered(knowledge, where, *term.denied.split())
        for check, answer in term.also.items():
            found += _unanswered(knowledge, where, check, answer)
        found += _unknown(where, term.only, {*families, *knowledge.housings}, "material")
    for phrase in knowledge.phrases.values():
        for told in phrase.said:
            check, _, answer = told.partition(" ")
            found += _unanswered(knowledge, f"phrases.{phrase.id}", check, answer)
    for gap in knowledge.gaps.values():
        found += _unknown(f"gaps.{gap.id}", gap.kinds, KINDS, "kind")
        found += _unknown(f"gaps.{gap.id}", gap.only, {*families, *knowledge.housings}, "material")
    return [*found, *_unpaired(knowledge), *_ungrouped(knowledge)]


def _unknown(where: str, values: Iterable[str], known: Container[str], what: str) -> list[Problem]:
    names = known if isinstance(known, set | tuple) else ()
    return [
        Problem(where, f"'{value}' is not a {what}", did_you_mean(value, names))
        for value in values
        if value not in known
    ]


def _unanswered(knowledge: Knowledge, where: str, check: str, answer: str) -> list[Problem]:
    asked = knowledge.checks.get(check)
    if asked is None:
        return [Problem(where, f"'{check}' is not a check", did_you_mean(check, knowledge.checks))]
    answers = [one.id for one in asked.answers]
    if answer in answers:
        return []
    return [
        Problem(where, f"'{answer}' is not an answer of {check}", did_you_mean(answer, answers))
    ]


def _unpaired(knowledge: Knowledge) -> list[Problem]:
    """Pairs of a part and a state of which one is named nowhere."""
    parts = {term.value for term in knowledge.terms.values() if term.field == "part"}
    states = {term.value for term in knowledge.terms.values() if term.field == "state"}
    found = []
    for term in knowledge.terms.values():
        for named_parts, named_states in _pairs(term):
            where = f"terms.{term.id}"
            found += _unknown(where, named_parts, parts | {"", "!", "frame", "other"}, "part")
            found += _unknown(where, named_states, states, "state")
    return found


def _pairs(term: Term) -> Iterable[tuple[list[str], list[str]]]:
    for pattern in term.synonyms:
        if pattern.startswith("<"):
            part, state = pattern.split()
            yield part.strip("<>").split("|"), state.strip("<>").split("|")


def _ungrouped(knowledge: Knowledge) -> list[Problem]:
    """Groups of words that a pattern names and no row holds."""
    groups = {term.value for term in knowledge.terms.values() if term.field == "group"}
    rows = [(f"terms.{one.id}", one.synonyms) for one in knowledge.terms.values()]
    rows += [(f"phrases.{one.id}", one.synonyms) for one in knowledge.phrases.values()]
    found = []
    for where, patterns in rows:
        named = {word[1:] for one in patterns for word in _WORDS.findall(one) if word[0] == "@"}
        found += _unknown(where, sorted(named), groups, "group of words")
    return found
