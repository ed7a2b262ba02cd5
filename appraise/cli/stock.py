"""`appraise stock`: parts that are kept by themselves, and what they fit."""

import argparse
from typing import TYPE_CHECKING

from appraise.cli.context import Context

if TYPE_CHECKING:
    from appraise.collection.fits import Fit
    from appraise.knowledge.records import Knowledge

NOTHING = "Nothing to compare: no parts in stock."
NO_PLATES = "No loose plates. Log one with kind=loose-plate, or name a piece file."


def run_fits(args: argparse.Namespace, context: Context) -> None:
    from appraise.collection.fits import conduct
    from appraise.documents.fits import fit_json, fit_lines

    knowledge = context.knowledge()
    if args.part:
        fits, empty = _plates(args, context, knowledge), NO_PLATES
    else:
        fits, empty = _parts(args, context, knowledge), NOTHING
    shown = fits[: max(1, args.limit)]
    told = list(conduct(knowledge))
    document = {
        "schema": "appraise.fits/1",
        "as_of": context.as_of.isoformat(),
        "fits": [fit_json(one) for one in shown],
        "conduct": told,
    }
    lines = fit_lines(shown, plates=bool(args.part)) or [empty]
    context.show(document, "\n".join([*lines, "", *(f"! {one}" for one in told)]))


def _parts(args: argparse.Namespace, context: Context, knowledge: "Knowledge") -> "tuple[Fit, ...]":
    from appraise.base.errors import InputError
    from appraise.cli.subject import named
    from appraise.collection.fits import PLATE, loose, parts_for
    from appraise.collection.sameyears import plate_piece
    from appraise.records.part import Part
    from appraise.store.records import held

    if not args.piece:
        raise InputError("no plate given", mend="Name a piece file or an id, or use --part ID.")
    with context.log() as log:
        stock = [(one.id, one.thing) for one in held(log, Part)]
    ref = args.piece.strip().lower()
    plates = [row for row in stock if row[1].part == PLATE]
    named_so = [row for row in plates if row[0].startswith(ref) or row[1].title.lower() == ref]
    if ref and len(named_so) == 1:
        ((record, part),) = named_so
        return parts_for(loose(plate_piece(part, knowledge), knowledge, record), stock, knowledge)
    subject = named(args.piece, context, knowledge)
    plate = loose(subject.piece, knowledge, subject.entry.id if subject.entry else "")
    return parts_for(plate, stock, knowledge)


def _plates(
    args: argparse.Namespace, context: Context, knowledge: "Knowledge"
) -> "tuple[Fit, ...]":
    from appraise.collection.fits import plates_for
    from appraise.records.part import Part
    from appraise.store.bench import loose_plates
    from appraise.store.records import one

    with context.log() as log:
        part = one(log, Part, args.part)
        plates = loose_plates(log, knowledge)
    return plates_for(part.thing, part.id, plates, knowledge)
