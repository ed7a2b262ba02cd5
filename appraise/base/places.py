"""Where things live: shipped knowledge and demo, and the user's own data directory."""

import os
from pathlib import Path

from appraise.base.dataclass import dataclass

_PACKAGE = Path(__file__).resolve().parent.parent


def _shipped(source: str, wheel: str) -> Path:
    beside = _PACKAGE.parent
    if (beside / "pyproject.toml").is_file() and (beside / source).is_dir():
        return beside / source
    return _PACKAGE / wheel


def shipped_data() -> Path:
    """The directory of the trade's knowledge: data/ in a checkout, _data in a wheel."""
    return _shipped("data", "_data")


def shipped_demo() -> Path:
    """The directory of the invented demo: demo/ in a checkout, _demo in a wheel."""
    return _shipped("demo", "_demo")


@dataclass(frozen=True, slots=True)
class Home:
    """The user's data directory and what lies in it."""

    root: Path

    @property
    def log(self) -> Path:
        """The price log, an SQLite file."""
        return self.root / "log.sqlite"

    @property
    def settings(self) -> Path:
        """The user's settings, YAML."""
        return self.root / "settings.yaml"

    @property
    def knowledge(self) -> Path:
        """The user's own knowledge files, laid over the shipped ones."""
        return self.root / "knowledge"

    @property
    def known(self) -> Path:
        """The knowledge as it was read last; made anew whenever it is missing."""
        return self.root / "knowledge.msgpack"

    @property
    def learnt(self) -> Path:
        """The price log as it was learnt last; made anew whenever it is missing."""
        return self.root / "learnt-prices.msgpack"

    @property
    def checked(self) -> Path:
        """Prices that fit nothing else in the log, as they were found last; made anew as well."""
        return self.root / "checked-prices.json"

    @property
    def reports(self) -> Path:
        """Reports on pieces, written from the app."""
        return self.root / "reports"

    @property
    def faults(self) -> Path:
        """What broke, and where: for whoever mends it."""
        return self.root / "faults.log"

    @property
    def backups(self) -> Path:
        """Copies of the log."""
        return self.root / "backups"


def home(given: str | None = None) -> Home:
    """The user's home: --home, then APPRAISE_HOME, then XDG_DATA_HOME, then the system's.

    Nothing is created here.
    """
    chosen = given or os.environ.get("APPRAISE_HOME")
    if chosen:
        return Home(Path(chosen).expanduser())
    xdg = os.environ.get("XDG_DATA_HOME")
    if xdg:
        return Home(Path(xdg).expanduser() / "appraise")
    from platformdirs import user_data_path  # 6 ms

    return Home(user_data_path("appraise", appauthor=False))


def shortened(path: Path) -> str:
    """A path as one writes it, with ~ for the home directory of the system's user."""
    try:
        return str(Path("~") / path.relative_to(Path.home()))
    except (ValueError, RuntimeError):
        return str(path)
