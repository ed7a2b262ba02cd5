"""What a typed line or a seller's text was taken for: names, never the ids of the data."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from appraise.documents.words import kind_name
from appraise.records.piece import UNTOLD

if TYPE_CHECKING:
    from appraise.knowledge.records import Knowledge
    from appraise.listing.records import Claim

FIELDS = {"case.material": "case", "asking": "asked", "postage": "shipping", "subject": "shows"}
"""What fields are called where that is not their own word."""
SAID = "claim"  # the part of checks whose answers say of themselves that they are claims
FOUND = ("defect", "check")  # fields of a claim that hold a check and its answer
BARE = frozenset(("yes", "no", "not", "none", "it", "up", "well"))
"""First words of answers that say nothing without their question."""
SUBJECTS = {
    "single": "one person",
    "famous": "a famous person",
    "occupational": "somebody at work",
    "post-mortem": "somebody who has died",
    "of-colour": "a person of colour",
    "other": "something else",
}


def answer_words(check: str, answer: str, knowledge: Knowledge) -> str:
    """An answer in its own words; the id where it has none."""
    if answer == UNTOLD:
        return "cannot tell"
    asked = knowledge.checks.get(check)
    place = asked.index(answer) if asked else -1
    return asked.answers[place].says if asked and place >= 0 else answer


def finding_words(check: str, answer: str, knowledge: Knowledge) -> str:
    """An answer with what it is about: of damage its name, else the part or the question."""
    asked = knowledge.checks.get(check)
    if asked is None:
        return f"{check}: {answer}"
    says = answer_words(check, answer, knowledge)
    if asked.defect is not None:
        return f"{asked.defect.name}: {says}"
    if asked.part == SAID:
        return says
    if re.split(r"\W", says, maxsplit=1)[0].lower() in BARE:
        return f"{asked.ask} {says}"
    return f"{FIELDS.get(check, knowledge.parts[asked.part].name)}: {says}"


def said_words(check: str, answer: str, knowledge: Knowledge) -> str:
    """A seller's answer; of damage its name alone, since its degree is the seller's own word."""
    asked = knowledge.checks.get(check)
    if asked is not None and asked.defect is not None and asked.index(answer) > 0:
        return asked.defect.name
    return finding_words(check, answer, knowledge)


def claim_words(claim: Claim, knowledge: Knowledge) -> str:
    """A claim of a seller's text: what it is about, and what is said; a date as it is written."""
    if claim.field in FOUND:
        check, _, answer = claim.value.partition(" ")
        return said_words(check, answer, knowledge)
    value = claim.text if claim.field == "date" else claim.value
    return f"{FIELDS.get(claim.field, claim.field)}: {_value(claim.field, value, knowledge)}"


def meaning_words(meaning: str, knowledge: Knowledge) -> str:
    """What words of a typed line were taken for, such as 'format sixth' or 'hinge.tape 1: ...'."""
    name, _, rest = meaning.partition(" ")
    if name != "case.material" and name in knowledge.checks:
        return finding_words(name, rest.partition(":")[0], knowledge)
    if not rest or name[:1].isdigit():
        return meaning
    return f"{FIELDS.get(name, name)} {_value(name, rest, knowledge)}"


def _value(field: str, value: str, knowledge: Knowledge) -> str:
    """The value of a field by its name."""
    if field == "process" and value in knowledge.processes:
        return knowledge.processes[value].name
    if field == "format" and value in knowledge.formats:
        return knowledge.formats[value].name
    if field == "kind":
        return kind_name(value)
    if field == "subject":
        return SUBJECTS.get(value, value)
    return answer_words(field, value, knowledge)
