"""How a truthful person fares with the order of questions, beside part order and c5b2810's order.

    python tests/bench/bench_triage.py

Thirty-two pieces of which the truth is known, a third of them modern, copied or re-housed, are
walked until enough has been seen. The truth files were written by somebody who had not seen the
order. The same walk is made part by part, with as many questions as the tool asked, and with the
code of commit c5b2810, taken out of the repository's own history.
"""

import json
import os
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path
from statistics import median

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
BEFORE = "c5b2810"
SURE = 0.75
MODERN = ("modern-case", "modern-image", "all-modern", "modern")
LEATHER = ("leather-wood", "paper-wood", "cloth-wood")
IRON = ("plate.rust", "plate.magnet", "plate.blister", "plate.bend")
OWN_GLASS = ("plate.crack", "plate.weep", "plate.flat-glass", "plate.glass-edge")
MOULDED = ("hinge.torn", "case.moulded-mark", "case.layer-lines", "case.chip", "case.seam")
COVERED = ("case.covering", "case.abrasion", "case.loss", "case.lifting", "case.redrot")
TOUCH = ("case.odour", "case.weight", "plate.heavy", "plate.magnet", "package.fit", "clasp.meets")


def walked(code, order):
    """One line a piece, from a worker under the code of a checkout."""
    env = {**os.environ, "PYTHONPATH": str(code)}
    run = subprocess.run(
        [sys.executable, str(HERE / "triage_worker.py"), order],
        env=env, cwd=code, capture_output=True, text=True, check=True,
    )  # fmt: skip
    return [json.loads(line) for line in run.stdout.splitlines()]


def checked_out(commit, into):
    """The code of a commit, without touching the work tree."""
    archive = subprocess.run(
        ["git", "archive", commit, "appraise", "data", "demo", "pyproject.toml"],
        cwd=ROOT, capture_output=True, check=True,
    )  # fmt: skip
    subprocess.run(["tar", "-x", "-C", into], input=archive.stdout, check=True)
    return Path(into)


def silly(row):
    """Questions that no practitioner would put at that moment, in words."""
    found = []
    for place, one in enumerate(row["asked"]):
        check, families, housings = one["check"], one["families"], one["housings"]
        tintype = families.get("tintype", 0.0)
        leather = sum(housings.get(word, 0.0) for word in LEATHER)
        moulded = housings.get("thermoplastic", 0.0) + housings.get("resin", 0.0)
        printed = families.get("photomechanical", 0.0)
        if place == 0 and check in ("case.mould", "case.odour"):
            found.append("mould or smell first")
        if check in IRON and 1 - tintype - printed >= SURE:
            found.append(f"{check} of glass or paper")
        if check in OWN_GLASS and tintype >= SURE:
            found.append(f"{check} of a tintype")
        if check in MOULDED and leather >= SURE:
            found.append(f"{check} of leather")
        if check in COVERED and moulded >= SURE:
            found.append(f"{check} of thermoplastic")
        if check == "plate.cloth-base" and families.get("ambrotype", 0.0) >= 0.97:
            found.append("pannotype at ambrotype .97")
        if check in TOUCH and row["channel"] in ("online", "auction"):
            found.append(f"{check} from a photo")
        if check in [before["check"] for before in row["asked"][:place]]:
            found.append(f"{check} twice")
    return found


def regret(row, perfect=False):
    """What deciding now loses beside deciding with everything answered, in parts of the cost.

    Both decisions are the tool's own, by its limits; what they are worth is judged with everything
    answered. The perfect one buys whatever turns out to be worth its cost, whatever the limits say.
    """
    whole, cost = row["whole"], row["cost"]
    if None in (row["worth"], whole, cost):
        return None
    gain = whole - cost
    best = max(0.0, gain) if perfect else gain if row["buys_whole"] else 0.0
    return (best - (gain if row["buys"] else 0.0)) / cost


def shares(rows, perfect):
    """The mean regret over the pieces that can be priced."""
    losses = [loss for row in rows if (loss := regret(row, perfect)) is not None]
    return f"{sum(losses) / max(1, len(losses)):.4f} ({len(losses)} priced)"


def right(row):
    """Whether the process is told right, where it can be told at all."""
    return row["family"] == row["is"]["process"]


def counted(warning, rows):
    """How many of some pieces carry a warning."""
    return f"{sum(warning in row['warned'] for row in rows)} of {len(rows)}"


def told(name, rows):
    """One column of the table."""
    counts = sorted(len(row["asked"]) for row in rows)
    seconds = sorted(row["seconds"] for row in rows)
    tellable = [row for row in rows if row["is"]["tellable"]]
    modern = [row for row in rows if row["is"]["belonging"] in MODERN]
    married = [row for row in rows if row["is"]["belonging"] == "married"]
    sound = [row for row in rows if row["is"]["belonging"] in ("together", "period")]
    oddities = Counter(one for row in rows for one in silly(row))
    priced = [row for row in sound if row["worth"] is not None and row["is"]["tellable"]]
    return {
        "order": name,
        "questions, median / 90%": f"{median(counts):.0f} / {counts[int(0.9 * len(counts))]}",
        "seconds, median / 90%": f"{median(seconds):.0f} / {seconds[int(0.9 * len(seconds))]:.0f}",
        "process right": f"{sum(map(right, tellable))} of {len(tellable)}",
        "regret against all asked": shares(rows, False),
        "regret against hindsight": shares(rows, True),
        "modern ones warned": counted("reproduction", modern),
        "married ones warned": counted("married", married),
        "sound ones with a plain limit": f"{sum(r['plain'] for r in priced)} of {len(priced)}",
        "sound ones warned of modern": f"{sum('reproduction' in r['warned'] for r in sound)}",
        "silly questions": f"{sum(oddities.values())}: {dict(oddities)}",
    }


def main():
    rows = walked(ROOT, "tool")
    columns = [told("now", rows), told("by parts, same code", walked(ROOT, "parts"))]
    with tempfile.TemporaryDirectory() as into:
        columns.append(told(BEFORE, walked(checked_out(BEFORE, into), "tool")))
    for column in columns:
        print(f"\n{column['order']}")
        for key, value in column.items():
            if key != "order":
                print(f"  {key:<32}{value}")
    for row in rows:
        print(f"{row['name']:<48}{len(row['asked']):>3} {row['headline'][:120]}")


if __name__ == "__main__":
    main()
