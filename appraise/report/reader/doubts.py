"""What speaks against a piece, how strongly, what else may explain it; and what to beware of."""

from collections.abc import Iterator

from appraise.knowledge.records import Caution
from appraise.reading.plain_warnings import Warning
from appraise.report.own_rows import mark, own_line, took_part
from appraise.report.reader.document import Block, Bullets, Facts, Paragraph, Table
from appraise.report.reader.matter import Matter
from appraise.report.reader.say import KNOWN, part_name

MOST = 8  # reasons that are told
STRENGTH = (
    "How to read it: '19 to 1' says that what was found is 19 times as much to be expected if that "
    "is so than if it is not. The word for it is from the scale of the European forensic "
    "institutes (ENFSI, 2015). It is evidence and no proof: each finding has innocent explanations."
)
NOTHING = "Nothing that was seen speaks against it. What was not looked at may."
INSTEAD = "innocent explanations"


def doubts(matter: Matter) -> Iterator[Block]:
    """Every warning with what is behind it and what else may explain it."""
    warnings = matter.verdict.warnings
    for one in warnings:
        yield Paragraph(_says(one), "warn" if one.strong else "doubt")
        rows = (
            ("found", one.because),
            (INSTEAD, one.innocent),
            ("would tell more", _next(matter, one)),
        )
        told = tuple((name, tuple(says)) for name, says in rows if says)
        if told:
            yield Facts(told)
    if not warnings:
        yield Paragraph(NOTHING)
    if any(one.word for one in warnings):
        yield Paragraph(STRENGTH, "quiet")


def _says(one: Warning) -> str:
    weight = f" ({one.word} support, {one.ratio:.0f} to 1)" if one.word else ""
    says = one.says[0].upper() + one.says[1:]
    return f"{says.removesuffix('.')}{weight}."


def _next(matter: Matter, one: Warning) -> tuple[str, ...]:
    """What to look at; only for who is to look on."""
    if matter.steps is None:
        return ()
    return tuple(matter.knowledge.checks[name].ask for name in one.look_next)


def reasons(matter: Matter) -> Iterator[Block]:
    """What moved the verdict most, finding by finding."""
    knowledge = matter.knowledge
    told = [one for one in matter.verdict.explanation if one.word != "no"][:MOST]
    rows = tuple(
        (
            part_name(matter, one.check) + mark(knowledge, one.check),
            f"{one.says} ({KNOWN[one.known]})",
            one.towards.replace("-", " "),
            f"{one.ratio:.1f} to 1",
            one.word,
        )
        for one in told
    )
    if not rows:
        yield Paragraph("No single finding moved it much.")
        return
    head = ("part", "what was seen", "speaks for", "weight", "support")
    yield Table("What moved it most", head, rows, (3,))


def next_looks(matter: Matter) -> Iterator[Block]:
    """What to look at next, or that enough has been seen."""
    steps = matter.steps
    if steps is None:
        return
    left = len(steps.enough.not_looked)
    if steps.enough.enough:
        yield Paragraph(f"Enough was seen to decide; {left} checks were not made.")
        return
    yield Paragraph(f"{left} checks are open. These tell most:")
    checks = matter.knowledge.checks
    yield Bullets(tuple(f"{checks[one.check].ask} It {one.why}." for one in steps.proposals[:4]))


def cautions(matter: Matter) -> Iterator[Block]:
    """The usual cautions for such a piece."""
    found = tuple(_caution(one) for one in matter.verdict.cautions if _meant(matter, one))
    if found:
        yield Bullets(found)
    yield Paragraph(
        "Opening, cleaning and mending are a conservator's work. Where law or health is touched, "
        "the local authority has the last word.",
        "quiet",
    )


def _meant(matter: Matter, one: Caution) -> bool:
    """Whether a caution is for this reader: what concerns a purchase is for the buyer."""
    return matter.steps is not None or not one.channels


def _caution(one: Caution) -> str:
    return f"{one.text} (checked on {one.checked_on})" if one.checked_on else one.text


def own_rows(matter: Matter) -> Iterator[Block]:
    """Rows of the user's own knowledge that took part."""
    rows = took_part(matter.verdict, matter.knowledge)
    if rows:
        yield Paragraph("These rest on knowledge that the owner added, not on what is shipped:")
        # Where the rows stand in the owner's files concerns the owner alone.
        owner = matter.steps is not None
        yield Bullets(tuple(own_line(one) if owner else f"{one.topic}: {one.id}" for one in rows))
