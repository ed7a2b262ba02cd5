"""The fields of a work as a person writes them, and what has to be said of what it names."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from appraise.keeping.fieldtext import (
    count_of,
    day_of,
    flag_of,
    known_fields,
    list_of,
    money_of,
    word_of,
)
from appraise.keeping.work import HANDS, REVERSIBLE, Stuff, TakenOut, Work
from appraise.knowledge.bench import ARCHIVAL, named
from appraise.knowledge.guidance import Never
from appraise.knowledge.records import Knowledge

MEANING = {
    "title": "one line to know it by",
    "piece": "the id of the piece in the log, or words for it",
    "did": "what was done",
    "by": "self, conservator or other",
    "who": "their name or address",
    "materials": "what was used, with ; between; whether it is archival is looked up",
    "reversible": "yes, slow or no: whether it can be undone",
    "used": "ids of parts taken from stock",
    "taken-out": "parts taken out and where they lie: old pad in box 3; clasp",
    "cost": "what it cost, parts aside",
    "minutes": "how long it took",
    "before": "names of pictures taken before",
    "after": "names of pictures taken after",
    "made-by-me": "yes where you made or assembled it, so that it has to be said",
    "mark": "the mark that was put on it, and where",
    "disclosure": "the sentence that tells it to whoever gets the piece",
    "begun": "the day it was begun",
    "done": "the day it was finished",
    "note": "anything else",
}
"""Every field of a work, and what may be written there."""
FIELDS = tuple(MEANING)
_PLAIN = ("title", "piece", "did", "who", "mark", "disclosure", "note")
_LISTS = ("before", "after")
LIES_IN = " in "


def written(work: Work) -> dict[str, str]:
    """All fields that say something, as `changed` reads them."""
    found = {
        **{name: getattr(work, name) for name in _PLAIN},
        **{name: "; ".join(getattr(work, name)) for name in _LISTS},
        "by": work.by,
        "materials": "; ".join(map(_stuff_text, work.materials)),
        "reversible": work.reversible,
        "used": " ".join(work.used),
        "taken-out": "; ".join(
            f"{one.what}{LIES_IN}{one.where}" if one.where else one.what for one in work.taken_out
        ),
        "cost": str(work.cost) if work.cost else "",
        "minutes": str(work.minutes or ""),
        "made-by-me": "yes" if work.made_by_me else "",
        "begun": work.begun.isoformat(),
        "done": work.done.isoformat() if work.done else "",
    }
    return {name: found[name] for name in FIELDS if found[name]}


def changed(work: Work, texts: Mapping[str, str], knowledge: Knowledge, currency: str) -> Work:
    """The work with some fields as written; an empty text takes a field back to nothing.

    Raises:
        InputError: for a field that is not known, or a text that does not fit it; its `where` is
            the field.
    """
    values: dict[str, Any] = {}
    for name, text in known_fields(texts, FIELDS).items():
        values[name.replace("-", "_")] = _read(name, text, knowledge, currency)
    return replace(work, **values)


def _read(name: str, text: str, knowledge: Knowledge, currency: str) -> Any:
    if name in _PLAIN:
        return text
    if name in _LISTS:
        return list_of(text)
    if name == "materials":
        return tuple(stuff_of(one, knowledge) for one in list_of(text))
    if name == "taken-out":
        return tuple(_taken_out(one) for one in list_of(text))
    if name == "used":
        return tuple(text.replace(",", " ").replace(";", " ").lower().split())
    return _value(name, text, currency)


def _value(name: str, text: str, currency: str) -> Any:
    if name == "cost":
        return money_of(name, text, currency)
    if name == "minutes":
        return count_of(name, text or "0")
    if name == "made-by-me":
        return flag_of(name, text)
    if name == "begun" or (name == "done" and text):
        return day_of(name, text)
    if name == "done":
        return None
    known = HANDS if name == "by" else REVERSIBLE
    return word_of(name, text, known) or ("self" if name == "by" else "")


def stuff_of(text: str, knowledge: Knowledge) -> Stuff:
    """A material as it was written; what is known of it says whether it is archival.

    'walnut ink: no' says it where nobody knows it.
    """
    name, colon, told = text.rpartition(":")
    said = told.strip().lower()
    if colon and said in ARCHIVAL:
        text, told = name.strip(), said
    else:
        told = ""
    known = material_in(text, knowledge)
    word = known if known and _is_whole(text, known, knowledge) else text
    return Stuff(word, knowledge.materials[known].archival if known else told)


def material_in(text: str, knowledge: Knowledge) -> str:
    """The material of the knowledge that a text names most closely; '' for none."""
    if text in knowledge.materials:
        return text
    found = {
        one.id: named(text, (*one.words, one.name.lower())) for one in knowledge.materials.values()
    }
    best = max(found, key=lambda name: len(found[name]), default="")
    return best if best and found[best] else ""


def _is_whole(text: str, known: str, knowledge: Knowledge) -> bool:
    """Whether a text is no more than a name of that material."""
    plain = " ".join(text.lower().replace("-", " ").split())
    row = knowledge.materials[known]
    return plain in (*row.words, row.name.lower(), known.replace("-", " "))


def _stuff_text(stuff: Stuff) -> str:
    return f"{stuff.what}: {stuff.archival}" if stuff.archival else stuff.what


def _taken_out(text: str) -> TakenOut:
    what, _, where = text.partition(LIES_IN)
    return TakenOut(what.strip(), where.strip())


def refused(work: Work, knowledge: Knowledge) -> tuple[Never, ...]:
    """What the text of a work names that nobody should try."""
    text = f"{work.text} ; {' ; '.join(names_of(work, knowledge))}"
    return tuple(row for row in knowledge.never.values() if row.named_in(text))


def doubtful(work: Work, knowledge: Knowledge) -> tuple[str, ...]:
    """What is known against the materials of a work, a sentence each; words of its text count."""
    told = {one.what for one in work.materials}
    found = dict.fromkeys(material_in(name, knowledge) for name in told)
    rows = [knowledge.materials[name] for name in found if name]
    rows += [
        row
        for row in knowledge.materials.values()
        if row.archival == "no" and row.id not in found and named(work.text, row.words)
    ]
    return tuple(
        f"{row.name}: {'does not keep' if row.archival == 'no' else 'it depends'}. {row.says}"
        for row in rows
        if row.archival != "yes"
    )


def names_of(work: Work, knowledge: Knowledge) -> tuple[str, ...]:
    """The materials of a work in words."""
    rows = knowledge.materials
    return tuple(rows[one.what].name if one.what in rows else one.what for one in work.materials)


def checked_mark(work: Work) -> str:
    """What is still to do where a piece was made or assembled by the user; '' where nothing is."""
    if not work.made_by_me:
        return ""
    missing = [name for name in ("mark", "disclosure") if not getattr(work, name)]
    if not missing:
        return ""
    return f"Made or assembled by you: still without {' and '.join(missing)}."


def proposed_disclosure(work: Work) -> str:
    """A sentence that tells what was made, from the record itself."""
    year = (work.done or work.begun).year
    hand = {"self": "me", "conservator": "a conservator", "other": "another hand"}[work.by]
    what = work.did.splitlines()[0].rstrip(".") if work.did else work.title
    return f"Assembled or altered by {hand} in {year}: {what}."
