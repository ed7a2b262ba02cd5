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
from appraise.reading.joint import HOUSING, Joint, axis_numbers
from appraise.reading.years import MODERN_CASE, MODERN_IMAGE, loose_rate, own_ratio, times

LETTERS = "acumph"
BOTH = ("process", "belonging")
UNHOUSED = AXES[:HOUSING] + AXES[HOUSING + 1 :]


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
        self._odd_marginals: dict[tuple[str, ...], Array] = {}
        self._pictures: dict[tuple[int | bool, ...], Array] = {}

    def marginal(self, axes: tuple[str, ...]) -> Array:
        """Weights over some axes, in the order of `AXES`."""
        if axes not in self._marginals:
            housed = AXES[HOUSING] in axes
            cells, left = (self.joint.cells, AXES) if housed else (self._unhoused, UNHOUSED)
            others = tuple(n for n, axis in enumerate(left) if axis not in axes)
            self._marginals[axes] = cells.sum(axis=others)
        return self._marginals[axes]

    @cached_property
    def _unhoused(self) -> Array:
        """Weights over all axes but the housing's, of which most sums are taken."""
        found: Array = self.joint.cells.sum(axis=HOUSING)
        return found

    def _odd_marginal(self, axes: tuple[str, ...]) -> Array | None:
        """The part of `marginal` that is of pieces odd all over; None where it does not weigh."""
        cells = self.joint.odd_cells
        if cells is None:
            return None
        if axes not in self._odd_marginals:
            others = tuple(n for n, axis in enumerate(AXES) if axis not in axes)
            self._odd_marginals[axes] = cells.sum(axis=others)
        return self._odd_marginals[axes]

    def with_rows(
        self, axes: tuple[str, ...], rows: Array, odd: Array, apart: bool = True
    ) -> Array:
        """(answers, P, 5) weights once each of several factors over states is multiplied in.

        Args:
            axes: The axes of the factors.
            rows: (answers, *states) of an ordinary piece.
            odd: The same of a piece that is odd all over.
            apart: Tell processes apart; P is 1 where not.
        """
        kept = BOTH if apart else BOTH[1:]
        wanted = tuple(axis for axis in AXES if axis in axes or axis in kept)
        names = "".join(LETTERS[n] for n in axis_numbers(wanted))
        given = "".join(LETTERS[n] for n in axis_numbers(axes))
        sums = "kph" if apart else "kh"
        found: Array = np.einsum(f"{names},k{given}->{sums}", self.marginal(wanted), rows)
        if (oddly := self._odd_marginal(wanted)) is not None:
            found = found + np.einsum(f"{names},k{given}->{sums}", oddly, odd - rows)
        return found if apart else found[:, None]

    @cached_property
    def picture(self) -> Array:
        """(3, P, C, 2, Y) the same as `period`, by belonging."""
        return self._dated(self._seen_prior)

    @cached_property
    def _seen_prior(self) -> Array:
        """(C, 2, M, P, 5) the same, with copies apart only where they matter to the years."""
        copies = len(self.joint.terms.picture)
        prior = self.joint.prior
        return prior if copies > 1 else prior.sum(axis=0, keepdims=True)

    @cached_property
    def picture_by_copy(self) -> Array:
        """(3, P, 2, 2, Y) the same with copies told apart."""
        if len(self.joint.terms.picture) > 1:
            return self.picture
        return self._dated(self.joint.prior)

    def _dated(self, prior: Array) -> Array:
        terms = self.joint.terms
        by_state = prior[..., :MODERN_IMAGE].transpose(4, 3, 0, 1, 2)  # 3, P, C, 2, M
        flat = by_state.reshape(MODERN_IMAGE, -1, by_state.shape[-1])
        lines = (flat @ terms.near.swapaxes(0, 1)).reshape(*by_state.shape[:-1], SPAN)
        lines *= terms.seen
        return lines

    @cached_property
    def by_year(self) -> Array:
        """(2, Y) weights over the picture's year given its period, by package state."""
        found: Array = self.period.sum(axis=0).sum(axis=0)
        return found

    @cached_property
    def period(self) -> Array:
        """(P, C, 2, Y) weights by the picture's year, where it is of its period."""
        terms = self.joint.terms
        mixed = self._seen_prior[..., :MODERN_IMAGE].transpose(3, 0, 1, 2, 4)
        flat = mixed.reshape(-1, mixed.shape[-2] * mixed.shape[-1])
        found: Array = (flat @ terms.near.reshape(-1, SPAN)).reshape(*mixed.shape[:3], SPAN)
        found *= terms.seen
        return found

    @cached_property
    def housing(self) -> Array:
        """(5, Y) weights by the housing's own year."""
        tied = self._seen_prior[..., :MODERN_CASE].transpose(4, 2, 3, 0, 1)
        seen = self.joint.terms.seen.reshape(-1, SPAN)
        lines = tied.reshape(MODERN_CASE, -1, len(seen)) @ seen
        return self._by_housing_year(lines, self.joint.by_belonging.sum(axis=1).T)

    @cached_property
    def housing_by_process(self) -> Array:
        """(P, 5, Y) the same with processes told apart."""
        tied = self._seen_prior[..., :MODERN_CASE].transpose(3, 4, 2, 0, 1)
        processes, states, count = tied.shape[:3]
        seen = self.joint.terms.seen.reshape(processes, 1, -1, SPAN)
        lines = tied.reshape(processes, states, count, -1) @ seen
        return self._by_housing_year(lines, self.joint.by_belonging.transpose(1, 2, 0))

    def _by_housing_year(self, lines: Array, flat: Array) -> Array:
        """(..., 5, Y) weights by the housing's own year.

        Args:
            lines: (..., 2, M, Y) of the states that tie it, by the picture's year.
            flat: (..., 5, M) of all states, whatever the year.
        """
        terms, frame = self.joint.terms, self.joint.frame
        found = (flat / terms.mean) @ (terms.own * frame.years)
        tied = lines @ frame.kernels.transpose(1, 2, 0)
        found[..., :MODERN_CASE, :] = (tied * terms.own).sum(axis=-2)
        return found

    @cached_property
    def modern(self) -> Array:
        """(2, P, 2) weights of the states with a modern picture, by copy."""
        return self.marginal(("copy", *BOTH))[..., MODERN_IMAGE:]

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
            return self._with_picture(kept[:, None], constant[:, None], apart)
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
        return self._with_picture(ratios[:, :, None], np.stack([plain, gone], axis=1), apart)

    def _with_picture(self, ratios: Array, constant: Array, apart: bool) -> Array:
        """(answers, P, 5) weights with the picture's line multiplied by ratios.

        Args:
            ratios: (answers, C or 1, 2 or 1, Y) by copy and package state.
            constant: (answers, 2 or 1) what they come to for a modern picture, by copy.
            apart: Tell processes apart.
        """
        lines = self._picture_for(ratios.shape[1:3], apart)
        states, processes = lines.shape[:2]
        period = lines.reshape(states * processes, -1) @ ratios.reshape(len(ratios), -1).T
        modern = self.modern if apart else self.modern.sum(axis=1, keepdims=True)
        modern = modern.sum(axis=0, keepdims=True) if constant.shape[1] == 1 else modern
        found = np.empty((len(ratios), processes, states + modern.shape[-1]))
        found[:, :, :states] = period.reshape(states, processes, -1).transpose(2, 1, 0)
        found[:, :, states:] = np.tensordot(constant, modern, axes=1)
        return found

    def _picture_for(self, shape: tuple[int, ...], apart: bool) -> Array:
        """(3, P, C, U, Y) weights by the picture's year, as far apart as ratios are.

        Args:
            shape: C and U, each 2 where copies, or package states, are told apart, else 1.
            apart: Tell processes apart; P is 1 where not.
        """
        key = (*shape, apart)
        if key not in self._pictures:
            lines = self.picture_by_copy if shape[0] > 1 else self.picture
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
