"""The shipped knowledge, read once for all tests of the app."""

import pytest

from appraise.knowledge import load


@pytest.fixture(scope="session")
def knowledge():
    return load()
