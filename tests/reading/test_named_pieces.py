"""What the shipped knowledge must say of a few plain pieces, as a practitioner would expect it."""

from functools import cache

import pytest

from appraise.knowledge import Knowledge, load
from appraise.reading.reading import Reading, read
from appraise.records.piece import Piece
from appraise.verdict.warning import Warning
from appraise.verdict.warnings import warnings_of


@cache
def shipped() -> Knowledge:
    return load()


def read_as(region: str, **findings: str) -> Reading:
    piece = Piece(region=region)
    for check, answer in findings.items():
        piece = piece.with_finding(check.replace("__", ".").replace("_", "-"), answer)
    return read(piece, shipped())


def warned(reading: Reading) -> dict[str, Warning]:
    return {one.id: one for one in warnings_of(reading, shipped())}


def test_a_thermoplastic_case_alone_raises_nothing():
    assert warned(read_as("unknown", case__material="thermoplastic")) == {}


def test_a_tintype_in_an_early_plain_leather_case_is_warned_of_strongly():
    reading = read_as(
        "us",
        claim__process="tintype",
        plate__magnet="yes",
        plate__mirror="stays",
        mat__shape="oval-ornate",
        case__material="leather-wood",
        case__covering="plain",
        pad__pile="silk",
    )
    warning = warned(reading)["married"]
    assert warning.strong
    assert warning.because
    assert any("re-cased by an early owner" in text for text in warning.innocent)


def test_an_early_mat_under_a_late_preserver_names_the_preserver_and_leaves_the_case_alone():
    found = warned(
        read_as(
            "unknown",
            claim__process="daguerreotype",
            plate__mirror="flips",
            mat__shape="octagon",
            preserver__form="points",
            case__material="leather-wood",
            case__covering="embossed-leather",
        )
    )
    assert "preserver" in found["odd-one-out"].says
    assert "married" not in found


@pytest.mark.parametrize("region", ["us", "unknown"])
def test_resin_mat_plain_pad_and_no_preserver_raise_the_reproduction_warning(region):
    reading = read_as(
        region,
        case__material="thermoplastic",
        mat__material="resin",
        pad__make="plush",
        preserver__state="none",
    )
    warning = warned(reading)["reproduction"]
    assert warning.says.startswith("the case may be a modern reproduction")
    assert warning.because[0].startswith("mat: ")
    bare = read_as(region, case__material="thermoplastic")
    assert reading.belonging["modern-case"] > 5 * bare.belonging["modern-case"]


@pytest.mark.parametrize("step", ["1", "2", "3"])
def test_tape_on_the_hinge_is_named_and_must_not_be_peeled(step):
    # Tape stains, migrates, and can be stronger than what it sits on ("Sticky tape is evil", Texas
    # State Library and Archives, 2017; "Tape Troubles and Treatments", New York University
    # Libraries, 2014).
    warning = warned(read_as("unknown", hinge__tape=step))["repair-not-archival"]
    assert "not an archival repair" in warning.says
    assert "Do not peel" in warning.says


@pytest.mark.parametrize("material", ["thermoplastic", "leather-wood"])
def test_a_sealed_package_with_an_outline_that_follows_does_not_clear_the_case(material):
    before = read_as("us", case__material=material)
    after = read_as("us", case__material=material, seal__state="sound", plate__outline="follows")
    assert after.disturbed < before.disturbed - 0.1, "the package itself is cleared"
    assert after.married >= before.married - 0.02, "the case is not"
