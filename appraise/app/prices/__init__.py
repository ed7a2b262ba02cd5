"""Prices: the log as a plain table, an entry with its history, and the form to edit one."""
