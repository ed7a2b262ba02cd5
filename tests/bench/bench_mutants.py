"""How many small faults the tests of a room notice: faults are put in one by one, at random places.

    python tests/bench/bench_mutants.py --room reading --faults 40 --seed 1

Each fault changes one operator, number or condition of one line (after DeMillo, Lipton and Sayward,
"Hints on test data selection", Computer 11/4, 1978; from memory), in a copy of the project. A fault
is found when the room's tests fail or do not end. What is not found is printed, to be read: some
faults change nothing that can be told.
"""

import argparse
import ast
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
TESTS = {
    "reading": ("tests/reading", "tests/inquiry", "tests/verdict", "tests/external"),
    "pricing": ("tests/pricing", "tests/verdict", "tests/collection"),
    "records": ("tests/records", "tests/exchange", "tests/store", "tests/collection"),
}
OTHER = {
    ast.Lt: "<=", ast.LtE: "<", ast.Gt: ">=", ast.GtE: ">", ast.Eq: "!=", ast.NotEq: "==",
    ast.Is: "is not", ast.IsNot: "is", ast.In: "not in", ast.NotIn: "in",
    ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*", ast.And: "or", ast.Or: "and",
}  # fmt: skip
LONGEST = 600  # seconds


@dataclass(frozen=True)
class Fault:
    """One change: a stretch of a file's text, and what stands there instead."""

    file: Path
    start: int
    end: int
    text: str

    def told(self, source: str) -> str:
        """The line as it was and what changes in it."""
        line = source.count("\n", 0, self.start) + 1
        return f"{self.file}:{line}  {source[self.start : self.end]!r} -> {self.text!r}"


def faults_of(file: Path, source: str) -> Iterator[Fault]:
    """Every fault that can be put into a file."""
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))

    def place(line: int, column: int) -> int:
        row = source[starts[line - 1] : starts[line]]
        return starts[line - 1] + len(row.encode()[:column].decode())

    def between(one: ast.expr, other: ast.expr, text: str) -> Fault:
        """An operator between two operands; brackets and blanks around it stay."""
        begin = place(one.end_lineno or 0, one.end_col_offset or 0)
        end = place(other.lineno, other.col_offset)
        gap = source[begin:end]
        word = gap.strip(" \n()")
        at = begin + gap.index(word)
        return Fault(file, at, at + len(word), text)

    for node in _alive(ast.parse(source)):
        if isinstance(node, ast.Compare) and len(node.ops) == 1:
            yield between(node.left, node.comparators[0], OTHER[type(node.ops[0])])
        elif isinstance(node, ast.BinOp) and type(node.op) in OTHER:
            yield between(node.left, node.right, OTHER[type(node.op)])
        elif isinstance(node, ast.BoolOp):
            yield between(node.values[0], node.values[1], OTHER[type(node.op)])
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            begin = place(node.lineno, node.col_offset)
            yield Fault(file, begin, begin + 3, "")
        elif isinstance(node, ast.Constant) and type(node.value) in (int, float):
            begin = place(node.lineno, node.col_offset)
            end = place(node.end_lineno or 0, node.end_col_offset or 0)
            yield Fault(file, begin, end, f"({source[begin:end]} + 1)")


def _alive(tree: ast.AST) -> Iterator[ast.AST]:
    """All nodes that do something when the program runs: no type, no decorator."""
    for name, value in ast.iter_fields(tree):
        if name in ("annotation", "returns", "decorator_list", "type_comment"):
            continue
        for one in value if isinstance(value, list) else [value]:
            if isinstance(one, ast.AST):
                yield one
                yield from _alive(one)


def sound(copy: Path, room: str) -> bool:
    """Whether the room's tests pass in the copy."""
    words = ["-q", "-x", "-p", "no:cacheprovider", "--no-header", *TESTS[room]]
    try:
        done = subprocess.run(
            [sys.executable, "-m", "pytest", *words],
            cwd=copy, capture_output=True, timeout=LONGEST, check=False,
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return False
    return done.returncode == 0


def found(fault: Fault, source: str, copy: Path, room: str) -> bool:
    """Whether the room's tests notice a fault."""
    target = copy / fault.file
    target.write_text(source[: fault.start] + fault.text + source[fault.end :], encoding="utf-8")
    try:
        return not sound(copy, room)
    finally:
        target.write_text(source, encoding="utf-8")


def main() -> int:
    """Put faults into a room and print those that no test found."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--room", choices=TESTS, required=True)
    asked.add_argument("--faults", type=int, default=40)
    asked.add_argument("--seed", type=int, default=1)
    chosen = asked.parse_args()
    files = [one.relative_to(ROOT) for one in sorted(ROOT.glob(f"appraise/{chosen.room}/*.py"))]
    sources = {one: (ROOT / one).read_text(encoding="utf-8") for one in files}
    every = [fault for one in files for fault in faults_of(one, sources[one])]
    some = random.Random(chosen.seed).sample(every, min(chosen.faults, len(every)))
    missed = 0
    with tempfile.TemporaryDirectory() as place:
        copy = Path(place) / "copy"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv*", "__pycache__"))
        if not sound(copy, chosen.room):
            print(f"{chosen.room}: its tests fail, or do not end, without any fault")
            return 1
        for number, fault in enumerate(some, start=1):
            source = sources[fault.file]
            ok = found(fault, source, copy, chosen.room)
            missed += not ok
            told = "found " if ok else "MISSED"
            print(f"{number:3} {told} {fault.told(source)}", flush=True)
    print(f"{chosen.room}: {len(some) - missed} of {len(some)} found, of {len(every)} places")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
