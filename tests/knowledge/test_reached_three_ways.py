"""What a buyer has to know is reached from a listing's words, from a typed line and by a question.

Each row is one thing for which the knowledge has data: a seller's text that tells it, a line that a
buyer types at a stall, and the finding that either makes. The third way is the list of questions
that is asked of such a piece: with the finding taken away its check is open. How sellers and buyers
word it is common practice; the texts are invented.
"""

from pathlib import Path

import pytest
import yaml
from every import every

from appraise.knowledge import load
from appraise.listing.first_look import understand
from appraise.listing.reader import read as read_listing
from appraise.reading.reading import read

KNOWLEDGE = load()
ROWS = yaml.safe_load((Path(__file__).parent / "reached.yaml").read_text("utf-8"))["rows"]


@every(("text", "line", "finding"), ROWS, ids=[row[2] for row in ROWS])
def test_a_listing_a_line_and_a_question_lead_to_it(text: str, line: str, finding: str) -> None:
    check, answer = finding.split()
    assert read_listing(text, KNOWLEDGE).piece.found(check) == answer
    typed = understand(line, KNOWLEDGE).piece
    assert typed.found(check) == answer
    open_checks = {one.id for one in read(typed.without_finding(check), KNOWLEDGE).checks}
    asked = KNOWLEDGE.checks[check]
    assert check in open_checks
    assert asked.risk != "conservator"
    assert typed.kind in asked.kinds


SUBJECTS = [
    ("Sixth plate tintype of a blacksmith", "sixth tintype blacksmith 90", "occupational"),
    ("Sixth plate tintype of a man holding a banjo", "sixth tintype man banjo 64", "music"),
    ("Cabinet card of a man with a baseball bat", "cabinet man baseball bat 64", "sport"),
    ("Sixth plate tintype of a man with a revolver", "sixth tintype man with revolver 64", "arms"),
    ("CDV of a man in Masonic regalia", "cdv man masonic regalia 11", "insignia"),
    ("CDV of an African American woman", "cdv african american woman 64", "of-colour"),
    ("Cabinet card of a school class", "cabinet school class 6", "school"),
    ("Cabinet card, boys of the orphanage", "cabinet boys orphanage 11", "institution"),
    ("Sixth plate tintype of a famous outlaw", "sixth tintype famous outlaw 900", "famous"),
]


@pytest.mark.parametrize(("text", "line", "subject"), SUBJECTS)
def test_subjects_are_reached(text: str, line: str, subject: str) -> None:
    assert subject in read_listing(text, KNOWLEDGE).piece.subjects
    assert subject in understand(line, KNOWLEDGE).piece.subjects


def test_a_case_with_its_package_only_or_nothing() -> None:
    """Words for it make an empty case; the question is asked of a cased piece."""
    for text in ("Empty daguerreotype case", "Daguerreotype case only, no image"):
        assert read_listing(text, KNOWLEDGE).piece.kind == "empty-case"
    assert understand("empty leather case 10", KNOWLEDGE).piece.kind == "empty-case"
    answers = {one.id for one in KNOWLEDGE.checks["piece.content"].answers}
    assert {"nothing", "package", "painting", "keepsake", "paper"} <= answers
