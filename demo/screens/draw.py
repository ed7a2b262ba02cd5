"""Draws screens by the app itself, from the invented demo: those of the README, or all of them.

    python demo/screens/draw.py
    python demo/screens/draw.py FOLDER [NAME...]

The first line writes the README's pictures beside this file; the second one every screen, or those
named, at three sizes in both themes. Run it after a change of what a screen shows, and look at the
pictures.
"""

import asyncio
import atexit
import re
import shutil
import sys
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager, suppress
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory, mkdtemp

from textual.events import Paste
from textual.pilot import Pilot
from textual.worker import WorkerCancelled

from appraise.app.app import AppraiseApp
from appraise.app.session import Session
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.cli.demo import DEMO_DAY, furnish

HERE = Path(__file__).parent
NOON = datetime(2026, 11, 7, 12, tzinfo=UTC)
SIZE = (110, 30)
SIZES = ((80, 24), SIZE, (160, 45))
LISTING = (HERE.parent / "listings" / "knitting.txt").read_text(encoding="utf-8")
SCREENS: dict[str, tuple[str, Sequence[str]]] = {
    "examine": ("daylight", ["3", "m"]),
    "listing": ("daylight", ["paste"]),
    "prices": ("night", ["p"]),
}
"""The README's, by name: the theme, and the keys from the desk."""
TOUR: tuple[tuple[str, Sequence[str]], ...] = (
    ("desk", []),
    ("help", ["question_mark"]),
    ("palette", ["ctrl+p"]),
    ("first-look", ["n", "type sixth ambro thermo vine 45 hinge taped"]),
    ("examine", ["3", "m"]),
    ("examine-hidden", ["2"]),
    ("why", ["1", "m", "w"]),
    ("cautions", ["1", "c"]),
    ("find", ["1", "slash"]),
    ("details", ["1", "m", "i"]),
    ("bought", ["1", "m", "b"]),
    ("bid", ["4", "m", "p"]),
    ("slip", ["l"]),
    ("listing", ["paste"]),
    ("sides", ["paste", "s"]),
    ("prices", ["p"]),
    ("chart", ["p", "g"]),
    ("edit-cell", ["p", "e"]),
    ("entry-line", ["p", "n"]),
    ("entry", ["p", "enter"]),
    ("entry-form", ["p", "E"]),
    ("lots", ["o"]),
    ("lot", ["o", "enter"]),
    ("kept", ["h"]),
    ("owned", ["h", "enter"]),
    ("event", ["h", "v"]),
    ("arrival", ["h", "a"]),
    ("due", ["h", "d"]),
    ("stock", ["i"]),
    ("part", ["i", "enter"]),
    ("work", ["i", "2"]),
    ("job", ["i", "2", "enter"]),
    ("wants", ["i", "3"]),
    ("venues", ["v"]),
    ("venue", ["v", "enter"]),
    ("track", ["ctrl+p", "type track", "enter"]),
    ("year", ["ctrl+y", "type 1858", "enter"]),
    ("report", ["1", "m", "r"]),
    ("question", ["1", "d"]),
)
"""Every screen by name, with the keys from the desk."""


@cache
def furnished() -> Path:
    """A home with the demo in it, from which others are copied."""
    place = Path(mkdtemp())
    atexit.register(shutil.rmtree, place)
    furnish(Home(place / "home"))
    return place / "home"


@asynccontextmanager
async def opened(theme: str, size: tuple[int, int]) -> AsyncIterator[Pilot[None]]:
    """The app on a home of its own."""
    with TemporaryDirectory() as place:
        home = Home(Path(shutil.copytree(furnished(), Path(place) / "home")))
        session = Session(home, Settings(theme=theme), DEMO_DAY, lambda: NOON, "demo", True)
        async with AppraiseApp(session).run_test(size=size) as pilot:
            await calm(pilot)
            yield pilot
        session.close()


async def draw(name: str, keys: Sequence[str], pilot: Pilot[None], folder: Path) -> None:
    """Go from the desk to a screen, and write it as SVG."""
    for key in keys:
        if key == "paste":
            pilot.app.screen.post_message(Paste(LISTING))
        elif key.startswith("type "):
            await pilot.press(*(letter if letter != " " else "space" for letter in key[5:]))
        else:
            await pilot.press(key)
        await calm(pilot)
    picture = pilot.app.export_screenshot(title=f"appraise: {name}")
    # No font is fetched from anywhere: whoever looks at it has a monospaced one.
    picture = re.sub(r"@font-face \{.*?\}\s*", "", picture, flags=re.S)
    (folder / f"{name}.svg").write_text(picture, encoding="utf-8")


async def calm(pilot: Pilot[None]) -> None:
    """Wait until nothing is computed and the question stands."""
    for _ in range(3):
        with suppress(WorkerCancelled):  # one that a later one replaced is done
            await pilot.app.workers.wait_for_complete()
        await pilot.pause(0.02)


async def readme() -> None:
    """The README's pictures."""
    for name, (theme, keys) in SCREENS.items():
        async with opened(theme, SIZE) as pilot:
            await draw(name, keys, pilot, HERE)


async def tour(folder: Path, names: Sequence[str]) -> None:
    """Every screen, or those named, at every size in both themes."""
    for size in SIZES:
        for theme in ("daylight", "night"):
            into = folder / f"{theme}-{size[0]}"
            into.mkdir(parents=True, exist_ok=True)
            for name, keys in [one for one in TOUR if not names or one[0] in names]:
                async with opened(theme, size) as pilot:
                    await draw(name, keys, pilot, into)


if __name__ == "__main__":
    asyncio.run(tour(Path(sys.argv[1]), sys.argv[2:]) if sys.argv[1:] else readme())
