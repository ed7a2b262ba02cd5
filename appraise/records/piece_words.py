"""Words that a piece and a price of the log have in common."""

SUBJECTS = (
    "single", "child", "couple", "group", "soldier", "famous", "occupational", "outdoor",
    "animal", "post-mortem", "object", "music", "sport", "arms", "insignia", "of-colour", "school",
    "institution", "other",
)  # fmt: skip
"""Whom or what a picture shows; a piece may have several, the leading one first."""
IDENTIFIED = ("no", "initials", "name", "full", "proven")
"""How well a sitter is identified: `full` is a name with regiment, trade, place or dates; `proven`
is borne out by papers or provenance."""
