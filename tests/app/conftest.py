"""The shipped knowledge, read once for all tests of the app."""

import pytest
from app.kit import OPEN

from appraise.knowledge import load


@pytest.fixture(scope="session")
def knowledge():
    return load()


@pytest.fixture(autouse=True)
def _closed():
    """No test leaves a log open behind it."""
    yield
    while OPEN:
        OPEN.pop().close()
