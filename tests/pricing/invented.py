"""Invented price logs for the tests; no figure in them was ever paid by anyone."""

import math

import numpy as np

from appraise.pricing.features import PricedRow

PROCESSES = ("ambrotype", "daguerreotype", "tintype")
LEVELS = {"ambrotype": 3.6, "daguerreotype": 4.2, "tintype": 3.2}


def invented_log(count: int, seed: int = 4) -> list[PricedRow]:
    """A log in which process, size, condition and channel set the price, with noise of 0.2."""
    rng = np.random.default_rng(seed)
    rows = []
    for i in range(count):
        process = PROCESSES[int(rng.integers(3))]
        area = float(rng.choice([31.0, 57.0, 89.0]))
        condition = float(rng.choice([0.5, 0.8, 1.0]))
        channel = str(rng.choice(["market", "online"]))
        log = (
            LEVELS[process]
            + 0.5 * math.log(area / 57.0)
            + math.log(condition)
            + 0.2 * (channel == "online")
            + 0.2 * float(rng.standard_normal())
        )
        rows.append(
            PricedRow(
                id=f"e{i}",
                price=round(math.exp(log), 2),
                kind="cased",
                process={process: 1.0},
                housing={str(rng.choice(["leather-wood", "thermoplastic"])): 1.0},
                area=area,
                condition=condition,
                channel=channel,
                record="bought",
                subject=(str(rng.choice(["single", "child"])),),
                identified=bool(rng.random() < 0.2),
                maker=None if rng.random() < 0.3 else bool(rng.random() < 0.5),
                appeal=int(rng.integers(1, 6)),
                age=float(rng.uniform(0.0, 4.0)),
                motif=str(rng.choice(["vine", "girl with basket", ""])),
            )
        )
    return rows


SUBJECT = PricedRow(
    kind="cased",
    process={"ambrotype": 0.8, "tintype": 0.2},
    housing={"thermoplastic": 1.0},
    area=57.0,
    condition=0.8,
    channel="market",
    record="bought",
    subject=("single",),
    identified=False,
    maker=False,
    appeal=4,
    age=0.0,
    motif="girl in a vine case",
)
