"""Citing sources: keys of the past read with a note, and what nothing cites is told."""

import re
from collections import Counter

import pytest
from every import every

from appraise.knowledge import load

KNOWLEDGE = load()
OLD = {old: one.key for one in KNOWLEDGE.sources.values() for old in one.formerly}


@pytest.fixture
def overlay(tmp_path):
    def write(text):
        (tmp_path / "own.yaml").write_text(text, encoding="utf-8")
        return load(overlay=tmp_path)

    return write


def care(source, more=""):
    return (
        f"care:\n  shelf:\n    topic: storage\n    text: A shelf.\n    source: [{source}]\n{more}"
    )


def test_the_shipped_rows_cite_by_the_keys_of_today():
    assert KNOWLEDGE.problems == ()
    assert KNOWLEDGE.notes == ()


def test_a_key_of_the_past_means_one_source_of_today():
    every = [old for one in KNOWLEDGE.sources.values() for old in one.formerly]
    assert OLD
    assert max(Counter(every).values()) == 1
    assert not set(every) & set(KNOWLEDGE.sources)


@pytest.mark.parametrize(("old", "now"), OLD.items())
def test_a_row_of_ones_own_that_cites_an_old_key_reads_with_one_line_of_note(overlay, old, now):
    knowledge = overlay(care(old))
    assert knowledge.problems == ()
    assert knowledge.care["shelf"].basis.sources == (now,)
    (note,) = knowledge.notes
    assert "own.yaml:5" in note
    assert f"'{old}' is now '{now}'" in note


def test_a_source_of_ones_own_goes_before_a_key_of_the_past(overlay):
    old = next(iter(OLD))
    text = f"sources:\n  {old}: {{title: Mine, body: Me}}\n"
    knowledge = overlay(text + care(old))
    assert knowledge.care["shelf"].basis.sources == (old,)
    assert knowledge.notes == ()
    assert knowledge.problems == ()


def test_a_key_that_never_was_is_told_with_the_nearest(overlay):
    knowledge = overlay(care("loc-home-car"))
    (problem,) = knowledge.problems
    assert ("'loc-home-car' is not a key of the sources. Did you mean 'loc-home-care'") in str(
        problem
    )


ROWS = {  # a row of each topic that may cite
    "care": care("mine"),
    "terms": "terms:\n  my-word: {field: process, value: albumen, synonyms: [eggprint], "
    "source: [mine]}\n",
    "phrases": "phrases:\n  my-phrase: {flag: my-flag, severity: note, says: so, why: Why not., "
    "question: Is it?, synonyms: [zyxw], source: [mine]}\n",
    "gaps": "gaps:\n  case.label: {says: the label, question: Is there a label?, weight: .1, "
    "source: [mine]}\n",
    "sheets": "sheets:\n  my-heading: {of: heading, value: title, words: [zyxw], source: [mine]}\n",
    "plain": "plain:\n  albumen: {text: A print on egg white., source: [mine]}\n",
    "materials": "materials:\n  my-glue: {name: my glue, archival: 'no', says: Sticks., "
    "words: my glue, source: [mine]}\n",
    "fitting": "fitting: {reach: 2, doubtful: .4, source: [mine]}\n",
    "cautions": "cautions:\n  mine: {text: Mind it., channels: [fair], source: [mine]}\n",
}


@pytest.mark.parametrize("topic", ROWS)
def test_a_source_that_a_row_of_any_topic_cites_is_not_idle(overlay, topic):
    knowledge = overlay("sources:\n  mine: {title: Mine, body: Me}\n" + ROWS[topic])
    assert [str(one) for one in knowledge.problems] == []


def test_a_source_that_nothing_cites_is_told(overlay):
    (problem,) = overlay("sources:\n  mine: {title: Mine, body: Me}\n").problems
    assert "'mine' is cited by no row" in str(problem)


def test_a_row_of_ones_own_does_not_make_a_shipped_source_idle(overlay):
    """Object ID's further categories are cited by rows of the record alone."""
    rows = [key for key, one in KNOWLEDGE.record.items() if "object-id-more" in one.basis.sources]
    text = "record:\n" + "".join(
        f"  {key}: {{name: M, part: recommended, ask: What?, fields: [title], basis: practice}}\n"
        for key in rows
    )
    assert overlay(text).problems == ()


def test_weights_count_as_rows_that_cite(tmp_path):
    from appraise.base.places import shipped_data

    text = (shipped_data() / "weights.yaml").read_text(encoding="utf-8")
    changed = re.sub(r"(?m)^weights:\n", "weights:\n  source: [mine]\n", text)
    assert changed != text
    own = "sources:\n  mine: {title: Mine, body: Me}\n"
    (tmp_path / "own.yaml").write_text(changed, encoding="utf-8")
    (tmp_path / "more.yaml").write_text(own, encoding="utf-8")
    assert [str(one) for one in load(overlay=tmp_path).problems] == []


# ---------------------------------------------------------------- what a source says of itself

PASSED_ON = re.compile(
    r"docslib|studylib|issuhub|paperzz|gluedideas|chempedia|artera|wordnik|yumpu|artdaily|getarchive|"
    r"cupdf|miragenews|9pdf|parlementairemonitor|corpora\.tika|cogenweb|undividedback|oranburg|"
    r"photodetective|eastriding|anglesey|portlanddomesticity|daguerre\.org|altphotolist"
)
SAID = re.compile(r"copy|copied|quoted|scan|as shown|as printed|excerpted|transcribed|text on the")


@every("key", KNOWLEDGE.sources)
def test_an_address_is_that_of_a_page(key):
    """A bare site, a month or a tag says not what was read."""
    address = KNOWLEDGE.sources[key].address
    if not address:
        return
    assert re.match(r"https?://[^ ]+$", address)
    path = re.sub(r"^https?://[^/]+", "", address).rstrip("/")
    assert path
    assert not re.search(r"/(19|20)\d\d(/\d\d?){0,2}$|/tag/|/author/|/page/\d+$|/category/", path)


@every("key", KNOWLEDGE.sources)
def test_a_page_that_passes_on_what_others_published_says_so(key):
    one = KNOWLEDGE.sources[key]
    if PASSED_ON.search(one.address):
        assert SAID.search(f"{one.body} {one.title}"), one
