"""`appraise checks` and `appraise knowledge check`: what is asked, and are the files sound."""

import argparse
from typing import Any

from appraise.base.errors import InputError
from appraise.base.jsonvalues import picked
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.documents.own_rows import own_json, own_line
from appraise.knowledge.counts import MARKS, by_basis, rows_by_topic
from appraise.knowledge.records import Check, Knowledge
from appraise.knowledge.yearly import known_for

WRITING = """inscription  What is written on the piece, and what date does it name?
    no check, but a key of the piece file: inscription: {text: April 3d 1859, date: 1859-04-03,
    where: backing}; where: plate, seal, backing, mat, caption, back, case, stamp or note"""


def run_checks(args: argparse.Namespace, context: Context) -> None:
    knowledge = context.knowledge()
    chosen = [c for c in knowledge.checks.values() if args.kind in (None, *c.kinds)]
    told = [check_json(check, knowledge) for check in chosen]
    document = {"schema": "appraise.checks/1", "checks": told}
    rows = [*(_lines(check, knowledge) for check in chosen), WRITING]
    context.show(document, "\n".join(rows))


def check_json(check: Check, knowledge: Knowledge) -> dict[str, Any]:
    """One check as JSON; `own` says where a row of the user's own stands, and over what."""
    from appraise.verdict import cautions_at  # 30 ms with the reading

    own = knowledge.own_row("checks", check.id)
    return {
        **picked(check, "id part kinds ask how seconds risk sort misleads"),
        "answers": [picked(one, "id says") for one in check.answers],
        "known_for": known_for(check),
        **picked(check.basis, "sources", basis=check.basis.mark),
        "cautions": [one.id for one in cautions_at(check, knowledge)],
        "own": own_json(own) if own else None,
    }


def _lines(check: Check, knowledge: Knowledge) -> str:
    from appraise.verdict import cautions_at  # 30 ms with the reading

    answers = "; ".join(f"{one.id} = {one.says}" for one in check.answers)
    sources = [
        f"{knowledge.sources[key].title} ({knowledge.sources[key].body})"
        for key in check.basis.sources
    ]
    lines = [f"{check.id}  {check.ask}", f"    {answers}"]
    lines += [f"    how: {check.how} ({check.seconds:g} s)"]
    lines += [f"    {check.basis.mark}{': ' + '; '.join(sources) if sources else ''}"]
    lines += [f"    {told}" for told in (known_for(check),) if told]
    lines += [f"    caution: {one.text}" for one in cautions_at(check, knowledge)]
    own = knowledge.own_row("checks", check.id)
    if own is not None:
        lines += [f"    {own_line(own)}"]
    return "\n".join(lines)


def run_check(args: argparse.Namespace, context: Context) -> Exit:
    from appraise.knowledge import load

    if args.directory is not None and not args.directory.is_dir():
        raise InputError("there is no such directory", str(args.directory))
    knowledge = load(overlay=args.directory or context.home.knowledge)
    basis = by_basis(knowledge)
    document = {
        "schema": "appraise.knowledge/1",
        "problems": [picked(one, "where mend", says=one.what) for one in knowledge.problems],
        "counts": {topic: len(rows) for topic, rows in rows_by_topic(knowledge).items()},
        "by_basis": basis,
        "checks_by_basis": {mark: basis["checks"][mark] + basis["defects"][mark] for mark in MARKS},
        **picked(knowledge, "overridden notes"),
        "own": [own_json(one) for one in knowledge.own],
    }
    lines = [*map(str, knowledge.problems), *_count_lines(knowledge, basis)]
    lines += [own_line(one) for one in knowledge.own]
    lines += [f"note: {one}" for one in knowledge.notes]
    lines += [f"{len(knowledge.problems)} problems"]
    context.show(document, "\n".join(lines))
    return Exit.WRONG_INPUT if knowledge.problems else Exit.DONE


def _count_lines(knowledge: Knowledge, basis: dict[str, dict[str, int]]) -> list[str]:
    """A table of topics, with what their rows rest on."""
    heads = "".join(f"{mark:>11}" for mark in MARKS)
    lines = [f"{'rows, by source or basis':<26}{heads}"]
    for topic, rows in rows_by_topic(knowledge).items():
        cells = "".join(f"{basis[topic][mark]:>11}" for mark in MARKS) if topic in basis else ""
        lines.append(f"{len(rows):>5} {topic:<20}{cells}")
    dated = basis["dated answers"]
    cells = "".join(f"{dated[mark]:>11}" for mark in MARKS)
    return [*lines, f"{sum(dated.values()):>5} {'dated answers':<20}{cells}"]
