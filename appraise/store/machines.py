"""By what name a machine signs what it does: an id of its own that tells nothing of it."""

import os
import re
from contextlib import suppress
from pathlib import Path

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.files import write_new

FILE = "computer"
"""The file in the home that keeps it: the id, a line by which a copy is known, former names."""
_LETTERS = 16
_DRAWN = re.compile(rf"[0-9a-f]{{{_LETTERS}}}")


@dataclass(frozen=True, slots=True)
class Machine:
    """A machine as it signs.

    Attributes:
        name: Its id; of an older program its host's name with letters of its own.
        formerly: Names that it signed by before: what bears them can be undone as well.
    """

    name: str
    formerly: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """All names of it, the one of now first."""
        return (self.name, *self.formerly)

    def calls(self, name: str) -> str:
        """A machine by its name in words: "this computer", or a few letters of another's id."""
        if name in self.names:
            return "this computer"
        return f"computer {name[:6]}" if _DRAWN.fullmatch(name) else name


def machine_at(home: Path) -> Machine:
    """The machine that a home belongs to; its id is drawn at first need and kept there.

    A home that was copied to another machine draws a new one. The log never tells the host's name;
    a home of an older program keeps that as a former name.
    """
    file = home / FILE
    host = " ".join(host_name().split()) or "this computer"
    with suppress(OSError):
        home.mkdir(parents=True, exist_ok=True, mode=0o700)
    for _ in range(2):
        lines = _lines(file)
        if len(lines) > 1 and lines[1] == _mark(lines[0], host):
            return Machine(lines[0], tuple(lines[2:]))
        formerly = _former(lines, host, (home / "log.sqlite").exists())
        made = os.urandom(_LETTERS // 2).hex()
        text = "\n".join((made, _mark(made, host), *formerly)) + "\n"
        try:
            write_new(file, text.encode(), over=file.exists())
        except (InputError, OSError):
            continue  # another program was quicker, or nothing can be kept here
        return Machine(made, formerly)
    return Machine(os.urandom(_LETTERS // 2).hex())


def host_name() -> str:
    """What the system calls this machine; empty where it says nothing."""
    if hasattr(os, "uname"):
        return os.uname().nodename
    import platform  # 2 ms

    return platform.node()


def _lines(file: Path) -> list[str]:
    with suppress(OSError, UnicodeDecodeError):
        told = file.read_text(encoding="utf-8")
        return [line for line in told.split("\n") if line and line.isprintable()]
    return []


def _former(lines: list[str], host: str, logged: bool) -> tuple[str, ...]:
    """The names of this very machine by an older program, that wrote its host's name and letters.

    Still older logs are signed by the host's name alone.
    """
    if len(lines) == 1 and lines[0].rpartition("-")[0] == host:
        return lines[0], host
    return (host,) if logged and not lines else ()


def _mark(name: str, host: str) -> str:
    """By what a copy on another machine is known, without the host's name."""
    from hashlib import sha256  # 3 ms, and who only reads signs nothing

    return sha256(f"{name} {host}".encode()).hexdigest()[:_LETTERS]
