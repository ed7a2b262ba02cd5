"""A verdict told: as JSON, as plain text for a terminal or a pipe."""
