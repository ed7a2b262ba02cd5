"""One piece judged: the one thing that screens, commands and reports show."""

from appraise.verdict.headline import Headline
from appraise.verdict.judge import (
    NextSteps,
    Verdict,
    cautions_at,
    cautions_for,
    explain,
    judge,
    next_steps,
)

__all__ = [
    "Headline",
    "NextSteps",
    "Verdict",
    "cautions_at",
    "cautions_for",
    "explain",
    "judge",
    "next_steps",
]
