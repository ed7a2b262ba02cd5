"""How many small faults the tests notice: faults are put into a room one by one, at random places.

    python tests/bench/bench_mutants.py --room reading --faults 40 --seed 1 --map /tmp/map.json

Each fault changes one operator, number or condition of one line (after DeMillo, Lipton and Sayward,
"Hints on test data selection", Computer 11/4, 1978; from memory), in a copy of the project. First
all tests run once, room by room, and it is noted which of them reach which lines; the note is kept
in `--map`, and later only rooms whose tests changed run again, or all where lines changed. A fault
is found when a test fails or does not end: those that reach its line are tried first, those of the
same room before others, then all others of the rooms that stand on it, since what is worked out
once in a process is reached by the first test alone. What is not found is printed, to be read: some
faults change nothing that can be told.
"""

import argparse
import ast
import json
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
WHOLE = {
    "reading": ("reading", "inquiry", "verdict", "external", "documents"),
    "pricing": ("pricing", "verdict", "collection", "commands", "documents"),
    "records": ("records", "exchange", "store", "collection", "documents"),
}  # rooms of tests that are tried for a fault that was not found by the tests that reach it
OTHER = {
    ast.Lt: "<=", ast.LtE: "<", ast.Gt: ">=", ast.GtE: ">", ast.Eq: "!=", ast.NotEq: "==",
    ast.Is: "is not", ast.IsNot: "is", ast.In: "not in", ast.NotIn: "in",
    ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*", ast.And: "or", ast.Or: "and",
}  # fmt: skip
LONGEST = 1800  # seconds
TOLD = 4000  # characters of what the tests say when they fail without any fault
Reached = dict[str, dict[str, list[str]]]


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

    def lines(self, source: str) -> range:
        """The lines of the innermost statement that it changes, without what stands in its body."""
        at = source.count("\n", 0, self.start) + 1
        spans = [_head(one) for one in ast.walk(ast.parse(source)) if isinstance(one, ast.stmt)]
        return min((one for one in spans if at in one), key=len)


def _head(statement: ast.stmt) -> range:
    """The lines of a statement up to its body."""
    body = getattr(statement, "body", [])
    first = body[0].lineno if body else (statement.end_lineno or statement.lineno) + 1
    return range(statement.lineno, max(first, statement.lineno + 1))


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


def trouble(copy: Path, tests: Iterable[str], plugin: str = "no:cacheprovider") -> str:
    """What is wrong with tests in the copy, as they tell it; empty where they pass."""
    words = ["-q", "-x", "-p", "no:cacheprovider", "-p", plugin, "--no-header", "--tb=short"]
    chosen = copy / "chosen.txt"
    chosen.write_text("\n".join(tests), encoding="utf-8")
    try:
        done = subprocess.run(
            [sys.executable, "-m", "pytest", *words, f"@{chosen}"],
            cwd=copy, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
            errors="replace", timeout=LONGEST, check=False,
            env={**os.environ, "PYTHONPATH": f"{copy}{os.pathsep}{copy / 'tests'}"},
        )  # fmt: skip
    except subprocess.TimeoutExpired:
        return f"they do not end within {LONGEST} seconds"
    return done.stdout[-TOLD:] or "they fail" if done.returncode else ""


def reached(copy: Path, room: str) -> Reached:
    """By file and line, the tests of a room that reach it; what a module loads has no test."""
    if wrong := trouble(copy, [f"tests/{room}"], "bench.reached"):
        raise SystemExit(f"the tests of {room} fail without any fault:\n{wrong}")
    return json.loads((copy / "reached.json").read_text(encoding="utf-8"))


def noted(copy: Path, kept: Path | None) -> Reached:
    """What reaches what, kept by room of tests: found anew where its tests or the lines changed."""
    notes = json.loads(kept.read_text(encoding="utf-8")) if kept and kept.exists() else {}
    lines = digest(path for one in WHOLE for path in (copy / "appraise" / one).glob("*.py"))
    rooms = [one for one in sorted((copy / "tests").iterdir()) if one.is_dir()]
    for room in (one for one in rooms if one.name not in ("bench", "homes")):
        state = f"{lines} {digest(room.rglob('*.py'))}"
        if notes.get(room.name, {}).get("state") != state:
            notes[room.name] = {"state": state, "reached": reached(copy, room.name)}
            if kept:
                kept.write_text(json.dumps(notes), encoding="utf-8")
    found: Reached = {}
    for file, line, tests in (
        (file, line, tests)
        for one in notes.values()
        for file, by_line in one["reached"].items()
        for line, tests in by_line.items()
    ):
        found.setdefault(file, {}).setdefault(line, []).extend(tests)
    return found


def digest(files: Iterable[Path]) -> str:
    """What tells one state of some files from another."""
    whole = sha256()
    for path in sorted(files):
        whole.update(path.name.encode() + path.read_bytes())
    return whole.hexdigest()


def found(fault: Fault, source: str, copy: Path, room: str, lines: Reached) -> str:
    """Who notices a fault: the tests that reach it, others of the rooms on it, or nobody."""
    target = copy / fault.file
    target.write_text(source[: fault.start] + fault.text + source[fault.end :], encoding="utf-8")
    here = lines.get(fault.file.as_posix(), {})
    tests = {one for line in fault.lines(source) for one in here.get(str(line), ())}
    own = {one for one in tests if one.startswith(f"tests/{room}/")}
    known = {one for by_line in lines.values() for told in by_line.values() for one in told}
    on_it = {one for one in known - tests if one.split("/")[1] in WHOLE[room]}
    tried = ((own, "its tests"), (tests - own, "its tests"), (on_it, "the rooms on it"))
    try:
        return next((who for some, who in tried if some and trouble(copy, sorted(some))), "")
    finally:
        target.write_text(source, encoding="utf-8")


def main() -> int:
    """Put faults into a room and print those that no test found."""
    asked = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    asked.add_argument("--room", choices=WHOLE, required=True)
    asked.add_argument("--faults", type=int, default=40)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--map", type=Path, help="the note of what reaches what, made if missing")
    chosen = asked.parse_args()
    files = [one.relative_to(ROOT) for one in sorted(ROOT.glob(f"appraise/{chosen.room}/*.py"))]
    sources = {one: (ROOT / one).read_text(encoding="utf-8") for one in files}
    every = [fault for one in files for fault in faults_of(one, sources[one])]
    some = random.Random(chosen.seed).sample(every, min(chosen.faults, len(every)))
    missed = 0
    with tempfile.TemporaryDirectory() as place:
        os.chmod(place, 0o755)  # some tests run the program as a user without rights
        copy = Path(place) / "copy"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv*", "__pycache__"))
        lines = noted(copy, chosen.map)
        for number, fault in enumerate(some, start=1):
            source = sources[fault.file]
            who = found(fault, source, copy, chosen.room, lines)
            missed += not who
            told = f"found by {who}" if who else "MISSED"
            print(f"{number:3} {told:22} {fault.told(source)}", flush=True)
    print(f"{chosen.room}: {len(some) - missed} of {len(some)} found, of {len(every)} places")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
