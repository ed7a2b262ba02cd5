"""A photo's file read: upright and small; and copied for a page, with nothing but what it shows.

A copy is made anew from the dots, so that it bears neither place, day and camera (EXIF, XMP, IPTC)
nor the file's name.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.errors import InputError

if TYPE_CHECKING:
    from PIL import Image

MOST = 60_000_000  # dots; more are not unpacked
BROKEN, HUGE, GONE = "photo cannot be read", "photo is too large to show", "photo file is missing"
ACROSS = 1200  # dots of the longer side of a copy
QUALITY = 85  # of JPEG, 1 to 95


def upright(path: Path, size: tuple[int, int]) -> Image.Image:
    """A photo as it was held, in red, green and blue, of at least so many dots if it has them.

    Raises:
        InputError: when it is no photo, or too large.
    """
    from PIL import Image, ImageOps  # 30 ms

    try:
        with Image.open(path) as image:
            if image.width * image.height > MOST:
                raise InputError(HUGE)
            image.draft("RGB", size)
            return ImageOps.exif_transpose(image).convert("RGB")
    except FileNotFoundError:
        raise InputError(GONE) from None
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        raise InputError(BROKEN) from None


def page_copy(path: Path) -> bytes:
    """A small copy of a photo as JPEG, which tells nothing but what it shows.

    Raises:
        InputError: when it is no photo, or too large.
    """
    from PIL import Image

    shown = upright(path, (ACROSS, ACROSS))
    shown.thumbnail((ACROSS, ACROSS))
    bare = Image.new("RGB", shown.size)
    bare.paste(shown)
    out = BytesIO()
    bare.save(out, "JPEG", quality=QUALITY)
    return out.getvalue()
