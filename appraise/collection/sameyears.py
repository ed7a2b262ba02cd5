"""Whether the years of a part and of a picture go together, by the reading's own curves.

A part's dated answers give a likelihood over the years, as they would in a whole piece: a case is
older than its picture by the lag of stock, a mat or a preserver is of its year. That likelihood,
averaged over the picture's years, is set against its average over all years: above 1 the two are
likelier of one time than of any.
"""

from dataclasses import replace
from operator import mul

from appraise.base.dataclass import dataclass
from appraise.knowledge.formerly import today
from appraise.knowledge.records import Knowledge
from appraise.reading.factors import Factors
from appraise.reading.frame import Array, Frame, mean_of
from appraise.reading.reading import Reading, read
from appraise.reading.spans import Span, span_of
from appraise.reading.years import TOGETHER, times
from appraise.records.part import Part
from appraise.records.piece import Finding, Piece

FITS, EARLY, LATE, UNDATED, NEW = "fits", "early", "late", "undated", "dates nothing"
HARDLY = 1e-9


@dataclass(frozen=True, slots=True)
class YearMatch:
    """How the years of a part and of a picture go together.

    Attributes:
        word: 'fits'; 'early' or 'late' of the part beside the picture; 'undated' where the part
            shows nothing that dates; 'dates nothing' for own work, modern parts and reproductions.
        ratio: How much likelier they are of one time than of any; 1 where nothing is known.
        part: The part's years; None where nothing on it dates.
        picture: The picture's years, given that it is of its period.
        region: 'same', 'other', or '' where one of them is not known.
    """

    word: str
    ratio: float
    part: Span | None
    picture: Span
    region: str


@dataclass(frozen=True, slots=True)
class Dates:
    """What a part in stock says of years.

    Attributes:
        line: Its likelihood by the picture's year; None where nothing on it dates.
    """

    line: Array | None
    span: Span | None


def dates_of(part: Part, knowledge: Knowledge) -> Dates:
    """What the answers noted on a part say of years; 1 to 20 ms."""
    if not part.dates:
        return Dates(None, None)
    reading = read(as_piece(part, knowledge), knowledge)
    frame, factors = reading.joint.frame, reading.factors
    line = _line(part, reading, frame, factors)
    if line is None:
        return Dates(None, None)
    own = span_of(line * frame.years)
    return Dates(line @ frame.kernels[:, TOGETHER] if _housed(part, knowledge) else line, own)


def as_piece(part: Part, knowledge: Knowledge) -> Piece:
    """The part as if it were a piece of which nothing else is known."""
    named = [today(knowledge.former, one.check, one.answer) for one in part.seen]
    seen = dict(one.split(" ", 1) for one in named)
    check = knowledge.checks.get("case.material")
    if check is not None and _housed(part, knowledge) and check.index(part.material) >= 0:
        seen["case.material"] = part.material
    kind = "card" if part.part == "mount" else "cased"
    findings = {name: Finding(name, answer, "in-hand") for name, answer in seen.items()}
    return Piece(title=part.title, kind=kind, region=part.region or "unknown", findings=findings)


def compare(dates: Dates, part: Part, picture: Reading, knowledge: Knowledge) -> YearMatch:
    """How a part's years go with a picture's."""
    region = _region(part, picture.piece)
    if not part.dates:
        return YearMatch(NEW, 1.0, None, picture.together, region)
    if dates.span is None or dates.line is None:
        return YearMatch(UNDATED, 1.0, None, picture.together, region)
    mean = mean_of(picture.joint.frame, dates.line)
    ratio = sum(map(mul, picture.year_weights, dates.line.tolist())) / max(HARDLY, mean)
    word = FITS
    if ratio < knowledge.fitting.doubtful:
        word = EARLY if dates.span.median <= picture.together.median else LATE
    return YearMatch(word, ratio, dates.span, picture.together, region)


def _line(part: Part, reading: Reading, frame: Frame, factors: Factors) -> Array | None:
    """The likelihood of all that dates on the part, by its own year; None without any."""
    dated = tuple(factors.dated)
    places = [n for n, one in enumerate(frame.housings) if one.id == part.material]
    if not dated and not (places and reading.piece.found("case.material")):
        return None
    line = times(dated)
    if places and reading.piece.found("case.material"):
        line = line * frame.housing_years[places[0]]
    return line


def _housed(part: Part, knowledge: Knowledge) -> bool:
    """Whether it is of the housing, which was made before its picture."""
    spare = knowledge.spares.get(part.part)
    if spare is None:
        return False
    leading = knowledge.parts.get(spare.parts[0])
    return leading is not None and leading.side == "housing"


def _region(part: Part, piece: Piece) -> str:
    if {part.region, piece.region} & {"", "unknown"}:
        return ""
    return "same" if part.region == piece.region else "other"


def plate_piece(part: Part, knowledge: Knowledge) -> Piece:
    """A plate in stock as a piece without a housing."""
    measure = part.measure("outside")
    return replace(
        as_piece(part, knowledge),
        kind="loose-plate",
        named_format=part.format if part.format in knowledge.formats else "",
        measured={"plate": measure} if measure else {},
    )
