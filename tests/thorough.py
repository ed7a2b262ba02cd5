"""How often tests by chance try: as often as faults are found here, and more with THOROUGH set.

`THOROUGH=1 python -m pytest` is for a night, with other examples each time; without it every run
is the same.
"""

import os

from hypothesis import HealthCheck, settings

THOROUGH = bool(os.environ.get("THOROUGH"))


def times(usual: int, thorough: int) -> int:
    """A number of tries."""
    return thorough if THOROUGH else usual


def tries(usual: int) -> settings:
    """So many examples of a property, and twenty times as many for a night."""
    return settings(max_examples=times(usual, 20 * usual))


def register() -> None:
    """What holds for every property: none is timed."""
    settings.register_profile(
        "untimed", tries(50), deadline=None, derandomize=not THOROUGH,
        suppress_health_check=[HealthCheck.too_slow],
    )  # fmt: skip
    settings.load_profile("untimed")
