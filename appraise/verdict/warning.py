"""The record of a warning."""

from appraise.base.dataclass import dataclass
from appraise.reading.words import word_for


@dataclass(frozen=True, slots=True)
class Warning:
    """One warning.

    Attributes:
        id: Its word in files.
        says: The sentence.
        towards: The state or finding it points to.
        ratio: The likelihood ratio behind it, or 0 where it is no matter of likelihood.
        strong: Whether it is raised as strong.
        because: The findings behind it, the weightiest first.
        innocent: Explanations that accuse nobody.
        look_next: Checks not yet made that would tell most.
    """

    id: str
    says: str
    towards: str = ""
    ratio: float = 0.0
    strong: bool = False
    because: tuple[str, ...] = ()
    innocent: tuple[str, ...] = ()
    look_next: tuple[str, ...] = ()

    @property
    def word(self) -> str:
        """The verbal band of the ratio, or ''."""
        return word_for(self.ratio) if self.ratio else ""
