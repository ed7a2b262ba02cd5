"""YAML out and in: nothing lost, and every mistake placed."""

import pytest
from every import every
from hypothesis import given
from hypothesis import strategies as st
from store import logkit
from store.logkit import bought, usd
from thorough import tries

from appraise.base.errors import InputError
from appraise.exchange.csv_file import to_csv
from appraise.exchange.sheets import ReadAs, read_csv
from appraise.exchange.yaml_file import from_yaml, to_yaml
from appraise.records.entry import LoggedEstimate

ids = st.just("") | st.text("0123456789abcdef", min_size=16, max_size=16)
named = st.lists(st.builds(lambda entry, key: entry.named(key), logkit.entries, ids), max_size=3)


@tries(75)
@given(named)
def test_what_goes_out_comes_in_again(entries):
    assert from_yaml(to_yaml(entries), "log.yaml") == tuple(entries)


@pytest.mark.parametrize("name", ["note", "piece"])
@every(
    "text",
    ["a\n", "a\n\n", "\na", "\n", "\ta", " a ", "a\n b\n", "| x\n", "> x\n\n", "- a\n- b", "#a\n",
     "a: b\n", "no\n", "~", "=1+1\n", "'\n", '"', "\u2028", "\ufeffa\n"],
)  # fmt: skip
def test_every_end_of_a_text_is_kept(name, text):
    entries = (bought(**{name: text}),)
    assert from_yaml(to_yaml(entries), "log.yaml") == entries
    assert read_csv(to_csv(entries), "log.csv", ReadAs()).entries == entries


def test_it_reads_as_a_person_would_write_it():
    entry = bought(
        appeal=4,
        identified="no",
        belonging=(("together", 0.61), ("married", 0.34)),
        estimate=LoggedEstimate(usd("28"), usd("41"), usd("59")),
        piece="piece: 1\ntitle: no\n",
    ).named("0123456789abcdef")
    assert to_yaml([entry]) == (
        "log: 1\n"
        "entries:\n"
        "- record: bought\n"
        "  date: '2024-05-30'\n"
        "  id: 0123456789abcdef\n"
        "  channel: market\n"
        "  kind: cased\n"
        "  process: ambrotype\n"
        "  housing: thermoplastic\n"
        "  format: sixth\n"
        "  title: girl with a basket\n"
        "  appeal: 4\n"
        "  identified: 'no'\n"
        "  paid: 45.00 USD\n"
        "  belonging:\n"
        "    together: 0.61\n"
        "    married: 0.34\n"
        "  estimate:\n"
        "    low: 28.00 USD\n"
        "    median: 41.00 USD\n"
        "    high: 59.00 USD\n"
        "  piece: |\n"
        "    piece: 1\n"
        "    title: no\n"
    )


@pytest.mark.parametrize("layout", ["- {}", "  - {}", "-   {}"])
def test_lists_may_be_laid_out_as_one_likes(layout):
    item = "{record: bought, date: 2024-05-31, title: no, paid: 45.00 USD}"
    (entry,) = from_yaml(f"log: 1\nentries:\n{layout.format(item)}\n", "log.yaml")
    assert (entry.title, entry.paid) == ("no", usd("45"))


def test_an_empty_log():
    assert to_yaml([]) == "log: 1\nentries: []\n"
    assert from_yaml(to_yaml([]), "log.yaml") == ()


HEAD = "log: 1\nentries:\n- record: bought\n  date: 2024-05-31\n- record: bought\n"


@every(
    ("text", "message"),
    [
        ("", "log.yaml: the file is empty"),
        ("- a\n", "log.yaml: the file is empty"),
        ("log: 2\nentries: []\n", "log.yaml:1 log: version 2 of a log file is not known. Write"),
        ("entries: []\n", "log.yaml:1: 'log' is missing"),
        ("log: 1\nentries: some\n", "log.yaml:2 entries: a list is needed here"),
        ("log: 1\nentries: some\n- a\n", "log.yaml:"),
        (
            "log: 1\nentrys: []\n",
            "log.yaml:2 entrys: 'entrys' is not a known key. Did you mean 'entries'?",
        ),
        ("log: 1\n", "log.yaml:1 entries: a list is needed here"),
        (HEAD, "log.yaml:5 entries.date: is missing"),
        (HEAD + "  date: 2024-13-01\n", "log.yaml:6 entries.date: '2024-13-01' is not a day"),
        (
            HEAD + "  date: 2024-05-31\n  payed: 3 USD\n",
            "log.yaml:7 entries.payed: 'payed' is not a known key. Did you mean 'paid'?",
        ),
        (
            HEAD + "  date: 2024-05-31\n  date: 2024-05-30\n",
            "log.yaml:7: 'date' is written twice. Delete one of them.",
        ),
        (
            HEAD + "  date: 2024-05-31\n  paid: 3\n",
            "log.yaml:7 entries.paid: '3' has no currency. Example: 45.00 USD.",
        ),
        (
            HEAD + "  date: 2024-05-31\n  paid: 3.005 USD\n",
            "log.yaml:7 entries.paid: 3.005 has more decimals than USD.",
        ),
        (
            HEAD + "  date: 2024-05-31\n  appeal: 3.5\n",
            "log.yaml:7 entries.appeal: '3.5' is not a whole number",
        ),
        (
            HEAD + "  date: 2024-05-31\n  appeal: 9\n",
            "log.yaml:7 entries.appeal: '9' is not a whole number of 1 to 5",
        ),
        (
            HEAD + "  date: 2024-05-31\n  identified: maybe\n",
            "log.yaml:7 entries.identified: 'maybe' is not known.",
        ),
        (
            HEAD + "  date: 2024-05-31\n  estimate: {low: 1 USD, median: 2 USD}\n",
            "log.yaml:7 entries.estimate.high: 'high' is missing",
        ),
        (
            HEAD + "  date: 2024-05-31\n  extra: '{'\n",
            "log.yaml:7 entries.extra: is not readable JSON",
        ),
        (
            HEAD + "  date: 2024-05-31\n  extra: '[1]'\n",
            "log.yaml:7 entries.extra: is not a map",
        ),
        (HEAD + "  date: &d 2024-05-31\n", "log.yaml:6: anchors and aliases are not used here."),
        (HEAD + "  date: !!str 2024-05-31\n", "log.yaml:6: tags are not used here."),
        (HEAD + "  title: 'open\n", "log.yaml:"),
        (HEAD + "  date: 2024-05-31\nmore: 1\n", "log.yaml:7 more: 'more' is not a known key"),
        (HEAD + "  date: 2024-05-31\n- just text\n", "log.yaml:"),
    ],
)
def test_mistakes_are_placed(text, message):
    with pytest.raises(InputError) as caught:
        from_yaml(text, "log.yaml")
    assert str(caught.value).startswith(message)
    assert "\n" not in str(caught.value)


def test_a_log_longer_than_one_document_may_be_is_read():
    entries = [bought(f"plate {n}", note="n" * 900) for n in range(5_000)]
    text = to_yaml(entries)
    assert len(text) > 4_000_000
    assert from_yaml(text, "log.yaml") == tuple(entries)


@tries(100)
@given(st.text(max_size=200) | st.text("-: \n'\"{}[]&*!|>#ab1", max_size=120))
def test_any_text_is_read_or_refused_in_one_line(text):
    for whole in (text, f"log: 1\nentries:\n- {text}", HEAD + text):
        line = ""
        try:
            from_yaml(whole, "log.yaml")
        except InputError as error:
            line = str(error)
        assert "\n" not in line
