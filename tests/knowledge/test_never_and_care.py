"""What never to do, cautions and care as shipped, against the published figures.

The source of each figure stands beside it; figures without one are judgements.
"""

import pytest
from conditionkit import KNOWLEDGE
from every import every

from appraise.knowledge import load
from appraise.listing.materials import materials_named

REFUSED = [  # what a person may want to do, the row that answers, its source
    ("Dust plate", "touching-image", "powerhouse-touch"),  # lost at a touch: Powerhouse Museum
    ("professionally dipped", "dipping", "jaic-cleaning"),  # KCN, thiourea: JAIC 22(1), 1982
    ("UV test of the plate", "short-wave-lamp", "jaic-tarnish"),  # bare plates: JAIC 35(1), 1996
    ("a hot needle", "hot-needle", "tortoiseshell-tests"),  # melts, ignites: reference book
    ("pry open the preserver", "unsealing", "distlist-daguerreotypes"),  # DistList, 1995
    ("compressed air", "canned-air", "bancroft-treatment"),
    ("peel off the tape", "peeling", "texas-tape"),
    ("leather dressing", "leather-dressing", "c2c-leather"),
]


@pytest.mark.parametrize(("wish", "row", "source"), REFUSED)
def test_harmful_tests_are_refused_with_a_reason(wish, row, source):
    named = [never.id for never in KNOWLEDGE.never.values() if never.named_in(wish)]
    assert row in named
    assert KNOWLEDGE.never[row].why
    assert KNOWLEDGE.never[row].instead
    assert source in KNOWLEDGE.never[row].basis.sources


@pytest.mark.parametrize(
    "wish",
    [
        "look with a loupe",
        "weigh it in the hand",
        "unopened case",
        "small weak magnet",
        "peeling paint",
        "a sample of hair",
        "the spirit of the age",
        "a lighter tone",
    ],
)
def test_safe_looks_are_not_refused(wish):
    assert [never.id for never in KNOWLEDGE.never.values() if never.named_in(wish)] == []


@pytest.mark.parametrize("name", KNOWLEDGE.never)
def test_a_refusal_recognises_its_own_words(name):
    never = KNOWLEDGE.never[name]
    assert all(never.named_in(f"may I try {word.upper()}?") for word in never.words)


def test_legal_cautions_carry_their_day_and_defer():
    legal = [row for row in KNOWLEDGE.cautions.values() if row.checked_on]
    assert {"ivory-gb", "ivory-us", "tortoiseshell", "hair", "due-diligence"} <= {
        row.id for row in legal
    }
    for row in legal:
        assert row.checked_on in ("2026-11-25", "2026-11-30")
        assert "see your local authority" in row.text.lower()


def test_figures_of_the_ivory_act():
    """UK Ivory Act 2018: 3 March 1947 and 10 per cent; miniatures before 1918, 320 square cm."""
    text = " ".join(KNOWLEDGE.cautions["ivory-gb"].text.split())
    for figure in ("3 March 1947", "10%", "1918", "320"):
        assert figure in text


def test_fluorescence_is_not_a_share_of_plates_with_cyanide():
    """50 of 110 plates fluoresced, some slightly and with old seals nearly intact; areas that did
    showed cyanide compounds: JAIC 35(1), section 10, American Institute, 1996. No share of plates
    with cyanide was measured, and none is told."""
    caution = KNOWLEDGE.cautions["cyanide"]
    assert "half" not in caution.text
    assert "50" not in caution.text
    assert "Of 110 plates 50" in caution.basis.note


def test_every_caution_is_called_for_by_something():
    asked = {caution for check in KNOWLEDGE.checks.values() for caution in check.cautions}
    for row in KNOWLEDGE.cautions.values():
        assert row.when or row.materials or row.channels or row.id in asked


PUBLISHED = [  # row, degrees C, per cent, title and body
    ("photographs", (20, 20), (30, 40), "Caring for Your Photographic", "Library of Congress"),
    ("prints-institutions", (18, 21), (35, 50), "Family Archives", "US National Archives"),
    ("daguerreotypes", None, (30, None), "Daguerreotypes", "Conservation DistList"),
    ("sound-glass", None, (None, 35), "Conservation Science", "textbook"),
    ("altered-glass", None, (35, 42), "Conservation Science", "textbook"),
    ("collodion", (5, None), None, "Museums and Galleries Commission", "Conservation DistList"),
    ("albumen-prints", (None, 18), (30, 40), "Albumen prints and water", "Boston photograph"),
    ("cyanotypes-on-show", (18, 24), (45, 55), "Cyanotypes", "Worcester Art Museum"),
    ("nitrate-film", (2, 2), (25, 25), "Lingua Franca, chapter 4", "Library and Archives Canada"),
]


@pytest.mark.parametrize(("name", "temperature", "humidity", "title", "body"), PUBLISHED)
def test_storage_figures_as_published(name, temperature, humidity, title, body):
    row = KNOWLEDGE.care[name]
    assert (row.temperature, row.humidity) == (temperature, humidity)
    source = KNOWLEDGE.sources[row.basis.sources[0]]
    assert title in source.title
    assert body in source.body
    assert row.basis.mark == "source"


def test_figures_without_a_source_are_marked_as_judgements():
    for name in ("one-box", "watch-glass", "watch-mould", "collodion-humidity", "collodion-cool"):
        assert KNOWLEDGE.care[name].basis.mark == "judgement"


def test_light_as_published():
    """50,000 lux-hours a year: Guidelines for Exhibition Light Levels, Topics 9, 2001.

    43 to 54 lux for cyanotypes: Worcester Art Museum. 25 plates in about ten weeks: Scientific
    American.
    """
    assert KNOWLEDGE.care["light"].lux_hours == 50000
    assert KNOWLEDGE.care["cyanotypes-on-show"].lux == (43, 54)
    assert "ten weeks" in KNOWLEDGE.cautions["display"].text
    assert "daguerreotype" in KNOWLEDGE.cautions["display"].materials


@every(
    "word",
    sorted({one.family for one in KNOWLEDGE.processes.values()} | set(KNOWLEDGE.housings)),
)
def test_care_answers_for_every_process_and_housing(word):
    """Each is asked for by its own word, and answered by a row of its own, `other` but for."""
    assert word in materials_named([word], KNOWLEDGE)
    named = [row.id for row in KNOWLEDGE.care.values() if word in row.materials]
    assert bool(named) == (word != "other")


def test_glass_is_alarmed_before_mould():
    """55 per cent with still air can begin crizzling: Deterioration of glass negatives, DistList,
    2000. So 58 per cent alarms for glass while mould (60) is silent."""
    glass, mould = KNOWLEDGE.care["watch-glass"], KNOWLEDGE.care["watch-mould"]
    assert glass.alarm < 58 < mould.alarm
    assert "distlist-glass-negatives" in glass.basis.sources


# ------------------------------------------------------------------------------- the two topics

CARE = """
care:
  attic:
    text: Not there.
    basis: judgement
"""
NEVER = """
never:
  hammer:
    says: a hammer
    words: [hammer, Rubber Mallet]
    why: It breaks.
    instead: A loupe.
    basis: judgement
"""


@pytest.fixture
def own(tmp_path):
    def write(text):
        (tmp_path / "own.yaml").write_text(text, encoding="utf-8")
        return load(overlay=tmp_path)

    return write


@pytest.mark.parametrize(
    ("line", "span"),
    [
        ("humidity: 30 40", (30, 40)),
        ("humidity: 25", (25, 25)),
        ("humidity: from 30", (30, None)),
        ("humidity: to 35", (None, 35)),
    ],
)
def test_spans_may_be_open(own, line, span):
    assert own(f"{CARE}    {line}\n").care["attic"].humidity == span


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("humidity: 40 30", "a lowest and a highest figure from 0 to 100 are needed"),
        ("humidity: 30 40 50", "a lowest and a highest figure from 0 to 100 are needed"),
        ("humidity: from", "a lowest and a highest figure from 0 to 100 are needed"),
        ("temperature: 300", "a lowest and a highest figure from -40 to 40 are needed"),
        ("humidity: dry", "'dry' is not a number"),
        ("topic: atic", "'atic' is not known here"),
        ("humdity: 30", "'humdity' is not a known key. Did you mean 'humidity'"),
        ("materials: [ambrotipe]", "'ambrotipe' is not a material. Did you mean 'ambrotype'"),
    ],
)
def test_care_that_cannot_be_meant_is_named_with_its_place(own, line, says):
    problems = [str(one) for one in own(f"{CARE}    {line}\n").problems if "attic" in str(one)]
    assert len(problems) == 1
    assert says in problems[0]


def test_own_words_refuse_in_any_capitals(own):
    hammer = own(NEVER).never["hammer"]
    assert hammer.named_in("with a rubber  mallet?")
    assert not hammer.named_in("hammered brass")


def test_a_refusal_needs_a_reason(own):
    knowledge = own(NEVER.replace("    why: It breaks.\n", ""))
    assert "hammer" not in knowledge.never
    assert any("'why' is missing" in str(one) for one in knowledge.problems)


def test_a_caution_knows_its_channels(own):
    text = "cautions:\n  fog:\n    text: Fog.\n    channels: [markt]\n    basis: judgement\n"
    problems = [str(one) for one in own(text).problems if "fog" in str(one)]
    assert "'markt' is not a channel" in problems[0]
