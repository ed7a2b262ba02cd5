"""Which spec belongs to a type of record; each is imported when its list is first opened."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from appraise.app.lists.spec import RecordSpec

HOMES = {
    "price": "prices",
    "kept": "kept",
    "lot": "lots",
    "stock": "stock",
    "work": "work",
    "want": "wants",
    "venue": "venues",
}
"""The module of each spec, by the type's name in the log."""


def spec_of(name: str) -> RecordSpec[Any]:
    """The spec of a type of record."""
    spec: RecordSpec[Any] = import_module(f"appraise.app.lists.{HOMES[name]}").SPEC
    return spec
