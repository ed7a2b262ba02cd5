"""What the loader says of the keys of a row is what it asks for, no more and no less."""

import inspect

import pytest
import shipped

from appraise.base.yamls import Row
from appraise.cli.main import run
from appraise.knowledge.keys import KEYS

READERS = {
    "read_source": "sources", "read_part": "parts", "read_process": "processes",
    "read_housing": "housings", "read_format": "formats", "read_offset": "offsets",
    "read_check": "checks", "_answer": "answers", "read_defect": "defects",
    "read_caution": "cautions", "read_never": "never", "read_care": "care", "read_spare": "spares",
    "read_material": "materials", "read_fitting": "fitting", "read_plain": "plain",
    "read_record": "record", "read_term": "terms", "read_phrase": "phrases", "read_gap": "gaps",
    "read_sheet": "sheets",
}  # fmt: skip
"""The function of the loader that reads a row of each topic."""


@pytest.fixture(scope="module")
def asked():
    """By topic, the keys that the loader asked for while it read what ships."""
    found, done = {topic: set() for topic in KEYS}, Row.done

    def noted(row, known=()):
        reader = inspect.currentframe().f_back.f_code.co_name
        if reader in READERS:
            found[READERS[reader]] |= {*row._asked, *known}
        return done(row, known)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Row, "done", noted)
        shipped.LOAD()
    return found


@pytest.mark.parametrize("topic", KEYS)
def test_every_key_that_is_read_is_explained_and_no_other(asked, topic):
    assert asked[topic], "no row of this topic was read"
    # worth is one key with three numbers under it; their names are the row's own
    nested = {"image", "housing", "bond"} if topic == "housings" else set()
    assert asked[topic] - nested == set(KEYS[topic])


def test_a_check_is_shown_as_it_stands(capsys):
    assert run(["knowledge", "fields", "mat.shape"]) == 0
    told = capsys.readouterr().out
    assert "What shape is" in told
    assert "answers: each with" in told
    assert "the question, as a person reads it" in told


def test_a_row_of_ones_own_is_shown_from_its_file(tmp_path, capsys):
    own = tmp_path / "knowledge"
    own.mkdir(parents=True)
    (own / "mine.yaml").write_text(
        "checks:\n  pad.scent:\n    ask: Does the pad smell of camphor?\n    how: Do not put your "
        "nose to it.\n    seconds: 2\n    risk: none\n    misleads: Cupboards do.\n"
        "    basis: judgement\n    answers: {yes: it does, no: it does not}\n"
        "    belonging: {yes: {together: .1, any: x2}}\n",
        encoding="utf-8",
    )
    assert run(["--home", str(tmp_path), "knowledge", "fields", "pad.scent"]) == 0
    assert "camphor" in capsys.readouterr().out


@pytest.mark.parametrize("name", ["mat.shap", "check", ""])
def test_what_is_neither_a_topic_nor_a_check_is_one_line(name, capsys):
    assert run(["knowledge", "fields", name]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert len(told.err.strip().splitlines()) == 1
