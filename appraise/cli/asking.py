"""Questions at a terminal; in a pipe nobody is asked, and the command goes on as told."""

import sys

from appraise.base.errors import InputError
from appraise.cli.context import Context

NO, YES = ("n", "no"), ("y", "yes")


def can_ask(context: Context) -> bool:
    """Whether somebody sits at the terminal and reads along."""
    return not context.json and sys.stdin.isatty() and sys.stderr.isatty()


def ask(question: str) -> str:
    """One line from the terminal; empty for enter alone, and at the end of input."""
    print(question, end=" ", file=sys.stderr, flush=True)
    return sys.stdin.readline().strip()


def agreed(context: Context, question: str) -> bool:
    """Whether the user says yes, which enter alone does too; yes where nobody can be asked."""
    return not can_ask(context) or ask(f"{question} [Y/n]").lower() not in NO


def sure(context: Context, doubt: str) -> None:
    """Go on where there is no doubt, or the user says yes to it; enter alone is no.

    Raises:
        InputError: when the user does not, or nobody can be asked.
    """
    if not doubt:
        return
    if not can_ask(context):
        raise InputError(doubt, mend="Use --yes to record it anyway.")
    if ask(f"  {doubt}; record it anyway? [y/N]").lower() not in YES:
        raise InputError("nothing recorded")
