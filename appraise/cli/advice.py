"""`appraise card`, `appraise care`, `appraise never`: what to check, how to keep, what to leave."""

import argparse

from appraise.base.errors import InputError
from appraise.base.jsonvalues import picked
from appraise.cli.context import Context
from appraise.knowledge.guidance import Care, Never
from appraise.knowledge.records import KINDS, UNJUDGED

JUDGED = tuple(kind for kind in KINDS if kind not in UNJUDGED)
SAFE = "Not sure? Leave it closed, leave it alone, and ask a conservator."


def run_card(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.card import card_checks, card_text

    knowledge = context.knowledge()
    checks = card_checks(knowledge, args.kind)
    document = {"schema": "appraise.card/1", "kind": args.kind, "checks": [c.id for c in checks]}
    if args.form == "html":
        from appraise.documents.card_html import card_html

        context.show(document, card_html(knowledge, args.kind))
    else:
        context.show(document, card_text(knowledge, args.kind))


def run_care(args: argparse.Namespace, context: Context) -> None:
    """Print the advice for materials, theirs first, and the alarms that a humidity raises."""
    from appraise.listing.materials import materials_named

    knowledge = context.knowledge()
    named = materials_named(args.words, knowledge)
    rows = [row for row in knowledge.care.values() if _fits(row, named)]
    if named:
        own = named - {*KINDS}
        rows.sort(key=lambda row: 0 if own & {*row.materials} else 1 if row.materials else 2)
    humidity = args.humidity
    if humidity is not None and not 0 <= humidity <= 100:
        raise InputError(
            f"{humidity:g} is not a relative humidity", "--humidity", "Write 0 to 100."
        )
    alarms = [
        r for r in rows if r.alarm is not None and humidity is not None and humidity >= r.alarm
    ]
    document = {
        "schema": "appraise.care/1",
        "alarms": [row.id for row in alarms],
        "care": [picked(row, "id topic text") for row in rows],
    }
    lines = [f"! {row.text}" for row in alarms]
    lines += [f"{row.topic:<13} {row.text}" for row in rows if row not in alarms]
    context.show(document, "\n".join(lines))


def _fits(row: Care, named: frozenset[str]) -> bool:
    """Whether a row is for a named material or for every piece; every row when none is named."""
    return not named or not row.materials or bool(named & {*row.materials})


def run_never(args: argparse.Namespace, context: Context) -> None:
    rows = list(context.knowledge().never.values())
    asked = " ".join(args.words)
    named = [row for row in rows if row.named_in(asked)] if asked else rows
    told = [picked(row, "id says why instead") for row in named]
    document = {"schema": "appraise.never/1", "asked": asked, "never": told}
    context.show(document, "\n".join(map(refusal, named)) if named else SAFE)


def refusal(row: Never) -> str:
    """A refusal with its reason and what to do in its place."""
    return f"No: {row.says}. {row.why} {row.instead}"
