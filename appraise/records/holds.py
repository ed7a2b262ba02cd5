"""Why no maximum is given for a piece: what its seller says of its age or its belonging."""

from collections.abc import Sequence

from appraise.knowledge.records import Knowledge
from appraise.records.piece import Piece

UNREAD = {
    "part": "a part by itself is not judged as a photograph",
    "album": "an album is not judged as one piece",
    "lot": "a lot is judged piece by piece, not as one",
    "other": "it is not judged as a photograph",
}
"""Why there is no maximum for kinds of which there is no single reading."""


def holds_of(piece: Piece, knowledge: Knowledge) -> tuple[str, ...]:
    """Why a bid on a piece is held back, each as the end of a sentence; empty where none is.

    Kinds of which there is no single reading are held back. So are answers that are marked in the
    knowledge files, as the seller's word only: who has looked and answered the check knows what
    they bid on.
    """
    found = [UNREAD[piece.kind]] if piece.kind in UNREAD else []
    for name, finding in piece.findings.items():
        if finding.known != "seller":
            continue
        check = knowledge.checks.get(name)
        place = check.index(finding.answer) if check is not None else -1
        if check is not None and place >= 0:
            found.append(check.answers[place].holds)
    return tuple(dict.fromkeys(one for one in found if one))


def no_maximum(holds: Sequence[str]) -> str:
    """The sentence that stands where a maximum would."""
    return f"No maximum is given: {'; '.join(holds)}."
