"""The trade's knowledge: records for the YAML in data/, a strict loader, the user's overlay.

Records for the YAML in `data/`, the strict loader, the user's overlay, references between rows;
`ready` keeps what was read.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from appraise.knowledge.loader import load
    from appraise.knowledge.records import Knowledge

__all__ = ["Knowledge", "load"]


def __getattr__(name: str) -> Any:
    """Each on first use: the loader and YAML cost 25 ms, the records 30, which not all need."""
    if name == "load":
        from appraise.knowledge.loader import load

        return load
    if name == "Knowledge":
        from appraise.knowledge.records import Knowledge

        return Knowledge
    raise AttributeError(name)
