"""The price log: append-only revisions in one SQLite file, and what goes in and out of it."""
