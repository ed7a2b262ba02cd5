"""What is denied, compared, reported or general claims nothing; admissions weigh."""

import pytest
from listing.listingkit import flags, listing, said


@pytest.mark.parametrize(
    "text",
    [
        "Sixth plate ambrotype. This is not a daguerreotype.",
        "Sixth plate ambrotype, unlike a daguerreotype it stays positive.",
        "Sixth plate ambrotype. My aunt said it was a daguerreotype.",
        "Sixth plate ambrotype. I was told it is a daguerreotype.",
        "Sixth plate ambrotype. Daguerreotypes were introduced in 1839 and made until 1860.",
        "Sixth plate ambrotype. See my other listings for a daguerreotype.",
        "Sixth plate ambrotype.\nKeywords: daguerreotype tintype CDV",
        "Sixth plate ambrotype rather than a daguerreotype.",
        "Sixth plate ambrotype, often mistaken for a daguerreotype.",
        "Sixth plate ambrotype, no daguerreotype.",
        "Sixth plate ambrotype, not to be confused with a daguerreotype!",
        "Sixth plate ambrotype; I also have a daguerreotype for sale.",
    ],
)
def test_only_the_process_of_the_piece_is_claimed(text: str) -> None:
    assert said(text, "process") == ("ambrotype",)
    assert "claims-disagree" not in flags(text)


@pytest.mark.parametrize("hedge", ["I think it is an", "probably an", "it looks like an"])
def test_a_hedged_claim_is_a_claim(hedge: str) -> None:
    assert said(f"Sixth plate in a case, {hedge} ambrotype.", "process") == ("ambrotype",)


@pytest.mark.parametrize(
    ("text", "claims"),
    [
        ("No cracks.", {"glass.crack 0", "plate.crack 0"}),
        ("No cracks in the glass.", {"glass.crack 0"}),
        ("The glass has no cracks or chips.", {"glass.crack 0"}),
        ("The glass is not cracked but the seal is broken.", {"glass.crack 0", "seal.broken 1"}),
        ("The clasp is not missing.", {"clasp.missing 0"}),
        ("There is no seal.", {"seal.broken 3"}),
        ("Without glass or preserver.", {"glass.missing 3", "preserver.missing 1"}),
        ("A crack in the glass.", {"glass.crack 2"}),
        ("The seal on the back of the case is torn.", {"seal.broken 1"}),
        ("A chip to one corner of the glass.", {"glass.crack 1"}),
        ("The spine of the case has split.", {"hinge.split 1"}),
        ("Badly cracked glass, missing hook.", {"glass.crack 3", "clasp.missing 2"}),
    ],
)
def test_damage_and_its_denial(text: str, claims: set[str]) -> None:
    found = set(said(f"Sixth plate ambrotype in a leather case. {text}", "defect"))
    assert found
    assert found <= claims


@pytest.mark.parametrize(
    ("text", "flag"),
    [
        ("This is NOT a reproduction.", "reproduction-words"),
        ("It has never been opened.", "opened-words"),
        ("It has not been cleaned.", "cleaned-words"),
        ("There is no tape on it.", "tape-words"),
        ("Not a soldier.", "military-claim"),
        ("I do not think it is post mortem.", "post-mortem-claim"),
    ],
)
def test_what_is_denied_raises_no_flag(text: str, flag: str) -> None:
    assert flag not in flags(f"Sixth plate ambrotype in a leather case. {text}")


def test_hearsay_of_a_famous_sitter_is_flagged_all_the_same() -> None:
    text = "Sixth plate ambrotype. My uncle always said that it is a famous actress."
    assert "identity-claim" in flags(text)


@pytest.mark.parametrize(
    ("text", "flag"),
    [
        ("The mat was replaced.", "swapped-words"),
        ("It is not original to the case.", "swapped-words"),
        ("I resealed it with tape.", "opened-words"),
    ],
)
def test_admissions_are_flagged(text: str, flag: str) -> None:
    assert flag in flags(f"Sixth plate ambrotype in a leather case. {text}")


def test_damage_that_is_told_is_against_interest_and_praise_is_not() -> None:
    found = listing(
        "Sixth plate ambrotype, the glass is cracked, no rust, hinge split, leather case"
    )
    bad = {claim.value for claim in found.claims if claim.against_interest}
    assert bad == {"glass.crack 2", "hinge.split 1"}
    assert found.piece.findings["glass.crack"].admitted
    assert found.piece.findings["glass.crack"].known == "seller"
    assert not found.piece.findings["claim.process"].admitted
