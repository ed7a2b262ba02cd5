"""A wish in one line: 'ninth or sixth vine, 1855-1862, up to 80'."""

import datetime as dt
import re

from appraise.knowledge.records import Knowledge
from appraise.listing.bench_line import TypedLine, Understood, plain_title, rest, told
from appraise.listing.first_look import Look, understand
from appraise.listing.passage import Passage
from appraise.listing.vocabulary import BRIEF
from appraise.records.want import Want

_YEARS = re.compile(r"\b(1[89]\d\d)(?:\s*(?:-|–|to|\.\.)\s*(1[89]\d\d))?\b(?!\s*(?:usd|gbp|eur))",
                    re.IGNORECASE)  # fmt: skip
_LIMIT = re.compile(
    r"\b(?:up to|at most|no more than|not over|max(?:imum)?|most|under|below)\b", re.IGNORECASE
)


def understand_want(
    text: str, knowledge: Knowledge, currency: str, today: dt.date
) -> Understood[Want]:
    """Read one line about something to look out for: 'ninth or sixth vine, 1855-1862, up to 80'."""
    line = TypedLine(text)
    years = _YEARS.search(line.text)
    first = int(years[1]) if years else None
    last = int(years[2] or years[1]) if years else None
    if years:
        line.take(years, f"years {first} to {last}")
    limit = _LIMIT.search(line.text)
    if limit:
        line.blank(*limit.span())
    look = understand(line.text, knowledge, currency, stocked=True)
    piece = look.piece
    formats, used = _formats(line.text, knowledge)
    motif = rest(piece.motif, used)
    want = Want(
        title=_title(text, look, limit),
        since=today,
        kind=piece.kind if piece.kind != "cased" else "",
        process=piece.called,
        housing=piece.found("case.material"),
        formats=formats,
        motif=motif,
        subject="" if motif else piece.subject,
        first=first,
        last=last,
        most=piece.asking,
    )
    pairs = [
        (words, meaning.replace("cost ", "at most "))
        for words, meaning in told(line, look, motif, ())
    ]
    said = {meaning for _, meaning in pairs}
    pairs += [(one, f"format {one}") for one in formats if f"format {one}" not in said]
    return Understood(want, tuple(pairs), look.not_understood)


def _title(text: str, look: Look, limit: re.Match[str] | None) -> str:
    """The line without the most that it may cost, which a field of its own tells."""
    title = " ".join(text.split())
    gone = [words for words, meaning in look.understood if meaning.startswith("asking ")]
    for words in (*([limit[0]] if limit else []), *gone):
        title = re.sub(rf"[\s,]*(?<!\w){re.escape(words)}(?!\w)", " ", title, count=1)
    return plain_title(title)


def _formats(text: str, knowledge: Knowledge) -> tuple[tuple[str, ...], frozenset[str]]:
    """Every format that a line names, and the words that do."""
    passage = Passage(text, knowledge, brief=True)
    found: dict[str, None] = {}
    used: set[str] = set()
    for hit in passage.hits(BRIEF):
        if hit.term.field == "format" and hit.term.value in knowledge.formats:
            found[hit.term.value] = None
            used.update(passage.words[n].norm for n in range(hit.first, hit.last))
    return tuple(found), frozenset(used)
