"""The nearest valid spelling of a word that was not understood."""

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word closest to `word`, or an empty string when none is close.

    Ratcliff-Obershelp similarity (difflib) with a floor of 0.6: enough for typing slips,
    and free of any import that a command line would feel.
    """
    from difflib import get_close_matches  # 1 ms

    names = {name.lower(): name for name in known}
    found = get_close_matches(word.lower(), list(names), n=1, cutoff=0.6)
    return names[found[0]] if found else ""


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A sentence that offers the nearest known word, or lists a few of the known ones."""
    names = sorted(known)
    close = nearest(word, names)
    if close:
        return f"Did you mean '{close}'?"
    shown = ", ".join(names[:12])
    return f"Known: {shown}{', ...' if len(names) > 12 else ''}" if names else ""
