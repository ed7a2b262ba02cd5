"""The trade's knowledge as frozen records, one for each kind of row in data/."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

BELONGING = ("together", "married", "modern-case", "modern-image", "all-modern")
DISTURBED = ("undisturbed", "disturbed")
YES_NO = ("no", "yes")
FIRST_YEAR, LAST_YEAR = 1835, 1960
YEARS = tuple(range(FIRST_YEAR, LAST_YEAR + 1))
KINDS = ("cased", "loose-plate", "card", "lantern-slide", "cyanotype")
REGIONS = ("us", "gb", "eu", "au")
CHANNELS = ("market", "fair", "shop", "online", "auction", "private")
KNOWN = ("in-hand", "photo", "seller")

Mark = Literal["source", "practice", "judgement", "memory"]


@dataclass(frozen=True, slots=True)
class Basis:
    """What a row rests on: published sources, or practice, judgement, memory.

    `mark` is the weakest thing that the row's figures rest on; `sources` may back its direction.
    """

    mark: Mark
    sources: tuple[str, ...] = ()
    note: str = ""
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Source:
    """A published source: title, body that published it, year as printed, address."""

    key: str
    title: str
    body: str
    year: str
    address: str


@dataclass(frozen=True, slots=True)
class Years:
    """A trapezoid of years: possible from `first`, common `start`..`end`, plausible to `last`.

    `confidence` is 'high', 'medium' or 'low' and sets the floor under the trapezoid.
    """

    first: int
    start: int
    end: int
    last: int
    confidence: str

    def weight(self, year: int) -> float:
        """Membership of a year, 0 to 1, with the flanks of the model: (y - E + 1) / (F - E + 1)."""
        if year < self.first or year > self.last:
            return 0.0
        if year < self.start:
            return (year - self.first + 1) / (self.start - self.first + 1)
        if year > self.end:
            return (self.last - year + 1) / (self.last - self.end + 1)
        return 1.0


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer of a check.

    Attributes:
        id: Its word in files.
        says: Its words on the screen.
        years: Trapezoids by region; '' holds for every region. Empty: the answer dates nothing.
        share: Its share among the check's answers in years when all are common, 0 to 1.
        undates: The part is renewed, absent or modern: none of its other findings date anything.
        absence: The answer says that damage was looked for and not found.
        basis: What its years rest on.
    """

    id: str
    says: str
    years: Mapping[str, Years] = field(default_factory=dict)
    share: float = 0.0
    undates: bool = False
    absence: bool = False
    basis: Basis | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """P(answer | state) for one set of states; rows follow the check's answers and sum to 1.

    Attributes:
        over: 'belonging', 'package', 'process', 'housing', 'copy' or 'altered'.
        rows: By state, the probabilities of the answers in their order.
    """

    over: str
    rows: Mapping[str, tuple[float, ...]]


@dataclass(frozen=True, slots=True)
class Defect:
    """What a check on damage adds: steps 0 to 3 and what they mean for keeping and value.

    Attributes:
        stability: 'stable', 'conditional' or 'active', by step (four words).
        reversible: 'no', 'replaceable' (a conservator can undo it or replace the part), 'slow'
            (a conservator can only stop or slow it) or 'owner' (dry, outside surfaces only).
        history: Tags: opened, exchanged, treated, environment, use, manufacture.
        worth: Share of value left at each step, four numbers from 1 down to 0.
        rates: P(step | in use), four numbers summing to 1, by housing or process word or 'any'.
        do: What an owner may do.
        never: What nobody should try.
        non_archival: A repair with materials that harm in time.
        structural: Its part carries the piece, so that step 3 makes it Poor.
        recorded: Recorded, not graded.
        unacceptable: The step from which the grade is Unacceptable, or 4 for never.
    """

    name: str
    stability: tuple[str, str, str, str]
    reversible: str
    history: tuple[str, ...]
    worth: tuple[float, float, float, float]
    rates: Mapping[str, tuple[float, ...]]
    do: str
    never: str
    non_archival: bool = False
    structural: bool = True
    recorded: bool = False
    unacceptable: int = 4


@dataclass(frozen=True, slots=True)
class Check:
    """A question about one aspect of one part, and what each answer says about the piece.

    Attributes:
        id: `part.aspect`.
        part: The part's word, a key of `Knowledge.parts`.
        ask: The question, as a person reads it.
        answers: In the order in which they are offered.
        tables: P(answer | states) for each set of states that it bears on; may be empty.
        how: How to look safely.
        seconds: How long that takes.
        risk: 'none', 'handling' or 'conservator' (never proposed to an owner).
        sort: 'form' (one sees it) or 'test' (one does something).
        group: Evidence group of checks that see one fact; '' stands alone.
        misleads: What commonly makes it wrong.
        innocent: Explanations that accuse nobody.
        decisive: Its ratios may pass 30.
        fit: It belongs to fit and seal, and is dropped when the piece was conserved.
        safety: Asked before anything else, since it guards people or the piece.
        when: Answers of other checks under which the question makes sense.
        only: Process, family or housing words for which it makes sense; empty: all.
        defect: Set on checks about damage, whose answers are the steps '0' to '3'.
        towards: Short words for what a telling answer points to, used in warnings.
        strength: The largest ratio between two states in its tables or years, at least 1.
    """

    id: str
    part: str
    ask: str
    answers: tuple[Answer, ...]
    basis: Basis
    kinds: tuple[str, ...]
    tables: tuple[Table, ...] = ()
    how: str = ""
    seconds: float = 5.0
    risk: str = "none"
    sort: str = "form"
    group: str = ""
    misleads: str = ""
    innocent: tuple[str, ...] = ()
    decisive: bool = False
    fit: bool = False
    safety: bool = False
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    only: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    defect: Defect | None = None
    strength: float = 1.0
    file: str = ""
    line: int = 0

    @property
    def dates(self) -> bool:
        """Whether any answer carries years."""
        return any(answer.years for answer in self.answers)

    def index(self, answer: str) -> int:
        """The place of an answer among the answers, or -1."""
        return next((i for i, one in enumerate(self.answers) if one.id == answer), -1)

    def table(self, over: str) -> Table | None:
        """The table over one set of states, or None."""
        return next((table for table in self.tables if table.over == over), None)


@dataclass(frozen=True, slots=True)
class Process:
    """A photographic process: its family, its share of pieces, and its years by region."""

    id: str
    name: str
    family: str
    shares: Mapping[str, float]
    years: Mapping[str, Years]
    modern_image: float
    basis: Basis


@dataclass(frozen=True, slots=True)
class Housing:
    """A class of housing: its share, its years, and how often its picture is not its first.

    `married` holds P(married | period) by process or family word, with 'any'; `before` is the
    range in which practitioners put it before looking, for the screen.
    `image`, `case` and `bond` are shares of value, summing to 1.
    """

    id: str
    name: str
    share: float
    years: Mapping[str, Years]
    married: Mapping[str, float]
    before: tuple[float, float]
    modern_case: float
    image: float
    case: float
    bond: float
    basis: Basis


@dataclass(frozen=True, slots=True)
class Format:
    """A plate or mount format.

    Attributes:
        sizes: Nominal (width, height) in mm, portrait way up; several where sources differ.
        tolerance: Standard deviation in mm of the plate or mount itself.
        kinds: Kinds of piece that come in it.
        share: Prior share among its kinds.
    """

    id: str
    name: str
    sizes: tuple[tuple[float, float], ...]
    tolerance: float
    kinds: tuple[str, ...]
    share: float
    basis: Basis


@dataclass(frozen=True, slots=True)
class Offset:
    """What a measurement adds to the nominal size: mean (w, h) and standard deviation in mm."""

    what: str
    add: tuple[float, float]
    spread: float
    basis: Basis
    material: str = ""


@dataclass(frozen=True, slots=True)
class Caution:
    """A health, legal or conduct caution, shown where it applies.

    `when` maps a check to the answers that call for it; `materials` names housings or processes.
    """

    id: str
    text: str
    when: Mapping[str, tuple[str, ...]]
    materials: tuple[str, ...]
    basis: Basis
    checked_on: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a piece: its name and the read-out (`side`) in which it counts."""

    id: str
    name: str
    side: str


@dataclass(frozen=True, slots=True)
class Weights:
    """The model's own settings, all of them judgements kept in data/.

    Attributes:
        reliability: By known and sort ('form', 'test', 'absence', 'interest').
        group_rest: Factor on the reliability of all but the strongest of an evidence group.
        floors: Floor under a trapezoid by confidence.
        lags: P(lag) for lags of 0, 1, ... years between housing and picture.
        kappa: Share of marriages made to look right, and the window in years they fit within.
        exchange: P(package part exchanged) when undisturbed and when disturbed.
        pad, clasp: P(pad exchanged), P(clasp exchanged) against the case body.
        disturbed: Prior P(disturbed).
        image_years: Prior trapezoid of the picture's year by kind, and a floor under it.
        modern: Factor on the chances of modern parts by channel.
        all_modern: Share of pieces with a modern part whose every part is modern.
        famous: Factor on the chance of a modern picture for soldiers and famous sitters.
        copy, altered: Prior probabilities.
        reference: The fixed belonging prior over which tables are averaged for unreliable eyes.
        regions: Share of pieces by region, for pieces of unknown region.
        same_format: P(picture and case of one format) by belonging state.
        strong_ratio, strong_chance: A warning is strong from this likelihood ratio or probability.
        raise_ratio, raise_chance: A warning is raised from both of these.
    """

    reliability: Mapping[str, Mapping[str, float]]
    group_rest: float
    floors: Mapping[str, float]
    lags: tuple[float, ...]
    kappa: float
    kappa_window: int
    exchange: tuple[float, float]
    pad: float
    clasp: float
    disturbed: float
    image_years: Mapping[str, Years]
    image_floor: float
    modern: Mapping[str, float]
    all_modern: float
    famous: float
    copy: float
    altered: float
    reference: Mapping[str, float]
    regions: Mapping[str, float]
    same_format: Mapping[str, float]
    strong_ratio: float
    strong_chance: float
    raise_ratio: float
    raise_chance: float


@dataclass(frozen=True, slots=True)
class Ratios:
    """Price ratios that hold before a log says better; none of them is a price.

    Attributes:
        formats: By format, beside a sixth plate.
        asking: Asked over paid.
    """

    formats: Mapping[str, float] = field(default_factory=dict)
    asking: float = 1.0


@dataclass(frozen=True, slots=True)
class Problem:
    """A row that could not be used: where it stands, what is wrong, the mend."""

    where: str
    what: str
    mend: str = ""

    def __str__(self) -> str:
        return f"{self.where}: {self.what}{'. ' + self.mend if self.mend else ''}"


@dataclass(frozen=True, slots=True, eq=False)
class Knowledge:
    """Everything the trade knows, as loaded: shipped rows with the user's rows laid over them.

    Compared by identity, so that what is derived from it once can be kept.
    """

    checks: Mapping[str, Check]
    processes: Mapping[str, Process]
    housings: Mapping[str, Housing]
    formats: Mapping[str, Format]
    offsets: Mapping[str, Offset]
    cautions: Mapping[str, Caution]
    sources: Mapping[str, Source]
    parts: Mapping[str, Part]
    weights: Weights
    ratios: Ratios = field(default_factory=Ratios)
    problems: tuple[Problem, ...] = ()
    overridden: tuple[str, ...] = ()
    digest: str = ""
