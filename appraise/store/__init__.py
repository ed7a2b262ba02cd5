"""What the user keeps: SQLite revisions with undo, search, merge, backups and pictures."""
