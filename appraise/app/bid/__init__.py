"""Bid: the bill at a venue as a bill, then the one maximum, then what to expect of it."""
