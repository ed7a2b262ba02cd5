"""The joint table seen from each side, so that one more finding need only be summed.

The table is linear in every factor and in every line over years. Seen by the states that a factor
bears on, or by the picture's or the housing's year, what taking a finding away, asking whether a
part is an exchange, or weighing an answer not yet given comes to is one sum.
"""

from functools import cached_property

import numpy as np

from appraise.knowledge.records import Check, Knowledge
from appraise.reading.factors import Factors, side_of
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
        self._pictures: dict[tuple[int | bool, ...], Array] = {}

    @cached_property
    def states(self) -> Array:
        """(5,) P(h)."""
        return self.joint.states

    def marginal(self, axes: tuple[str, ...]) -> Array:
        """Weights over some axes, in the order of `AXES`."""
        if axes not in self._marginals:
            housed = AXES[0] in axes
            cells, left = (self.joint.cells, AXES) if housed else (self._unhoused, AXES[1:])
            others = tuple(n for n, axis in enumerate(left) if axis not in axes)
            self._marginals[axes] = cells.sum(axis=others)
        return self._marginals[axes]

    @cached_property
    def _unhoused(self) -> Array:
        """Weights over all axes but the housing's, of which most sums are taken."""
        found: Array = self.joint.cells.sum(axis=0)
        return found

    def with_rows(self, axes: tuple[str, ...], rows: Array, apart: bool = True) -> Array:
        """(answers, P, 5) weights once each of several factors over states is multiplied in.

        Args:
            axes: The axes of the factors.
            rows: (answers, *states).
            apart: Tell processes apart; P is 1 where not.
        """
        kept = BOTH if apart else BOTH[1:]
        wanted = tuple(axis for axis in AXES if axis in axes or axis in kept)
        names = "".join(LETTERS[n] for n in axis_numbers(wanted))
        given = "".join(LETTERS[n] for n in axis_numbers(axes))
        sums = "kph" if apart else "kh"
        found: Array = np.einsum(f"{names},k{given}->{sums}", self.marginal(wanted), rows)
        return found if apart else found[:, None]

    @cached_property
    def picture(self) -> Array:
        """(3, P, 2, C, Y) the same as `period`, by belonging."""
        return self._dated(self._seen_prior)

    @cached_property
    def prior(self) -> Array:
        """(M, P, 5, 2, 2) what each cell holds apart from the sum over years."""
        return self.joint.seen

    @cached_property
    def _seen_prior(self) -> Array:
        """(M, P, 5, 2, C) the same, with copies apart only where they matter to the years."""
        copies = self.joint.terms.picture.shape[1]
        return self.prior if copies > 1 else self.prior.sum(axis=4, keepdims=True)

    @cached_property
    def picture_by_copy(self) -> Array:
        """(3, P, 2, 2, Y) the same with copies told apart."""
        if self.joint.terms.picture.shape[1] > 1:
            return self.picture
        return self._dated(self.prior)

    def _dated(self, prior: Array) -> Array:
        joint, terms = self.joint, self.joint.terms
        count = len(terms.mean)
        together, married, free = (
            prior[:, :, h].reshape(count, -1).T for h in (TOGETHER, MARRIED, MODERN_CASE)
        )
        lines = np.empty((3, len(free), SPAN))
        np.matmul(together, terms.together, out=lines[0])
        np.matmul(married, terms.married, out=lines[1])
        lines[2] = (free @ terms.mean)[:, None]
        found = lines.reshape(3, *prior.shape[1:2], *prior.shape[3:5], SPAN)
        found *= joint.frame.process_years[:, None, None, :] * terms.picture
        return found

    @cached_property
    def by_year(self) -> Array:
        """(2, Y) weights over the picture's year given its period, by package state."""
        found: Array = self.period.sum(axis=0).sum(axis=1)
        return found

    @cached_property
    def period(self) -> Array:
        """(P, 2, C, Y) weights by the picture's year, where it is of its period."""
        prior, terms = self._seen_prior, self.joint.terms
        lines = np.concatenate([terms.together, terms.married])
        mixed = prior[:, :, :MODERN_CASE].transpose(1, 3, 4, 2, 0)
        free = prior[:, :, MODERN_CASE].reshape(len(terms.mean), -1).T @ terms.mean
        found: Array = mixed.reshape(len(free), -1) @ lines
        found += free[:, None]
        found = found.reshape(*mixed.shape[:3], SPAN)
        found *= self.joint.frame.process_years[:, None, None, :] * terms.picture
        return found

    @cached_property
    def housing(self) -> Array:
        """(5, Y) weights by the housing's own year."""
        prior, seen = self._seen
        count = len(self.joint.terms.mean)
        mixed = prior[:, :, :MODERN_CASE].transpose(2, 0, 1, 3, 4).reshape(2 * count, -1)
        together, married = np.split(mixed @ seen.reshape(-1, SPAN), 2)
        flat = self.joint.by_belonging.sum(axis=1).T
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
        flat = self.joint.by_belonging.transpose(1, 2, 0)
        return self._by_housing_year(together, married, flat)

    @cached_property
    def _seen(self) -> tuple[Array, Array]:
        """The prior over (M, P, 5, 2, C), and pi_p I K_u as (P, 2, C, Y)."""
        years = self.joint.frame.process_years[:, None, None, :]
        return self._seen_prior, years * self.joint.terms.picture

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
            return self._with_housing(own_ratio(frame, was, was * lines, rate), apart)
        if side == "package":
            was = times(factors.package.get(part, ()))
            now = was * lines
            rates = np.array(frame.weights.exchange)[:, None]
            kept = own_ratio(frame, was, now[:, None], rates)
            constant = now @ frame.years / (was @ frame.years)
            return self._with_picture(kept[:, :, None], constant[:, None], apart)
        return self._with_image(lines, side == "dress", apart)

    def _with_housing(self, ratios: Array, apart: bool) -> Array:
        """(answers, P, 5) weights with the housing's line multiplied by ratios (answers, Y)."""
        if not apart:
            return (self.housing @ ratios.T).T[:, None, :]
        return np.moveaxis(self.housing_by_process @ ratios.T, -1, 0)

    def _with_image(self, lines: Array, dress: bool, apart: bool) -> Array:
        """Lines of the picture itself, or of its sitter, which say nothing of a copy's year."""
        years = self.joint.frame.years
        image, worn = self._image, self._worn
        plain = (image * worn * lines) @ years / ((image * worn) @ years)
        if not dress and not self.factors.dress:
            return self._with_picture(lines[:, None, None], plain[:, None], apart)
        if not dress:
            copied = (image * lines) @ years / (image @ years)
            constant = np.stack([plain, copied], axis=1)
            return self._with_picture(lines[:, None, None], constant, apart)
        gone = (worn * lines) @ years / (worn @ years)
        ratios = np.stack([lines, np.repeat(gone[:, None], SPAN, axis=1)], axis=1)
        return self._with_picture(ratios[:, None], np.stack([plain, gone], axis=1), apart)

    def _with_picture(self, ratios: Array, constant: Array, apart: bool) -> Array:
        """(answers, P, 5) weights with the picture's line multiplied by ratios.

        Args:
            ratios: (answers, 2 or 1, C or 1, Y) by package state and copy.
            constant: (answers, 2 or 1) what they come to for a modern picture, by copy.
            apart: Tell processes apart.
        """
        lines = self._picture_for(ratios.shape[1:3], apart)
        states, processes = lines.shape[:2]
        period = lines.reshape(states * processes, -1) @ ratios.reshape(len(ratios), -1).T
        modern = self.modern if apart else self.modern.sum(axis=0, keepdims=True)
        modern = modern.sum(axis=2, keepdims=True) if constant.shape[1] == 1 else modern
        found = np.empty((len(ratios), processes, states + modern.shape[1]))
        found[:, :, :states] = period.reshape(states, processes, -1).transpose(2, 1, 0)
        found[:, :, states:] = (modern @ constant.T).transpose(2, 0, 1)
        return found

    def _picture_for(self, shape: tuple[int, ...], apart: bool) -> Array:
        """(3, P, U, C, Y) weights by the picture's year, as far apart as ratios are.

        Args:
            shape: U and C, each 2 where package states, or copies, are told apart, else 1.
            apart: Tell processes apart; P is 1 where not.
        """
        key = (*shape, apart)
        if key not in self._pictures:
            lines = self.picture_by_copy if shape[1] > 1 else self.picture
            if not apart:
                lines = lines.sum(axis=1, keepdims=True)
            for axis in (2, 3):
                if shape[axis - 2] < lines.shape[axis]:
                    lines = lines.sum(axis=axis, keepdims=True)
            self._pictures[key] = lines
        return self._pictures[key]

    @cached_property
    def _image(self) -> Array:
        return times(self.factors.image)

    @cached_property
    def _worn(self) -> Array:
        return times(self.factors.dress)


def chances(weights: Array) -> tuple[float, ...]:
    """Weights by state brought to sum to 1."""
    return tuple((weights / weights.sum()).tolist())


def states_of(weights: Array) -> Array:
    """(..., 5) P(h) from weights (..., P, 5)."""
    found: Array = weights.sum(axis=-2)
    return found / found.sum(axis=-1, keepdims=True)
