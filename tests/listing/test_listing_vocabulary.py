"""The shipped vocabulary: what every row refers to exists, and patterns say what they should."""

import pytest
from every import every
from listing.listingkit import knowledge, listing

from appraise.knowledge.records import CHANNELS, KINDS, REGIONS
from appraise.listing.measured import LABELS
from appraise.listing.patterns import MOST, Node, spelt_out
from appraise.listing.reader import read
from appraise.listing.records import FIELDS as CLAIMS
from appraise.listing.sitters import ORDER
from appraise.listing.vocabulary import vocabulary
from appraise.records.entry import RECORDS
from appraise.records.piece_words import SUBJECTS

FIVE = """Antique sixth plate ambrotype of a girl with a basket, in a full union case.
The image is clear with light spots near the lower edge. One chip at a corner of the case.
The hinge has been taped. Asking $65 plus shipping $8.50, returns accepted within 14 days."""
TERMS = list(knowledge().terms.values())


def known_values(field: str) -> set[str] | None:
    known = knowledge()
    families = {process.family for process in known.processes.values()}
    return {
        "process": {*known.processes, *families},
        "format": set(known.formats),
        "case.material": set(known.housings),
        "kind": set(KINDS),
        "subject": set(SUBJECTS),
        "shows": set(SUBJECTS),
        "region": set(REGIONS),
        "channel": set(CHANNELS),
        "measure": set(LABELS),
        "record": {*RECORDS, "pass"},
        "deal": {"asked", "offered", "paid", "postage"},
        "money": {"asking", "opening", "post", "free-post", "postpaid", "nothing", "aside"},
        "cue": {"inscription", "mark", "by", "maker", "taker"},
        "photo": {"yes", "no", "akin", "metal", "glass"},
        "ware": set(KINDS),
        "tongue": {"German", "French", "Dutch", "Italian", "Spanish"},
        "tongue-state": {"German", "French", "Dutch", "Italian", "Spanish"},
        "title": {"role", "rank", "hedge"},
        "scope": {
            *("deny", "plain", "compare", "copied", "hearsay", "general", "own", "aside"),
            *("unsure", "kind", "holds", "seems", "topic"),
        },
    }.get(field)


def test_nothing_is_wrong_with_the_shipped_words() -> None:
    topics = ("terms", "phrases", "gaps")
    assert [
        p for p in knowledge().problems if p.where.startswith(topics) or "terms" in p.where
    ] == []


@every("term", TERMS, ids=lambda term: term.id)
def test_a_term_stands_for_something_that_exists(term) -> None:
    values = known_values(term.field)
    if values is not None:
        assert term.value in values
    if term.field in ("defect", "check"):
        check, answer = term.value.split()
        assert knowledge().checks[check].index(answer) >= 0
        assert bool(knowledge().checks[check].defect) == (term.field == "defect")
    assert term.kind in ("", *KINDS)
    for check, answer in term.also.items():
        assert knowledge().checks[check].index(answer) >= 0
    families = {process.family for process in knowledge().processes.values()}
    assert set(term.only) <= {*families, *knowledge().housings}


@every("term", TERMS, ids=lambda term: term.id)
def test_patterns_are_words_and_gaps(term) -> None:
    for pattern in (*term.synonyms, *term.brief):
        if pattern.startswith("<"):
            parts, states = pattern.split()
            assert parts.startswith("<")
            assert parts.endswith(">")
            assert states.startswith("<")
            assert states.endswith(">")
            continue
        assert pattern == pattern.lower() or term.field in ("currency",)
        for row in spelt_out(pattern):
            assert row
            assert not {row[0], row[-1]} & set(MOST), pattern


def test_pairs_name_parts_and_states_that_exist() -> None:
    parts = {term.value for term in TERMS if term.field == "part"} | {"", "!", "frame", "other"}
    states = {term.value for term in TERMS if term.field == "state"}
    for part, state in vocabulary(knowledge()).pairs:
        assert part in parts
        assert state in states


def test_gaps_are_checks_or_fields_and_so_is_what_answers_them() -> None:
    known = knowledge()
    flags = {phrase.flag for phrase in known.phrases.values()}
    for gap in known.gaps.values():
        assert gap.id in known.checks or gap.id in CLAIMS
        for told in gap.told:
            assert told in known.checks or told in CLAIMS or told in flags
        if gap.id in known.checks:
            assert set(gap.kinds) & set(known.checks[gap.id].kinds)


def test_every_subject_has_its_place_in_the_order() -> None:
    assert set(ORDER) == set(SUBJECTS)


@pytest.mark.parametrize(
    "word", ["place", "office", "sixty", "price", "grass", "shall", "listing", "eighty", "cloud"]
)
def test_everyday_words_are_not_taken_for_the_trades(word: str) -> None:
    forms = vocabulary(knowledge()).forms(word)
    assert all(likeness == 1 or form == word for form, likeness in forms)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("dagerreotype", "daguerreotype"),
        ("thermoplastik", "thermoplastic"),
        ("hingge", "hinge"),
        ("verdigriss", "verdigris"),
        ("reproducton", "reproduction"),
    ],
)
def test_slips_in_words_of_the_trade_are_mended(typed: str, meant: str) -> None:
    assert meant in {form for form, _ in vocabulary(knowledge()).forms(typed)}


FRAMES = {
    "card": "Cabinet card, albumen print, of a lady. ",
    "lantern-slide": "Magic lantern slide of a lady. ",
    "cyanotype": "Cyanotype of a lady, 4 x 5 in. ",
}
HOUSED = {
    "thermoplastic": "union case",
    "frame": "wooden frame",
    "sleeve": "paper sleeve",
    "locket": "brass locket",
    "shell": "mother of pearl case",
}
NAMES_A_PART = ("slide.tape",)  # "binding tape" says nothing of its state


def framed(check) -> str:
    """A listing of a piece of which the damage is asked."""
    if check.kinds[0] in FRAMES:
        return FRAMES[check.kinds[0]]
    housings = [word for word in check.only if word in knowledge().housings]
    families = [word for word in check.only if word not in knowledge().housings]
    known = [HOUSED[word] for word in housings if word in HOUSED]
    case = known[0] if known else "leather case"
    return f"Sixth plate {families[0] if families else 'ambrotype'}, a lady, in a {case}. "


@every(
    "check",
    [c for c in knowledge().checks.values() if c.defect and c.id not in NAMES_A_PART],
    ids=lambda check: check.id,
)
def test_damage_is_found_by_its_own_name(check) -> None:
    name = check.defect.name
    found = listing(f"{framed(check)}{name[0].upper()}{name[1:]}.").said("defect")
    assert check.id in {value.split()[0] for value in found}


def test_a_first_text_lays_out_no_more_of_the_patterns_than_it_meets(monkeypatch):
    """The alternatives of the patterns multiply to some 600,000 places: a count, not a clock."""
    laid = []
    plain = Node.lay_out
    monkeypatch.setattr(
        Node, "lay_out", lambda node: (node.coming and laid.append(1)) or plain(node)
    )
    vocabulary.cache_clear()
    read(FIVE, knowledge(), "USD")
    assert 50 < len(laid) < 3000
    again = len(laid)
    read(FIVE, knowledge(), "USD")
    assert len(laid) == again
