"""The trade's knowledge: records for the YAML in data/, a strict loader, the user's overlay."""

from typing import TYPE_CHECKING, Any

from appraise.knowledge.records import Knowledge

if TYPE_CHECKING:
    from appraise.knowledge.loader import load

__all__ = ["Knowledge", "load"]


def __getattr__(name: str) -> Any:
    """`load` on first use: the loader and YAML cost 25 ms that a first paint must not pay."""
    if name == "load":
        from appraise.knowledge.loader import load

        return load
    raise AttributeError(name)
