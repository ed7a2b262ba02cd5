"""Which check to make next.

In the order in which a practitioner looks: what is it and what is its case made of, until process
and material stand or their quick tests are done; is the picture in order; do mat, preserver, pad
and case agree; is the case sound (of an empty case before its parts); is anything modern. Within a
step by what the answer is worth before deciding, for the seconds it takes (Lindley 1956 for the
information; the expected value of sample information for the money). Where no single answer would
change the decision many small ones together may, and what they can do together grows with the sum
of the variances of worth that each brings; so that counts as well. A step is left when nothing in
it moves the decision.
Only checks that are safe for an owner are proposed.
"""

from collections.abc import Callable, Mapping
from functools import cached_property, lru_cache
from math import log

from appraise.base.dataclass import dataclass
from appraise.inquiry.forecast import CLAIM, Forecast, Prospect
from appraise.inquiry.information import gain, variance
from appraise.inquiry.offering import OFFERED, offered
from appraise.inquiry.telling import HIDDEN, SHOWING
from appraise.inquiry.why import why
from appraise.knowledge.records import BELONGING, Check, Knowledge
from appraise.reading.applying import likely
from appraise.reading.frame import Vector
from appraise.reading.reading import MODERN_FIRST, Reading, belonging_by_word

Worth = Callable[[Mapping[str, float], float], float]
"""What the piece is worth: from belonging by word and what its damage leaves beside the usual.

In the currency of the cost."""

MODERN_AT = BELONGING.index(MODERN_FIRST)
PROCESS, PICTURE, PARTS, SOUND, MODERN_CUE, REST = range(6)
OWN, OTHER = "own", "other"
IMAGE, CASE = "image", "case"
EMPTY = "empty-case"
SIDES = {IMAGE: ("modern-image", "all-modern"), CASE: ("modern-case", "all-modern")}
CUES = {IMAGE: 1, CASE: 2}  # signs of modern work to look for on each side
LEAST, FARTHEST = 1e-9, 30.0  # chances that count as none; the greatest ratio that counts
DOUBTFUL = 0.5  # from that chance of modern work on, the case's condition can wait
FAR = 5.0  # how much commoner with a modern process an answer must be
AGREEING = ("mat", "preserver", "pad")


@dataclass(frozen=True, slots=True)
class Proposal:
    """A check worth making.

    Attributes:
        check: Its id.
        why: What it is for, in a plain phrase.
        gain: Expected gain over the cost, and beside it the bits about belonging and the variance
            of worth over the cost as the settings weigh them (`asking`); with no price, bits about
            belonging and process.
        seconds: How long it takes.
    """

    check: str
    why: str
    gain: float
    seconds: float


@dataclass(frozen=True, slots=True)
class Price:
    """What is asked, and what the piece would be worth.

    Attributes:
        worth: From belonging, and what the damage leaves beside the usual.
        cost: All in, above 0.
    """

    worth: Worth
    cost: float


class Order:
    """The open checks of a piece, valued and put in order.

    Attributes:
        forecast: What each would tell.
        open: The open checks worth offering to a person.
        prospects: What each would tell, by id.
        values: What each answer is worth before the decision, by id.
    """

    def __init__(self, reading: Reading, knowledge: Knowledge, price: Price | None = None) -> None:
        """Value the open checks.

        Args:
            reading: The piece as read.
            knowledge: The trade's knowledge.
            price: What is asked and what it would be worth; None goes by information alone.
        """
        self.knowledge = knowledge
        self.price = price
        self.forecast = Forecast(reading, knowledge)
        own = self.forecast.reading
        chances = {**own.housings, **own.processes, **own.families}
        self.open = tuple(
            check for check in self.forecast.open if offered(check, own.piece, chances)
        )
        self._traits = traits_of(knowledge)
        self._now: dict[Vector, float] = {}
        self.prospects = self.forecast.prospects(self.open)
        self.values = {name: self._value(one) for name, one in self.prospects.items()}

    def _value(self, prospect: Prospect) -> float:
        """What an answer is worth before the decision, in parts of the cost, or in bits."""
        asking, price = self.knowledge.weights.asking, self.price
        if price is None:
            spread = variance(prospect.chances, prospect.conditions)
            return prospect.whole + asking.spread * spread
        if prospect.now not in self._now:
            self._now[prospect.now] = self._worth(price, prospect.now, self.forecast.usual.now)
        now = self._now[prospect.now]
        pairs = zip(prospect.states, prospect.conditions, strict=True)
        after = [self._worth(price, *pair) for pair in pairs]
        saved = gain(prospect.chances, after, now, 1.0)
        spread = variance(prospect.chances, after)
        return saved + asking.bit * prospect.bits + asking.spread * spread

    def _worth(self, price: Price, states: Vector, kept: float) -> float:
        """What the piece is worth in parts of the cost."""
        return price.worth(belonging_by_word(states, self.forecast.frame.cased), kept) / price.cost

    def proposals(self) -> tuple[Proposal, ...]:
        """The checks in the order in which to make them."""
        ranks = {check.id: self._rank(check) for check in self.open}
        ordered = sorted(self.open, key=lambda check: ranks[check.id])
        return tuple(
            Proposal(one.id, why(self.prospects[one.id], self.forecast), self.values[one.id],
                     one.seconds)
            for one in ordered
        )  # fmt: skip

    def _rank(self, check: Check) -> tuple[int, float]:
        """The step at which a check is due, and its place within it.

        What moves nothing in its step comes after all steps.
        """
        step, seconds = self._traits[check.id].step, check.seconds
        if step == PROCESS and self._tells_what(check):
            return PROCESS, -self.what_bits(check) / seconds
        value = self.values[check.id]
        if self._opens_damage(check):
            return self._due(PICTURE), -value / seconds
        if check.id in self.cues:
            return MODERN_CUE, -value / seconds
        if step in (PICTURE, PARTS) and self._wanted(check, step):
            return self._due(step), -value / seconds
        moves = step < MODERN_CUE and value >= self.knowledge.weights.asking.moves
        if step == SOUND and self.forecast.reading.modern >= DOUBTFUL:
            moves = False
        return (self._due(step) if moves and step != PROCESS else REST), -value / seconds

    def _opens_damage(self, check: Check) -> bool:
        """Whether damage to this picture is asked about only after this check's answer."""
        own = self.forecast.reading
        chances = {**own.processes, **own.families}
        return any(
            likely(self.knowledge.checks[name].only, chances) >= OFFERED
            for name in self._traits[check.id].opens
        )

    def _due(self, step: int) -> int:
        """When a step is due; of an empty case, whether it is sound comes before its parts."""
        if self.forecast.reading.piece.kind == EMPTY:
            return {PARTS: SOUND, SOUND: PARTS}.get(step, step)
        return step

    def what_bits(self, check: Check) -> float:
        """Expected bits about what does not stand yet: the process, the material of the case.

        Where the image is likely modern, what its case is made of can wait.
        """
        settled, own = self.knowledge.weights.asking.settled, self.forecast.reading
        bits = 0.0
        if self.only_called or max(own.families.values()) < settled:
            bits += self.prospects[check.id].process
        modern_image = sum(own.belonging.get(state, 0.0) for state in SIDES[IMAGE])
        if own.housings and max(own.housings.values()) < settled and modern_image < DOUBTFUL:
            bits += self.forecast.housing_bits(check)
        return bits

    @cached_property
    def only_called(self) -> bool:
        """Whether the process stands on a name alone: no test or sight of the plate tells it."""
        return not any(
            one.check.part not in (CLAIM, OWN) and one.check.table("process") is not None
            for one in self.forecast.reading.evidence
        )

    def _tells_what(self, check: Check) -> bool:
        """Whether a check is a quick test of a process or material that does not stand yet."""
        asking = self.knowledge.weights.asking
        return check.seconds <= asking.quick and self.what_bits(check) >= asking.faint

    @cached_property
    def cues(self) -> tuple[str, ...]:
        """Signs of modern work still to be looked for: one of the image, two of a moulded case.

        The two are of different facts. Those come first that tell most for their seconds.
        """
        seen = modern_signs(self.forecast)
        able = sorted(
            (check for check in self.open if self._traits[check.id].modern),
            key=self._rank_of_cue,
        )
        found: list[str] = []
        for check in able:
            side = cue_side(check, self.knowledge)
            fact = check.group or check.id
            if len(seen.get(side, ())) < CUES[side] and fact not in seen.get(side, ()):
                seen[side] = {*seen.get(side, ()), fact}
                found.append(check.id)
        return tuple(found)

    def _rank_of_cue(self, check: Check) -> float:
        """The lower, the sooner: how far it shows modern work for its seconds, if at all."""
        shows = shows_modern(self.prospects[check.id], cue_side(check, self.knowledge))
        seen = SHOWING if HIDDEN.search(check.how) else 1.0
        return -seen * shows / check.seconds

    def _wanted(self, check: Check, step: int) -> bool:
        """Whether a check is the first of those that enough seen asks for."""
        if step in (PICTURE, SOUND):
            side = {PICTURE: "image", SOUND: "housing"}[step]
            return self._side(check) == side and not any(
                one.check.defect is not None and self._side(one.check) == side
                for one in self.forecast.reading.evidence
            )
        return check.part in AGREEING and check.part in self.unseen_parts

    @property
    def unseen_parts(self) -> tuple[str, ...]:
        """Of mat, preserver and pad, those that were not looked at."""
        seen = {name.split(".")[0] for name in self.forecast.reading.piece.findings}
        return tuple(part for part in AGREEING if part not in seen)

    @property
    def surely_modern(self) -> bool:
        """Whether that the piece is modern stands as firmly as a process has to."""
        return self.forecast.reading.modern >= self.knowledge.weights.asking.settled

    def _side(self, check: Check) -> str:
        return self.knowledge.parts[check.part].side

    @property
    def required(self) -> tuple[str, ...]:
        """Ids of offered checks one of which must still be made before enough has been seen."""
        quick = [
            check.id
            for check in self.open
            if self._traits[check.id].step == PROCESS and self._tells_what(check)
        ]
        if self.surely_modern:
            return tuple(quick)
        looked = SOUND if self.forecast.reading.piece.kind == EMPTY else PICTURE
        condition = [
            check.id
            for check in self.open
            if self._traits[check.id].step == looked and self._wanted(check, looked)
        ]
        parts = [
            check.id
            for check in self.open
            if self._traits[check.id].step == PARTS and self._wanted(check, PARTS)
        ]
        return (*quick, *condition, *parts, *self.cues)


def ranked(
    reading: Reading, knowledge: Knowledge, price: Price | None = None
) -> tuple[Proposal, ...]:
    """The open checks in the order in which to make them.

    Args:
        reading: The piece as read.
        knowledge: The trade's knowledge.
        price: What is asked and what it would be worth; None goes by information alone.
    """
    return Order(reading, knowledge, price).proposals()


def step_of(check: Check, knowledge: Knowledge) -> int:
    """The step of an examination to which a check belongs."""
    side = knowledge.parts[check.part].side
    if check.part == CLAIM:
        return REST
    told = check.table("process") or check.table("housing")
    if told is not None and check.defect is None:
        return PROCESS
    if check.defect is not None:
        return PICTURE if side == "image" else SOUND if side in ("package", "housing") else REST
    if check.dates or check.table("belonging") or check.table("package"):
        if tells_modern(check, knowledge) and not check.dates:
            return MODERN_CUE
        return PARTS if side in ("package", "housing", "piece", "image") else REST
    return REST


@dataclass(frozen=True, slots=True)
class Trait:
    """What holds of a check whatever the piece.

    Attributes:
        step: The step of an examination to which it belongs.
        modern: Whether it tells modern work.
        opens: Ids of checks of damage to the picture that hang on its answer.
    """

    step: int
    modern: bool
    opens: tuple[str, ...]


@lru_cache(maxsize=8)
def traits_of(knowledge: Knowledge) -> Mapping[str, Trait]:
    """The traits of every check."""
    steps = {name: step_of(check, knowledge) for name, check in knowledge.checks.items()}
    opens: dict[str, list[str]] = {}
    for name, check in knowledge.checks.items():
        for other in check.when if steps[name] == PICTURE else ():
            opens.setdefault(other, []).append(name)
    return {
        name: Trait(steps[name], tells_modern(check, knowledge), tuple(opens.get(name, ())))
        for name, check in knowledge.checks.items()
    }


def modern_signs(forecast: Forecast) -> dict[str, set[str]]:
    """By side, image or case, the facts in which signs of modern work were looked for."""
    known, traits = forecast.knowledge, traits_of(forecast.knowledge)
    found: dict[str, set[str]] = {}
    for name in forecast.reading.piece.findings:
        if name in traits and traits[name].modern:
            check = known.checks[name]
            found.setdefault(cue_side(check, known), set()).add(check.group or check.id)
    return found


def cue_side(check: Check, knowledge: Knowledge) -> str:
    """Whether a sign of modern work is one of the case or of the image and all else."""
    return CASE if knowledge.parts[check.part].side == "housing" else IMAGE


def tells_modern(check: Check, knowledge: Knowledge) -> bool:
    """Whether an answer speaks for a modern part, by a ratio at which a warning is raised.

    So does one that is far commoner with a modern process than with any of the period.
    """
    if check.part in (CLAIM, OWN):
        return False
    if _tells_process(check, knowledge):
        return True
    table = check.table("belonging")
    if table is None:
        return False
    ratios = (
        seen / together
        for state in BELONGING[MODERN_AT:]
        for seen, together in zip(table.rows[state], table.rows["together"], strict=True)
    )
    return max(ratios) >= knowledge.weights.raise_ratio


def _tells_process(check: Check, knowledge: Knowledge) -> bool:
    table = check.table("process")
    if table is None:
        return False
    modern: list[tuple[float, ...]] = []
    period: list[tuple[float, ...]] = []
    for name, row in table.rows.items():
        if name != OTHER and name in knowledge.processes:
            late = knowledge.processes[name].modern_image >= 0.5
            (modern if late else period).append(row)
    pairs = (
        (max(row[a] for row in modern), max(row[a] for row in period))
        for a in range(len(check.answers))
        if modern and period
    )
    return any(late >= FAR * early for late, early in pairs)


def shows_modern(prospect: Prospect, side: str) -> float:
    """How far the answers of a modern case, or image, speak for that: capped log ratios, in nats.

    Rare decisive marks count by how often a modern piece carries them, and not by their ratio.
    """
    places = [BELONGING.index(state) for state in SIDES[side]]
    total = 0.0
    now = sum(prospect.now[place] for place in places)
    for chance, states in zip(prospect.chances, prospect.states, strict=True):
        after = sum(states[place] for place in places)
        late = chance * after / max(LEAST, now)
        early = chance * (1 - after) / max(LEAST, 1 - now)
        if late > LEAST:
            total += late * log(min(FARTHEST, late / max(LEAST, early)))
    return total
