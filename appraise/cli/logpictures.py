"""`appraise log picture`: the pictures of an entry, attached, listed, shown."""

import argparse
from pathlib import Path

from appraise.base.errors import InputError
from appraise.cli.context import Context


def run_picture(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.entry import entry_document, entry_line
    from appraise.store.pictures import attach, chosen, detach, show

    with context.log() as log:
        if args.detach:
            if not args.file:
                raise InputError("give the photo's id", "--detach", "Write its id.")
            entry = detach(log, args.id, args.file)
        elif args.open or not args.file:
            entry = log.entry(args.id)
        else:
            entry = attach(log, args.id, Path(args.file))
        if args.open:
            show(log.path, chosen(entry, args.file))
    pictures = (f"  {one.sha256[:8]}  {one.name}" for one in entry.pictures)
    context.show(entry_document(entry), "\n".join([entry_line(entry), *pictures]))
