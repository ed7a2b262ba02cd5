"""The stories of a day with it, played from the desk: what each ends with, and the keys it takes.

Typed words and what is pasted are no keys here; enter and all others are. A story may become
shorter and never longer. As a script this file prints the table:

    PYTHONPATH=.:tests python tests/app/test_stories.py
"""

import asyncio
import sys
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from app.kit import app_on, settled, shown
from textual.events import Paste

SIZE = (80, 24)
LISTING = Path(__file__).parents[2] / "demo" / "listings" / "knitting.txt"
SHEET = "day,what,paid\n2026-03-01,sixth ambrotype vine,38\n2026-03-08,ninth tintype,12\n"


@dataclass(frozen=True)
class Story:
    """What is done, with a blank between keys, and what is seen at its end.

    `type:` and `paste:` begin what is typed or pasted, `_` standing for a blank.
    """

    name: str
    keys: int
    steps: str
    seen: tuple[str, ...]


STORIES = (
    Story(
        "market: a piece is seen, five checks are answered, the price is looked at, it is bought",
        10,
        "n type:sixth_ambro_thermo_vine_45_hinge_taped enter 1 1 1 1 1 m b enter",
        ("Logged. u: undo.", "sixth ambro"),
    ),
    Story(
        "listing: a text is pasted, its questions are copied, then the bill and the maximum",
        2,
        "paste:listing y p",
        ("Maximum bid: 65.00 USD", "total must stay within"),
    ),
    Story(
        "spreadsheet: a file is dropped on the prices, looked through and saved",
        2,
        "p paste:sheet s",
        ("2 imported", "u: undo"),
    ),
    Story(
        "parcel: what came against what was claimed, and the letter to the seller",
        3,
        "h a y",
        ("Claimed or shown, not yet checked in hand", "no letter needed"),
    ),
    Story("at home: the page of a piece, and its report", 4, "h enter r enter", ("Written",)),
    Story("portrayal: what was in use in a year", 2, "ctrl+y type:1858 enter", ("In use in 1858",)),
    Story("battery: an answer, and the piece again after the power went", 3, "1 1 power 1", ()),
)


@asynccontextmanager
async def on(place):
    """The app on a home, with nothing under way."""
    app = app_on(place / "home", demo=True)
    async with app.run_test(size=SIZE) as pilot:
        await settled(pilot)
        yield pilot
    # Its log is left open, as where the power goes.


async def play(story, place):
    """Play a story; gives the screen at its end, the piece before and at its end, and the keys."""
    sheet = place / "prices.csv"
    sheet.write_text(SHEET, encoding="utf-8")
    pasted = {"listing": LISTING.read_text(encoding="utf-8"), "sheet": str(sheet)}
    found = took = 0
    for part in story.steps.split(" power "):
        async with on(place) as pilot:
            app = pilot.app
            for step in part.split():
                lead, _, words = step.partition(":")
                if lead == "type":
                    await pilot.press(*("space" if one == "_" else one for one in words))
                elif lead == "paste":
                    app.screen.post_message(Paste(pasted[words]))
                else:
                    await pilot.press(step)
                    took += 1
                await settled(pilot)
            told = shown(app)
            exam = getattr(app.screen, "exam", None)
            before, found = found, exam and exam.piece
    return told, before, found, took


@pytest.mark.parametrize("story", STORIES, ids=[one.name.partition(":")[0] for one in STORIES])
async def test_a_story_ends_as_it_should_in_no_more_keys_than_ever(tmp_path, story):
    told, before, found, took = await play(story, tmp_path)
    for words in story.seen:
        assert words in told
    assert took <= story.keys
    if before:  # it was broken off
        assert found == before


async def table():
    """Every story with the keys it takes."""
    for story in STORIES:
        with TemporaryDirectory() as place:
            told, _, _, took = await play(story, Path(place))
        missing = [words for words in story.seen if words not in told]
        print(f"{took:>3} keys  {story.name}", *missing)
        if "-v" in sys.argv:
            print(told)


if __name__ == "__main__":
    asyncio.run(table())
