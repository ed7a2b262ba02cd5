"""Free text into claims: one-line first looks, log entries and whole listings."""
