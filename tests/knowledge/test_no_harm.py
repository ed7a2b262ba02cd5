"""No text of the knowledge tells anyone to do a piece harm."""

import re

import pytest
from conditionkit import DEFECTS, KNOWLEDGE, defect
from every import every

VERBS = (
    "open|unseal|wipe|wet|wash|soak|heat|warm|scratch|prise|pry|peel|polish|dip|glue|brush|dust|rub|"
    "bend|flex|press|scrape|drill|burn|clean|dampen|moisten|sand"
)
TOLD = re.compile(rf"(?:^|, |\b(?:and|or|then|to|may|can|should) )({VERBS})\b(?! nothing)")
DENIED = re.compile(r"\b(no|not|never|nothing|nobody|without|wary|conservator)\b")
SPARED = {  # what is told, and why it harms nothing
    "open the case flat": "its lid, on a table",
    "wash your hands": "skin, not the piece",
}


def sentences(text: str) -> list[str]:
    return [part.strip().lower() for part in re.split(r"[.;:]", text) if part.strip()]


def harmful(text: str) -> list[str]:
    """Sentences that tell one to do one of `VERBS`, with no denial or conservator before it."""
    found = []
    for sentence in sentences(text):
        for told in TOLD.finditer(sentence):
            spared = any(sentence[told.start(1) :].startswith(words) for words in SPARED)
            if not spared and not DENIED.search(sentence[: told.start(1)]):
                found.append(sentence)
    return found


def guidance() -> list[tuple[str, str]]:
    texts = [(name, check.how) for name, check in KNOWLEDGE.checks.items()]
    texts += [(name, defect(name).do) for name in DEFECTS]
    texts += [(name, row.text) for name, row in KNOWLEDGE.cautions.items()]
    texts += [(name, row.text) for name, row in KNOWLEDGE.care.items()]
    texts += [(name, row.instead) for name, row in KNOWLEDGE.never.items()]
    return texts


@every(("name", "text"), guidance())
def test_no_guidance_tells_anyone_to_harm_a_piece(name, text):
    assert harmful(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "Open the package and look.",
        "Hold it to the light; wipe the glass.",
        "Take a cloth and wet it",
        "Lift the mat, scratch its edge",
    ],
)
def test_the_word_test_notices_harm(text):
    assert harmful(text)
