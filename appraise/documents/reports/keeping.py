"""How a piece could be known again, how to keep it, what never to do, and whom to ask."""

from collections.abc import Iterator

from appraise.documents.document import Block, Bullets, Facts, Paragraph, Photos
from appraise.documents.object_id import SAFE, RecordedPiece, object_id, short_facts
from appraise.documents.reports.identity import LIKELY
from appraise.documents.reports.report_input import ReportInput
from appraise.knowledge.guidance import Care

TOPICS = ("storage", "enclosure", "handling", "light", "marking")
"""What somebody who keeps a piece should know, in this order."""

SOUGHT = (
    "soldier", "occupational", "outdoor", "music", "sport", "arms", "insignia", "of-colour",
    "school", "institution",
)  # fmt: skip
"""Subjects of which museums and societies of a field like to hear."""

DIGEST = (
    "The SHA-256 digest is a number made from every byte of a photo's file: while it is the "
    "same, so is the file."
)
ASK = (
    "Before anything is opened, cleaned or mended: a conservator of photographs, look for one "
    "through your national conservators' association.",
    "For the story, and before it leaves the family: a museum, archive or library that collects "
    "photographs of that place or trade. They do not name prices.",
    "For insurance, tax, an estate or a division among heirs: a licensed or qualified appraiser.",
)
DOUBT = (
    "Nothing here is certain. It was put together from what was seen from outside, by a buyer "
    "who did not open the piece."
)


def record(matter: ReportInput) -> Iterator[Block]:
    """The record by Object ID, and what it still lacks."""
    meant = RecordedPiece.of(matter.verdict, matter.knowledge, matter.entry, matter.kept)
    found = object_id(meant)
    yield Paragraph(f"Categories of Object ID; {found.state}.")
    yield short_facts(found)
    yield Paragraph(SAFE, "quiet")


def photos(matter: ReportInput) -> Iterator[Block]:
    """The photos themselves, which bear no name here."""
    yield Photos(matter.photos)


def pictures(matter: ReportInput) -> Iterator[Block]:
    """The photos, with name and digest of each."""
    listed = matter.entry.pictures if matter.entry else ()
    found = dict.fromkeys((*listed, *matter.piece.pictures))
    yield Photos(matter.photos)
    if not found:
        yield Paragraph("" if matter.photos else "No photo is stored with its record.")
        return
    yield Bullets(tuple(f"{one.name}, SHA-256 {one.sha256}" for one in found))
    yield Paragraph(DIGEST, "quiet")


def matters(matter: ReportInput) -> Iterator[Block]:
    """Why it may matter, or may not, from what is recorded and nothing else."""
    found = tuple(_reasons(matter))
    yield (
        Bullets(found)
        if found
        else Paragraph(
            "Nothing recorded here sets it apart from others of its kind. That may only mean "
            "that nobody wrote down who is shown: if you know, write it down now."
        )
    )
    yield Paragraph(DOUBT)


def _reasons(matter: ReportInput) -> Iterator[str]:
    reading, piece = matter.verdict.reading, matter.piece
    if reading.modern >= LIKELY:
        yield ("It may well be modern, in part or as a whole: say so whenever it is passed on.")
    elif reading.belonging.get("together", 0.0) >= LIKELY:
        yield "Image and case seem to have been together from the start: keep them together."
    if piece.inscription is not None:
        yield (
            "Something is written on it or stored with it. A name, a place or a date ties an "
            "image to people: keep the writing with it, whatever becomes of it."
        )
    if piece.maker:
        yield f"Its maker is recorded: {piece.maker}."
    if any(one in SOUGHT for one in piece.subjects):
        yield (
            f"It is recorded as an image of the sort '{', '.join(piece.subjects)}'; a museum or "
            "society of that field may want to know of it."
        )
    if matter.own_work:
        yield "Made or assembled by its last owner: not an old piece as found."


def keep(matter: ReportInput) -> Iterator[Block]:
    """How to keep it safe: this tool's choice of figures, and what is for its materials."""
    yield Bullets(tuple(one.text for one in _care(matter)))


def _care(matter: ReportInput) -> list[Care]:
    reading = matter.verdict.reading
    chances = {**reading.housings, **reading.processes, **reading.families}
    likely = {word for word, chance in chances.items() if chance >= LIKELY} | {matter.piece.kind}
    rows = matter.knowledge.care.values()
    chosen = [one for one in rows if _fits(one, likely)]
    return [one for topic in TOPICS for one in chosen if one.topic == topic]


def _fits(row: Care, likely: set[str]) -> bool:
    """Whether advice is for such a piece.

    Of storage figures only the tool's own choice and the alarms: published ones differ.
    """
    from appraise.collection.upkeep import HOME  # 2 ms

    mine = not row.materials or bool(likely & set(row.materials))
    return mine and (row.topic != "storage" or row.id == HOME or row.alarm is not None)


def never(matter: ReportInput) -> Iterator[Block]:
    """What nobody should do to it, and why."""
    rows = matter.knowledge.never.values()
    yield Facts.of((row.says, row.why) for row in rows)


def ask(matter: ReportInput) -> Iterator[Block]:
    """Whom to ask."""
    yield Bullets(ASK)


def owned(matter: ReportInput) -> Iterator[Block]:
    """Where it is, since when, and where it was before."""
    kept = matter.kept
    if kept is None:
        return
    rows = (
        ("number", kept.number),
        ("place", kept.place),
        ("now", kept.status.replace("-", " ")),
        ("since", kept.acquired),
        ("earlier owners", kept.provenance.splitlines()),
        ("receipt", kept.receipt),
    )
    yield Facts.of(rows)


def where(matter: ReportInput) -> Iterator[Block]:
    """Where its record lies."""
    entry = matter.entry
    if entry is None and matter.kept is None:
        yield Paragraph("It is in no log: this report and its piece file are the only record.")
        yield Paragraph(SAFE, "quiet")
        return
    number = f"Its number there is {entry.id}. " if entry is not None else ""
    yield Paragraph(
        f"Its record is in the log {matter.log}. {number}`appraise log show` prints an entry; the "
        "photos are stored beside the log."
    )
    names = ", ".join(one.name for one in entry.pictures) if entry is not None else ""
    if names:
        yield Paragraph(f"Photos stored: {names}.")
    for note in (entry.note if entry else "", matter.kept.note if matter.kept else ""):
        if note:
            yield Paragraph(f"Owner's note: {note}")
    yield Paragraph(SAFE, "quiet")
