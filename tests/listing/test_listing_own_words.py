"""Words of the user's own, laid over the shipped ones, and what is said of mistakes in them."""

from pathlib import Path

import pytest

from appraise.knowledge import Knowledge, load
from appraise.listing.first_look import understand
from appraise.listing.reader import read


def laid_over(folder: Path, text: str) -> Knowledge:
    (folder / "own.yaml").write_text(text, encoding="utf-8")
    return load(overlay=folder)


def test_a_nickname_of_ones_own_is_understood(tmp_path: Path) -> None:
    own = laid_over(
        tmp_path,
        "terms:\n  process-own:\n    field: process\n    value: ambrotype\n"
        "    synonyms: [sparkler]\n    brief: [spark]\n    basis: practice\n",
    )
    assert not [problem for problem in own.problems if "own" in problem.where]
    assert read("Sixth plate sparkler of a lady.", own).said("process") == ("ambrotype",)
    assert understand("sixth spark 40", own).piece.called == "ambrotype"


def test_a_phrase_of_ones_own_raises_its_flag(tmp_path: Path) -> None:
    own = laid_over(
        tmp_path,
        "phrases:\n  own:\n    flag: puff-words\n    severity: note\n    says: cheap talk\n"
        "    why: It says nothing.\n    synonyms: [eye candy]\n    basis: judgement\n",
    )
    found = read("Sixth plate ambrotype, eye candy!", own).flags
    assert [flag.says for flag in found if flag.id == "puff-words"] == ["cheap talk"]


MISTAKES = [
    ("field: defect, value: hinge.tap 1", "'hinge.tap' is not a check", "hinge.tape"),
    ("field: defect, value: hinge.tape 9", "'9' is not an answer of hinge.tape", ""),
    ("field: defect, value: hinge.tape", "'hinge.tape' is not a check and its answer", ""),
    ("field: process, value: ambrotipe", "'ambrotipe' is not a process", "ambrotype"),
    ("field: format, value: sixt", "'sixt' is not a format", "sixth"),
    ("field: case.material, value: lether", "'lether' is not a case.material", ""),
    ("field: kind, value: box", "'box' is not known here", ""),
    ("field: proces, value: ambrotype", "'proces' is not known here", "process"),
    ("field: count, value: few", "'few' is not a number", ""),
]


@pytest.fixture(scope="module")
def mistaken(tmp_path_factory: pytest.TempPathFactory) -> Knowledge:
    """One file with every mistake, each a row with a word of its own."""
    rows = "".join(
        f"  own{n}: {{{row}, synonyms: [{word(n)}], basis: practice}}\n"
        for n, (row, _, _) in enumerate(MISTAKES)
    )
    return laid_over(tmp_path_factory.mktemp("own"), f"terms:\n{rows}")


def word(number: int) -> str:
    return f"zzyz{'abcdefghij'[number]}"


@pytest.mark.parametrize("number", range(len(MISTAKES)))
def test_a_mistake_is_placed_and_the_rest_still_works(mistaken: Knowledge, number: int) -> None:
    _, what, mend = MISTAKES[number]
    (problem,) = [one for one in mistaken.problems if f"terms.own{number}." in f"{one.where}."]
    assert problem.what == what
    assert mend in problem.mend
    own = word(number)
    found = read(f"Sixth plate ambrotype, {own}, in a leather case. {own.title()} hinge.", mistaken)
    assert found.said("process")[0] in ("ambrotype", "ambrotipe")
    understand(f"sixth ambro {own} 40", mistaken)


def test_a_pair_needs_a_part_and_a_state(tmp_path: Path) -> None:
    own = laid_over(
        tmp_path,
        "terms:\n  own: {field: defect, value: hinge.tape 1, synonyms: ['<hinge>'], "
        "basis: practice}\n  own2: {field: defect, value: hinge.tape 1, "
        "synonyms: ['<hinges> <taped>'], basis: practice}\n",
    )
    told = [problem.what for problem in own.problems if "own" in problem.where]
    assert told == ["'<hinge>' is not <part> <state>", "'hinges' is not a part"]
