"""The joint table seen from each side, so that one more finding need only be summed.

The table is linear in every factor and in every line over years. Seen by the states that a factor
bears on, or by the picture's or the housing's year, what taking a finding away, asking whether a
part is an exchange, or weighing an answer not yet given comes to is one sum.
"""

from functools import cached_property

import numpy as np

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.factors import Factor, Factors, side_of
from appraise.reading.frame import AXES, SPAN, Array
from appraise.reading.joint import Joint, axis_numbers
from appraise.reading.years import (
    MARRIED,
    MODERN_CASE,
    MODERN_IMAGE,
    TOGETHER,
    loose_rate,
    own_ratio,
    times,
)

LETTERS = "mphuca"
BOTH = ("process", "belonging")


class Views:
    """A joint table, and what is summed from it again and again.

    Weights by (process, belonging) are arrays (P, 5); where processes are not told apart, P is 1.
    """

    def __init__(self, joint: Joint, factors: Factors) -> None:
        """Prepare.

        Args:
            joint: The table.
            factors: The evidence in it.
        """
        self.joint = joint
        self.factors = factors
        self._marginals: dict[tuple[str, ...], Array] = {}

    @cached_property
    def states(self) -> Array:
        """(5,) P(h)."""
        return self.joint.states

    def marginal(self, axes: tuple[str, ...]) -> Array:
        """Weights over some axes, in the order of `AXES`."""
        if axes not in self._marginals:
            others = tuple(n for n, axis in enumerate(AXES) if axis not in axes)
            self._marginals[axes] = self.joint.cells.sum(axis=others)
        return self._marginals[axes]

    def with_rows(self, axes: tuple[str, ...], rows: Array) -> Array:
        """(answers, P, 5) weights once each of several factors over states is multiplied in.

        Args:
            axes: The axes of the factors.
            rows: (answers, *states).
        """
        wanted = tuple(axis for axis in AXES if axis in axes or axis in BOTH)
        names = "".join(LETTERS[n] for n in axis_numbers(wanted))
        given = "".join(LETTERS[n] for n in axis_numbers(axes))
        found: Array = np.einsum(f"{names},k{given}->kph", self.marginal(wanted), rows)
        return found

    def without(self, factor: Factor) -> Array:
        """(5,) weights by state of belonging once a factor over states is taken away."""
        return self._without(factor, ("belonging",))

    def by_process_without(self, factor: Factor) -> Array:
        """(P, 5) weights by process and belonging once a factor over states is taken away."""
        return self._without(factor, BOTH)

    def _without(self, factor: Factor, kept: tuple[str, ...]) -> Array:
        wanted = tuple(axis for axis in AXES if axis in factor.axes or axis in kept)
        others = tuple(n for n, axis in enumerate(AXES) if axis not in wanted)
        weights = self.marginal(wanted) / factor.full.squeeze(axis=others)
        found: Array = weights.sum(
            axis=tuple(n for n, axis in enumerate(wanted) if axis not in kept)
        )
        return found

    @cached_property
    def picture(self) -> Array:
        """(3, P, 2, C, Y) weights by the picture's year, where it is of its period."""
        prior = self.joint.prior.sum(axis=5)
        if self.joint.terms.picture.shape[1] == 1:
            prior = prior.sum(axis=4, keepdims=True)
        return self._dated(prior)

    @cached_property
    def picture_by_copy(self) -> Array:
        """(3, P, 2, 2, Y) the same with copies told apart."""
        return self._dated(self.joint.prior.sum(axis=5))

    def _dated(self, prior: Array) -> Array:
        joint, terms = self.joint, self.joint.terms
        kappa, count = joint.frame.weights.kappa, len(terms.mean)
        together, married, free = (
            prior[:, :, h].reshape(count, -1).T for h in (TOGETHER, MARRIED, MODERN_CASE)
        )
        lines = np.stack(
            [
                together @ terms.together,
                kappa * (married @ terms.window) + (1 - kappa) * (married @ terms.mean)[:, None],
                np.broadcast_to((free @ terms.mean)[:, None], (free.shape[0], SPAN)),
            ]
        ).reshape(3, *prior.shape[1:2], *prior.shape[3:5], SPAN)
        found: Array = lines * joint.frame.process_years[None, :, None, None, :] * terms.picture
        return found

    @cached_property
    def by_year(self) -> Array:
        """(2, Y) weights over the picture's year given its period, by package state."""
        found: Array = self.picture.sum(axis=(0, 1, 3))
        return found

    @cached_property
    def housing(self) -> Array:
        """(5, Y) weights by the housing's own year."""
        prior, seen = self._seen
        count = len(self.joint.terms.mean)
        together, married = (
            prior[:, :, h].reshape(count, -1) @ seen.reshape(-1, SPAN) for h in (TOGETHER, MARRIED)
        )
        flat = self.joint.by_state.sum(axis=(1, 3)).T
        return self._by_housing_year(together, married, flat)

    @cached_property
    def housing_by_process(self) -> Array:
        """(P, 5, Y) the same with processes told apart."""
        prior, seen = self._seen
        count, processes = prior.shape[:2]
        lines = seen.reshape(processes, -1, SPAN)
        together, married = (
            np.matmul(prior[:, :, h].reshape(count, processes, -1).transpose(1, 0, 2), lines)
            for h in (TOGETHER, MARRIED)
        )
        flat = self.joint.by_state.sum(axis=3).transpose(1, 2, 0)
        return self._by_housing_year(together, married, flat)

    @cached_property
    def _seen(self) -> tuple[Array, Array]:
        """The prior over (M, P, 5, 2, C), and pi_p I K_u as (P, 2, C, Y)."""
        prior, picture = self.joint.prior.sum(axis=5), self.joint.terms.picture
        if picture.shape[1] == 1:
            prior = prior.sum(axis=4, keepdims=True)
        return prior, self.joint.frame.process_years[:, None, None, :] * picture

    def _by_housing_year(self, together: Array, married: Array, flat: Array) -> Array:
        """(..., 5, Y) from lines (..., M, Y) by the picture's year and weights (..., 5, M)."""
        terms, frame = self.joint.terms, self.joint.frame
        kappa = frame.weights.kappa
        free = terms.own * frame.years
        found = (flat / terms.mean) @ free
        found[..., TOGETHER, :] = ((together @ frame.lag) * terms.own).sum(axis=-2)
        near = ((married @ frame.window) * terms.own).sum(axis=-2)
        found[..., MARRIED, :] = kappa * near + (1 - kappa) * (married.sum(axis=-1) @ free)
        return found

    @cached_property
    def modern(self) -> Array:
        """(P, 2, 2) weights of the states with a modern picture, by copy."""
        return self.marginal(("process", "belonging", "copy"))[:, MODERN_IMAGE:]

    def with_lines(
        self, check: Check, lines: Array, knowledge: Knowledge, apart: bool = True
    ) -> Array:
        """(answers, P, 5) weights once each of several lines of a part is multiplied in.

        Args:
            check: A dated one.
            lines: (answers, Y) the lines.
            knowledge: For the side of the part.
            apart: Tell processes apart; P may be 1 where not.
        """
        frame, factors = self.joint.frame, self.factors
        side, part = side_of(check.part, knowledge), check.part
        if side == "housing":
            return self._with_housing(lines, apart)
        if side == "loose":
            was = times(factors.loose.get(part, ()))
            rate = loose_rate(frame.weights, part)
            ratios = np.array([own_ratio(frame, was, was * line, rate) for line in lines])
            return self._with_housing(ratios, apart)
        if side == "package":
            was = times(factors.package.get(part, ()))
            ratios = np.array(
                [
                    [own_ratio(frame, was, was * line, rho) for rho in frame.weights.exchange]
                    for line in lines
                ]
            )
            constant = (was * lines) @ frame.years / (was @ frame.years)
            return self._with_picture(ratios[:, :, None, :], constant[:, None])
        return self._with_image(lines, side == "dress")

    def without_line(self, one: Array, check: Check, knowledge: Knowledge) -> Array:
        """(5,) weights by state of belonging once a line of a part is taken away."""
        found: Array = self.with_lines(check, (1 / one)[None], knowledge, apart=False)[0]
        return found.sum(axis=0)

    def _with_housing(self, ratios: Array, apart: bool) -> Array:
        """(answers, P, 5) weights with the housing's line multiplied by ratios (answers, Y)."""
        if not apart:
            return (self.housing @ ratios.T).T[:, None, :]
        return np.moveaxis(self.housing_by_process @ ratios.T, -1, 0)

    def _with_image(self, lines: Array, dress: bool) -> Array:
        """Lines of the picture itself, or of its sitter, which say nothing of a copy's year."""
        years = self.joint.frame.years
        image, worn = times(self.factors.image), times(self.factors.dress)
        plain = (image * worn * lines) @ years / ((image * worn) @ years)
        if not dress and not self.factors.dress:
            return self._with_picture(lines[:, None, None, :], plain[:, None])
        if not dress:
            copied = (image * lines) @ years / (image @ years)
            return self._with_picture(lines[:, None, None, :], np.stack([plain, copied], axis=1))
        gone = (worn * lines) @ years / (worn @ years)
        ratios = np.stack([lines, np.repeat(gone[:, None], SPAN, axis=1)], axis=1)
        return self._with_picture(
            ratios[:, None], np.stack([plain, gone], axis=1), self.picture_by_copy
        )

    def _with_picture(self, ratios: Array, constant: Array, lines: Array | None = None) -> Array:
        """(answers, P, 5) weights with the picture's line multiplied by ratios.

        Args:
            ratios: (answers, 2 or 1, C or 1, Y) by package state and copy.
            constant: (answers, 2 or 1) what they come to for a modern picture, by copy.
            lines: (3, P, 2, C, Y) the lines to multiply, the table's own unless given.
        """
        lines = self.picture if lines is None else lines
        if ratios.shape[1] == 1:
            lines = lines.sum(axis=2, keepdims=True)
        if ratios.shape[2] == 1:
            lines = lines.sum(axis=3, keepdims=True)
        period = np.einsum("hpucy,kucy->kph", lines, ratios, optimize=True)
        modern = self.modern.sum(axis=2, keepdims=True) if constant.shape[1] == 1 else self.modern
        return np.concatenate([period, np.einsum("phc,kc->kph", modern, constant)], axis=2)


def chances(weights: Array) -> tuple[float, ...]:
    """Weights by state brought to sum to 1."""
    return tuple((weights / weights.sum()).tolist())


def states_of(weights: Array) -> Array:
    """(..., 5) P(h) from weights (..., P, 5)."""
    found: Array = weights.sum(axis=-2)
    return found / found.sum(axis=-1, keepdims=True)
