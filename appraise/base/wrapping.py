"""Text in lines of a width: a word with a hyphen, a range and an amount are never divided."""

import textwrap


def wrapped(text: str, width: int, lead: str = "", indent: str | None = None) -> list[str]:
    """The text in lines, at least one.

    Args:
        text: What is told.
        width: Cells of a line.
        lead: What stands before the first line.
        indent: What stands before the others; blanks as wide as the lead unless given.
    """
    rest = " " * len(lead) if indent is None else indent
    rows = textwrap.wrap(
        text, width, initial_indent=lead, subsequent_indent=rest, break_on_hyphens=False
    )
    return rows or [lead]
