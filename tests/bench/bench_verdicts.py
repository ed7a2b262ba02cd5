"""Every stored piece judged by the code of c5b2810 and by today's, side by side.

    python tests/bench/bench_verdicts.py [--log]

The piece files of the demo and of the external pieces, each given to both as a command with --json;
`--log` lets both price by the demo's log. A piece that the old code cannot read says so.
"""

import argparse
import json
import os
import subprocess
import sys
import tarfile
import tempfile
from io import BytesIO
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
BEFORE = "c5b2810"
DAY = "2026-11-07"
PIECES = [
    *sorted((ROOT / "demo/pieces").glob("*.yaml")),
    *sorted((ROOT / "tests/external/pieces").glob("*-*.yaml")),
]


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--log", action="store_true", help="price by the demo's log")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        old = Path(place) / "old"
        packed = subprocess.run(
            ["git", "archive", BEFORE, "appraise", "data", "demo", "pyproject.toml"],
            cwd=ROOT, capture_output=True, check=True,
        ).stdout  # fmt: skip
        with tarfile.open(fileobj=BytesIO(packed)) as archive:
            archive.extractall(old, filter="data")
        if asked.log:
            for tree in (old, ROOT):
                run(tree, Path(place), "log", "import", str(tree / "demo/prices.csv"))
        same = 0
        for path in PIECES:
            then, now = (judged(tree, path, Path(place)) for tree in (old, ROOT))
            same += then == now
            print(path.stem)
            print(f"  then  {then}")
            print(f"  now   {now}")
        print(f"{len(PIECES)} pieces, {same} told alike")


def judged(tree, path, place):
    """What a tree says of a piece in a line: process, years, belonging, grades, worth, limit."""
    done = run(tree, place, "verdict", str(path), "--json", "--as-of", DAY)
    if done.returncode:
        return done.stderr.strip().split("\n")[-1]
    return told(json.loads(done.stdout))


def run(tree, place, *words):
    """A command of a tree on a home of its own."""
    return subprocess.run(
        [sys.executable, "-m", "appraise", "--home", str(place / f"home-{tree.name}"), *words],
        env={**os.environ, "PYTHONPATH": str(tree)},
        cwd=tree,
        capture_output=True,
        text=True,
        check=False,
    )


def told(document):
    """The verdict in a line; what a kind is not judged by is left out."""
    process, belonging = document.get("process") or {}, document.get("belonging") or {}
    joint = (document.get("dates") or {}).get("joint")
    parts = [process.get("best", document.get("kind", ""))]
    if process.get("probabilities"):
        parts[0] += f" {process['probabilities'][process['best']]:.2f}"
    if joint:
        parts.append(f"{joint['from']}-{joint['to']}")
    parts += [f"{name} {chance:.2f}" for name, chance in belonging.items() if chance >= 0.05]
    parts += [f"{side} {one['grade']}" for side, one in document["condition"].items()
              if isinstance(one, dict) and one.get("grade")]  # fmt: skip
    worth, advice = document.get("worth"), document.get("advice") or {}
    if worth:
        parts.append(f"worth {amount(worth['median'])}")
    if advice.get("walk_away"):
        parts.append(f"limit {amount(advice['walk_away'])}")
    parts += [f"! {one['id']}" for one in document.get("warnings", ()) if one.get("strong")]
    return ", ".join(parts)


def amount(money):
    return money["amount"] if isinstance(money, dict) else money


if __name__ == "__main__":
    main()
