"""The format of picture and case from what was measured, and whether the two agree.

P(format | measures) ~ prior * density of the measures around the format (`fits`). A measure that
lies far from every format is a slip, or of no size of the trade, and tells no format, and so does
one that is likelier to be of no size than of any known.
"""

from collections.abc import Mapping
from dataclasses import field
from functools import lru_cache
from math import prod

from appraise.base.dataclass import dataclass
from appraise.base.measures import Measure
from appraise.knowledge.records import BELONGING, Format, Knowledge
from appraise.reading.fits import chance_of, far, gap, meant, normal
from appraise.records.piece import Piece

PICTURE = ("plate", "package", "opening", "mount")
CASE = ("case", "recess")
STRAY = 1e-7  # per mm^2: one in two hundred of no size of the trade, evenly over 500 square cm


@dataclass(frozen=True, slots=True)
class FormatReading:
    """What the measures say about format.

    Attributes:
        probabilities: P(format of the picture); the prior when nothing was measured that fits.
        case: P(format that the case takes); empty when the case was not measured, or fits none.
        maybe_measured: What may have been measured instead ('opening'), or ''.
        belonging: Likelihood of the sizes by belonging state, in the order of `BELONGING`.
        measured: Whether any size was given.
        areas: Nominal area of each format in square millimetres.
        nearest: Where the picture's measures fit no size, the format nearest to them; else ''.
        called: The format that the piece is called, where that is a known one; else ''.
    """

    probabilities: Mapping[str, float]
    case: Mapping[str, float]
    maybe_measured: str
    belonging: tuple[float, ...]
    measured: bool
    areas: Mapping[str, float] = field(default_factory=dict)
    nearest: str = ""
    called: str = ""

    @property
    def best(self) -> str:
        """The likeliest format of the picture, or '' when nothing was measured or nothing fits."""
        known = self.measured and not self.nearest and self.probabilities
        return _best(self.probabilities) if known else ""

    @property
    def case_format(self) -> str:
        """The likeliest format that the case takes, or ''."""
        return _best(self.case) if self.case else ""

    def remark(self, names: Mapping[str, Format]) -> str:
        """What to say of the format beside its chances, or ''.

        That the measures fit no size, with the nearest, and what the piece is called if it measures
        as something else.
        """
        parts = []
        if self.nearest:
            parts.append(f"fits no size (nearest: {names[self.nearest].name})")
        if self.called and self.called != self.best:
            parts.append(f"called {names[self.called].name}")
        return ", ".join(parts)


def sizes_known(piece: Piece) -> bool:
    """Whether the sizes of both picture and case are known."""
    picture = bool(piece.named_format) or any(what in piece.measured for what in PICTURE)
    return picture and any(what in piece.measured for what in CASE)


def _best(probabilities: Mapping[str, float]) -> str:
    return max(probabilities, key=lambda name: probabilities[name])


def read_formats(piece: Piece, knowledge: Knowledge) -> FormatReading:
    """The formats of a piece's picture and case."""
    told = (piece.kind, piece.region, piece.named_format, piece.conserved)
    return _kept(knowledge, *told, piece.found("case.material"), tuple(piece.measured.items()))


@lru_cache(maxsize=64)
def _kept(
    knowledge: Knowledge,
    kind: str,
    region: str,
    named: str,
    conserved: bool,
    material: str,
    measured: tuple[tuple[str, Measure], ...],
) -> FormatReading:
    """The formats, by all that they follow from; kept, since most findings do not change them."""
    bare = Piece(
        kind=kind, region=region, named_format=named, conserved=conserved, measured=dict(measured)
    )
    return _read(bare.with_finding("case.material", material) if material else bare, knowledge)


def _read(piece: Piece, knowledge: Knowledge) -> FormatReading:
    called = piece.named_format if piece.named_format in knowledge.formats else ""
    prior = _prior(piece, knowledge)
    if not prior:
        return FormatReading({}, {}, "", (1.0,) * len(BELONGING), False, called=called)
    fitting = _fitting(piece, knowledge, prior)
    picture = {
        name: value * _said(knowledge.formats.get(called), name, prior)
        for name, value in _likelihoods(PICTURE, fitting, prior).items()
    }
    case = _likelihoods(CASE, fitting, prior)
    named = called in prior
    seen = any(what in fitting for what in PICTURE)
    lost = [what for what in PICTURE if what in piece.measured and what not in fitting]
    cased = any(what in fitting for what in CASE)
    before = prior
    if seen and cased and not piece.conserved:
        before = _posterior(prior, _by_case(knowledge, prior, case))
    return FormatReading(
        probabilities=_posterior(before, picture),
        case=_posterior(prior, case) if cased else {},
        maybe_measured=_mistaken(piece, knowledge, before) if "plate" in fitting else "",
        belonging=_agreement(piece, knowledge, prior, picture, case, (named or seen) and cased),
        measured=named or seen or bool(lost),
        areas={name: _area(knowledge.formats[name]) for name in prior},
        nearest="" if seen or not lost else _nearest(lost[0], piece, knowledge, prior),
        called=called,
    )


def _area(form: Format) -> float:
    return sum(width * height for width, height in form.sizes) / len(form.sizes)


def _prior(piece: Piece, knowledge: Knowledge) -> dict[str, float]:
    shares = {
        form.id: form.share_in(piece.region)
        for form in knowledge.formats.values()
        if piece.kind in form.kinds
    }
    total = sum(shares.values())
    return {name: share / total for name, share in shares.items() if share > 0}


def _posterior(prior: Mapping[str, float], likelihood: Mapping[str, float]) -> dict[str, float]:
    weights = {name: prior[name] * likelihood[name] for name in prior}
    total = sum(weights.values())
    return {name: weight / total for name, weight in weights.items()} if total else dict(prior)


def _said(called: Format | None, name: str, prior: Mapping[str, float]) -> float:
    """P(the piece is called so | format): a wrong word is the likelier the commoner its format."""
    if called is None or called.id not in prior:
        return 1.0
    if name == called.id:
        return called.named
    return (1 - called.named) * prior[called.id] / (1 - prior[name])


def _by_case(
    knowledge: Knowledge, prior: Mapping[str, float], case: Mapping[str, float]
) -> dict[str, float]:
    """P(the case's measures | the picture's format): mostly the case is of the same format.

    How mostly is the mean over the fixed prior of the belonging states, so that what is found about
    belonging cannot come back by way of the format.
    """
    weights = knowledge.weights
    same = sum(weights.reference[state] * weights.same_format[state] for state in BELONGING)
    of_case = sum(share * case[name] for name, share in prior.items())
    found = {}
    for name, share in prior.items():
        other = (of_case - share * case[name]) / (1 - share) if share < 1 else 0.0
        found[name] = same * case[name] + (1 - same) * other
    return found


def _fitting(
    piece: Piece, knowledge: Knowledge, prior: Mapping[str, float]
) -> dict[str, dict[str, float]]:
    """Of each measure that some format explains, its density by format."""
    forms = [knowledge.formats[name] for name in prior]
    found = {}
    for what in piece.measured:
        chances = {form.id: chance_of(form, what, piece, knowledge) for form in forms}
        told = sum(prior[name] * chance for name, chance in chances.items())
        if told > STRAY and not all(far(form, what, piece, knowledge) for form in forms):
            found[what] = chances
    return found


def _likelihoods(
    whats: tuple[str, ...],
    fitting: Mapping[str, Mapping[str, float]],
    prior: Mapping[str, float],
) -> dict[str, float]:
    """P(the measures of these things | format), by format."""
    told = [fitting[what] for what in whats if what in fitting]
    return {name: prod(chances[name] for chances in told) for name in prior}


def _nearest(what: str, piece: Piece, knowledge: Knowledge, prior: Mapping[str, float]) -> str:
    """The format to which a measure lies nearest in mm."""
    return min(prior, key=lambda name: gap(knowledge.formats[name], what, piece, knowledge))


def _mistaken(piece: Piece, knowledge: Knowledge, prior: Mapping[str, float]) -> str:
    """What a plate's measure more likely is than the plate, or ''."""
    measure = piece.measured["plate"]
    fits: dict[str, float] = {}
    for name, share in prior.items():
        form = knowledge.formats[name]
        for one in meant(form, "plate", piece, knowledge):
            told = share * one.share * normal(form, measure, one.offset)
            fits[one.what] = fits.get(one.what, 0.0) + told
    best = _best(fits)
    return best if best in PICTURE[1:] else ""


def _agreement(
    piece: Piece,
    knowledge: Knowledge,
    prior: Mapping[str, float],
    picture: Mapping[str, float],
    case: Mapping[str, float],
    both: bool,
) -> tuple[float, ...]:
    """Likelihood of both sizes by belonging state; all 1 when one was not measured.

    A conserved package may have grown too thick or wide for its own case, so it says nothing.
    """
    if not both or piece.conserved:
        return (1.0,) * len(BELONGING)
    same = sum(share * picture[name] * case[name] for name, share in prior.items())
    of_picture = sum(share * picture[name] for name, share in prior.items())
    of_case = sum(share * case[name] for name, share in prior.items())
    doubled = sum(share**2 * picture[name] * case[name] for name, share in prior.items())
    apart = (of_picture * of_case - doubled) / (1 - sum(share**2 for share in prior.values()))
    rates = knowledge.weights.same_format
    values = [rates[state] * same + (1 - rates[state]) * apart for state in BELONGING]
    top = max(values)
    return tuple(value / top for value in values) if top > 0 else (1.0,) * len(BELONGING)
