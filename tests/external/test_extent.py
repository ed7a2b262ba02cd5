"""How many checks against published facts there are, and that none of their numbers is left out.

Counted are those of the trade's knowledge; statistics, strings and bidding are counted apart.
"""

import re
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import pytest

HERE = Path(__file__).parent
FEWEST = {  # by file, beside the 150 in all
    "test_worked_identifications.py": 34,
    "test_documented_dates.py": 25,
    "pieces/test_documented_pieces.py": 25,
    "test_condition_statements.py": 12,
    "test_condition_statements_prints_and_law.py": 10,
    "test_catalogue_records.py": 30,
    "test_confusable_pairs.py": 15,
    "test_published_sizes.py": 20,
    "test_dateable_features.py": 60,
    "test_marks_and_stamps.py": 25,
    "test_reproduction_statements.py": 30,
    "test_reproduction_statements_marriage.py": 40,
    "test_records.py": 25,
    "test_loose_kinds.py": 10,
    "test_sitter_arithmetic.py": 15,
    "test_edtf.py": 100,
}
NUMBERS = {  # in the notes that the checks answer to
    "test_condition_statements.py": ("T", 40, {5, 9, 13, 17, 19, 21, 25, 33, 38}),
    "test_worked_identifications.py": (
        "D", 39, {2, 11, 14, 17, 20, 24, 27, 35},
    ),
}  # fmt: skip


class _Counter:
    """Collects, and runs nothing."""

    def __init__(self) -> None:
        self.found: list[pytest.Item] = []

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        self.found = session.items


@pytest.fixture(scope="module")
def counts(request: pytest.FixtureRequest) -> Counter[str]:
    """How many checks each of the files holds, as this run collected them or by themselves."""
    found = _by_file(request.session.items)
    if not FEWEST.keys() <= found.keys():
        counter = _Counter()
        files = [str(HERE / name) for name in FEWEST]
        root = str(HERE.parent.parent)
        pytest.main(["--collect-only", "-qq", "--rootdir", root, *files], plugins=[counter])
        found = _by_file(counter.found)
    return found


def _by_file(items: Iterable[pytest.Item]) -> Counter[str]:
    """Cases by file; a test of many cases counts as many."""
    found: Counter[str] = Counter()
    for item in items:
        name = item.nodeid.partition("::")[0].rpartition("external/")[2]
        found[name] += getattr(getattr(item, "function", None), "cases", 1)
    return found


def test_there_are_150_checks_and_more(counts: Counter[str]) -> None:
    assert sum(counts[name] for name in FEWEST) >= 150


@pytest.mark.parametrize("name", FEWEST)
def test_no_part_of_them_is_thin(counts: Counter[str], name: str) -> None:
    assert counts[name] >= FEWEST[name]


@pytest.mark.parametrize("name", FEWEST)
def test_each_file_names_bodies_that_published_or_says_practice(name: str) -> None:
    text = (HERE / name).read_text(encoding="utf-8")
    assert re.search(
        r"Library|Museum|Institute|Society|Statutes|patent|Archives|Specification|index.yaml",
        text,
    )


@pytest.mark.parametrize("name", NUMBERS)
def test_every_number_in_use_is_tried(name: str) -> None:
    letter, last, unused = NUMBERS[name]
    text = "".join(path.read_text(encoding="utf-8") for path in HERE.glob("test_*.py"))
    text = text.replace((HERE / "test_extent.py").read_text(encoding="utf-8"), "")
    ranges = {
        number
        for first, end in re.findall(rf"\b{letter}(\d\d) to {letter}(\d\d)\b", text)
        for number in range(int(first), int(end) + 1)
        if int(end) - int(first) < last - 1
    }
    tried = ranges | {int(number) for number in re.findall(rf"\b{letter}(\d\d)\b", text)}
    assert set(range(1, last + 1)) - unused <= tried
