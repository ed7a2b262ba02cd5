"""Checks and defects as frozen records: questions, answers, and what the answers say."""

from collections.abc import Mapping
from dataclasses import field, replace
from typing import Self

from appraise.base.dataclass import dataclass
from appraise.knowledge.basics import Basis, Years

YES_OR_NO = ("yes", "no")


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
        unnamed: The answer names no style ("another"): it speaks softly.
        late: What it shows to be of a later time, in words: "paper of about 1950 or later".
        implies: Answers of other checks that follow from it, where these were not asked.
        basis: What its years rest on.
        holds: Why no maximum is given while a seller says so, as the end of a sentence.
        formerly: Answers of other checks that it stands for now, as 'check answer'.
        mark: What it says of a quality that prices follow, 1 to 5 with 3 for the usual, or None.
        figure: The drawing that shows it, a file of data/figures without its ending; '' for none.
    """

    id: str
    says: str
    years: Mapping[str, Years] = field(default_factory=dict)
    share: float = 0.0
    undates: bool = False
    absence: bool = False
    basis: Basis | None = None
    unnamed: bool = False
    late: str = ""
    implies: Mapping[str, str] = field(default_factory=dict)
    holds: str = ""
    formerly: tuple[str, ...] = ()
    mark: float | None = None
    figure: str = ""


@dataclass(frozen=True, slots=True)
class AnswerTable:
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
        graver: Checks of the same thing further gone, beside which a text does not tell it as well.
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
    graver: tuple[str, ...] = ()


def _alone(ask: str, answer: Answer) -> str:
    """An answer in words that stand alone: with its question where it says yes or no."""
    says = answer.says
    bare = says.replace(",", " ").split()[:1]
    return f"{ask} {says[0].upper()}{says[1:]}" if bare and bare[0].lower() in YES_OR_NO else says


@dataclass(frozen=True, slots=True)
class Check:
    """A question about one aspect of one part, and what each answer says about the piece.

    Attributes:
        id: `part.aspect`.
        part: The part's word, a key of `Knowledge.parts`.
        ask: The question, as a person reads it.
        answers: In the order in which they are offered.
        tables: P(answer | states) for each set of states that it bears on; may be empty.
        kind_tables: Tables that stand in their place for a kind of piece.
        how: How to look safely.
        seconds: How long that takes.
        risk: 'none', 'handling' or 'conservator' (never proposed to an owner).
        sort: 'form' (one sees it) or 'test' (one does something).
        group: Evidence group of checks that see one fact; '' stands alone.
        misleads: What commonly makes it wrong.
        innocent: Explanations that accuse nobody.
        decisive: Its ratios may pass 30, and in hand its table counts as it stands.
        slip: How often, in hand, an answer is reported where it is impossible: answers of the
            table that are no likelier count as they stand, not mixed. 0: none is impossible.
        hand: It needs the piece in hand: touch, smell, weight, a magnet, a tilt.
        fit: It belongs to fit and seal, and is dropped when the piece was conserved.
        sizes: It asks what two measures tell, and is dropped where picture and case were measured.
        safety: Asked before anything else, since it guards people or the piece.
        when: Answers of other checks under which the question makes sense.
        only: Process, family or housing words for which it makes sense; empty: all.
        suits: Words as in `only`, where it is worth proposing; its answer counts for any piece.
        defect: Set on checks about damage, whose answers are the steps '0' to '3'.
        formerly: Ids by which it went before: pieces stored with those are read as its own.
        feature: The feature of the price model that its answers tell: 'quality', by their marks, or
            'identified', by their ids; '' for none.
        figure: The drawing that shows how to look, as for an answer.
        towards: Short words for what a telling answer points to, used in warnings.
        strength: The largest ratio between two states in its tables or years, at least 1.
        dates: Whether any answer carries years.
        places: The place of each answer among the answers, by its id.
    """

    id: str
    part: str
    ask: str
    answers: tuple[Answer, ...]
    basis: Basis
    kinds: tuple[str, ...]
    tables: tuple[AnswerTable, ...] = ()
    kind_tables: Mapping[str, tuple[AnswerTable, ...]] = field(default_factory=dict)
    how: str = ""
    seconds: float = 5.0
    risk: str = "none"
    sort: str = "form"
    group: str = ""
    misleads: str = ""
    innocent: tuple[str, ...] = ()
    decisive: bool = False
    slip: float = 0.0
    hand: bool = False
    fit: bool = False
    sizes: bool = False
    safety: bool = False
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    only: tuple[str, ...] = ()
    suits: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    defect: Defect | None = None
    formerly: tuple[str, ...] = ()
    feature: str = ""
    figure: str = ""
    strength: float = 1.0
    file: str = ""
    line: int = 0
    dates: bool = field(init=False, repr=False, compare=False)
    places: Mapping[str, int] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Work out what follows from the answers and is asked for again and again."""
        object.__setattr__(self, "dates", any(answer.years for answer in self.answers))
        places = {answer.id: place for place, answer in enumerate(self.answers)}
        object.__setattr__(self, "places", places)

    def for_kind(self, kind: str) -> Self:
        """The check with the tables that hold for a kind of piece."""
        found = self.kind_tables.get(kind)
        return self if found is None else replace(self, tables=found)

    def told(self, place: int) -> str:
        """An answer in words that stand alone: with its question where it says yes or no."""
        return _alone(self.ask, self.answers[place])

    def index(self, answer: str) -> int:
        """The place of an answer among the answers, or -1."""
        return self.places.get(answer, -1)

    def table(self, over: str) -> AnswerTable | None:
        """The table over one set of states, or None."""
        return next((table for table in self.tables if table.over == over), None)
