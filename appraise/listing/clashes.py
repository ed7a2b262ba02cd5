"""Claims that do not go together: with each other, with a size, with the years of a process."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

from appraise.base.dates import Dating
from appraise.base.errors import InputError
from appraise.knowledge.records import Knowledge, Years
from appraise.listing.flags import made
from appraise.listing.nature import Nature, family
from appraise.listing.passage import Passage
from appraise.listing.records import Claim, Flag
from appraise.listing.sizes import FARTHEST, measure_of, offset_of, strays

_FIXED = ("case.material", "format")
HARDLY = 0.1  # P(answer | process) beside the highest of any process, below which the two disagree


def claim_flags(claims: Sequence[Claim], nature: Nature, passage: Passage) -> Iterator[Flag]:
    """Flags that claims raise against each other; `nature` is of a single piece."""
    phrases = passage.vocabulary.phrases
    pair = disagreement(claims, passage)
    if pair and "claims-disagree" in phrases:
        first, second = pair
        yield made(phrases["claims-disagree"], second.start, second.end, first.text, second.text)
    apart = _dates_apart(claims)
    if apart and apart != pair and "dates-disagree" in phrases:
        one, two = apart
        yield made(phrases["dates-disagree"], two.start, two.end, one.text, two.text)
    tested = next((claim for claim in claims if _refutes(claim, nature, passage.knowledge)), None)
    if pair is None and tested and "claims-disagree" in phrases and not unsure(passage):
        said = next(claim.text for claim in claims if claim.field == "process")
        yield made(phrases["claims-disagree"], tested.start, tested.end, said, tested.text)
    sized = (claim for claim in claims if claim.field == "measured")
    off = next((claim for claim in sized if misfits(claim, nature, passage.knowledge)), None)
    if off is not None and "size-disagrees" in phrases:
        name = passage.knowledge.formats[nature.format].name
        yield made(phrases["size-disagrees"], off.start, off.end, name, off.text)
    yield from _date_flags(claims, nature, passage)


def disagreement(claims: Sequence[Claim], passage: Passage) -> tuple[Claim, Claim] | None:
    """Two claims of one field that cannot both be so."""
    fields = _FIXED if unsure(passage) else ("process", *_FIXED)
    for field in fields:
        said = [claim for claim in claims if claim.field == field]
        for earlier, later in pairwise(said):
            one, two = (family(claim.value, passage.knowledge) for claim in (earlier, later))
            if one == two or _compatible(field, {one, two}):
                continue
            if not _undecided(passage, earlier, later):
                return earlier, later
    return _dates_apart(claims)


def _refutes(claim: Claim, nature: Nature, knowledge: Knowledge) -> bool:
    """Whether a test is said to have come out as it hardly ever does with the named process.

    The table of the check tells: a magnet pulls at tintypes, and at hardly anything else.
    """
    name, _, answer = claim.value.partition(" ")
    check = knowledge.checks.get(name) if claim.field == "check" and nature.process else None
    table = check.table("process") if check is not None and check.sort == "test" else None
    if check is None or table is None or check.index(answer) < 0:
        return False
    place = check.index(answer)
    own = [
        row[place]
        for process, row in table.rows.items()
        if family(process, knowledge) == nature.process
    ]
    return bool(own) and max(own) < HARDLY * max(row[place] for row in table.rows.values())


def unsure(passage: Passage) -> bool:
    """Whether the seller leaves open which process it is."""
    return any(hit.term.value == "unsure" for hit in passage.speech)


def _compatible(field: str, pair: set[str]) -> bool:
    """A case within a frame, or a sleeve within either, is no contradiction."""
    return (field == "case.material" and bool(pair & {"sleeve", "locket", "frame"})) or pair <= {
        "half",
        "half-uk",
    }


def _undecided(passage: Passage, earlier: Claim, later: Claim) -> bool:
    """Whether the seller leaves it open: 'ambrotype or tintype'."""
    between = passage.places(earlier.end, later.start)
    return len(between) <= 3 and any(passage.words[at].norm in ("or", "/", "?") for at in between)


def _dates_apart(claims: Sequence[Claim]) -> tuple[Claim, Claim] | None:
    spans = []
    for claim in claims:
        if claim.field == "date" and (bounds := _years(claim.value, 2)):
            spans.append((claim, *bounds))
    for (one, low, high), (two, first, last) in pairwise(spans):
        if high < first or last < low:
            return one, two
    return None


@lru_cache(maxsize=1_024)
def _years(date: str, tolerance: int) -> tuple[int, int] | None:
    """The first and last year of a date; None where it is none."""
    try:
        first, last = Dating.parse(date).bounds(tolerance)
    except InputError:
        return None
    return first.year if first else 0, last.year if last else 9999


def misfits(claim: Claim, nature: Nature, knowledge: Knowledge) -> bool:
    """Whether a measure fits the named format neither as plate nor as opening nor as case."""
    form = knowledge.formats.get(nature.format)
    if form is None:
        return False
    try:
        measure = measure_of(claim.value.split(" ", 1)[1])
    except InputError:
        return False
    if len(measure.sides) < 2:
        return False
    told = claim.value.split(" ", 1)[0]
    if nature.material == "locket":
        return False  # lockets come in any size
    whats = ("case",) if told == "case" else ("plate", "opening", "case", "mount")
    return all(
        strays(form, measure, offset_of(knowledge, what, nature.material)) > FARTHEST
        for what in whats
    )


def _date_flags(claims: Sequence[Claim], nature: Nature, passage: Passage) -> Iterator[Flag]:
    """Dates wholly before or after the years of the process, or before those of the case."""
    knowledge = passage.knowledge
    process = _years_of(nature.process, knowledge)
    names = ("date-before-process", "date-after-process")
    yield from _out_of_years(claims, process, names, nature.process, passage)
    housing = knowledge.housings.get(nature.material)
    if housing is not None:
        years = list(housing.years.values())
        yield from _out_of_years(claims, years, ("date-before-case", ""), housing.name, passage)


@lru_cache(maxsize=256)
def _years_of(process: str, knowledge: Knowledge) -> tuple[Years, ...]:
    """When the processes of a family were in use."""
    family = (one for one in knowledge.processes.values() if one.family == process)
    return tuple(year for one in family for year in one.years.values())


def _out_of_years(
    claims: Sequence[Claim],
    years: Sequence[Years],
    names: tuple[str, str],
    what: str,
    passage: Passage,
) -> Iterator[Flag]:
    """The flag of the first date that lies before (first name) or after (second name) all years."""
    dates = [claim for claim in claims if claim.field == "date"]
    if not years or not dates:
        return
    first, last = min(year.first for year in years), max(year.last for year in years)
    for claim in dates:
        span = _years(claim.value, 5)
        if span is None or (span[1] >= first and span[0] <= last):
            continue
        flag = names[0] if span[1] < first else names[1]
        if flag in passage.vocabulary.phrases:
            phrase = passage.vocabulary.phrases[flag]
            yield made(phrase, claim.start, claim.end, claim.text, what)
            return
