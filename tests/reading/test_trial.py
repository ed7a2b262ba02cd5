"""Pieces that the model was tried on, with the shipped knowledge.

The figures are those that the makers of the model settled on for it, so they guard against drift
and prove nothing about the world. The second piece follows the Historical Society of
Pennsylvania's record 5786, whose holder dates it about 1860.
"""

from functools import cache

import pytest

from appraise.knowledge import Knowledge, load
from appraise.reading.reading import Reading, read
from appraise.records.piece import Piece

NEAR = 0.03


@cache
def shipped() -> Knowledge:
    return load()


def told(findings: dict[str, str], region: str = "unknown") -> Reading:
    piece = Piece(region=region)
    for check, answer in findings.items():
        assert shipped().checks[check].index(answer) >= 0, (check, answer)
        piece = piece.with_finding(check, answer)
    return read(piece, shipped())


def of_period(reading: Reading) -> float:
    """P(married | of its period)."""
    return reading.belonging["married"] / (
        reading.belonging["married"] + reading.belonging["together"]
    )


def test_a_thermoplastic_case_alone():
    reading = told({"case.material": "thermoplastic"})
    assert of_period(reading) == pytest.approx(0.40, abs=NEAR)
    low, high = reading.before
    assert low <= of_period(reading) <= high


def test_a_documented_piece_of_about_1860_stays_whole_and_in_its_years():
    reading = told(
        {
            "case.material": "thermoplastic",
            "mat.shape": "oval-ornate",
            "preserver.form": "points",
            "pad.pile": "embossed",
        }
    )
    assert of_period(reading) == pytest.approx(0.29, abs=NEAR)
    assert abs(reading.together.first - 1858) <= 1
    assert abs(reading.together.last - 1868) <= 1
    assert reading.together.first <= 1860 <= reading.together.last


def test_an_early_mat_under_a_late_preserver_says_nothing_against_the_case():
    reading = told(
        {
            "claim.process": "daguerreotype",
            "plate.mirror": "flips",
            "mat.shape": "octagon",
            "preserver.form": "points",
            "case.material": "leather-wood",
            "case.covering": "embossed-leather",
        }
    )
    bare = told(
        {"claim.process": "daguerreotype", "plate.mirror": "flips", "case.material": "leather-wood"}
    )
    assert of_period(reading) <= of_period(bare) + NEAR
    assert reading.exchanged[0].part == "preserver"
    assert reading.exchanged[0].probability == pytest.approx(0.38, abs=NEAR)
    assert reading.odd_one_out == reading.exchanged[0]


def test_a_tintype_with_an_ornate_mat_in_an_early_plain_leather_case():
    reading = told(
        {
            "claim.process": "tintype",
            "plate.magnet": "yes",
            "plate.mirror": "stays",
            "mat.shape": "oval-ornate",
            "case.material": "leather-wood",
            "case.covering": "plain",
            "pad.pile": "silk",
        },
        region="us",
    )
    assert of_period(reading) == pytest.approx(
        0.86, abs=NEAR
    )  # .84 in the trial, which had tintypes before 1856


def test_one_silk_pad_of_low_confidence_is_no_marriage():
    reading = told(
        {
            "claim.process": "ambrotype",
            "plate.dark-backing": "yes",
            "plate.mirror": "stays",
            "pad.pile": "silk",
        },
        region="us",
    )
    assert of_period(reading) == pytest.approx(0.26, abs=NEAR)
