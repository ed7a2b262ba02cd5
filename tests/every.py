"""Many small cases in one test: all are tried, and each that fails is told by its name.

`parametrize` makes a test of each case, which takes longer than most of these cases take.
"""

import inspect
from collections.abc import Iterable
from functools import wraps
from typing import Any

import pytest

TOLD = 20  # failures
PARAM = type(pytest.param())


def every(names: str | tuple[str, ...], cases: Iterable[Any], ids: Any = None):
    """In place of `pytest.mark.parametrize`, with the same arguments; no fixture is made anew."""
    names = tuple(one.strip() for one in names.split(",")) if isinstance(names, str) else names
    named = iter(ids) if ids and not callable(ids) else None
    held = []
    for case in cases:
        marked = isinstance(case, PARAM)
        values = case.values if marked else case if len(names) > 1 else (case,)
        told = next(named) if named else case.id if marked else (ids or repr)(case)
        held.append((str(told), dict(zip(names, values, strict=True))))
    assert held, "no case"

    def made(test):
        @wraps(test)
        def whole(*first, **fixtures):
            failed = []
            for name, values in held:
                try:
                    test(*first, **values, **fixtures)
                except Exception as error:
                    failed.append(f"{name[:80]}: {type(error).__name__}: {error}")
            assert not failed, "\n".join([f"{len(failed)} of {len(held)} fail", *failed[:TOLD]])

        asked = inspect.signature(test)
        left = [one for name, one in asked.parameters.items() if name not in names]
        whole.__signature__ = asked.replace(parameters=left)
        whole.cases = len(held) * getattr(test, "cases", 1)
        return whole

    return made
