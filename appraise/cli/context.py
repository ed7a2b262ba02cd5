"""The surroundings of one command: a workspace, and where it prints."""

from __future__ import annotations

import argparse
import json
import sys
from typing import TYPE_CHECKING, Any

from appraise.base.dataclass import dataclass
from appraise.base.places import home
from appraise.commands.workspace import AtHome, day

if TYPE_CHECKING:
    from appraise.documents.document import Document
    from appraise.documents.lots import Now


@dataclass(frozen=True, slots=True)
class Context(AtHome):
    """The surroundings of one command.

    Attributes:
        json: Print one JSON object and nothing else.
    """

    json: bool = False

    @classmethod
    def of(cls, args: argparse.Namespace) -> Context:
        """From the parsed options."""
        told = vars(args)
        as_of, zone = day(told.get("as_of")), told.get("tz") or ""
        return cls(home(args.home), as_of, zone, talk, json=told.get("json", False))

    def now(self) -> Now:
        """From when and where one looks."""
        from appraise.base.moments import zone_named
        from appraise.documents.lots import Now

        return Now(self.moment(), zone_named(self.zone), self.as_of)

    def show(self, document: dict[str, Any], told: str | Document) -> None:
        """Print the JSON object or what is told to be read, whichever was asked for."""
        if self.json:
            json.dump(document, sys.stdout, ensure_ascii=False, indent=2)
            sys.stdout.write("\n")
            return
        if not isinstance(told, str):
            from appraise.documents.writers.lines import text

            told = text(told)
        sys.stdout.write(told if told.endswith("\n") else f"{told}\n")


def talk(words: str) -> None:
    """A line of talk."""
    print(f"  {words}", file=sys.stderr)
