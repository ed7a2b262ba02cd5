"""What has to be said of a repair: what nobody should try, what does not keep, what is missing."""

from appraise.knowledge.bench import named
from appraise.knowledge.guidance import Never
from appraise.knowledge.records import Knowledge
from appraise.records.repair import Repair, material_in


def refused(work: Repair, knowledge: Knowledge) -> tuple[Never, ...]:
    """What the text of a work names that nobody should try."""
    text = f"{work.text} ; {' ; '.join(names_of(work, knowledge))}"
    return tuple(row for row in knowledge.never.values() if row.named_in(text))


def doubtful(work: Repair, knowledge: Knowledge) -> tuple[str, ...]:
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
        f"{row.name}: {'not archival' if row.archival == 'no' else 'it depends'}. {row.says}"
        for row in rows
        if row.archival != "yes"
    )


def names_of(work: Repair, knowledge: Knowledge) -> tuple[str, ...]:
    """The materials of a work in words."""
    rows = knowledge.materials
    return tuple(rows[one.what].name if one.what in rows else one.what for one in work.materials)


def checked_mark(work: Repair) -> str:
    """What is still to do where a piece was made or assembled by the user; '' where nothing is."""
    if not work.made_by_me:
        return ""
    missing = [name for name in ("mark", "disclosure") if not getattr(work, name)]
    if not missing:
        return ""
    return f"Made or assembled by you: still without {' and '.join(missing)}."


def proposed_disclosure(work: Repair) -> str:
    """A sentence that tells what was made, from the record itself."""
    year = (work.done or work.begun).year
    hand = {"self": "me", "conservator": "a conservator", "other": "someone else"}[work.by]
    what = work.did.splitlines()[0].rstrip(".") if work.did else work.title
    return f"Assembled or altered by {hand} in {year}: {what}."
