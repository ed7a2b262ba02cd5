"""Text as a filter compares it: case, accents and runs of space do not matter."""

import unicodedata


def folded(text: str) -> str:
    """Lower case without accents, single spaces: 'Früh  ÖRTEL' and 'fruh ortel' are one."""
    if text.isascii():
        return " ".join(text.lower().split())
    parts = unicodedata.normalize("NFKD", text)
    bare = "".join(each for each in parts if not unicodedata.combining(each))
    return " ".join(bare.casefold().split())
