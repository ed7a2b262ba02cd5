"""Flags, gaps and questions."""

import pytest
from every import every
from listing.listingkit import flags, knowledge, listing

from appraise.knowledge.records import KINDS
from appraise.listing.gaps import MOST

START = "Sixth plate ambrotype in a leather case. "
RAISED = {
    "attribution-claim": START + "Signed by A. Colby.",
    "dates-disagree": "Daguerreotype of 1848, a tintype of 1863.",
    "claims-disagree": "Title: sixth plate daguerreotype. It is a tintype in a leather case.",
    "size-disagrees": "Quarter plate ambrotype, the plate measures 2 x 2 1/2 in, leather case.",
    "date-before-process": "Sixth plate tintype dated 1849.",
    "date-before-case": "Sixth plate daguerreotype in a union case, dated 1849.",
    "date-after-process": "Sixth plate daguerreotype, about 1895.",
    "misnamed-material": "Sixth plate ambrotype in a gutta percha case.",
    "misread-term": "Ambrotype, sixth plate. Union case, named after the Union army.",
    "reproduction-words": START + "The mat is a reproduction.",
    "swapped-words": START + "It is not original to the case.",
    "opened-words": START + "I have opened the package to look.",
    "cleaned-words": START + "The plate was cleaned.",
    "tape-words": START + "The hinge is taped.",
    "as-is-words": START + "Sold as is.",
    "identity-claim": START + "Said to be a famous outlaw.",
    "military-claim": START + "It shows a soldier.",
    "post-mortem-claim": START + "Post mortem?",
    "occupational-claim": START + "A blacksmith with his hammer.",
    "untouched-words": START + "Attic fresh, never opened.",
    "copy-words": START + "It is a copy of an older daguerreotype.",
    "stock-picture": START + "Stock photo shown.",
    "no-size": "Ambrotype in a leather case.",
    "no-process": "Old photograph in a sixth plate leather case.",
    "no-photograph": "Gentleman under a brass mat in a small leather case with red velvet.",
    "not-read": START + "Das Glas ist gebrochen und der Deckel hat einen Riss.",
    "puff-words": START + "Extremely rare!",
}


@every(("flag", "text"), RAISED.items())
def test_each_flag_is_raised_with_a_reason_and_its_words(flag: str, text: str) -> None:
    found = {one.id: one for one in listing(text).flags}
    assert flag in found
    one = found[flag]
    assert one.says
    assert one.why
    assert one.severity in ("note", "ask", "warn")
    assert "{" not in one.says + one.question
    if flag not in ("no-size", "no-process", "no-photograph"):
        assert one.start is not None
        assert one.end is not None
        assert text[one.start : one.end].strip()


def test_every_flag_of_the_knowledge_is_tried_above() -> None:
    assert {phrase.flag for phrase in knowledge().phrases.values()} == set(RAISED)


def test_a_plain_honest_listing_raises_nothing() -> None:
    text = (
        "Sixth plate ambrotype of a woman, in a leather case, hinge split. The plate measures "
        "2 3/4 x 3 1/4 in. $45, postage $5. Returns within 14 days."
    )
    assert flags(text) == set()


@pytest.mark.parametrize(
    ("text", "flag"),
    [
        ("Sixth plate ambrotype of a newly married couple, leather case.", "swapped-words"),
        ("Sixth plate ambrotype, leather case. Opening bid $5.", "opened-words"),
        ("Sixth plate ambrotype, thermoplastic case, Union soldier.", "misread-term"),
        ("Union cases have nothing to do with the Union army. Sixth plate dag.", "misread-term"),
        ("Sixth plate ambrotype, thermoplastic, often called gutta percha.", "misnamed-material"),
        ("Magic lantern slide, tape binding complete, 82 x 82 mm", "tape-words"),
        ("Sixth plate: ambrotype or tintype, I am not sure which.", "claims-disagree"),
        ("Sixth plate ambrotype of about 1856 to 1860, leather case.", "date-before-process"),
    ],
)
def test_look_alikes_raise_nothing(text: str, flag: str) -> None:
    assert flag not in flags(text)


def test_graver_flags_come_first() -> None:
    order = {"warn": 0, "ask": 1, "note": 2}
    found = [flag.severity for flag in listing(" ".join(RAISED.values())).flags]
    assert found == sorted(found, key=order.get)


def test_questions_are_polite_ready_and_few() -> None:
    questions = listing("Old photo of a man in a union case, must see!").questions
    assert 3 <= len(questions) <= MOST
    assert len(set(questions)) == len(questions)
    for question in questions:
        assert question[0].isupper()
        assert "?" in question or question.endswith(".")
        assert "!" not in question


def test_what_is_told_is_not_asked() -> None:
    bare = listing("Sixth plate ambrotype in a leather case.")
    assert {"hinge.split", "glass.crack", "seal.state", "asking", "postage"} <= set(bare.missing)
    told = listing(
        "Sixth plate ambrotype in a leather case, hinge split, no cracks in the glass, the seal "
        "is torn, $40 plus $5 shipping."
    )
    assert not {"hinge.split", "glass.crack", "seal.state", "asking", "postage"} & set(told.missing)


def test_gaps_depend_on_the_kind() -> None:
    card = listing("Cabinet card of a lady")
    assert "hinge.split" not in card.missing
    assert "mount.back" in card.missing
    slide = listing("Magic lantern slide of a church")
    assert "slide.glass" in slide.missing


def test_no_words_of_the_tool_say_authentic_or_fake() -> None:
    known = knowledge()
    texts = [t for p in known.phrases.values() for t in (p.says, p.why, p.question)]
    texts += [t for g in known.gaps.values() for t in (g.says, g.question)]
    for text in texts:
        assert not {"authentic", "fake", "genuine", "forgery"} & set(text.lower().split())


def test_the_piece_holds_everything_as_the_seller_says() -> None:
    found = listing(
        "English quarter plate ruby ambrotype of a soldier in a union case, about 1860, chip on "
        'the rim. A note reads "Tom, 1860". Case 4 3/4 x 3 3/4 x 1 in. £120',
        "GBP",
    )
    piece = found.piece
    assert (piece.kind, piece.region, piece.subject) == ("cased", "gb", "soldier")
    assert piece.named_format == "quarter"
    assert str(piece.asking) == "120.00 GBP"
    assert list(piece.measured) == ["case"]
    assert piece.found("claim.process") == "ambrotype"
    assert piece.found("claim.material") == "thermoplastic"
    assert piece.found("case.chip") == "1"
    assert not piece.found("case.material")
    assert {finding.known for finding in piece.findings.values()} == {"seller"}
    assert piece.inscription is not None
    assert piece.inscription.text == "Tom, 1860 (seller says)"


def test_kinds_of_gaps_are_kinds() -> None:
    assert {kind for gap in knowledge().gaps.values() for kind in gap.kinds} <= set(KINDS)
