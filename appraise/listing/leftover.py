"""What is left of a typed line: plain words name the motif, the rest is said not to be understood.

Not understood are numbers, words for damage that found no part, parts of which nothing is said,
and the one thing after a 'no'. A stretch between commas that has one of them and nothing else that
was understood is not understood as a whole.
"""

from bisect import bisect_left
from dataclasses import replace

from appraise.listing.counted import damage_counts
from appraise.listing.draft import LineDraft
from appraise.listing.scope import DENY, PLAIN
from appraise.listing.words import Word

EDGE = "rim"  # corners and edges, of whatever lies there
LONGEST_TITLE = 120
LINKS = frozenset(("plus", "and", "for", "at", "on", "in", "from", "+", "&", "or", "x", "each",
                   "as", "about", "w"))  # fmt: skip
SAID_OF_IT = 2  # words between a part and a comma that can only be said of the part
_DAMAGE = ("state", "defect", "check")
_SPLITS = frozenset(",;\n")


def name_the_rest(draft: LineDraft) -> None:
    """Give every word that is left its place: the motif, or what was not understood."""
    _absorb(draft)
    doubtful = _doubtful(draft)
    motif: list[str] = []
    for doubt, run in _runs(draft, doubtful):
        if doubt:
            draft.lost.append((run[0].start, _text(draft, run)))
        else:
            motif += _named(draft, run)
    title = " ".join(draft.passage.text.split())
    short = title if len(title) <= LONGEST_TITLE else f"{title[: LONGEST_TITLE - 3]}..."
    draft.piece = replace(draft.piece, motif=" ".join(motif), title=short)


def _absorb(draft: LineDraft) -> None:
    """Counts and edges that stand beside a damage that was understood belong to it: '2 corners'."""
    things = draft.passage.things
    edges = [hit for hit in things if hit.term.field == "part" and hit.term.value == EDGE]
    counts = sorted(damage_counts(draft.passage, things))
    for hit in edges:
        if draft.harmed & {hit.first - 1, hit.first - 2, hit.last}:
            draft.taken.update(range(hit.first, hit.last))
            draft.harmed.update(range(hit.first, hit.last))
    draft.taken.update(place for place in counts if draft.harmed & {place - 1, place + 1})


def _text(draft: LineDraft, run: list[Word]) -> str:
    return draft.passage.text[run[0].start : run[-1].end]


def _named(draft: LineDraft, run: list[Word]) -> list[str]:
    """One run of plain words, without small words at its ends."""
    small = draft.passage.vocabulary.sets["filler"] | LINKS
    if len(run) > 1 and run[0].norm == "from":  # where it was found is nothing that is shown
        draft.lost.append((run[0].start, _text(draft, run)))
        return []
    while run and run[-1].norm in small:
        run = run[:-1]
    while run and run[0].norm in small:
        run = run[1:]
    if not run:
        return []
    words = _text(draft, run)
    draft.understood.append((run[0].start, words, "motif"))
    return words.split()


def _runs(draft: LineDraft, doubtful: dict[int, int]) -> list[tuple[bool, list[Word]]]:
    """Neighbouring words that are left, those of one doubt or of none together."""
    found: list[tuple[int, list[Word]]] = []
    before = -1
    for place, word in enumerate(draft.words):
        if place in draft.taken or (word.is_mark and place not in doubtful):
            continue
        doubt = doubtful.get(place, 0)
        if found and before == place - 1 and found[-1][0] == doubt:
            found[-1][1].append(word)
        else:
            found.append((doubt, [word]))
        before = place
    return [(doubt > 0, run) for doubt, run in found]


def _doubtful(draft: LineDraft) -> dict[int, int]:
    """The words that were not understood: the number of the doubt to which each belongs."""
    left = [p for p, w in enumerate(draft.words) if p not in draft.taken and not w.is_mark]
    doubts: dict[int, int] = {}

    def doubt(places: range) -> None:
        new = len(doubts) + 1
        doubts.update(dict.fromkeys((p for p in places if p not in draft.taken), new))

    for first, last in _segments(draft):
        inside = left[bisect_left(left, first) : bisect_left(left, last)]
        at = next(iter(inside), last)
        while at < last:
            stop = _doubt_from(draft, at, last)
            if stop > at and inside and _alone(draft, first, last):
                doubt(range(inside[0], inside[-1] + 1))
                break
            if stop > at:
                doubt(range(at, stop))
            after = bisect_left(inside, max(stop, at + 1))
            at = inside[after] if after < len(inside) else last
    return doubts


def _segments(draft: LineDraft) -> list[tuple[int, int]]:
    """The stretches between commas."""
    ends = [p for p, word in enumerate(draft.words) if word.norm in _SPLITS]
    return list(zip([0, *(end + 1 for end in ends)], [*ends, len(draft.words)], strict=True))


def _alone(draft: LineDraft, first: int, last: int) -> bool:
    """Whether nothing between two commas was understood, in a line that has commas."""
    whole = first == 0 and last == len(draft.words)
    numbers = any(draft.words[place].is_number for place in range(first, last))
    return not whole and not numbers and not draft.taken & set(range(first, last))


def _doubt_from(draft: LineDraft, place: int, last: int) -> int:
    """The place after the doubt that begins with a word; the word's own place where none does."""
    word = draft.words[place]
    if word.is_number:
        return place + 1
    denial = next((hit for hit in draft.passage.speech if hit.first == place), None)
    if denial is not None and denial.term.value in (DENY, PLAIN):
        return _one_word_more(draft, denial.last, last)
    if any(hit.first == place and hit.term.field == "denial" for hit in draft.passage.things):
        return _one_word_more(draft, place + 1, last)
    at, adjectives = place, draft.passage.vocabulary.sets["adjective"]
    while at < last and draft.words[at].norm in adjectives and not _damage_at(draft, at):
        at += 1
    end = _damage_at(draft, at) if at < last and at not in draft.taken else 0
    return _to_the_comma(draft, end, last) or place


def _to_the_comma(draft: LineDraft, end: int, last: int) -> int:
    """The end of a doubt, moved over what little stands between it and a comma: 'hinge iffy,'."""
    rest = range(end, last)
    if not end or last >= len(draft.words) or len(rest) > SAID_OF_IT:
        return end
    left = all(p not in draft.taken and not draft.words[p].is_number for p in rest)
    return last if left else end


def _one_word_more(draft: LineDraft, place: int, last: int) -> int:
    """The place after what is denied: the next word that is left, with what leads to it."""
    known = draft.passage.vocabulary
    small = known.sets["filler"] | known.sets["adjective"]
    while place < last and draft.words[place].norm in small and place not in draft.taken:
        place += 1
    stops = place >= last or place in draft.taken or draft.words[place].is_mark
    return place if stops else place + 1


def _damage_at(draft: LineDraft, place: int) -> int:
    """The place after a damage or a part of the package or case that begins here, else 0."""
    for hit in draft.passage.things:
        if hit.first != place:
            continue
        term, part = hit.term, draft.passage.knowledge.parts.get(hit.term.value)
        package = part is not None and (part.empty or part.side == "package")
        if (term.field in _DAMAGE and not term.tight) or (term.field == "part" and package):
            return hit.last
    return 0
