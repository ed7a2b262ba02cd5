"""A photo of a piece, as a record lists it."""

from appraise.base.dataclass import dataclass
from appraise.base.fieldchecks import check_id, check_text


@dataclass(frozen=True, slots=True)
class PictureFile:
    """A picture of the piece, kept by what it holds.

    Attributes:
        sha256: Digest of the file's bytes, 64 hexadecimal digits.
        name: The file's name when it was attached.
    """

    sha256: str
    name: str

    def __post_init__(self) -> None:
        check_id("pictures", self.sha256, digits=64)
        check_text("pictures", self.name, one_line=True)
