"""Walks pieces of which the truth is known, answering truthfully, and prints what came of each.

It uses nothing that the code of c5b2810 lacks, so that the same walk can be made with that code:
`PYTHONPATH=CODE python tests/bench/triage_worker.py tool|parts`. One JSON line for each piece.
"""

import json
import sys
from datetime import date
from itertools import product
from pathlib import Path

import numpy as np
import yaml

from appraise.base.settings import Settings
from appraise.base.yamls import compose
from appraise.knowledge import load
from appraise.pricing.estimate import learn
from appraise.pricing.features import PricedRow
from appraise.verdict import judge, next_steps

try:
    from appraise.records.piece_file import piece_of
except ModuleNotFoundError:  # c5b2810 keeps it there
    from appraise.piece.files import piece_of

DAY = date(2026, 11, 30)
MOST = 60
LEVELS = {"daguerreotype": 80.0, "ambrotype": 55.0, "tintype": 38.0, "opalotype": 45.0,
          "pannotype": 60.0, "crystoleum": 40.0}  # fmt: skip
HOUSES = {"leather-wood": 1.0, "paper-wood": 0.85, "thermoplastic": 1.35, "frame": 0.9}
LOOSE = {
    "loose-plate": {"tintype": 14.0, "daguerreotype": 45.0, "ambrotype": 22.0},
    "card": {"albumen": 11.0, "printing-out": 8.0, "carbon": 10.0},
    "lantern-slide": {"lantern-slide": 7.0},
    "cyanotype": {"cyanotype": 14.0},
}
AREAS = {"sixth": 58.0, "ninth": 32.0, "quarter": 89.0}


def invented_log():
    """A log of invented prices in which every kind of piece has its like."""
    rng = np.random.default_rng(7)
    rows = []

    def row(kind, process, housing, area, level):
        rows.append(
            PricedRow(
                id=f"row-{len(rows)}",
                price=float(level * np.exp(rng.normal(0, 0.25))),
                kind=kind,
                process={process: 1.0},
                housing={housing: 1.0} if housing else {},
                area=area,
                condition=1.0,
                channel=str(rng.choice(["market", "fair", "shop", "online"])),
                record="bought",
                subject=(str(rng.choice(["single", "child", "couple", "group"])),),
                identified=False,
                appeal=3,
                age=float(rng.uniform(0, 3)),
            )
        )

    for process, housing, area in product(LEVELS, HOUSES, AREAS.values()):
        for _ in range(3 if process in ("daguerreotype", "ambrotype", "tintype") else 1):
            row("cased", process, housing, area, LEVELS[process] * HOUSES[housing] * area / 58)
    for kind, processes in LOOSE.items():
        for process, level in processes.items():
            for _ in range(8):
                row(kind, process, "", 58.0, level)
    return learn(rows)


def walk(name, row, knowledge, prices, order):
    """One piece examined until enough has been seen."""
    seen = {key: value for key, value in row["piece"].items() if key != "inscription"}
    piece = piece_of(compose(yaml.safe_dump(seen), name), knowledge)
    truth = {
        check: str(answer)
        for check, answer in row["truth"].items()
        if check in knowledge.checks
        and knowledge.checks[check].index(str(answer)) >= 0
        and piece.kind in knowledge.checks[check].kinds
    }
    asked, seconds = [], 0.0
    while len(asked) < MOST:
        verdict = judge(piece, knowledge, prices, DAY, Settings())
        steps = next_steps(verdict, knowledge)
        if (steps.enough.enough and order == "tool") or not steps.proposals:
            break
        check = next_of(steps, knowledge, order)
        reading = verdict.reading
        asked.append(
            {
                "check": check,
                "families": {k: round(v, 3) for k, v in reading.families.items() if v > 0.02},
                "housings": {k: round(v, 3) for k, v in reading.housings.items() if v > 0.02},
                "told": check in truth,
            }
        )
        seconds += knowledge.checks[check].seconds
        piece = piece.with_finding(check, truth.get(check, "cannot-tell"))
    verdict = judge(piece, knowledge, prices, DAY, Settings())
    whole = piece
    for check, answer in truth.items():
        if not check.startswith("claim."):
            whole = whole.with_finding(check, answer)
    return outcome(row, asked, seconds, verdict, judge(whole, knowledge, prices, DAY, Settings()))


def next_of(steps, knowledge, order):
    """The check to ask: the tool's own next one, or the first open one part by part."""
    if order == "tool":
        return steps.proposals[0].check
    places = {name: place for place, name in enumerate(knowledge.checks)}
    parts = {name: place for place, name in enumerate(knowledge.parts)}
    names = [one.check for one in steps.proposals]
    return min(names, key=lambda name: (parts[knowledge.checks[name].part], places[name]))


def buys(verdict):
    """Whether somebody who does as the verdict says buys at what is asked."""
    money, gate = verdict.money, getattr(verdict, "gate", None)
    asked = verdict.piece.asking
    if money is None or asked is None:
        return False
    limits = [one.limit for one in gate.outcomes] if gate is not None and gate.outcomes else []
    limits = limits or [money.advice.walk_away]
    return all(limit is not None and asked.amount <= limit.amount for limit in limits)


def outcome(row, asked, seconds, verdict, whole):
    """What came of it, beside everything answered."""
    reading, money = verdict.reading, verdict.money
    gate = getattr(verdict, "gate", None)
    plain = money is not None and money.advice.walk_away is not None
    return {
        "is": row["is"],
        "kind": reading.piece.kind,
        "channel": reading.piece.channel,
        "asked": asked,
        "seconds": seconds,
        "family": reading.family,
        "sure": round(reading.families.get(reading.family, 0.0), 3),
        "worth": verdict.worth.median if verdict.worth else None,
        "whole": whole.worth.median if whole.worth else None,
        "cost": float(money.cost.amount) if money and money.cost else None,
        "buys": buys(verdict),
        "buys_whole": buys(whole),
        "warned": sorted({one.id for one in verdict.warnings}),
        "plain": plain and (gate is None or gate.plain),
        "headline": str(getattr(verdict, "headline", "")),
        "modern": round(reading.modern, 3),
        "married": round(reading.married, 3),
    }


def main():
    order, knowledge, prices = sys.argv[1], load(), invented_log()
    for path in sorted((Path(__file__).parent / "triage").glob("*.yaml")):
        row = yaml.safe_load(path.read_text("utf-8"))
        print(json.dumps({"name": path.stem, **walk(path.stem, row, knowledge, prices, order)}))


if __name__ == "__main__":
    main()
