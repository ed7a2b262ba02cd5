"""`appraise --version`: what a report of a fault needs to name."""

import platform
import re
from importlib.metadata import PackageNotFoundError, requires, version

from appraise import __version__


def versions() -> str:
    """The program, Python, the system and every package it runs on, a line each."""
    lines = [
        f"appraise {__version__}",
        f"{platform.python_implementation()} {platform.python_version()}",
        f"{platform.system()} {platform.release()} {platform.machine()}",
    ]
    return "\n".join([*lines, *map(_installed, _packages())])


def _packages() -> list[str]:
    """The names of the packages that the program itself asks for."""
    try:
        asked = requires("appraise") or []
    except PackageNotFoundError:
        return []
    return [re.split(r"[^\w-]", one)[0] for one in asked if "extra ==" not in one]


def _installed(name: str) -> str:
    try:
        return f"{name} {version(name)}"
    except PackageNotFoundError:
        return f"{name} not installed"
