"""What is behind each figure of a reading, and what would change it."""

from collections.abc import Iterator, Sequence
from typing import Any

from appraise.base.jsonvalues import picked
from appraise.base.percents import percent
from appraise.documents.document import Block, Bullets, Paragraph, Section, section
from appraise.documents.words import KNOWN, ratio_words
from appraise.knowledge.records import Knowledge
from appraise.reading.words import NONE
from appraise.verdict.behind import Behind, Moved, Turn

HEADING = "Evidence behind each figure, and what would change it"
NOTHING = "no single finding changes this much"
MOST = 6  # findings told of each figure in text; JSON has them all


def behind_json(told: Sequence[Behind]) -> list[dict[str, Any]]:
    """Every figure: its findings in order of weight, and the answers that would change it."""
    return [
        {
            **picked(one, "figure side says chance"),
            "moved": [
                {
                    **picked(moved, "check says known word without"),
                    "ratio": float(f"{moved.ratio:.3g}"),
                    "for": moved.speaks_for,
                }
                for moved in one.moved
            ],
            "would_change": [picked(turn, "check says chance after") for turn in one.turns],
        }
        for one in told
    ]


def behind_section(told: Sequence[Behind], knowledge: Knowledge) -> tuple[Section, ...]:
    """Every figure with what moved it and what would change it."""
    blocks = (block for one in told for block in _figure(one, knowledge))
    return section("behind", HEADING, *blocks)


def _figure(one: Behind, knowledge: Knowledge) -> Iterator[Block]:
    side = f" ({one.side})" if one.side else ""
    yield Paragraph(f"{one.says}{side}: {percent(one.chance)}", "lead")
    moved = tuple(f"{_found(each, knowledge)}: {_weight(each)}" for each in one.moved[:MOST])
    yield Bullets(moved or (NOTHING,))
    yield Bullets(tuple(_would_change(turn, knowledge) for turn in one.turns), "doubt")


def _found(moved: Moved, knowledge: Knowledge) -> str:
    """The finding, its part first."""
    part = knowledge.parts[knowledge.checks[moved.check].part].name
    return f"{part}: {moved.says} ({KNOWN[moved.known]})"


def _weight(moved: Moved) -> str:
    """How much a finding weighs, and the chance without it."""
    side = "for" if moved.speaks_for else "against"
    word = "little" if moved.word == NONE else f"{moved.word} support"
    return (
        f"{word} {side} ({ratio_words(moved.ratio)}); without this finding {percent(moved.without)}"
    )


def _would_change(turn: Turn, knowledge: Knowledge) -> str:
    """An answer not yet given, how likely it is, and the chance after it."""
    asked = knowledge.checks[turn.check].ask
    says = turn.says if turn.says.startswith(asked) else f"{asked} {turn.says}"
    return f"{says} ({percent(turn.chance)} likely): then {percent(turn.after)}"
