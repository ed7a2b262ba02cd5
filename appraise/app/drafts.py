"""What the desk says of a piece under examination, read without the trade's knowledge."""

from dataclasses import dataclass
from datetime import date

from appraise.base.errors import InputError
from appraise.store.drafts import Draft

MET = "market"  # where a piece is met whose file does not say


@dataclass(frozen=True, slots=True)
class Glance:
    """A draft as the desk shows it.

    Attributes:
        title: Its title, or what stands for it.
        answers: How many checks were answered.
        day: When it was last touched.
        channel: Where it is met; empty where that cannot be read.
    """

    title: str
    answers: int
    day: date
    channel: str = ""


def glance(draft: Draft) -> Glance:
    """The title of a draft and how far it has come; one that cannot be read says so."""
    from appraise.base.yamls import compose  # 20 ms, and only where there is a draft

    day = date.fromisoformat(draft.time[:10])
    try:
        top = compose(draft.text, "the draft")
        title = top.text("title", "") or "untitled piece"
        title = f"listing: {title}" if "listing" in top else title
        answers = len(list(top.row("findings"))) if "findings" in top else 0
    except InputError:
        return Glance("a piece that cannot be read", 0, day)
    return Glance(title, answers, day, top.text("channel", MET))
