"""The commands: the same powers as the app, for scripts and for people who like a line."""
