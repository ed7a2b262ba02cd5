"""Two themes of our own: `daylight`, ink on pale paper, and `night`, soft light on near-black.

Every text colour stands at 7:1 or more on each plain ground of its theme, and ink on the grounds
of the tones too: the enhanced contrast of WCAG 2.1 (W3C, success criterion 1.4.6); a test computes
it.
"""

import os

from textual.theme import Theme

from appraise.base.dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Colours:
    """The colours of a theme: its grounds, and what is written on them.

    Attributes:
        paper: The ground of the screen.
        card: The ground of what one types in, and of what is pointed at.
        rail, panel: The grounds of a pane at the side, and of one that holds results.
        in_order, doubtful, stop: The grounds of the three tones of a verdict.
        ink: Plain text.
        quiet: Labels and what may be passed over.
        accent: Headings, keys and bars; also the ground of the line one is on.
        warn, doubt, good: What calls for care, what is open, what is in order.
    """

    paper: str
    card: str
    rail: str
    panel: str
    in_order: str
    doubtful: str
    stop: str
    ink: str
    quiet: str
    accent: str
    warn: str
    doubt: str
    good: str


DAYLIGHT = Colours(
    paper="#F2F4F0",
    card="#DDE2DA",
    rail="#E5E9E2",
    panel="#FCFDFB",
    in_order="#C9E4CC",
    doubtful="#F6DDA0",
    stop="#F6C9BE",
    ink="#131613",
    quiet="#40453F",
    accent="#2B2A6B",
    warn="#7E1B10",
    doubt="#5B4103",
    good="#1E4A2B",
)
NIGHT = Colours(
    paper="#131210",
    card="#2B2925",
    rail="#24221E",
    panel="#1C1A17",
    in_order="#1F3D26",
    doubtful="#4A3A0C",
    stop="#5A1F17",
    ink="#F1EDDD",
    quiet="#C6C0B3",
    accent="#A9C6EA",
    warn="#F6AB97",
    doubt="#E9CB80",
    good="#A9D6AD",
)
NAMES = ("daylight", "night")


def theme(name: str) -> Theme:
    """One of our themes for the screen library."""
    c = DAYLIGHT if name == "daylight" else NIGHT
    return Theme(
        name=name,
        primary=c.accent,
        secondary=c.accent,
        accent=c.accent,
        foreground=c.ink,
        background=c.paper,
        surface=c.paper,
        panel=c.card,
        warning=c.doubt,
        error=c.warn,
        success=c.good,
        dark=name == "night",
        text_alpha=1.0,
        variables={
            "paper": c.paper,
            "card": c.card,
            "rail": c.rail,
            "sheet": c.panel,
            "in-order": c.in_order,
            "doubtful": c.doubtful,
            "stop": c.stop,
            "ink": c.ink,
            "quiet": c.quiet,
            "warn": c.warn,
            "doubt": c.doubt,
            "good": c.good,
            "input-cursor-background": c.ink,
            "input-cursor-foreground": c.paper,
            "input-cursor-text-style": "none",
        },
    )


def chosen(wanted: str) -> str:
    """The theme to begin with: the one that was set, else the one that suits the terminal.

    Some terminals tell the numbers of their colours in COLORFGBG, as '0;15'; 7 and 15 are light
    grounds (common practice, no standard). Without it ink on paper is taken: it can be read in the
    sun as well as at night.
    """
    if wanted in NAMES:
        return wanted
    ground = os.environ.get("COLORFGBG", "").rpartition(";")[2]
    return "night" if ground.isdecimal() and ground not in ("7", "15") else "daylight"


def other(name: str) -> str:
    """The theme that is not on."""
    return "night" if name == "daylight" else "daylight"
