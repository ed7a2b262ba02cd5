"""YAML with places: typed by us, refused where it could mean something else."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraise.base.errors import InputError
from appraise.base.yamls import compose, read


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "f.yaml: the file is empty"),
        (
            "a: 1\nb: \ud800",
            "f.yaml:2: holds a control character. Remove it, or save the file as UTF-8 text.",
        ),
        ("- 1", "f.yaml: key: value pairs are needed at the top of the file"),
        ("a: 1\na: 2", "f.yaml:2: 'a' is written twice. Delete one of them."),
        ("a: &x 1\nb: *x", "f.yaml:1: anchors and aliases are not used here. Write it out."),
        ("a: !!int 1", "f.yaml:1: tags are not used here. Remove the '!'."),
        ("a: 1\n---\nb: 2", "f.yaml:2: one file holds one document"),
        (
            "a: [",
            "f.yaml:2: not readable as YAML: did not find expected node content. "
            "Check the indents, quotes and brackets there.",
        ),
        (
            "a: 1\nb:\n\tc: 2",
            "f.yaml:3: not readable as YAML: found character that cannot start any token. "
            "Write spaces in place of the tab.",
        ),
        (
            "a: 1\nb: \x07",
            "f.yaml:2: holds a control character. Remove it, or save the file as UTF-8 text.",
        ),
        ("- " * 200, "f.yaml:1: nested too deeply to be one of ours"),
        ("? [a, b]\n: 1", "f.yaml:1: a key must be plain text"),
    ],
)
def test_refused(text, told):
    with pytest.raises(InputError) as caught:
        compose(text, "f.yaml")
    assert str(caught.value) == told


@pytest.mark.parametrize("text", ["[" * 5000, "{a: " * 5000, "a: \x00", "? " * 5000])
def test_hostile_files_give_one_line(text):
    with pytest.raises(InputError) as caught:
        compose(text, "f.yaml")
    assert "\n" not in str(caught.value)


def test_nothing_is_typed_for_us():
    row = compose("a: no\nb: 12:30\nc: 010\nd: 1856-05-31\ne: '!'", "f.yaml")
    assert [row.text(key) for key in row] == ["no", "12:30", "010", "1856-05-31", "!"]


def test_errors_name_file_line_and_dotted_key():
    row = compose("top:\n  number: many\n  word: sixht\n", "f.yaml").row("top")
    with pytest.raises(InputError, match=r"f\.yaml:2 top\.number: 'many' is not a number"):
        row.number("number")
    with pytest.raises(InputError, match=r"f\.yaml:3 top\.word: .* Did you mean 'sixth'\?"):
        row.choice("word", ("sixth", "ninth"))


def test_unknown_keys_offer_the_nearest():
    row = compose("titel: x\n", "f.yaml")
    row.text("title", "")
    with pytest.raises(InputError, match="Did you mean 'title'"):
        row.done()


def test_numbers_stay_in_range():
    row = compose("a: 1.5\nb: 1 2 3\nc: [1, 2]\n", "f.yaml")
    assert row.numbers("b") == (1.0, 2.0, 3.0)
    assert row.numbers("c") == (1.0, 2.0)
    with pytest.raises(InputError, match="outside 0 to 1"):
        row.number("a", low=0, high=1)


def test_missing_file_is_one_line(tmp_path):
    with pytest.raises(InputError, match="cannot be read: No such file"):
        read(tmp_path / "none.yaml")


def test_other_encodings_are_refused(tmp_path):
    path = tmp_path / "latin.yaml"
    path.write_bytes(b"a: 1\nb: caf\xe9\n")
    with pytest.raises(InputError, match=r"latin\.yaml:2: the file is not UTF-8 text\. Save it as"):
        read(path)


def outcome(text):
    """The refusal, or the empty string for a text that is read."""
    try:
        compose(text, "f.yaml")
    except InputError as error:
        return str(error)
    return ""


@given(st.text(max_size=400))
def test_any_text_is_read_or_refused_in_one_line(text):
    assert "\n" not in outcome(text)
