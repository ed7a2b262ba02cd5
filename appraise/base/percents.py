"""Chances and shares as percentages, as every text shows them."""


def percent(chance: float) -> str:
    """A chance as a percentage, never 0% or 100%.

    Args:
        chance: 0 to 1.
    """
    whole = round(100 * chance)
    return "under 1%" if whole < 1 else "over 99%" if whole > 99 else f"{whole}%"
