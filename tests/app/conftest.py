"""The shipped knowledge, read once for all tests of the app."""

import pytest
from app.kit import OPEN
from textual import _wait

from appraise.knowledge import load

# After each key the pilot waits until the processor has idled for a while; a shorter while will do.
_wait.SLEEP_GRANULARITY, _wait.SLEEP_IDLE = 0.003, 0.0003


@pytest.fixture(scope="session")
def knowledge():
    return load()


@pytest.fixture(autouse=True)
def _closed():
    """No test leaves a log open behind it."""
    yield
    while OPEN:
        OPEN.pop().close()
