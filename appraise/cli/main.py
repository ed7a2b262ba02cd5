"""The command line: parsed, handed on, and errors become a line and an exit status."""

import argparse
import os
import sys
from collections.abc import Sequence
from typing import Any, TextIO

from appraise.base.errors import AppraiseError, InputError
from appraise.base.oneline import visible
from appraise.cli.context import Context
from appraise.cli.exits import Exit
from appraise.cli.handlers import handler
from appraise.cli.parsing import parser


class _Shown:
    """A stream to which no raw control character goes, whatever file or argument it came from.

    Whoever reads it may close it, as `head` does: what comes after that goes nowhere, and the
    command ends as it would have.
    """

    def __init__(self, stream: TextIO) -> None:
        self.stream = stream

    def write(self, text: str) -> int:
        """Write what may be shown."""
        try:
            return self.stream.write(visible(text))
        except BrokenPipeError:
            self._drop()
            return len(text)

    def flush(self) -> None:
        """Hand on what was written, if anybody still reads it."""
        try:
            self.stream.flush()
        except BrokenPipeError:
            self._drop()

    def _drop(self) -> None:
        """Let the rest go nowhere, so that a flush at exit does not complain either."""
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, self.stream.fileno())
        os.close(nowhere)

    def __getattr__(self, name: str) -> Any:
        return getattr(self.stream, name)


def run(argv: Sequence[str]) -> int:
    """Run one command line.

    Returns:
        0 done, 1 the input is wrong, 2 usage, 130 interrupted.
    """
    out, err = sys.stdout, sys.stderr
    shown: Any = (_Shown(out), _Shown(err))
    sys.stdout, sys.stderr = shown
    try:
        return _run(argv)
    finally:
        for stream in shown:
            stream.flush()
        sys.stdout, sys.stderr = out, err


def _run(argv: Sequence[str]) -> int:
    # At matrices of this size several threads are never quicker, and on a busy machine they wait
    # for one another several times as long as they compute; one leaves room for keys as well.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    if "_ARGCOMPLETE" in os.environ:
        from appraise.cli.completion import complete

        complete()
    try:
        args = parser().parse_args(argv)
    except SystemExit as stop:
        return int(stop.code or 0)
    try:
        return handler(args.command)(args, Context.of(args)) or Exit.DONE
    except AppraiseError as error:
        print(f"appraise: {error}", file=sys.stderr)
        return Exit.WRONG_INPUT
    except KeyboardInterrupt:
        return Exit.INTERRUPTED
    except OSError as error:
        why = (error.strerror or type(error).__name__).lower()
        mend = "Check the path, its rights and the disk."
        told = InputError(f"cannot be used: {why}", str(error.filename or ""), mend)
        print(f"appraise: {told}", file=sys.stderr)
        return Exit.WRONG_INPUT
    except Exception as error:
        print(f"appraise: {_broken(error, args)}", file=sys.stderr)
        return Exit.WRONG_INPUT


def _broken(error: Exception, args: argparse.Namespace) -> str:
    """One line on a command that broke, and where the rest is written."""
    from appraise.base.faultlog import record_fault
    from appraise.base.places import home, shortened
    from appraise.commands.workspace import now

    path = home(args.home).faults
    record_fault(path, error, "a command", now())
    says = " ".join(f"{type(error).__name__}: {error}".split())
    return f"that could not be worked out ({says}). More: {shortened(path)}"
