"""What holds for all tests: no example of a property is timed, and what ships is read once."""

import os
from contextlib import suppress

from hypothesis import HealthCheck, settings

from appraise.knowledge import loader

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as `appraise` itself sets it

settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")


def once(load):
    """The loader, reading what ships once in a process where no row of the user's lies over it.

    The records are frozen, and what is worked out from them is kept beside them; the product
    loads once in a process as well. As `once.load` the loader itself is there for tests of it.
    """
    shipped = []

    def loaded(data=None, overlay=None):
        alone = overlay is None
        with suppress(OSError):
            alone = alone or not overlay.exists()
        if data is not None or not alone:
            return load(data, overlay)
        if not shipped:
            shipped.append(load())
        return shipped[0]

    once.load = load
    return loaded


loader.load = once(loader.load)
