"""One piece judged: the one thing that screens, commands and reports show.

`judge(piece, knowledge, prices, as_of, settings)`: the one thing that screens and commands show.
`headline` says it in one sentence, `gate` whether a limit stands plain, `warnings` what speaks
against it (`doubts` those that are weighed, `at_odds` findings that do not go together,
`plain_warnings` and `written` the others), `against` the findings that do so one by one, `moved`
and `behind` what moved a figure and what would.
"""

from appraise.verdict.against import against, doubted_parts
from appraise.verdict.headline import Headline
from appraise.verdict.judge import (
    NextSteps,
    Verdict,
    at_venue,
    cautions_at,
    cautions_for,
    held_back,
    judge,
    next_steps,
)
from appraise.verdict.moved import explain, moved_most
from appraise.verdict.pay import Pay, pay_of

__all__ = [
    "Headline",
    "NextSteps",
    "Pay",
    "Verdict",
    "against",
    "at_venue",
    "cautions_at",
    "cautions_for",
    "doubted_parts",
    "explain",
    "held_back",
    "judge",
    "moved_most",
    "next_steps",
    "pay_of",
]
