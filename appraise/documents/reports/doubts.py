"""What speaks against a piece, how strongly, what else may explain it; and what to beware of."""

from collections.abc import Iterator

from appraise.base.percents import percent
from appraise.documents import words
from appraise.documents.document import Block, Bullets, Facts, Paragraph, Table
from appraise.documents.own_rows import mark, own_line, took_part
from appraise.documents.reports.answers import part_name
from appraise.documents.reports.report_input import ReportInput
from appraise.knowledge.records import Caution
from appraise.reading.influence import Reason
from appraise.reading.words import NONE
from appraise.verdict import against, explain, moved_most
from appraise.verdict.warning import Warning

MOST, SHORT = 8, 5  # reasons that are told, in full and in short
STRENGTH = (
    "How to read '19 to 1': this evidence is 19 times more likely if the statement is true than if "
    "it is not. Strength words follow the scale of the European forensic institutes (ENFSI, 2015). "
    "It is evidence, not proof."
)
NOTHING = "No finding speaks against the piece. What is not checked may."
FEW = "No warning is raised, but these findings speak against the piece:"
UNSURE = "No single finding speaks strongly against the piece, and yet it is {share} likely {what}."
INSTEAD = "other explanations"


def doubts(matter: ReportInput) -> Iterator[Block]:
    """Every warning with what is behind it and what else may explain it."""
    warnings = matter.verdict.warnings
    for one in warnings:
        yield Paragraph(_says(one), "warn" if one.strong else "doubt")
        rows = (
            ("found", one.because),
            (INSTEAD, one.innocent),
            ("check next", _next(matter, one)),
        )
        yield Facts.of(rows)
    if not warnings:
        yield from _without_warning(matter)
    if any(one.word for one in warnings):
        yield Paragraph(STRENGTH, "quiet")


def _without_warning(matter: ReportInput) -> Iterator[Block]:
    """What is said where nothing is warned of: never less than what the chances say."""
    knowledge, reading = matter.knowledge, matter.verdict.reading
    found = against(reading, knowledge)
    if found:
        yield Paragraph(FEW, "doubt")
        yield Bullets(
            tuple(
                f"{part_name(matter, one.check)}: {one.says}: {words.support(one)}" for one in found
            )
        )
        return
    doubted = {"a married piece": reading.married, "modern, at least in part": reading.modern}
    what = max(doubted, key=lambda word: doubted[word])
    if doubted[what] > reading.states[0]:
        yield Paragraph(UNSURE.format(share=percent(doubted[what]), what=what), "doubt")
    else:
        yield Paragraph(NOTHING)


def _says(one: Warning) -> str:
    says, weight = one.says[0].upper() + one.says[1:], words.weight(one.word, one.ratio)
    return f"{says.removesuffix('.')}{f': {weight}' if weight else ''}."


def _next(matter: ReportInput, one: Warning) -> tuple[str, ...]:
    """What to look at; only for who is to look on."""
    if matter.steps is None:
        return ()
    return tuple(matter.knowledge.checks[name].ask for name in one.look_next)


def reasons(matter: ReportInput) -> Iterator[Block]:
    """What moved the verdict most, finding by finding, each with its question."""
    knowledge = matter.knowledge

    def said(one: Reason) -> str:
        asked = knowledge.checks[one.check].ask
        return asked if one.says.startswith(asked) else f"{asked} {one.says}"

    rows = tuple(
        (
            f"{said(one)}{mark(knowledge, one.check)}",
            words.KNOWN[one.known],
            words.support(one),
        )
        for one in moved_most(matter.verdict, knowledge, SHORT if matter.brief else MOST)
    )
    if not rows:
        yield Paragraph("No single finding moved the verdict much.")
    elif matter.brief:
        yield Bullets(tuple(f"{says} ({known}): {support}" for says, known, support in rows))
    else:
        yield Table("The weightiest findings", ("check", "how known", "strength"), rows)


def findings(matter: ReportInput) -> Iterator[Block]:
    """Every finding with its strength, and how many say little either way."""
    knowledge = matter.knowledge
    explained = explain(matter.verdict.reading, knowledge)
    yield Bullets(
        tuple(
            f"{part_name(matter, one.check)}: {one.says} ({words.KNOWN[one.known]})"
            f"{mark(knowledge, one.check)}: {words.support(one)}"
            for one in explained
            if one.word != NONE
        )
    )
    neutral = sum(1 for one in explained if one.word == NONE)
    yield Paragraph(f"{neutral} more say little either way." if neutral else "")


def next_looks(matter: ReportInput) -> Iterator[Block]:
    """What to look at next, or that enough has been seen."""
    steps = matter.steps
    if steps is None:
        return
    left = len(steps.enough.not_looked)
    if not steps.proposals and not left:
        return
    if steps.enough.enough:
        yield Paragraph(f"Seen enough to decide; {left} checks not done.")
        return
    yield Paragraph(f"{left} checks not done. The most useful:")
    checks = matter.knowledge.checks
    yield Bullets(tuple(f"{checks[one.check].ask} It {one.why}." for one in steps.proposals[:4]))


def cautions(matter: ReportInput) -> Iterator[Block]:
    """The usual cautions for such a piece."""
    found = tuple(_caution(one) for one in matter.verdict.cautions if _meant(matter, one))
    if found:
        yield Bullets(found)
    yield Paragraph(
        "Opening, cleaning and repair are a conservator's work. For law and health, ask your "
        "local authority.",
        "quiet",
    )


def _meant(matter: ReportInput, one: Caution) -> bool:
    """Whether a caution is for this reader: what concerns a purchase is for its buyer alone."""
    return matter.steps is not None or not one.channels


def _caution(one: Caution) -> str:
    return f"{one.text} (checked on {one.checked_on})" if one.checked_on else one.text


def own_rows(matter: ReportInput) -> Iterator[Block]:
    """Rows of the user's own knowledge that took part."""
    rows = took_part(matter.verdict, matter.knowledge)
    if rows:
        yield Paragraph("These rest on knowledge files that the owner added:")
        # Where the rows stand in the owner's files concerns the owner alone.
        owner = matter.steps is not None
        yield Bullets(tuple(own_line(one) if owner else f"{one.topic}: {one.id}" for one in rows))
