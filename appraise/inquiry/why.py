"""What a proposed check is for, in a plain phrase."""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import combinations

import numpy as np

from appraise.inquiry.forecast import Forecast, Prospect
from appraise.knowledge.records import BELONGING, Check
from appraise.reading.factors import axes_of
from appraise.reading.frame import Frame
from appraise.reading.named import family_name

WORTH_NAMING = 0.01  # families less likely than that are not named
MODERN = {
    "modern-case": "the case is modern",
    "modern-image": "the image is modern",
    "all-modern": "image and case are modern",
}


def why(prospect: Prospect, forecast: Forecast) -> str:
    """What a check is for: the question that its answer would move most."""
    check = prospect.check
    part = forecast.knowledge.parts[check.part].name
    axes = axes_of(check, forecast.frame)
    if check.safety:
        return f"checks for active damage to the {part}"
    if check.dates:
        return f"dates the {part}"
    if "belonging" in axes:
        return _belonging(prospect, forecast.frame.cased)
    if check.defect is not None:
        return f"shows how sound the {part} is"
    if "process" in axes:
        families = [process.family for process in forecast.frame.processes]
        return _parts(check, forecast, "process", families, forecast.reading.families)
    if "housing" in axes:
        names = {housing.id: housing.name for housing in forecast.frame.housings}
        chances = {names[word]: chance for word, chance in forecast.reading.housings.items()}
        return _parts(check, forecast, "housing", list(names.values()), chances)
    return {
        "package": "shows whether the package was opened",
        "copy": "shows whether the image copies an older one",
        "altered": "shows whether something was added later",
    }.get("".join(axes[:1]), "worth knowing before you buy")


def _belonging(prospect: Prospect, cased: bool) -> str:
    """By how far each state would move on average, married or one of the modern ones."""
    moved = {
        state: sum(
            chance * abs(states[place] - prospect.now[place])
            for chance, states in zip(prospect.chances, prospect.states, strict=True)
        )
        for place, state in enumerate(BELONGING)
        if place
    }
    state = max(moved, key=lambda name: moved[name])
    if not cased:
        return "shows whether the piece is modern"
    if state == "married":
        return "shows whether image and case started out together"
    return f"shows whether {MODERN[state]}"


def _parts(
    check: Check, forecast: Forecast, axis: str, words: Sequence[str], chances: Mapping[str, float]
) -> str:
    """The two likely words that the answers tell apart best, the likelier first."""
    likely = [word for word, chance in chances.items() if chance >= WORTH_NAMING]
    if len(likely) < 2:
        likely = sorted(chances, key=lambda word: -chances[word])[:2]
    columns = {word: _column(forecast.frame, check.id, axis, tuple(words), word) for word in likely}

    def apart(pair: tuple[str, str]) -> float:
        gap: float = sum(abs(a - b) for a, b in zip(*(columns[word] for word in pair), strict=True))
        return gap * chances[pair[0]] * chances[pair[1]]

    best = max(combinations(likely, 2), key=apart)
    first, second = sorted(best, key=lambda word: -chances[word])
    one, other = (family_name(word, forecast.knowledge) for word in (first, second))
    return f"tells {one} from {other}"


@lru_cache(maxsize=4096)
def _column(
    frame: Frame, check: str, axis: str, words: tuple[str, ...], word: str
) -> tuple[float, ...]:
    """P(answer | word), averaged over the states that a word stands for by their prior shares."""
    table = frame.checks[check].table(axis)
    assert table is not None
    mine = [place for place, one in enumerate(words) if one == word]
    states, shares = frame.states(axis), frame.reference(axis)[mine]
    rows = np.array([table.rows[states[place]] for place in mine])
    found: tuple[float, ...] = tuple((shares / shares.sum() @ rows).tolist())
    return found
