"""Examine: one question at a time on the left, what it all means on the right."""
