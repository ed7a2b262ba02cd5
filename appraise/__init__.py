"""Examine, date and price early cased photographs, and keep the record."""

__version__ = "0.1.0"
