"""What the desk says of the pieces that one owns."""

from __future__ import annotations

from appraise.app.session import Session


def wanting(session: Session) -> str:
    """How many kept pieces want something now, in one line; empty where none does.

    What understands them is imported only where there are some and the knowledge has been read.
    """
    from appraise.store.records import held, keeps

    if session.knowledge is None or not keeps(session.log, "kept"):
        return ""
    from appraise.collection.upkeep import due  # 10 ms with the reader of records
    from appraise.records.owned import OwnedPiece

    known = [one.thing for one in held(session.log, OwnedPiece)]
    many = sum(
        any(one.now for one in due(kept, session.knowledge, session.as_of)) for kept in known
    )
    if not many:
        return ""
    return (
        "1 of your pieces needs attention: press h, then d."
        if many == 1
        else f"{many} of your pieces need attention: press h, then d."
    )
