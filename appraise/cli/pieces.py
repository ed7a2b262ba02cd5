"""`appraise look` and `appraise verdict`: one piece, from a line or from its file."""

import argparse
from collections.abc import Collection
from pathlib import Path
from typing import TYPE_CHECKING, Any

from appraise.base.files import write_new
from appraise.base.places import shipped_demo
from appraise.cli.context import Context
from appraise.cli.showing import line_of, understood_lines
from appraise.knowledge.records import Knowledge
from appraise.records.piece import Piece

if TYPE_CHECKING:
    from appraise.reading.reading import Reading
    from appraise.verdict.behind import Behind


def run_look(args: argparse.Namespace, context: Context) -> None:
    from appraise.listing.first_look import understand

    knowledge, settings = context.knowledge(), context.settings()
    look = understand(
        line_of(args.words, "sixth ambro vine 45 hinge taped"),
        knowledge,
        settings.currency,
        today=context.as_of,
        region=settings.region,
    )
    if args.piece:
        from appraise.records.piece_file import write_piece  # 10 ms with YAML

        write_new(args.piece, write_piece(look.piece).encode())
    rows = understood_lines(context, look.understood, look.not_understood, look.notes)
    told = "\n".join(f"  {row}" for row in rows)
    judged(context, look.piece, knowledge, None, f"understood\n{told}\n\n" if told else "")


def run_verdict(args: argparse.Namespace, context: Context) -> None:
    from appraise.records.piece_file import read_piece

    knowledge = context.knowledge()
    piece = read_piece(found(args.piece), knowledge)
    judged(context, piece, knowledge, args.log, behind_too=args.why)


def found(path: Path) -> Path:
    """A file as it is named; the shipped demo's where there is none and its path begins 'demo/'."""
    if path.exists() or path.parts[:1] != ("demo",):
        return path
    demo = shipped_demo().joinpath(*path.parts[1:])
    return demo if demo.is_file() else path


def judged(
    context: Context,
    piece: Piece,
    knowledge: Knowledge,
    log: Path | None,
    head: str = "",
    behind_too: bool = False,
    held: tuple[str, ...] = (),
) -> None:
    """Judge a piece and show the verdict; if asked, also what is behind each figure.

    `held` says why no maximum is shown, where more is known of that than the piece tells.
    """
    from appraise.documents.verdict import verdict_document
    from appraise.documents.writers.lines import text
    from appraise.verdict import held_back, next_steps

    own = context.own(piece, log)
    verdict = context.judge(knowledge, log, own)(piece)
    verdict = held_back(verdict, held, knowledge) if held else verdict
    steps = next_steps(verdict, knowledge)
    document: dict[str, Any] = {}
    if context.json:
        from appraise.documents.verdict_json import verdict_json

        document = verdict_json(verdict, steps, knowledge)
    figures: tuple[Behind, ...] = ()
    if behind_too:
        from appraise.documents.behind import behind_json
        from appraise.verdict.behind import behind

        figures = tuple(behind(verdict.reading, knowledge))
        document["behind"] = behind_json(figures)
    told = head + text(verdict_document(verdict, knowledge, steps, figures))
    said, lines = passing(context, verdict.reading, knowledge, log, own)
    context.show({**document, **said}, told.rstrip("\n") + lines)


def passing(
    context: Context,
    reading: "Reading",
    knowledge: Knowledge,
    log: Path | None = None,
    own: Collection[str] = (),
) -> tuple[dict[str, Any], str]:
    """Whether a piece is on the list or has a twin: as keys of a document, and as quiet lines."""
    from appraise.commands.workspace import open_at

    path = log or context.home.log
    if not path.exists():
        return {"wanted": [], "twins": []}, "\n"
    from appraise.collection.wanting import sight_of
    from appraise.store.matches import matches_of

    with open_at(path) as store:
        found = matches_of(store, sight_of(reading), knowledge, own)
    return found.as_json(), "\n".join(["", *(["", *found.lines] if found.lines else []), ""])
