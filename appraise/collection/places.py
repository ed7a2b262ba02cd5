"""Where a piece stands, against what nobody should do to one."""

from appraise.knowledge.records import Knowledge, Never


def unfit(place: str, knowledge: Knowledge) -> tuple[Never, ...]:
    """The rows of `never:` that a place names, as a cellar, a window sill or a cold store does."""
    return tuple(row for row in knowledge.never.values() if place and row.named_in(place))


def unfit_words(row: Never) -> str:
    """Why a place is unfit, and which is better."""
    return f"{row.why} Instead: {row.instead}"
