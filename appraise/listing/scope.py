"""How things are said: denied, compared, reported, general knowledge, or of something else.

A denied word claims its opposite; a muted word claims nothing of the piece.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise

from appraise.base.dataclass import dataclass
from appraise.listing.vocabulary import Hit
from appraise.listing.words import Word

DENY, PLAIN, COMPARE, COPIED, HOLDS, SEEMS, HEARSAY, GENERAL, KIND, ASIDE, OWN, TOPIC = (
    "deny", "plain", "compare", "copied", "holds", "seems", "hearsay", "general", "kind", "aside",
    "own", "topic",
)  # fmt: skip
REACH = {DENY: 9, COMPARE: 8, COPIED: 8, SEEMS: 8, HOLDS: 1}  # words that a cue reaches forward
ASKED = 2  # words of a question that is answered with no, as a denial
FREE = "free"
TOLD = 3  # words of damage that is a statement of its own: 'no cracks, backing lost in patches'
FAR = 40  # words within which a sentence may turn with "but"
_TURNS = frozenset(
    ("but", "however", "although", "though", "except", "instead", "yet", "only", "because")
)
_JOINS = frozenset(("and", "or", "nor", "&", ","))
# After "and" these begin a new statement, which a denial before it does not reach.
_BEGINS = frozenset(
    ("is", "are", "has", "have", "had", "was", "were", "the", "a", "an", "it", "its", "this",
     "that", "i", "my", "we", "in", "with", "comes", "will", "you", "they", "he", "she", "there")
)  # fmt: skip
# Denials that go on through a list: "no cracks, chips or repairs".
_LISTS = frozenset(("no", "without", "free", "neither", "nor", "none", "never"))
_OR = frozenset(("or", "nor"))
_OWN_VIEW = frozenset(("but", "however", "though", "although", "yet"))
_WHERE = frozenset(("at", "along", "near", "across", "around", "with"))
_NAY = frozenset(("no", "nope", "nah", "not"))
_IT_IS = frozenset(
    ("it is", "its a", "its an", "it a", "it an", "this is", "it looks", "i think", "i believe",
     "i would", "to me", "it must", "i see", "it has", "in fact", "clearly a", "clearly an",
     "i say", "i am")
)  # fmt: skip
_LISTED = ("state", "part", "degree", "defect")
_BRACKETS = frozenset("():-–—")


@dataclass(frozen=True, slots=True)
class Scope:
    """For each word of a text, whether it is denied, and why it is muted ('' if it is not)."""

    denied: Sequence[bool]
    muted: Sequence[str]

    def denies(self, place: int) -> bool:
        """Whether the word at `place` is denied."""
        return self.denied[place]

    def claims(self, first: int, last: int) -> bool:
        """Whether words claim something of the piece: neither denied nor muted."""
        return not (self.denied[first] or any(self.muted[first:last]))


def scope_of(
    words: Sequence[Word],
    ends: Sequence[bool],
    speech: Sequence[Hit],
    things: Sequence[Hit],
    plural: Sequence[bool],
    brief: bool = False,
) -> Scope:
    """The scope of every word.

    Args:
        words: The words of a text.
        ends: Whether each ends a sentence.
        speech: Hits of the layer of manners of speaking.
        things: Hits of the layer of things, which carry lists after a denial.
        plural: Whether a word is a plural name of a process, format or case.
        brief: A line without punctuation, where a denial reaches one thing only.
    """
    listed, states = _carried(words, things)
    starts = _new_parts(words, things)
    denied = [False] * len(words)
    muted = [""] * len(words)
    cues = [hit for hit in speech if hit.term.field == "scope"]
    named = [hit for hit in things if hit.term.field in _LISTED]
    plain = {hit.first for hit in cues if hit.term.value == PLAIN}
    for hit in cues:
        if hit.term.value == DENY:
            carries = words[hit.first].norm in _LISTS
            end = _denial_end(words, ends, listed, states if carries else (), hit.last)
            stops = (at for at in range(hit.last, end) if at in plain or (carries and starts[at]))
            end = next(stops, end)
            end = _one_thing(words, named, hit.last, end) if brief else end
            denied[hit.last : end] = [True] * (end - hit.last)
        elif hit.term.value in (COMPARE, COPIED, HOLDS) or _only_seems(words, ends, hit):
            for at in range(hit.last, _comparison_end(words, ends, hit)):
                muted[at] = COMPARE if hit.term.value == SEEMS else hit.term.value
    _deny_what_it_is_free_of(denied, words, named)
    _deny_questions(denied, words, ends)
    _mute_sentences(muted, words, ends, cues, plural)
    return Scope(denied, muted)


def _deny_what_it_is_free_of(
    denied: list[bool], words: Sequence[Word], named: Sequence[Hit]
) -> None:
    """Deny the damage before the word 'free': 'rust free'."""
    for hit in named:
        short = hit.last - hit.first == 1 and hit.term.field != "part"
        if short and hit.last < len(words) and words[hit.last].norm == FREE:
            denied[hit.first] = True


def _mute_sentences(
    muted: list[str],
    words: Sequence[Word],
    ends: Sequence[bool],
    cues: Sequence[Hit],
    plural: Sequence[bool],
) -> None:
    """Mute the sentences that claim nothing, where no word of theirs is muted already."""
    sentences = _sentences(ends)
    for first, last in _of_topics(words, cues, sentences):
        muted[first:last] = [said or GENERAL for said in muted[first:last]]
    at = 0
    for first, last in sentences:
        inside: list[Hit] = []
        while at < len(cues) and cues[at].first < last:
            inside += cues[at : at + 1] if cues[at].first >= first else ()
            at += 1
        reason, start, stop = _sentence_mute(words, inside, plural, first, last)
        if _answered_no(words, last):
            reason, start, stop = COMPARE, _last_part(words, first, last), last
            if stop - start <= ASKED:
                continue  # 'faded? not a bit' denies
        muted[start:stop] = [said or reason for said in muted[start:stop]]


def _carried(words: Sequence[Word], things: Sequence[Hit]) -> tuple[list[bool], list[bool]]:
    """Which words are listed after a denial, and which begin a state or a damage."""
    listed, states = [False] * len(words), [False] * len(words)
    for hit in things:
        if hit.term.field in _LISTED:
            listed[hit.first : hit.last] = [True] * (hit.last - hit.first)
        if hit.term.field == "state" or (
            hit.term.field == "defect" and hit.last - hit.first < TOLD
        ):
            states[hit.first] = True
    return listed, states


def _new_parts(words: Sequence[Word], things: Sequence[Hit]) -> list[bool]:
    """Which parts begin a statement of their own: those right after another part or damage.

    'No seal glass cracked' denies the seal alone; 'no cracks in the glass' goes on.
    """
    starts = [False] * len(words)
    named = [hit for hit in things if hit.term.field in ("part", "state", "defect")]
    for before, hit in pairwise(named):
        whole = "rim" not in (before.term.value, hit.term.value)
        if hit.term.field == "part" and before.last == hit.first and whole:
            starts[hit.first] = True
    return starts


def _sentences(ends: Sequence[bool]) -> list[tuple[int, int]]:
    found, first = [], 0
    for place, end in enumerate(ends):
        if end:
            found.append((first, place))
            first = place + 1
    found.append((first, len(ends)))
    return found


def _denial_end(
    words: Sequence[Word],
    ends: Sequence[bool],
    listed: Sequence[bool],
    states: Sequence[bool],
    start: int,
) -> int:
    """Where a denial stops reaching: a turn, a bracket, a new statement, or far enough.

    Past a comma it goes on only from damage to damage, as in 'no cracks, chips or repairs'.
    """
    reach = REACH[DENY]
    at = start
    while at < len(words) and reach > 0:
        norm = words[at].norm
        if ends[at] or norm in _TURNS or norm in _BRACKETS:
            return at
        if norm in _JOINS:
            after = at + 1
            while after < len(words) and words[after].norm in _JOINS:
                after += 1
            goes_on = after < len(words) and (
                bool(states)
                and states[after]
                and any(states[start:at])
                and not _placed(words, listed, after)
                if norm == ","
                else words[after].norm not in _BEGINS
            )
            if not goes_on:
                return at
            reach = REACH[DENY] if listed[after] else reach
        reach -= 1
        at += 1
    return at


def _placed(words: Sequence[Word], listed: Sequence[bool], place: int) -> bool:
    """Whether a place follows damage: 'no cracks, weeping at the edge' tells of weeping."""
    while place < len(words) and listed[place]:
        place += 1
    return place < len(words) and words[place].norm in _WHERE


def _one_thing(words: Sequence[Word], named: Sequence[Hit], start: int, end: int) -> int:
    """Where the one thing that is denied is at its end: a part, a damage, or the two together.

    'No seal | glass cracked', 'no chips | hinge taped', but 'no cracked glass'. After 'or' the
    next thing is denied as well.
    """
    at = bisect_left(named, start, key=lambda hit: hit.first)
    while at < len(named) and named[at].term.field == "degree":
        at += 1
    if at == len(named) or named[at].first >= end:
        return min(end, start + 1)
    last = at + _pairs_with_next(named, at)
    stop = named[last].last
    if stop < end and words[stop].norm in _OR:
        return _one_thing(words, named, stop + 1, end)
    return stop


def _pairs_with_next(named: Sequence[Hit], at: int) -> bool:
    """Whether a part and a damage that stand side by side are told as one."""
    both = list(named[at : at + 3])
    if len(both) == 1 or both[1].first > both[0].last or _is_part(both[0]) == _is_part(both[1]):
        return False
    third = both[2] if len(both) > 2 and both[2].first == both[1].last else None
    return third is None or _is_part(third) == _is_part(both[1])


def _is_part(hit: Hit) -> bool:
    return hit.term.field == "part"


def _only_seems(words: Sequence[Word], ends: Sequence[bool], hit: Hit) -> bool:
    """Whether a likeness is taken back in the same sentence: 'looks like ..., but it is ...'."""
    if hit.term.value != SEEMS:
        return False
    for at in range(hit.last, min(len(words), hit.last + FAR)):
        if ends[at]:
            return False
        if words[at].norm == "but":
            return True
    return False


def _comparison_end(words: Sequence[Word], ends: Sequence[bool], cue: Hit) -> int:
    stop = min(len(words), cue.last + REACH[cue.term.value])
    for at in range(cue.last, stop):
        if ends[at] or words[at].norm in (",", "(", ")", "this", "it", "mine", "but"):
            return at
    return stop


def _sentence_mute(
    words: Sequence[Word], inside: Sequence[Hit], plural: Sequence[bool], first: int, last: int
) -> tuple[str, int, int]:
    """Why a sentence claims nothing by its cues, from which word on and up to which."""
    values = {hit.term.value for hit in inside}
    for hit in inside:
        if hit.term.value == KIND and hit.first == first and OWN not in values:
            return GENERAL, first, last
        if hit.term.value == HEARSAY:
            low, high = _bracketed(words, hit.first, first, last)
            return HEARSAY, low, _answered(words, hit.last, high)
        if hit.term.value == ASIDE:
            sells = words[hit.first].norm == "selling"
            return ASIDE, hit.first, _to_the_colon(words, hit.last, last) if sells else last
    if GENERAL in values and OWN not in values and any(plural[first:last]):
        return GENERAL, first, last
    return "", last, last


def _to_the_colon(words: Sequence[Word], start: int, last: int) -> int:
    """Where a sentence turns to the piece itself: 'from my collection of cards: tintype, ...'."""
    return next((at for at in range(start, last) if words[at].norm == ":"), last)


def _answered_no(words: Sequence[Word], last: int) -> bool:
    """Whether a sentence is a question that is answered with no, as in 'Ambrotype? No, sorry'."""
    at = last
    while at < len(words) and words[at].norm == "?":
        at += 1
    return (
        last < at < len(words) - 1
        and words[at].norm in _NAY
        and words[at + 2 :][:1] != []
        and words[at + 2].norm != "i"
    )


def _deny_questions(denied: list[bool], words: Sequence[Word], ends: Sequence[bool]) -> None:
    """Deny what is asked and answered with no: 'albumen print, faded? not a bit'."""
    for first, last in _sentences(ends):
        if _answered_no(words, last):
            start = _last_part(words, first, last)
            denied[start:last] = [True] * (last - start)


def _last_part(words: Sequence[Word], first: int, last: int) -> int:
    """Where the last part of a sentence begins, behind its last comma."""
    commas = (at + 1 for at in range(last - 1, first - 1, -1) if words[at].norm == ",")
    return next(commas, first)


def _of_topics(
    words: Sequence[Word], cues: Sequence[Hit], sentences: Sequence[tuple[int, int]]
) -> Iterator[tuple[int, int]]:
    """Sentences of a paragraph that is announced as general, as by 'a word on slides'.

    From the announcement to the blank line after it; what is said of this very piece stays.
    """
    topics = [hit.first for hit in cues if hit.term.value == TOPIC]
    told, at, topic = False, 0, -1
    for first, last in sentences:
        while at < len(topics) and topics[at] < last:
            told, at, topic = True, at + 1, first
        labelled = last - first > 1 and words[first + 1].norm == ":" and topic != first
        if labelled or (first < len(words) and words[first].norm == "\n"):
            told = False
        if told and OWN not in {hit.term.value for hit in _between(cues, first, last)}:
            yield first, last


def _bracketed(words: Sequence[Word], place: int, first: int, last: int) -> tuple[int, int]:
    """The brackets of a sentence within which a word stands, else the whole sentence."""
    opens = next((at for at in range(place - 1, first - 1, -1) if words[at].norm in "()"), -1)
    if opens < 0 or words[opens].norm != "(":
        return first, last
    closes = next((at for at in range(place, last) if words[at].norm == ")"), last)
    return opens, closes


def _answered(words: Sequence[Word], start: int, last: int) -> int:
    """Where the seller's own conclusion begins after what others said: 'but ..., so it is'."""
    turned = False
    for at in range(start, last):
        turned = turned or words[at].norm == "but"
        if (
            words[at].norm in _OWN_VIEW
            and " ".join(w.norm for w in words[at + 1 : at + 3]) in _IT_IS
        ):
            return at
        if turned and words[at].norm == "so" and words[at - 1].norm == ",":
            return at
    return last


def _between(cues: Sequence[Hit], first: int, last: int) -> list[Hit]:
    """The cues of a sentence; they come in order, so a search by halves finds them."""
    low = bisect_left(cues, first, key=lambda hit: hit.first)
    high = bisect_left(cues, last, key=lambda hit: hit.first)
    return list(cues[low:high])
