"""What the screens look like: contrast, the line of keys, and help drawn from one registry."""

from dataclasses import asdict

import pytest
from app.kit import app_on, begin, settled, shown
from every import every

from appraise.app.actions import ACTIONS
from appraise.app.themes import DAYLIGHT, NAMES, NIGHT, chosen, other

TEXT = ("ink", "quiet", "accent", "warn", "doubt", "good")
ENHANCED = 7.0  # WCAG 2.1 (W3C, 2018), success criterion 1.4.6


def luminance(colour):
    """Relative luminance, as WCAG 2.1 defines it."""
    channels = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other_colour):
    """The contrast ratio of two colours, 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other_colour)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


# Black on white is 21:1, and #777777 on white 4.48:1 (WCAG 2.1 and its published techniques).
def test_the_measure_itself():
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.01)


@every("colours", [DAYLIGHT, NIGHT], ids=NAMES)
@every("ground", ["paper", "card", "rail", "panel"])
@every("text", TEXT)
def test_every_text_pair_has_enhanced_contrast(colours, ground, text):
    assert contrast(asdict(colours)[text], asdict(colours)[ground]) >= ENHANCED


@pytest.mark.parametrize("colours", [DAYLIGHT, NIGHT], ids=NAMES)
@pytest.mark.parametrize("ground", ["in_order", "doubtful", "stop"])
def test_the_answer_can_be_read_on_the_ground_of_its_tone(colours, ground):
    assert contrast(colours.ink, asdict(colours)[ground]) >= ENHANCED


@pytest.mark.parametrize("colours", [DAYLIGHT, NIGHT], ids=NAMES)
def test_panes_stand_apart_by_their_grounds(colours):
    grounds = [colours.paper, colours.rail, colours.panel, colours.card]
    assert len(set(grounds)) == 4
    for one, beside in ((colours.rail, colours.paper), (colours.paper, colours.panel)):
        assert contrast(one, beside) >= 1.05


@pytest.mark.parametrize("colours", [DAYLIGHT, NIGHT], ids=NAMES)
def test_paper_on_accent_can_be_read_too(colours):
    assert contrast(colours.paper, colours.accent) >= ENHANCED


def test_the_theme_follows_what_was_set_and_then_the_terminal(monkeypatch):
    monkeypatch.setenv("COLORFGBG", "15;0")
    assert chosen("auto") == "night"
    assert chosen("daylight") == "daylight"
    monkeypatch.setenv("COLORFGBG", "0;15")
    assert chosen("auto") == "daylight"
    assert other(other("night")) == "night"


@pytest.mark.parametrize("width", [80, 60])
async def test_the_line_of_keys_fits_and_keeps_help_and_the_way_out(tmp_path, width):
    app = app_on(tmp_path, demo=True)
    async with app.run_test(size=(width, 24)) as pilot:
        await settled(pilot)
        feet = [shown(app).split("\n")[-1]]
        await begin(pilot, "sixth ambro vine")
        feet.append(shown(app).split("\n")[-1])
        await pilot.press("q")
        await pilot.press("p")
        await settled(pilot)
        feet.append(shown(app).split("\n")[-1])
    app.session.close()
    for foot in feet:
        assert len(foot) <= width
        assert "? keys" in foot
        assert "q " in foot


async def test_help_lists_every_key_of_the_screen(tmp_path):
    app = app_on(tmp_path)
    async with app.run_test(size=(100, 70)) as pilot:
        await begin(pilot, "sixth ambro vine")
        await pilot.press("question_mark")
        await settled(pilot)
        text = shown(app)
    app.session.close()
    for action in ACTIONS:
        if action.area == "piece":
            assert action.says.rstrip(".")[:40] in text, action.id


def test_actions_are_named_once():
    ids = [action.id for action in ACTIONS]
    assert len(ids) == len(set(ids))
    for action in ACTIONS:
        assert action.says.endswith(".")
        assert not {"ctrl+i", "ctrl+j", "ctrl+m", "ctrl+h", "ctrl+s", "ctrl+z"} & set(
            action.keys.split()
        )


async def test_ascii_draws_with_ascii_alone(tmp_path):
    app = app_on(tmp_path, demo=True, ascii=True)
    async with app.run_test(size=(80, 24)) as pilot:
        await begin(pilot, "sixth ambro thermoplastic vine")
        text = shown(app)
    app.session.close()
    assert text.isascii()
