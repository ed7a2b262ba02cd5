"""`appraise checks` and `appraise knowledge check`: what is asked, and are the files sound."""

import argparse
from collections import Counter
from pathlib import Path
from typing import Any

from appraise.base.errors import InputError
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.options import Commands, command, with_json
from appraise.knowledge.records import KINDS, Check, Knowledge


def add(commands: Commands) -> None:
    """Add the commands."""
    checks = command(commands, "checks", "every check: id, question, answers, how, source")
    checks.add_argument("--kind", choices=KINDS, help="only those asked of one kind of piece")
    with_json(checks)
    checks.set_defaults(run=run_checks)

    knowledge = command(commands, "knowledge", "the knowledge files: check them")
    inner = knowledge.add_subparsers(metavar="ACTION", required=True)
    check = command(inner, "check", "list every row that cannot be used, and count the rest")
    check.add_argument("directory", nargs="?", metavar="DIR", type=Path, help="files of your own")
    with_json(check)
    check.set_defaults(run=run_knowledge)


def run_checks(args: argparse.Namespace, context: Context) -> Exit:
    """List the checks."""
    knowledge = context.knowledge()
    chosen = [c for c in knowledge.checks.values() if args.kind in (None, *c.kinds)]
    document = {"schema": "appraise.checks/1", "checks": [check_json(c) for c in chosen]}
    context.show(document, "\n".join(_lines(check, knowledge) for check in chosen))
    return Exit.DONE


def check_json(check: Check) -> dict[str, Any]:
    """One check as JSON."""
    return {
        "id": check.id,
        "part": check.part,
        "kinds": list(check.kinds),
        "ask": check.ask,
        "answers": [{"id": one.id, "says": one.says} for one in check.answers],
        "how": check.how,
        "seconds": check.seconds,
        "risk": check.risk,
        "sort": check.sort,
        "misleads": check.misleads,
        "basis": check.basis.mark,
        "sources": list(check.basis.sources),
    }


def _lines(check: Check, knowledge: Knowledge) -> str:
    answers = "; ".join(f"{one.id} = {one.says}" for one in check.answers)
    sources = [
        f"{knowledge.sources[key].title} ({knowledge.sources[key].body})"
        for key in check.basis.sources
    ]
    lines = [f"{check.id}  {check.ask}", f"    {answers}"]
    lines += [f"    how: {check.how} ({check.seconds:g} s)"]
    lines += [f"    {check.basis.mark}{': ' + '; '.join(sources) if sources else ''}"]
    if check.id in knowledge.overridden:
        lines += ["    your own row stands over the shipped one"]
    return "\n".join(lines)


def run_knowledge(args: argparse.Namespace, context: Context) -> Exit:
    """Check the knowledge files, shipped and the user's own."""
    from appraise.knowledge import load

    if args.directory is not None and not args.directory.is_dir():
        raise InputError("there is no such directory", str(args.directory))
    knowledge = load(overlay=args.directory or context.home.knowledge)
    counts = topic_counts(knowledge)
    marks = Counter(check.basis.mark for check in knowledge.checks.values())
    document = {
        "schema": "appraise.knowledge/1",
        "problems": [
            {"where": one.where, "says": one.what, "mend": one.mend} for one in knowledge.problems
        ],
        "counts": counts,
        "checks_by_basis": dict(marks),
        "overridden": list(knowledge.overridden),
    }
    lines = [str(problem) for problem in knowledge.problems]
    lines += [f"{count:>5} {topic}" for topic, count in counts.items()]
    lines += [f"{count:>5} checks rest on {mark}" for mark, count in sorted(marks.items())]
    lines += [f"{len(knowledge.problems)} problems"]
    context.show(document, "\n".join(lines))
    return Exit.WRONG_INPUT if knowledge.problems else Exit.DONE


def topic_counts(knowledge: Knowledge) -> dict[str, int]:
    """Rows by topic."""
    defects = sum(1 for check in knowledge.checks.values() if check.defect)
    return {
        "checks": len(knowledge.checks) - defects,
        "defects": defects,
        "processes": len(knowledge.processes),
        "housings": len(knowledge.housings),
        "formats": len(knowledge.formats),
        "cautions": len(knowledge.cautions),
        "sources": len(knowledge.sources),
    }
