"""Damage told in words: a part and what happened to it, in either order, and how badly."""

import re
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby

from appraise.base.dataclass import dataclass
from appraise.knowledge.records import Check
from appraise.knowledge.wordings import Term
from appraise.listing.passage import Passage
from appraise.listing.vocabulary import BRIEF, Hit

AFTER = 6  # words that may stand between a state and the part after it
BEFORE = 12  # words back over which a part is still the one spoken of
BESIDE = 3  # words between a part and a state after it that can only be of that part
TIGHT = 1  # words between a part and a state that must stand beside it
IN_ALBUMS = ("card", "loose-plate", "print")  # kinds of which damage in an album is told
PRICED = 5  # from here a bare figure among damage is a price; below, a count: 'missing 2 corners'
MISSING = "missing"
DENIED = "!"  # stands for a part in pairs that count only where they are denied
_READ = ("process", "part", "case.material", "state", "defect", "denial")
_PREPOSITIONS = frozenset(
    ("of", "on", "in", "at", "to", "behind", "under", "inside", "around", "along", "near", "over",
     "facing", "opposite", "against", "beside", "beneath", "below", "above", "within", "by")
)  # fmt: skip
# Words that begin something new between a part and a state.
_NEXT = frozenset((",", "with", "w", "has", "and", "&", "plus", "but", "no"))
# "of" in several languages: the word before it is the one that is spoken of.
_OF_A = frozenset(("of", "des", "der", "du", "de", "van", "di", "del", "della", "dell"))
_OF = frozenset(("of", "the", "its", "this", "a", "to"))
_PLACES = frozenset(("in", "on", "to", "across", "of", "along", "through", "inside"))
_COPULAS = frozenset(("is", "are", "was", "were", "be", "been", "has", "have", "not"))
_ELSE = frozenset(("otherwise", "elsewhere", "else"))  # what follows is of no part named before
_IS = frozenset(("is", "are", "was", "were"))
# What lies, came loose or is missing in a part is not that part: 'loose in the lid'.
_WITHIN = frozenset(("in", "inside", "within", "from", "so", "because", "when"))
_APART = frozenset(("loose", "detached", "missing"))
_NEAR = frozenset(("by", "near", "beside", "opposite", "facing", "next"))  # a part only tells where
_NO = frozenset(
    ("no", "not", "without", "wont", "doesnt", "dont", "cannot", "cant", "isnt", "nt", "never",
     "@lack")
)  # fmt: skip
_JOINS = frozenset(("or", "nor", "and", ",", "&", "/", "+", "plus"))
_ANDS = _JOINS - {","}
# What may stand between two parts that are listed together.
_LIST = _JOINS | {"the", "its", "a", "an", "both", "in", "on", "to", "of", "one", "also", "some"}


@dataclass(frozen=True, slots=True)
class DamageSaid:
    """One thing said of the condition.

    Attributes:
        check: The defect's check id.
        step: '0' to '3'; '0' where damage is denied.
        first, last: Places of the first word and after the last one.
        score: Likeness of the words, 0 to 1.
        term: The term that it was read by.
    """

    check: str
    step: str
    first: int
    last: int
    score: float
    term: Term


@dataclass(frozen=True, slots=True)
class DamageSubject:
    """What the damage is said of, by which a word means one thing or another."""

    kind: str
    housing: str = ""
    family: str = ""


def damage(passage: Passage, subject_at: Callable[[int], DamageSubject]) -> list[DamageSaid]:
    """Everything that a text says of the condition, in its order; muted words say nothing.

    In prose a process stands for its plate ("the ambrotype is cracked"); in a line typed in haste
    what stands beside it tells nothing ("thermo ambro chipped").

    Args:
        passage: The text.
        subject_at: What the word at a place is said of.
    """
    fields = _READ[1:] if passage.brief else _READ
    hits = [hit for hit in _fitting(passage, subject_at) if hit.term.field in fields]
    degrees = {hit.first: hit.term.value for hit in passage.things if hit.term.field == "degree"}
    reader = _Reader(passage, subject_at, hits, degrees)
    found = [*reader.missing(), *reader.states()]
    return sorted(found, key=lambda one: one.first)


def _fitting(passage: Passage, subject_at: Callable[[int], DamageSubject]) -> list[Hit]:
    """The things of a text, where damage that is not asked of the piece gives way.

    The words from such a damage on are read anew without it: 'missing a corner' of a tintype is its
    corner, of a case it is a chip.
    """
    found: list[Hit] = []
    end = 0
    for place, hits in groupby(passage.things, key=lambda hit: hit.first):
        if place < end:
            continue
        same = list(hits)
        barred = {one.term.id for one in same if one.term.field == "defect"}
        if len(barred) == len(same) and not any(
            hit_fits(one.term, place, passage, subject_at) for one in same
        ):
            same = _read_anew(passage, subject_at, range(place, same[0].last), barred)
            end = same[-1].last if same else end
        found += same
    return found


def _read_anew(
    passage: Passage, subject_at: Callable[[int], DamageSubject], places: range, barred: set[str]
) -> list[Hit]:
    """The things that begin at some places where no damage is read that is not asked."""
    layer = BRIEF if passage.brief else "thing"
    known = passage.vocabulary
    met = known.met(passage.ground, places, typed=passage.brief)
    while True:
        again = known.longest(met.get(layer, ()), barred)
        more = {
            one.term.id
            for one in again
            if one.term.field == "defect" and not hit_fits(one.term, one.first, passage, subject_at)
        }
        if not more - barred:
            return again
        barred |= more


def hit_fits(
    term: Term, place: int, passage: Passage, subject_at: Callable[[int], DamageSubject]
) -> bool:
    """Whether such damage is asked of the piece that the word at `place` is said of."""
    check = passage.knowledge.checks.get(term.value.split()[0]) if term.value else None
    subject = subject_at(place)
    if term.only and not {subject.housing, subject.family} & set(term.only):
        return False
    return check is not None and asked_of(check, subject, passage)


def part_of(hit: Hit) -> str:
    """The part that words name; a process stands for its plate, a material for its case."""
    housing = {"frame": "frame", "locket": "other", "sleeve": "other"}.get(hit.term.value, "case")
    named = {"part": hit.term.value, "process": "plate", "case.material": housing}
    return named.get(hit.term.field, "")


@dataclass
class _Reader:
    """One pass over the hits of a text."""

    passage: Passage
    subject_at: Callable[[int], DamageSubject]
    hits: Sequence[Hit]
    degrees: dict[int, str]

    def __post_init__(self) -> None:
        self.used: set[int] = set()

    def missing(self) -> Iterator[DamageSaid]:
        """Parts that are denied outright: 'no seal or preserver', 'without a clasp'."""
        for place, hit in enumerate(self.hits):
            if hit.term.field != "denial":
                continue
            start, reach, at = hit.last, TIGHT, place + 1
            while at < len(self.hits) and self._lists(start, at, reach):
                term = self._term(at, part_of(self.hits[at]), MISSING)
                if term is None:
                    break
                self.used.add(at)
                yield self._plain(term, hit.first if at == place + 1 else at, at)
                start, at = self.hits[at].last, at + 1
                reach = TIGHT + 1

    def _lists(self, start: int, at: int, reach: int) -> bool:
        """Whether a part follows close enough, with no state of its own after it."""
        hit = self.hits[at]
        if not part_of(hit) or hit.first - start > reach or self._walled(start, hit.first):
            return False
        between = self.passage.words[start : hit.first]
        if self.passage.words[start - 1].norm == "no" and between:
            return False  # "no the glass is whole"
        if reach > TIGHT and not any(word.norm in _JOINS for word in between):
            return False
        after = self.hits[at + 1] if at + 1 < len(self.hits) else None
        return not (
            after
            and after.term.field in ("state", "defect")
            and after.first - hit.last <= TIGHT
            and not self._walled(hit.last, after.first)
            and not any(w.norm == "," for w in self.passage.words[hit.last : after.first])
        )

    def _plain(self, term: Term, first: int, at: int) -> DamageSaid:
        check, step = term.value.split()
        hit = self.hits[at]
        low = hit.first if first == at else first
        return DamageSaid(check, step, low, hit.last, hit.score, term)

    def states(self) -> Iterator[DamageSaid]:
        """States with the part that each belongs to, and damage named in one word."""
        for place, hit in enumerate(self.hits):
            if any(self.passage.scope.muted[hit.first : hit.last]):
                continue
            if hit.term.field == "defect" and self._fits(hit.term, hit.first):
                yield self._made(hit.term, hit, hit)
            elif hit.term.field == "state":
                term, other = self._part_for(place)
                if term is not None:
                    yield self._made(term, hit, self.hits[other] if other >= 0 else hit)
                    yield from self._shared(place, other)

    def _shared(self, place: int, at: int) -> Iterator[DamageSaid]:
        """The same state of the parts that are listed with one: 'clasp, pad and seal missing'."""
        state = self.hits[place]
        labelled = self.passage.words[state.last : state.last + 1]
        commas = bool(labelled) and labelled[0].norm == ":"  # 'missing: clasp, pad'
        step = 1 if at > place else -1
        while at >= 0 and 0 <= at + step < len(self.hits):
            low, high = sorted((at, at + step))
            between = {
                w.norm for w in self.passage.words[self.hits[low].last : self.hits[high].first]
            }
            listed = between & (_JOINS if commas else _ANDS) and between <= _LIST
            at += step
            other = self.hits[at]
            if (
                not listed
                or other.term.field != "part"
                or at in self.used
                or self._stated(at, place)
            ):
                return
            term = self._term(at, part_of(other), state.term.value)
            if term is not None:
                self.used.add(at)
                yield self._made(term, state, other)
            commas = True

    def _stated(self, at: int, place: int) -> bool:
        """Whether a part has a state of its own after it."""
        if at + 1 >= len(self.hits) or at < place < at + 3:
            return False
        after, last = self.hits[at + 1], self.hits[at].last
        own = after.term.field in ("state", "defect") and after.first - last <= BESIDE
        return own and not self._walled(last, after.first)

    def _part_for(self, place: int) -> tuple[Term | None, int]:
        """The damage that a state makes of the nearest fitting part, and that part's place.

        A part that has no state yet is preferred, then the one before to the one after. Where a
        part stands right before the state but is never damaged so, nothing is said.
        """
        state = self.hits[place]
        before = self._parts(range(place - 1, -1, -1), state, BEFORE)
        after = self._whose(self._parts(range(place + 1, len(self.hits)), state, AFTER))
        beside = bool(before) and self._beside(self.hits[before[0]], state)
        order = [*before[: 1 if beside else 2], *after[:1]]
        if after and self._leads_to(state, before, self.hits[after[0]]):
            order = [after[0], *order]
        else:
            order.sort(key=lambda at: (at in self.used, at > place))
        for at in order:
            term = self._term(place, part_of(self.hits[at]), state.term.value)
            if term is not None:
                self.used.add(at)
                return term, at
        if beside:
            return None, -1
        denied = self.passage.scope.denies(state.first)
        bare = self._term(place, DENIED, state.term.value) if denied else None
        return bare or self._term(place, "", state.term.value), -1

    def _whose(self, after: list[int]) -> list[int]:
        """The parts after a state; an edge gives way to what it is of: 'the back of the case'."""
        if len(after) > 1 and part_of(self.hits[after[0]]) == "rim":
            first, last = self.hits[after[0]].last, self.hits[after[1]].first
            if all(word.norm in _OF for word in self.passage.words[first:last]):
                return after[1:]
        return after

    def _leads_to(self, state: Hit, before: Sequence[int], part: Hit) -> bool:
        """Whether a state is said of the part after it.

        That is 'a crack in the glass', or 'leather case with cracked glass', where something new
        begins between what stands before and the state.
        """
        if part_of(part) == "rim" or (before and self._said_of(self.hits[before[0]], state)):
            return False
        if part.first == state.last and before:
            between = self.passage.words[self.hits[before[0]].last : state.first]
            return any(word.norm in _NEXT for word in between)
        return state.last < part.first and self.passage.words[state.last].norm in _PLACES

    def _said_of(self, part: Hit, state: Hit) -> bool:
        """Whether a state is said of the part before it: 'the pad is loose in the lid'."""
        between = {word.norm for word in self.passage.words[part.last : state.first]}
        return bool(between & _IS) and self._beside(part, state)

    def _beside(self, part: Hit, state: Hit) -> bool:
        """Whether a part stands right before a state, with no new beginning between."""
        between = self.passage.words[part.last : state.first]
        near = len(between) <= BESIDE and not any(word.norm in _JOINS for word in between)
        return near and part_of(part) != "rim"

    def _parts(self, places: range, state: Hit, reach: int) -> list[int]:
        """Parts among the hits at `places` in the state's own sentence."""
        found: list[int] = []
        reach = TIGHT if state.term.tight else reach
        words = self.passage.words
        for at in places:
            hit = self.hits[at]
            forward = hit.first > state.first
            low, high = (state.last, hit.first) if forward else (hit.last, state.first)
            apart = high - low
            if state.term.tight and apart <= AFTER:
                apart = sum(words[one].norm not in _COPULAS for one in range(low, high))
            commas = forward and any(words[one].norm == "," for one in range(low, high))
            commas = commas or any(words[one].norm in _ELSE for one in range(low, high))
            if commas or apart > reach or self._walled(low, high):
                break
            elsewhere = self._of_another(at) if forward else self._a_place(at)
            if elsewhere or not part_of(hit) or self._apart(hit, state):
                continue
            away = _NEAR | _WITHIN if state.term.value in _APART else _NEAR
            if forward and any(words[one].norm in away for one in range(low, high)):
                break
            found.append(at)
        return found

    def _apart(self, part: Hit, state: Hit) -> bool:
        """Whether a typed line denies one and not the other: 'no tape hinge split'."""
        denied = {self.passage.scope.denies(hit.first) for hit in (part, state)}
        return self.passage.brief and part.term.field == "part" and len(denied) > 1

    def _of_another(self, at: int) -> bool:
        """Whether a part after a state only leads to the next: 'the corner of the plate'."""
        if part_of(self.hits[at]) != "rim" or at + 1 >= len(self.hits):
            return False
        between = self.passage.words[self.hits[at].last : self.hits[at + 1].first]
        norms = {word.norm for word in between[:5]}
        return len(between) < 5 and "of" in norms <= _OF and bool(part_of(self.hits[at + 1]))

    def _a_place(self, at: int) -> bool:
        """Whether a part before a state only tells where: 'the seal on the back is torn'.

        It follows a word of place, and the part that is spoken of stands before that.
        """
        first = self.hits[at].first
        before = self.hits[at - 1] if at else None
        if self.hits[at].term.field != "part" or first - (before.last if before else 0) > AFTER:
            return False
        if before is None or before.term.field != "part":
            return False
        if self._walled(before.last, first):
            return False
        for place in range(first - 1, before.last - 1, -1):
            norm = self.passage.words[place].norm
            if norm in _PREPOSITIONS or norm in _OF_A:
                return norm not in _OF_A or place == before.last
            if not self.passage.ground.small[place]:
                return False
        return False

    def _walled(self, low: int, high: int) -> bool:
        """Whether something new begins between: a sentence, in a line typed in haste a price."""
        between = self.passage.words[low:high] if self.passage.brief else ()
        priced = any(word.norm.isdigit() and int(word.norm) >= PRICED for word in between)
        return priced or any(self.passage.ends[low:high])

    def _term(self, at: int, part: str, state: str) -> Term | None:
        terms = self.passage.vocabulary.pairs.get((part, state), ())
        first = self.hits[at].first
        return next((term for term in terms if self._fits(term, first)), None)

    def _fits(self, term: Term, place: int) -> bool:
        """Whether such damage is asked of the piece that the word at `place` is said of."""
        return hit_fits(term, place, self.passage, self.subject_at)

    def _made(self, term: Term, state: Hit, other: Hit) -> DamageSaid:
        check, step = term.value.split()
        other = other if other.term.field == "part" else state
        first, last = min(state.first, other.first), max(state.last, other.last)
        how = next((at for at in range(max(0, first - 2), last) if at in self.degrees), None)
        if how is not None:
            degree, first = self.degrees[how], min(first, how)
            step = "1" if degree == "1" else str(min(3, int(step) + 1))
        denies = self.passage.scope.denies
        if denies(state.first) or (denies(state.last - 1) and not self._denies_itself(state)):
            step = "0"
        return DamageSaid(check, step, first, last, min(state.score, other.score), term)

    def _denies_itself(self, state: Hit) -> bool:
        """Whether a denial is part of the damage itself, as in 'not sealed'."""
        words = self.passage.words[state.first : state.last]
        patterns = state.term.synonyms if any(word.norm in _NO for word in words) else ()
        return any(_NO & set(re.split(r"[ |?]+", pattern)) for pattern in patterns)


def asked_of(check: Check, subject: DamageSubject, passage: Passage) -> bool:
    """Whether a check is asked of a piece of such a kind, housing and process family."""
    kinds = IN_ALBUMS if subject.kind == "album" else (subject.kind,)
    if subject.kind and not any(kind in check.kinds for kind in kinds):
        return False
    if not check.only:
        return True
    housed = any(word in passage.knowledge.housings for word in check.only)
    known = subject.housing if housed else subject.family
    return not known or known in check.only
