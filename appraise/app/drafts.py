"""What the desk says of a piece under examination, read without the trade's knowledge."""

from datetime import date

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.store.drafts import Draft

BEGINS = 60  # signs of a text that stand for its title
MET = "market"  # where a piece is met whose file does not say


@dataclass(frozen=True, slots=True)
class Glance:
    """A draft as the desk shows it.

    Attributes:
        title: Its title, or what stands for it.
        answers: How many checks were answered.
        day: When it was last touched.
        channel: Where it is met; empty where that cannot be read.
        unread: Whether it is a listing whose text has still to be read.
    """

    title: str
    answers: int
    day: date
    channel: str = ""
    unread: bool = False


def glance(draft: Draft) -> Glance:
    """The title of a draft and how far it has come; one that cannot be read says so."""
    from appraise.base.yamls import compose  # 20 ms, and only where there is a draft

    day = date.fromisoformat(draft.time[:10])
    try:
        top = compose(draft.text, "the draft")
        title = top.text("title", "") or "untitled piece"
        if "listing" in top:
            bare = not top.text("title", "")
            title = f"listing: {_begins(top.text('listing')) if bare else title}"
        unread = "read-from" in top
        answers = len(list(top.row("findings"))) if "findings" in top else 0
    except InputError:
        return Glance("a piece that cannot be read", 0, day)
    return Glance(title, answers, day, top.text("channel", MET), unread)


def _begins(text: str) -> str:
    """How a text begins, as its title until it has been read."""
    first = text.strip().split("\n", 1)[0]
    return first if len(first) <= BEGINS else f"{first[:BEGINS].rsplit(' ', 1)[0]} ..."
