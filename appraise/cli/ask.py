"""`appraise ask`: the checklist as plain lines, for screen readers, pipes and plain terminals.

A number and Enter answers, Enter alone cannot tell, `u` undoes, `q` or the end of the input stops.
Nothing is drawn and no line is ever written over.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from appraise.base.errors import InputError
from appraise.base.files import write_new
from appraise.base.money import Money
from appraise.cli.context import Context
from appraise.records.piece import Piece

if TYPE_CHECKING:
    from appraise.app.examine.state import Examination
    from appraise.knowledge.records import Knowledge
    from appraise.verdict import Verdict

STOP, BACK = "q", "u"
KEYS = "  Enter: cannot tell   u: undo   q: stop and give the verdict"
ENOUGH = "Seen enough. q gives the verdict; or go on."
NONE = "There are no checks for this kind of piece."


def run_ask(args: argparse.Namespace, context: Context) -> None:
    from appraise.app.examine.state import Examination
    from appraise.cli.pieces import judged
    from appraise.records.piece_file import write_piece

    knowledge = context.knowledge()
    over = args.piece is not None and args.piece == args.file
    if args.piece is not None and not over and args.piece.exists():
        raise InputError("the file is there already", str(args.piece), "Choose another name.")
    piece = _piece(args, context, knowledge)
    exam = Examination(piece, knowledge, "")
    _walk(exam, context.judge(knowledge, args.log))
    if args.piece is not None:
        write_new(args.piece, write_piece(exam.piece).encode(), over=over)
        context.say(f"Saved: {args.piece}")
    print()
    judged(context, exam.piece, knowledge, args.log)


def _piece(args: argparse.Namespace, context: Context, knowledge: Knowledge) -> Piece:
    """The piece of the file, or one of which nothing is known yet."""
    if args.file is not None:
        from appraise.cli.pieces import found
        from appraise.records.piece_file import read_piece

        return read_piece(found(args.file), knowledge)
    settings = context.settings()
    asking = Money.parse(args.asked, settings.currency) if args.asked else None
    return replace(Piece(), kind=args.kind, region=settings.region, asking=asking)


def _walk(exam: Examination, judge: Callable[[Piece], Verdict]) -> None:
    """Ask until there is nothing left to ask, or one stops."""
    from appraise.verdict import next_steps

    if not exam.checks:
        print(NONE)
    told = False
    while any(check.id not in exam.piece.findings for check in exam.checks):
        verdict = judge(exam.piece)
        exam.judged(exam.turn, verdict)
        exam.planned(exam.turn, next_steps(verdict, exam.knowledge))
        if exam.enough and not told:
            print(f"\n{ENOUGH}")
            told = True
        print("\n" + "\n".join(question_lines(exam)), flush=True)
        if not _answered(exam):
            return


def question_lines(exam: Examination) -> Iterator[str]:
    """A question with its answers, how to look and what to take care of, a line each."""
    check = exam.check
    yield f"{len(exam.piece.findings) + 1}. {exam.knowledge.parts[check.part].name}: {check.ask}"
    from appraise.verdict import cautions_at

    for one in cautions_at(check, exam.knowledge):
        yield f"  Caution: {one.text}"
    if check.how:
        yield f"  How: {check.how}"
    for number, answer in enumerate(check.answers, start=1):
        yield f"  {number} {answer.says}"
    yield KEYS


def _answered(exam: Examination) -> bool:
    """Take one answer; False when one stops."""
    while True:
        typed = sys.stdin.readline()
        words = typed.strip().lower()
        if not typed or words == STOP:
            return False
        if not words:
            return exam.untold()
        if words == BACK:
            if exam.undo():
                return True
            print("Nothing to undo.", flush=True)
        elif words.isdecimal() and exam.answer(int(words), len(exam.answers)):
            return True
        else:
            print(f"'{words}' is not an answer. Write 1 to {len(exam.check.answers)}.", flush=True)
