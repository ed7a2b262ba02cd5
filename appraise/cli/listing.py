"""`appraise listing`: a seller's text into claims, flags, gaps and questions, then the verdict."""

import argparse
import sys
from pathlib import Path

from appraise.base.errors import InputError
from appraise.base.files import read_bytes, write_new
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_day, with_json
from appraise.cli.pieces import found, judged, passing

LONGEST = 2_000_000  # bytes; a listing is some thousands


def add(commands: Commands) -> None:
    """Add the command."""
    listing = command(commands, "listing", "a seller's text: claims, flags, gaps, questions")
    listing.add_argument("file", metavar="FILE", help="a text file, or - for standard input")
    listing.add_argument("--piece", metavar="OUT.yaml", type=Path, help="write the piece file too")
    listing.add_argument("--verdict", action="store_true", help="judge it from what is claimed")
    with_json(listing)
    with_day(listing)
    listing.set_defaults(run=run_listing)


def run_listing(args: argparse.Namespace, context: Context) -> Exit:
    """Read a listing."""
    from appraise.listing import read
    from appraise.piece.write import write_piece
    from appraise.reading.reading import read as read_piece
    from appraise.report.listing import listing_json, listing_text

    knowledge = context.knowledge()
    listing = read(_text(args.file), knowledge, currency=context.settings().currency)
    if args.piece:
        write_new(args.piece, write_piece(listing.piece).encode())
    if args.verdict and not context.json:
        head = listing_text(listing, knowledge) + "\n"
        judged(context, listing.piece, knowledge, None, head=head, held=listing.holds_back)
        return Exit.DONE
    said, lines = passing(context, read_piece(listing.piece, knowledge), knowledge)
    text = listing_text(listing, knowledge).rstrip("\n") + lines
    context.show({**listing_json(listing, knowledge), **said}, text)
    return Exit.DONE


def _text(file: str) -> str:
    data = sys.stdin.buffer.read(LONGEST + 1) if file == "-" else read_bytes(found(Path(file)))
    if len(data) > LONGEST:
        raise InputError("the text is too long to be a listing", file)
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            return data.decode(encoding)
        except UnicodeDecodeError:
            continue
    return data.decode("utf-8", errors="replace")
