"""What holds for all tests: no example of a property is timed, and what ships is read once."""

import gc
import os

import shipped
import thorough

from appraise.cli import demo
from appraise.knowledge import loader, ready, shelf

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as `appraise` itself sets it
loader.load, ready.ready, demo.furnish = shipped.load, shipped.ready, shipped.furnish
shelf.compose = shipped.composed

thorough.register()

PROGRAMS = ("test_house.py", "test_wheel.py")  # wait for other programs, some for long


def pytest_collection_modifyitems(items):
    """The longest tests first, so that no worker ends with one; what shares verdicts is one's."""
    shared = {id(one) for one in items if hasattr(one.module, "verdicts")}
    items.sort(key=lambda one: (one.path.name not in PROGRAMS, id(one) not in shared))


gc.disable()  # all that is made while tests are gathered stays


def pytest_collection_finish():
    """A search for garbage walks all that lives: what stays is left out, and it is done seldom."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(100_000, 10, 10)
    gc.enable()
