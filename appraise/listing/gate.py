"""Whether a text is about a photograph at all: surely, weakly, or about something else."""

from typing import Literal

from appraise.listing.passage import Passage
from appraise.listing.vocabulary import ONE_OF_MANY, Hit

Standing = Literal["sure", "weak", "none"]
PLATED = ("process", "format")
PROPS = 6  # words before a thing among which one says that it is held, worn or beside somebody
_HELD = frozenset(
    ("with", "holding", "holds", "beside", "wearing", "wears", "his", "her", "their", "w",
     "playing", "carrying")
)  # fmt: skip
SHAPES = frozenset(("print", "postcard", "album"))  # wares that are photographs by their name
PACKAGED = ("mat", "preserver", "pad")  # parts that hardly anything but a cased photograph has
CASED = (*PACKAGED, "hinge", "clasp", "case")  # parts by which an empty case is one of ours
PHOTOGRAPHS = ("yes", "metal", "glass")  # words for a photograph, and on what it is
VIEWS = ("lantern-slide", "stereo")  # what mostly shows things, places and machines
FILE = "other"  # a ware that is no object of its own: a download, a scan
HINTS = 2  # hints from which a text without any word for a photograph is read all the same


def is_file(passage: Passage) -> bool:
    """Whether a picture to be downloaded is for sale, of however many photographs."""
    return any(hit.term.field == "ware" and hit.term.value == FILE for hit in passage.hits("ware"))


def standing(passage: Passage) -> Standing:
    """How surely a text is about a photograph.

    A process, a plate or card format or words for a photograph say so, unless more words belong
    to something else: books, cameras, empty picture frames; each word counts once. A thing that
    somebody holds or wears in the image is nothing else. Where both are told alike, what is
    named first leads, and the text is read weakly; so it is where only a sitter and the parts of
    a package are named.
    """
    named = [hit for hit in passage.things if hit.term.field in PLATED]
    wares = [hit for hit in passage.hits("ware") if hit.term.field == "ware"]
    shaped = {hit.term.value for hit in wares} & SHAPES
    enough = ONE_OF_MANY if shaped else 1
    strong = {hit.term.value for hit in named if hit.score >= enough}
    weak = {hit.term.value for hit in named}
    about = passage.hits("about")
    yes = [hit for hit in about if hit.term.value in PHOTOGRAPHS]
    if (named or yes) and is_file(passage):
        return "sure"  # of a file that shows one: it is told what it is
    no = [hit for hit in about if hit.term.value == "no" and not (named and _prop(passage, hit))]
    cased = any(hit.term.value == "thermoplastic" for hit in passage.things)
    if shaped:
        no = [hit for hit in no if not _depicted(passage, hit)]
    shown = 2 * len(strong) + len(weak - strong) + _words(passage, yes) + cased + 2 * len(shaped)
    against = 2 * _words(passage, no)
    if not shown and {hit.term.value for hit in wares} & {"empty-case", "part"}:
        shown = any(hit.term.value in CASED for hit in passage.things)
    if shown == against and named and min(h.first for h in named) < min(h.first for h in no):
        shown += _people(passage) or any(hit.term.value in VIEWS for hit in named)
    if shown > against:
        return "sure"
    if shown and against:
        first = min(hit.first for hit in (*named, *yes)) if named or yes else len(passage.words)
        return "weak" if first < min(hit.first for hit in no) else "none"
    return "weak" if not against and _hints(passage) >= HINTS else "none"


def _people(passage: Passage) -> bool:
    """Whether somebody is told who may be shown."""
    shown = (hit.term.value for hit in passage.hits("sitter") if hit.term.field == "subject")
    return any(value not in ("object", "outdoor", "animal") for value in shown)


def _words(passage: Passage, hits: list[Hit]) -> int:
    return len({passage.words[hit.first].norm for hit in hits})


def _prop(passage: Passage, hit: Hit) -> bool:
    """Whether a thing is only shown with somebody: 'a man with violin and jug'."""
    for at in range(hit.first - 1, max(-1, hit.first - 1 - PROPS), -1):
        if passage.ends[at]:
            return False
        if passage.words[at].norm in _HELD:
            return True
    return False


def _depicted(passage: Passage, hit: Hit) -> bool:
    """Whether a thing is a word for what is shown, or a page of an album."""
    shown = any(one.first <= hit.first < one.last for one in passage.hits("sitter"))
    return shown or passage.words[hit.first].norm == "pages"


def _hints(passage: Passage) -> int:
    """How many sorts of words tell of a cased photograph without naming one."""
    sitter = _people(passage)
    parts = {hit.term.value for hit in passage.things if hit.term.field == "part"}
    housed = any(hit.term.field == "case.material" for hit in passage.things) or "case" in parts
    packaged = len(parts & set(PACKAGED))
    return 0 if not packaged else sitter + packaged + housed - 1
