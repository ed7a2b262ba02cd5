"""`appraise knowledge fields` and `schema`: what may stand in the files that a user writes."""

import argparse
import json
import sys
from pathlib import Path

from appraise.base.errors import InputError
from appraise.base.places import shipped_data
from appraise.base.spelling import did_you_mean
from appraise.base.wrapping import wrapped
from appraise.base.yamltext import read_text
from appraise.cli.context import Context
from appraise.knowledge.inquiry import Check
from appraise.knowledge.keys import KEYS

WIDTH = 18  # columns of a key


def run_fields(args: argparse.Namespace, context: Context) -> None:
    """List the topics, the keys of one, or a check's row with the keys that it may have."""
    if args.of is None:
        lines = [f"{topic:<{WIDTH}}{', '.join(keys)}" for topic, keys in KEYS.items()]
        topics = {topic: list(keys) for topic, keys in KEYS.items()}
        context.show({"schema": "appraise.topics/1", "topics": topics}, "\n".join(lines))
        return
    check = None if args.of in KEYS else context.knowledge().checks.get(args.of)
    if args.of not in KEYS and check is None:
        known = (*KEYS, *context.knowledge().checks)
        raise InputError(
            f"'{args.of}' is not a topic or a check", mend=did_you_mean(args.of, known)
        )
    topic = args.of if check is None else "defects" if check.defect else "checks"
    where, row = (f"{check.file}:{check.line}", _row(check, context)) if check else ("", [])
    lines = [*([where, *row, ""] if check else []), *_keys(topic)]
    if topic == "checks":
        lines += ["", "answers: each with", *_keys("answers")]
    document = {
        "schema": "appraise.fields/1", "topic": topic, "keys": dict(KEYS[topic]), "where": where,
        "row": "\n".join(row),
    }  # fmt: skip
    context.show(document, "\n".join(lines))


def run_schema(args: argparse.Namespace, context: Context) -> None:
    from appraise.exchange.schemas import schema

    json.dump(schema(args.of, context.knowledge()), sys.stdout, ensure_ascii=False, indent=1)
    sys.stdout.write("\n")


def _keys(topic: str) -> list[str]:
    """Each key and what it means."""
    lines = []
    for key, says in KEYS[topic].items():
        first, *rest = wrapped(says, 100 - WIDTH)
        lines += [f"  {key:<{WIDTH - 2}}{first}", *(" " * WIDTH + one for one in rest)]
    return lines


def _row(check: Check, context: Context) -> list[str]:
    """The lines of a check's row: its first, and all that stand deeper."""
    own = any(one.where.startswith(f"{check.file}:") for one in context.knowledge().own)
    inner = Path(check.file).relative_to(Path(check.file).parts[0])
    path = (context.home.knowledge if own else shipped_data()) / inner
    first, *rest = read_text(path, str(path)).split("\n")[check.line - 1 :]
    indent = len(first) - len(first.lstrip())
    found = [first[indent:]]
    for line in rest:
        if line.strip() and len(line) - len(line.lstrip()) <= indent:
            break
        found.append(line[indent:])
    return "\n".join(found).rstrip().split("\n")
