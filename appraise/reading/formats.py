"""The format of picture and case from what was measured, and whether the two agree.

P(format | measures) ~ prior * normal density around the nominal size plus the offset of what was
measured, whichever way up. Where sources give several nominal sizes each is as likely.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import exp, pi

from appraise.base.measures import Measure
from appraise.knowledge.records import BELONGING, Format, Knowledge, Offset
from appraise.piece.records import Piece

PICTURE = ("plate", "package", "opening", "mount")
CASE = ("case", "recess")
TELLING = 3.0  # how much better the other reading must fit before it is offered


@dataclass(frozen=True, slots=True)
class FormatReading:
    """What the measures say about format.

    Attributes:
        probabilities: P(format of the picture); the prior when nothing was measured.
        case: P(format that the case takes); empty when the case was not measured.
        maybe_measured: What may have been measured instead ('opening'), or ''.
        belonging: Likelihood of the sizes by belonging state, in the order of `BELONGING`.
        measured: Whether any size was given.
        areas: Nominal area of each format in square millimetres.
    """

    probabilities: Mapping[str, float]
    case: Mapping[str, float]
    maybe_measured: str
    belonging: tuple[float, ...]
    measured: bool
    areas: Mapping[str, float] = field(default_factory=dict)

    @property
    def best(self) -> str:
        """The likeliest format of the picture, or '' when nothing was measured."""
        return _best(self.probabilities) if self.measured else ""

    @property
    def case_format(self) -> str:
        """The likeliest format that the case takes, or ''."""
        return _best(self.case) if self.case else ""


def sizes_known(piece: Piece) -> bool:
    """Whether the sizes of both picture and case are known."""
    picture = bool(piece.named_format) or any(what in piece.measured for what in PICTURE)
    return picture and any(what in piece.measured for what in CASE)


def _best(probabilities: Mapping[str, float]) -> str:
    return max(probabilities, key=lambda name: probabilities[name])


def read_formats(piece: Piece, knowledge: Knowledge) -> FormatReading:
    """The formats of a piece's picture and case."""
    prior = _prior(piece, knowledge)
    if not prior:
        return FormatReading({}, {}, "", (1.0,) * len(BELONGING), False)
    material = piece.found("case.material")
    picture = {name: _likelihood(name, PICTURE, piece, knowledge, material) for name in prior}
    case = {name: _likelihood(name, CASE, piece, knowledge, material) for name in prior}
    named = piece.named_format
    if named in prior:
        picture = {name: value * (0.9 if name == named else 0.1) for name, value in picture.items()}
    measured = bool(named) or any(what in piece.measured for what in PICTURE)
    cased = any(what in piece.measured for what in CASE)
    return FormatReading(
        probabilities=_posterior(prior, picture),
        case=_posterior(prior, case) if cased else {},
        maybe_measured=_mistaken(piece, knowledge, prior, material),
        belonging=_agreement(piece, knowledge, prior, picture, case, measured and cased),
        measured=measured,
        areas={name: _area(knowledge.formats[name]) for name in prior},
    )


def _area(form: Format) -> float:
    return sum(width * height for width, height in form.sizes) / len(form.sizes)


def _prior(piece: Piece, knowledge: Knowledge) -> dict[str, float]:
    shares = {f.id: f.share for f in knowledge.formats.values() if piece.kind in f.kinds}
    total = sum(shares.values())
    return {name: share / total for name, share in shares.items() if share > 0}


def _posterior(prior: Mapping[str, float], likelihood: Mapping[str, float]) -> dict[str, float]:
    weights = {name: prior[name] * likelihood[name] for name in prior}
    total = sum(weights.values())
    return {name: weight / total for name, weight in weights.items()} if total else dict(prior)


def _likelihood(
    name: str, whats: tuple[str, ...], piece: Piece, knowledge: Knowledge, material: str
) -> float:
    value = 1.0
    for what in whats:
        measure = piece.measured.get(what)
        if measure is not None:
            offset = offset_of(knowledge, what, material)
            value *= density(knowledge.formats[name], measure, offset)
    return value


def offset_of(knowledge: Knowledge, what: str, material: str) -> Offset | None:
    """The offset of what was measured, in the material if there is one for it."""
    rows = [one for one in knowledge.offsets.values() if one.what == what]
    exact = [one for one in rows if one.material == material]
    plain = [one for one in rows if not one.material]
    chosen = exact or plain or rows
    return chosen[0] if chosen else None


def density(form: Format, measure: Measure, offset: Offset | None) -> float:
    """Normal density per mm^2 of a measured face around a format's sizes, plus the offset.

    A thin floor keeps a slip of the ruler from ruling everything out.
    """
    sides = [float(side) for side in measure.sides]
    add, spread = (offset.add, offset.spread) if offset else ((0.0, 0.0), 2.0)
    variance = form.tolerance**2 + spread**2
    total = 0.0
    for size in form.sizes:
        gaps = [
            side - (side_of + more) for side, side_of, more in zip(sides, size, add, strict=False)
        ]
        total += exp(-sum(gap * gap for gap in gaps) / (2 * variance))
    return total / len(form.sizes) / (2 * pi * variance) + 1e-9


def _mistaken(piece: Piece, knowledge: Knowledge, prior: Mapping[str, float], material: str) -> str:
    """'opening' when a plate's measure fits better as a mat opening, '' otherwise."""
    measure = piece.measured.get("plate")
    if measure is None or piece.kind != "cased":
        return ""
    fits = {
        what: sum(
            share * density(knowledge.formats[name], measure, offset_of(knowledge, what, material))
            for name, share in prior.items()
        )
        for what in ("plate", "opening")
    }
    return "opening" if fits["opening"] > TELLING * fits["plate"] else ""


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
