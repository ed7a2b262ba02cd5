"""The forms in which a report is written."""

from collections.abc import Callable, Mapping

from appraise.documents.reader.document import Document
from appraise.documents.reader.html import html
from appraise.documents.reader.markdown import markdown
from appraise.documents.reader.text import text

FORMS: Mapping[str, Callable[[Document], str]] = {
    "text": text,
    "markdown": markdown,
    "html": html,
}
SUFFIXES: Mapping[str, str] = {"text": ".txt", "markdown": ".md", "html": ".html"}
"""How a file of each form is mostly named."""
