"""What all tests of the app share: knowledge read once, screens painted when they are looked at."""

import pytest
from app.kit import OPEN, idle
from textual import app as screens
from textual import pilot
from textual._compositor import Compositor
from textual._context import visible_screen_stack
from textual.css.stylesheet import Stylesheet

from appraise.knowledge import load

# In place of the wait until the processor has idled for a while.
screens.wait_for_idle = pilot.wait_for_idle = idle

PARSE, RULES = Stylesheet._parse_rules, {}


def _rules(self, css, read_from, is_default_rules=False, tie_breaker=0, scope=""):
    """In place of the screen library's parser: the same style sheet is parsed once for all apps."""
    told = (css, read_from, is_default_rules, tie_breaker, scope)
    key = (*told, *self._variables.items())
    if key not in RULES:
        RULES[key] = PARSE(self, *told)
    return RULES[key]


Stylesheet._parse_rules = _rules


@pytest.fixture(scope="session")
def knowledge():
    return load()


@pytest.fixture
def painted():
    """Asked for by a test of the painting itself: all is painted as it changes."""


@pytest.fixture(autouse=True)
def _looked_at(request, monkeypatch):
    """Half of the time of a test is painting what it does not look at: that is left out.

    `shown` paints the screen whole; pictures are painted as ever.
    """
    if "painted" in request.fixturenames:
        return
    paint = Compositor.render_update

    def nothing(self, full=False, screen_stack=None, simplify=False):
        if full:
            return paint(self, full, screen_stack, simplify)
        visible_screen_stack.set([] if screen_stack is None else screen_stack)
        self._dirty_regions.clear()
        return None

    monkeypatch.setattr(Compositor, "render_update", nothing)


@pytest.fixture(autouse=True)
def _closed():
    """No test leaves a log open behind it."""
    yield
    while OPEN:
        OPEN.pop().close()
