"""The trade's knowledge as frozen records, one for each kind of row in data/."""

from collections.abc import Mapping
from dataclasses import field

from appraise.base.dataclass import dataclass
from appraise.knowledge.basics import (
    BELONGING,
    CHANNELS,
    DISTURBED,
    FIRST_YEAR,
    KINDS,
    KNOWN,
    LAST_YEAR,
    REGIONS,
    UNJUDGED,
    YEARS,
    YES_NO,
    Basis,
    Mark,
    Source,
    Years,
)
from appraise.knowledge.bench import Fitting, Material, Spare
from appraise.knowledge.guidance import (
    CARE_TOPICS,
    RECORD_FIELDS,
    RECORD_PARTS,
    Care,
    Category,
    Caution,
    Never,
    Plain,
    Span,
)
from appraise.knowledge.inquiry import (
    Answer,
    AnswerTable,
    Check,
    Defect,
)
from appraise.knowledge.natures import IMAGELESS, NAMELESS, Housing, Process
from appraise.knowledge.patterns import WordIndex
from appraise.knowledge.settings import Asking, Limits, Odd, Weights
from appraise.knowledge.wordings import Gap, Phrase, SheetRow, Term

__all__ = [
    "BELONGING",
    "CARE_TOPICS",
    "CHANNELS",
    "DISTURBED",
    "FIRST_YEAR",
    "IMAGELESS",
    "KINDS",
    "KNOWN",
    "LAST_YEAR",
    "NAMELESS",
    "RECORD_FIELDS",
    "RECORD_PARTS",
    "REGIONS",
    "UNJUDGED",
    "YEARS",
    "YES_NO",
    "Answer",
    "AnswerTable",
    "Asking",
    "Basis",
    "Care",
    "Category",
    "Caution",
    "Check",
    "Defect",
    "Fitting",
    "Format",
    "Gap",
    "Housing",
    "Knowledge",
    "Limits",
    "Mark",
    "Material",
    "Never",
    "Odd",
    "Offset",
    "Own",
    "PartRow",
    "Phrase",
    "Plain",
    "Problem",
    "Process",
    "Ratios",
    "SheetRow",
    "Source",
    "Span",
    "Spare",
    "Term",
    "Weights",
    "Years",
]


@dataclass(frozen=True, slots=True)
class Format:
    """A plate or mount format.

    Attributes:
        sizes: Nominal (width, height) in mm, portrait way up; several where sources differ.
        tolerance: Standard deviation in mm of the plate or mount itself.
        kinds: Kinds of piece that come in it.
        share: Prior share among its kinds.
        regions: The same in a region where it differs.
        form: For a card, the answer of `mount.form` that it is, whose years it has; or ''.
        years: For a card that no answer names, its own years by region.
        named: How often one that is called so is one, before sizes are weighed.
    """

    id: str
    name: str
    sizes: tuple[tuple[float, float], ...]
    tolerance: float
    kinds: tuple[str, ...]
    share: float
    basis: Basis
    regions: Mapping[str, float] = field(default_factory=dict)
    form: str = ""
    years: Mapping[str, Years] = field(default_factory=dict)
    named: float = 0.9

    def share_in(self, region: str) -> float:
        """The prior share in a region."""
        return self.regions.get(region, self.share)


@dataclass(frozen=True, slots=True)
class Offset:
    """What a measurement adds to the nominal size: mean (w, h) and standard deviation in mm.

    Attributes:
        what: What was measured.
        add, spread: For every format that `formats` does not name.
        material: The housing for which it holds, or '' for any.
        formats: Mean w, mean h and standard deviation by format.
        instead: How often something else was measured under this name, 0 to 1.
        usual: The least share of a format for which that is thought of.
    """

    what: str
    add: tuple[float, float]
    spread: float
    basis: Basis
    material: str = ""
    formats: Mapping[str, tuple[float, float, float]] = field(default_factory=dict)
    instead: Mapping[str, float] = field(default_factory=dict)
    usual: float = 0.0

    def of(self, form: str) -> tuple[float, float, float]:
        """What it adds to a format: mean w, mean h and standard deviation in mm."""
        return self.formats.get(form, (*self.add, self.spread))


@dataclass(frozen=True, slots=True)
class PartRow:
    """A part of a piece: its name and the read-out (`side`) in which it counts.

    `empty` says that an empty case has it as well.
    """

    id: str
    name: str
    side: str
    empty: bool = False


@dataclass(frozen=True, slots=True)
class Ratios:
    """Price ratios that hold before a log says better; none of them is a price.

    Attributes:
        formats: By format, beside a sixth plate.
        asking: Asked over paid.
        decorative: What a modern piece fetches beside a period one.
        far: How many times above or below all else an amount is asked about before it is logged.
    """

    formats: Mapping[str, float] = field(default_factory=dict)
    asking: float = 1.0
    decorative: float = 0.0
    far: float = 5.0


TOLD = 3  # problems told one by one


@dataclass(frozen=True, slots=True)
class Problem:
    """A row that could not be used: where it stands, what is wrong, the mend."""

    where: str
    what: str
    mend: str = ""

    def __str__(self) -> str:
        told = f"{self.where}: {self.what}{'. ' + self.mend if self.mend else ''}"
        return " ".join(told.split())


@dataclass(frozen=True, slots=True)
class Own:
    """A row of the user's own files that is in force.

    Attributes:
        topic: Its topic, such as `checks`.
        id: Its key; the topic itself where a topic is one row.
        where: File and line.
        over: Where the shipped row stands that it replaces; empty where it is an addition.
    """

    topic: str
    id: str
    where: str
    over: str = ""


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
    parts: Mapping[str, PartRow]
    weights: Weights
    ratios: Ratios = field(default_factory=Ratios)
    never: Mapping[str, Never] = field(default_factory=dict)
    care: Mapping[str, Care] = field(default_factory=dict)
    record: Mapping[str, Category] = field(default_factory=dict)
    terms: Mapping[str, Term] = field(default_factory=dict)
    phrases: Mapping[str, Phrase] = field(default_factory=dict)
    gaps: Mapping[str, Gap] = field(default_factory=dict)
    sheets: Mapping[str, SheetRow] = field(default_factory=dict)
    plain: Mapping[str, Plain] = field(default_factory=dict)
    spares: Mapping[str, Spare] = field(default_factory=dict)
    materials: Mapping[str, Material] = field(default_factory=dict)
    fitting: Fitting = field(default_factory=Fitting)
    words: WordIndex = field(default_factory=WordIndex)
    former: Mapping[tuple[str, str], tuple[str, str]] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    notes: tuple[str, ...] = ()
    own: tuple[Own, ...] = ()
    digest: str = ""

    @property
    def faults(self) -> tuple[str, ...]:
        """What is wrong with the user's own rows, a line each: the first, and how many more."""
        told = [f"problem in your own rows: {one}" for one in self.problems[:TOLD]]
        more = len(self.problems) - len(told)
        if more:
            told.append(f"and {more:,} more problems: 'appraise knowledge check' lists them")
        return tuple(told)

    @property
    def overridden(self) -> tuple[str, ...]:
        """Ids of shipped rows over which a row of the user's own stands."""
        return tuple(one.id for one in self.own if one.over)

    def own_row(self, topic: str, name: str) -> Own | None:
        """The user's own row of that topic and id, or None where the shipped one is in force.

        Checks, defects and single answers are one topic here, as for those who answer them.
        """
        topics = ("checks", "defects", "answers") if topic == "checks" else (topic,)
        return next((one for one in self.own if one.topic in topics and one.id == name), None)
