"""The shipped knowledge, read once for all tests of the app."""

import os

import pytest
from app.kit import OPEN

from appraise.knowledge import load

# As in the app: several threads would wait for one another over matrices of this size.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")


@pytest.fixture(scope="session")
def knowledge():
    return load()


@pytest.fixture(autouse=True)
def _closed():
    """No test leaves a log open behind it."""
    yield
    while OPEN:
        OPEN.pop().close()
