"""Draws the screens that the README shows: by the app itself, from the invented demo.

    python demo/screens/draw.py

Run it after a change of what a screen shows, and look at the pictures.
"""

import asyncio
import re
import tempfile
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from textual.events import Paste

from appraise.app.app import AppraiseApp
from appraise.app.session import Session
from appraise.base.places import Home
from appraise.base.settings import Settings
from appraise.cli.demo import DEMO_DAY, furnish

HERE = Path(__file__).parent
NOON = datetime(2026, 11, 7, 12, tzinfo=UTC)
SIZE = (110, 30)
LISTING = (HERE.parent / "listings" / "knitting.txt").read_text(encoding="utf-8")
SCREENS: dict[str, tuple[str, Sequence[str]]] = {
    "examine": ("daylight", ["3", "m"]),
    "listing": ("daylight", ["paste"]),
    "prices": ("night", ["p"]),
}
"""By name: the theme, and the keys from the desk."""


async def draw(name: str, theme: str, keys: Sequence[str]) -> None:
    """Write one screen as SVG beside this file."""
    with tempfile.TemporaryDirectory() as place:
        home = Home(Path(place) / "home")
        furnish(home)
        session = Session(home, Settings(theme=theme), DEMO_DAY, lambda: NOON, "demo", True)
        app = AppraiseApp(session)
        async with app.run_test(size=SIZE) as pilot:
            await calm(pilot)
            for key in keys:
                if key == "paste":
                    app.screen.post_message(Paste(LISTING))
                else:
                    await pilot.press(key)
                await calm(pilot)
            picture = app.export_screenshot(title=f"appraise: {name}")
        session.close()
    # No font is fetched from anywhere: whoever looks at it has a monospaced one.
    picture = re.sub(r"@font-face \{.*?\}\s*", "", picture, flags=re.S)
    (HERE / f"{name}.svg").write_text(picture, encoding="utf-8")


async def calm(pilot) -> None:
    """Wait until nothing is computed and the question stands."""
    for _ in range(6):
        await pilot.app.workers.wait_for_complete()
        await pilot.pause(0.2)


if __name__ == "__main__":
    for name, (theme, keys) in SCREENS.items():
        asyncio.run(draw(name, theme, keys))
