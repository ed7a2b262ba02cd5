"""The user's own files: whatever they hold, one line says so and the shipped rows are there."""

import copy

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from thorough import tries

from appraise.base.places import shipped_data
from appraise.knowledge import load, loader

ROW = "cautions:\n  own:\n    text: Mind it.\n    basis: practice\n"
FAULTS = [
    ("tab", b"cautions:\n\town: {text: Mind it., basis: practice}\n", ":2: not readable as YAML",
     "Write spaces in place of the tab."),
    ("bytes", b"cautions:\n  own:\n    text: caf\xe9\n", ":3: the file is not UTF-8 text",
     "Save it as UTF-8."),
    ("utf-16", ROW.encode("utf-16"), ":1: the file is not UTF-8 text", "Save it as UTF-8."),
    ("bell", b"cautions:\n  own:\n    text: \x07\n", ":3: holds a control character",
     "Remove it, or save the file as UTF-8 text."),
    ("bomb", b"a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", ":1: anchors and aliases are not",
     "Write it out."),
    ("alias", b"cautions: *own\n", ":1: anchors and aliases are not", "Write it out."),
    ("tag", b"cautions: !!python/object:os.system {}\n", ":1: tags are not used here",
     "Remove the '!'."),
    ("list", b"- cautions\n", ": key: value pairs are needed at the top of the file", ""),
    ("text", b"just some words\n", ": key: value pairs are needed at the top of the file", ""),
    ("empty", b"", ": the file is empty", ""),
    ("twin key", ROW.encode() + b"    text: Again.\n", ":5: 'text' is written twice",
     "Delete one of them."),
    ("twin row", ROW.encode() + ROW.encode().split(b"\n", 1)[1], ":5: 'own' is written twice",
     "Delete one of them."),
    ("topic of text", b"cautions: none\n", ":1 cautions: key: value pairs are needed here", ""),
    ("row of text", b"cautions:\n  own: none\n", ":2 cautions.own: key: value pairs", ""),
    ("answers of text", b"checks:\n  mat.shape:\n    ask: Which?\n    answers: [a, b]\n",
     "own.yaml:2 checks.mat.shape: ", ""),
    ("quote", b"cautions:\n  own:\n    text: 'Mind it.\n", "not readable as YAML",
     "Check the indents, quotes and brackets there."),
    ("nested", b"cautions: " + b"[ " * 100_000, ":1: not readable as YAML: exceeded maximum", ""),
]  # fmt: skip


@pytest.mark.parametrize(
    ("data", "told", "mend"), [one[1:] for one in FAULTS], ids=[one[0] for one in FAULTS]
)
def test_a_file_that_cannot_be_used_is_one_line_and_all_else_is_there(tmp_path, data, told, mend):
    (tmp_path / "own.yaml").write_bytes(data)
    (tmp_path / "sound.yaml").write_text(ROW.replace("own", "sound"), encoding="utf-8")
    found = load(overlay=tmp_path)
    line = next(str(one) for one in found.problems if "own.yaml" in one.where)
    assert line.startswith(f"{tmp_path.name}/own.yaml:")
    assert told in line
    assert line.endswith(mend)
    assert "\n" not in line
    assert [one.id for one in found.own] == ["sound"]
    assert found.checks["mat.shape"] == SHIPPED.checks["mat.shape"]
    assert set(SHIPPED.cautions) < set(found.cautions)


SHIPPED = load()


def test_a_directory_named_like_a_file_and_a_file_in_place_of_the_directory(tmp_path):
    (tmp_path / "rows" / "own.yaml").mkdir(parents=True)
    (tmp_path / "knowledge").write_text(ROW, encoding="utf-8")
    assert str(load(overlay=tmp_path / "rows").problems[0]).startswith("rows/own.yaml: is not a")
    assert str(load(overlay=tmp_path / "knowledge").problems[0]).startswith("knowledge: is not a")


def test_a_fault_of_ours_in_ones_own_rows_leaves_the_shipped_ones(tmp_path, monkeypatch):
    def broken(row, *more):
        if "own.yaml" in row.file:
            raise ZeroDivisionError("of ours")
        return read_caution(row, *more)

    read_caution = loader.read_caution
    monkeypatch.setattr(loader, "read_caution", broken)
    (tmp_path / "own.yaml").write_text(ROW, encoding="utf-8")
    found = load(overlay=tmp_path)
    assert found.checks == SHIPPED.checks
    assert [str(one) for one in found.problems] == [
        f"{tmp_path.name}: these files cannot be used (ZeroDivisionError: of ours). "
        "Move the one changed last elsewhere."
    ]


BASE = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
DOCUMENTS = [
    yaml.load(path.read_text(encoding="utf-8"), Loader=BASE)
    for path in sorted(shipped_data().rglob("*.yaml"))
]
ODD = ["", "x", "-1", "nan", "1e400", "x3", "1840 1830 1850 1860 low", "(", "<a|", "a .. b", "\x07",
       [], {}, ["a"], [[]], {"any": {"any": "1"}}]  # fmt: skip


def held(node):
    """Every place of a document: its holder and key."""
    keys = node if isinstance(node, dict) else range(len(node)) if isinstance(node, list) else ()
    for key in keys:
        yield node, key
        yield from held(node[key])


@st.composite
def spoilt_rows(draw):
    """Some shipped rows of one file with a few values put out of order, and a stray character."""
    document = draw(st.sampled_from(DOCUMENTS))
    topic = draw(st.sampled_from(sorted(t for t in document if isinstance(document[t], dict))))
    keys = draw(st.lists(st.sampled_from(sorted(document[topic])), min_size=1, max_size=6))
    made = {topic: {key: copy.deepcopy(document[topic][key]) for key in keys}}
    for _ in range(draw(st.integers(1, 4))):
        places = list(held(made))
        if not places:
            break
        holder, key = draw(st.sampled_from(places))
        if isinstance(holder, dict) and draw(st.booleans()):
            holder[draw(st.sampled_from([o for o in ODD if isinstance(o, str)]))] = holder.pop(key)
        else:
            holder[key] = copy.deepcopy(draw(st.sampled_from(ODD)))
    text = yaml.dump(made, allow_unicode=True, sort_keys=False)
    at = draw(st.integers(0, len(text)))
    stray = draw(st.sampled_from(["", "", "", "\t", "\n", "{", "[", "&a ", "*a", "!x ", "'", "- "]))
    return (text[:at] + stray + text[at:]).encode()


HOSTILE = (
    st.binary(max_size=200)
    | st.text(max_size=200).map(lambda text: text.encode("utf-8", "surrogatepass"))
    | st.text("checks: mat.shape\n\t-[]{}'\"&*!|>#?%@`", max_size=200).map(str.encode)
    | spoilt_rows()
)


@settings(tries(10), suppress_health_check=list(HealthCheck))
@given(st.lists(HOSTILE, min_size=6, max_size=6))
def test_nothing_in_ones_own_files_raises_or_takes_the_shipped_rows_away(tmp_path_factory, files):
    place = tmp_path_factory.mktemp("own")
    for number, data in enumerate(files):
        (place / f"{number}.yaml").write_bytes(data)
    found = load(overlay=place)
    told = [str(one) for one in found.problems]
    assert not [line for line in told if "\n" in line or "cannot be used (" in line]
    assert set(SHIPPED.checks) <= set(found.checks)
    assert set(SHIPPED.terms) <= set(found.terms)
