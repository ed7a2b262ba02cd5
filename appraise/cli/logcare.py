"""`appraise log merge`, `backup`, `restore`, `check`: keeping the log whole."""

import argparse
from pathlib import Path

from appraise.base.errors import InputError
from appraise.base.jsonvalues import picked
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.commands.workspace import now


def run_merge(args: argparse.Namespace, context: Context) -> None:
    from appraise.store.merge import merge

    if not args.other.exists():
        raise InputError("there is no log", str(args.other))
    with context.log() as log:
        merged = merge(log, args.other)
    clashes = [
        {"entry": one.entry, "versions": [version.id for version in one.versions]}
        for one in merged.conflicts
    ]
    told = picked(merged, "revisions entries pictures", conflicts=clashes)
    document = {"schema": "appraise.merge/1", **told}
    lines = [f"{merged.revisions} revisions of {len(merged.entries)} entries imported"]
    lines += [f"! {one.entry[:8]} was changed on both computers" for one in merged.conflicts]
    lines += ["'log conflicts' shows them, 'log settle' chooses"] if merged.conflicts else []
    context.show(document, "\n".join(lines))


def run_conflicts(args: argparse.Namespace, context: Context) -> None:
    from appraise.store.changes import disagreement
    from appraise.store.merge import conflicts

    with context.log() as log:
        found = conflicts(log)
    told = [
        {"entry": one.entry, "versions": [picked(each, "id time machine") for each in one.versions]}
        for one in found
    ]
    document = {"schema": "appraise.conflicts/1", "conflicts": told}
    lines = [
        f"{one.entry[:8]}  {each.id[:8]}  {each.time}  on {each.machine}: {says}"
        for one in found
        for each, says in zip(one.versions, disagreement(one.versions), strict=True)
    ]
    foot = ["choose: log settle ENTRY VERSION. Until then the first of each is used."]
    context.show(document, "\n".join([*lines, *foot]) if lines else "no conflicts")


def run_settle(args: argparse.Namespace, context: Context) -> None:
    from appraise.documents.entry import record_document, record_line
    from appraise.records.record_types import from_text
    from appraise.store.merge import settle

    with context.log() as log:
        newest, *_ = log.history(args.entry)
        settle(log, newest.entry, args.version)
        settled, *_ = log.history(newest.entry)
    thing = from_text(settled.body) if settled.body else None
    context.show(record_document(settled.entry, thing), record_line(settled.entry, thing))


def run_backup(args: argparse.Namespace, context: Context) -> None:
    from appraise.store.backup import back_up, backups
    from appraise.store.revisions import iso

    if not args.only_list:
        back_up(context.home.log, iso(now()))
    found = backups(context.home.log)
    document = {"schema": "appraise.backups/1", "backups": [str(one.path) for one in found]}
    context.show(document, "\n".join(str(one.path) for one in found) or "no backups")


def run_restore(args: argparse.Namespace, context: Context) -> None:
    from appraise.store.backup import latest, restore
    from appraise.store.revisions import iso

    source = args.backup or latest(context.home.log).path
    aside = restore(context.home.log, source, iso(now()))
    document = {
        "schema": "appraise.restore/1",
        "restored": str(source),
        "aside": str(aside) if aside else None,
    }
    moved = f"; the former log is at {aside}" if aside else ""
    context.show(document, f"restored {source}{moved}")


def _what_saves_most(log: Path, named: str) -> list[str]:
    """What salvage and the newest backups would save of a damaged log, the better one first.

    `named`: the file as it was given to the command, with a blank before it; '' for one's own log.
    """
    from appraise.store.backup import backups
    from appraise.store.salvage import readable, revisions_of

    known = [(one, revisions_of(one.path)) for one in backups(log)[:3]]
    ways = [
        (float(many), f"'log restore {one.path}' brings back {many:,}")
        for one, many in known
        if many
    ]
    left = readable(log)
    ways.append((left + 0.5, f"'log check{named} --salvage' saves {left:,}"))
    best, *others = [says for _, says in sorted(ways, reverse=True)]
    told = f"; {others[0]}" if others else ""
    return [f"of the revisions {best}{told}. The first saves most."]


def run_check(args: argparse.Namespace, context: Context) -> Exit:
    from appraise.store.check import check, mend
    from appraise.store.revisions import iso
    from appraise.store.salvage import salvage

    log = args.file or context.home.log
    if args.salvage:
        found = salvage(log, iso(now()))
        told = picked(found, "entries drafts lost", path=str(found.path))
        text = (
            f"{found.entries} entries and {found.drafts} drafts in {found.path}; {found.lost} lost"
        )
        context.show(
            {"schema": "appraise.salvage/1", **told},
            f"{text}. 'log restore {found.path}' restores it.",
        )
        return Exit.DONE
    if args.mend:
        mend(log)
    looked = check(log)
    told = picked(looked, "entries revisions problems mendable")
    document = {"schema": "appraise.check/1", **told}
    lines = [*looked.problems, f"{looked.entries} entries, {len(looked.problems)} problems"]
    if looked.mendable:
        lines.append("'log check --mend' repairs this")
    elif looked.problems:
        lines += _what_saves_most(log, f" {args.file}" if args.file else "")
    context.show(document, "\n".join(lines))
    return Exit.WRONG_INPUT if looked.problems else Exit.DONE
