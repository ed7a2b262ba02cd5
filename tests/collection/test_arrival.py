"""What arrived against what was claimed, as a table of cases."""

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.collection.arrival import LITTLE, MUCH, NOT_TOLD, SOME, compare
from appraise.documents.arrival import LAW, Parcel, arrival_document, law, letter
from appraise.documents.writers.lines import text as text_of
from appraise.knowledge import load
from appraise.listing.reader import read
from appraise.records.entry import Entry
from appraise.records.owned import OwnedPiece
from appraise.records.piece_file import parse_piece

KNOWLEDGE = load()


def pair(claimed, found):
    """A piece as described online, and the same in hand."""
    online = "piece: 1\nchannel: online\n"
    return [
        parse_piece(f"{online}{text}", name, KNOWLEDGE)
        for name, text in (("claimed", claimed), ("found", found))
    ]


def seller(**answers):
    """Findings as the seller says them."""
    return finding("seller", answers)


def finding(known, answers):
    rows = [
        f"  {name.replace('_', '.', 1)}: {{answer: '{answer}', known: {known}}}\n"
        for name, answer in answers.items()
    ]
    return "findings:\n" + "".join(rows) if rows else ""


def hand(**answers):
    """Findings in hand."""
    return finding("in-hand", answers)


CASES = [
    # what was claimed, what is there, the difference's subject, how much it matters
    (seller(), hand(hinge_tape=1), "tape", LITTLE),
    (seller(), hand(hinge_tape=2), "tape", SOME),
    (seller(), hand(hinge_tape=3), "tape", MUCH),
    (seller(hinge_tape=1), hand(hinge_tape=2), "tape", SOME),
    (seller(), hand(glass_weep=1), "weep", MUCH),  # goes on by itself
    (seller(glass_weep=0), hand(glass_weep=1), "weep", MUCH),
    (seller(case_material="thermoplastic"), hand(case_material="resin"), "case", MUCH),
    (seller(claim_material="thermoplastic"), hand(case_material="resin"), "case", MUCH),
    (seller(claim_material="leather-wood"), hand(case_material="paper-wood"), "case", LITTLE),
    (seller(claim_material="leather-wood"), hand(case_material="thermoplastic"), "case", SOME),
    (seller(claim_process="daguerreotype"), hand(plate_magnet="yes"), "process", MUCH),
    ("measured: {plate: 70 x 83 mm}\n", "measured: {plate: 63 x 76 mm}\n", "size", SOME),
    ("format: sixth\n", "measured: {plate: 51 x 63 mm}\n", "format", MUCH),
]


@pytest.mark.parametrize(("claimed", "found", "subject", "weight"), CASES)
def test_what_is_not_as_described_is_told_with_its_weight(claimed, found, subject, weight):
    told = compare(*pair(claimed, found), KNOWLEDGE).differences
    mine = [one for one in told if subject in one.what.lower()]
    assert [one.weight for one in mine] == [weight], told
    assert mine[0].claimed != mine[0].found
    assert mine[0].why


SAME = [
    (seller(hinge_tape=2), hand(hinge_tape=2)),
    (seller(hinge_tape=3), hand(hinge_tape=1)),  # better than described
    (seller(hinge_tape=1), hand(hinge_tape="cannot-tell")),
    (seller(claim_process="ambrotype"), ""),
    (seller(claim_process="tintype"), hand(plate_magnet="yes")),
    (seller(claim_process="other"), hand(plate_magnet="yes")),
    (seller(claim_process="daguerreotype"), hand(hinge_tape=0)),  # says nothing of the process
    (seller(case_material="resin"), hand(case_material="resin")),
    ("measured: {plate: 70 x 83 mm}\n", "measured: {plate: 70.5 x 82 mm}\n"),
    ("measured: {plate: 70 x 83 mm}\n", "measured: {plate: 83 x 70 mm}\n"),  # turned
    ("format: sixth\n", "measured: {plate: 70 x 83 mm}\n"),
    ("format: sixth\n", ""),
]


@pytest.mark.parametrize(("claimed", "found"), SAME)
def test_what_is_as_described_or_better_is_no_difference(claimed, found):
    assert compare(*pair(claimed, found), KNOWLEDGE).differences == ()


def test_what_the_seller_says_of_the_piece_in_hand_is_no_finding():
    claimed, found = pair(seller(hinge_tape=0), seller(hinge_tape=3))
    arrival = compare(claimed, found, KNOWLEDGE)
    assert arrival.differences == ()
    assert arrival.open == ("hinge.tape",)


def test_what_was_seen_in_hand_before_is_no_claim():
    claimed, found = pair(hand(hinge_tape=0), hand(hinge_tape=2))
    (one,) = compare(claimed, found, KNOWLEDGE).differences
    assert one.claimed == NOT_TOLD


def test_agreed_and_open_questions_are_counted_apart():
    said = seller(hinge_tape=0, glass_weep=0, case_crack=0, claim_process="ambrotype")
    arrival = compare(*pair(said, hand(hinge_tape=0, glass_weep=1)), KNOWLEDGE)
    assert arrival.agreed == ("hinge.tape",)
    assert arrival.open == ("case.crack",)
    assert arrival.matters


def test_a_grade_that_falls_matters_much():
    """Poor from Good: a fault of the second step that is the worst of its side."""
    claimed, found = pair(seller(hinge_split=1), hand(hinge_split=3))
    (one,) = compare(claimed, found, KNOWLEDGE).differences
    assert one.weight == MUCH


def test_what_matters_most_stands_first():
    found = hand(hinge_tape=1, glass_weep=1, case_crack=2)
    told = compare(*pair("", found), KNOWLEDGE).differences
    order = [(MUCH, SOME, LITTLE).index(one.weight) for one in told]
    assert order == sorted(order)
    assert len(order) == 3


DAMAGE = ("hinge.tape", "hinge.split", "glass.weep", "glass.crack", "case.crack", "seal.bad-tape")


@given(st.dictionaries(st.sampled_from(DAMAGE), st.integers(0, 3)))
def test_a_piece_is_as_described_when_described_as_it_is(steps):
    claimed = finding("seller", steps)
    found = finding("in-hand", steps)
    assert compare(*pair(claimed, found), KNOWLEDGE).differences == ()


@given(st.sampled_from(DAMAGE), st.integers(0, 3), st.integers(0, 3))
def test_only_what_is_worse_than_described_is_told(name, said, there):
    claimed, found = finding("seller", {name: said}), finding("in-hand", {name: there})
    told = compare(*pair(claimed, found), KNOWLEDGE).differences
    assert bool(told) == (there > said)


def test_a_process_is_told_by_what_was_seen_and_by_no_percentage():
    claimed, found = pair(seller(claim_process="daguerreotype"), hand(plate_mirror="stays"))
    (one,) = [
        each for each in compare(claimed, found, KNOWLEDGE).differences if each.what == "process"
    ]
    assert "%" not in one.found
    assert one.found.startswith("ambrotype (")
    says = KNOWLEDGE.checks["plate.mirror"]
    assert says.told(says.index("stays")).lower() in one.found.lower()


def test_claims_that_nothing_in_hand_settles_stay_open():
    said = seller(claim_process="daguerreotype", claim_opened="closed", claim_material="resin")
    said = f"format: sixth\nmeasured: {{plate: 70 x 83 mm}}\n{said}"
    arrival = compare(*pair(said, hand(hinge_tape=0)), KNOWLEDGE)
    assert arrival.open == ("claim.process", "claim.material", "claim.opened", "measured.plate")
    assert set(arrival.stated) == set(arrival.open)
    seen = hand(plate_mirror="flips", case_material="resin", seal_state="sound")
    found = f"measured: {{plate: 70 x 83 mm}}\n{seen}"
    assert compare(*pair(said, found), KNOWLEDGE).open == ()


def test_a_named_format_is_open_until_something_is_measured():
    assert compare(*pair("format: sixth\n", hand(hinge_tape=0)), KNOWLEDGE).open == (
        "measured.format",
    )


TEXT = (
    "Sixth plate daguerreotype of a lady with gilt brooch, original seal, in leather case, "
    "clean glass"
)


def listed_parcel(found, region="unknown", day=dt.date(2026, 11, 7)):
    """A piece that was bought by a seller's text, and the same in hand."""
    claimed = read(TEXT, KNOWLEDGE, "USD").piece
    _, seen = pair("", found)
    entry = Entry("bought", day, title=claimed.title, channel="online")
    kept = OwnedPiece(title=claimed.title)
    return Parcel("1", kept, entry, compare(claimed, seen, KNOWLEDGE), day, region)


def test_the_letter_quotes_the_sellers_own_words():
    parcel = listed_parcel(hand(plate_mirror="stays", case_material="resin"))
    told = " ".join(letter(parcel, KNOWLEDGE).split())
    assert 'in your words "daguerreotype"' in told
    assert 'in your words "leather case"' in told
    assert "brooch" not in told.split("description:")[1]
    assert "%" not in told


def test_what_no_seller_said_is_not_quoted():
    claimed, found = pair(finding("photo", {"case_material": "leather-wood"}),
                          hand(case_material="resin"))  # fmt: skip
    (one,) = compare(claimed, found, KNOWLEDGE).differences
    assert one.about == ""


@pytest.mark.parametrize(("region", "first"), [("us", "US:"), ("gb", "UK:"), ("eu", "EU and UK:")])
def test_only_the_law_of_ones_own_region_is_told(region, first):
    rows = law(listed_parcel(hand(case_material="resin"), region), KNOWLEDGE)
    assert rows[0].startswith(first)
    assert len(rows) == sum(region in regions for regions in LAW.values())


def test_what_is_not_checked_yet_names_process_size_and_seal():
    text = "\n".join(lines_of(listed_parcel(hand(hinge_tape=3))))
    for words in ("process: described as daguerreotype", "original seal: described as",
                  "format: described as sixth"):  # fmt: skip
        assert words in " ".join(text.split())


def lines_of(parcel):
    return text_of(arrival_document(parcel, KNOWLEDGE)).splitlines()


def test_the_letter_says_what_a_photo_showed_and_what_was_described():
    claimed, found = pair(finding("photo", {"mat_shape": "octagon"}), hand(mat_shape="oval"))
    outcome = compare(claimed, found, KNOWLEDGE)
    (one,) = outcome.differences
    assert one.weight == MUCH
    kept = OwnedPiece(title="a piece")
    entry = Entry("bought", dt.date(2026, 11, 7), title="a piece", channel="online")
    told = letter(Parcel("1", kept, entry, outcome, dt.date(2026, 11, 7)), KNOWLEDGE)
    assert "?." not in told
    assert "Shown in the photos:" in " ".join(told.split())


@pytest.mark.parametrize(
    "note", ["14 days to return it", "Returns accepted within 30 days", "return: 14 days"]
)
def test_a_return_deadline_that_is_told_in_words_is_offered(note):
    parcel = listed_parcel(hand(hinge_tape=3))
    noted = replace(parcel, entry=replace(parcel.entry, note=note))
    days = "30" if "30" in note else "14"
    assert f"says {days} days" in " ".join("\n".join(lines_of(noted)).split())
    assert "says" not in "\n".join(lines_of(parcel)).split("Press e")[0]


def test_damage_in_the_post_is_spoken_of():
    assert "packing" in "\n".join(lines_of(listed_parcel(hand(hinge_tape=3))))
