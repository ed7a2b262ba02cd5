"""`appraise year`: what was in use in a year."""

import argparse

from appraise.base.errors import InputError
from appraise.cli.context import Context
from appraise.knowledge.records import FIRST_YEAR, LAST_YEAR


def run_year(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.yearly import year_document, year_json
    from appraise.knowledge.yearly import usual_in

    typed = args.year.strip()
    if not (typed.isascii() and typed.isdigit() and FIRST_YEAR <= int(typed) <= LAST_YEAR):
        raise InputError(
            f"'{args.year}' is not a year from {FIRST_YEAR} to {LAST_YEAR}",
            mend="Example: 1858.",
        )
    year, knowledge = int(typed), context.knowledge()
    found = usual_in(year, knowledge, args.kind, args.region)
    context.show(year_json(year, found, knowledge), year_document(year, found, knowledge))
