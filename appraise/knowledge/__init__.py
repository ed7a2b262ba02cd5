"""The trade's knowledge: records for the YAML in data/, a strict loader, the user's overlay."""

from appraise.knowledge.load import load
from appraise.knowledge.records import Knowledge

__all__ = ["Knowledge", "load"]
