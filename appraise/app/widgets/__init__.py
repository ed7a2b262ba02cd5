"""Widgets of our own, for what the library lacks."""
