"""What is said of a typed line before it is saved: its motif, what was not understood, notes."""

from collections.abc import Sequence

MOTIF = "motif"


def summary(
    understood: Sequence[tuple[str, str]],
    not_understood: Sequence[str],
    notes: Sequence[str] = (),
) -> tuple[str, ...]:
    """Lines such as 'motif: girl with dog', 'not understood: 1858?, no maker?', and the notes."""
    motif = " ".join(words for words, meaning in understood if meaning == MOTIF)
    doubts = ", ".join(f"{words}?" for words in not_understood)
    lines = (
        f"{MOTIF}: {motif}" if motif else "",
        f"not understood: {doubts}" if doubts else "",
        *notes,
    )
    return tuple(line for line in lines if line)


def meanings(understood: Sequence[tuple[str, str]]) -> list[tuple[str, str]]:
    """The stretches of words that were taken for something else than the motif."""
    return [pair for pair in understood if pair[1] != MOTIF]
