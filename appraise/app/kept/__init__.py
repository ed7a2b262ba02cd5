"""Kept: what one owns as a plain table, a page for each piece, and what is done to it."""
