"""What a log teaches of image quality, identification, subjects and makers; prices invented."""

import math
from dataclasses import replace

import numpy as np
import pytest

from appraise.pricing.estimate import Prices, learn
from appraise.pricing.features import PricedRow

SUBJECT = PricedRow(
    kind="cased", process={"tintype": 1.0}, housing={"leather-wood": 1.0}, area=57.0,
    channel="market", record="bought", subject=("single",), quality=3.0, identified=0.0,
    maker=False, age=0.0,
)  # fmt: skip
WORTH = {"quality": 0.35, "identified": 0.8, "music": 0.5, "r. quill": 0.6}
"""By how much the log price of these invented logs rises: a mark, a full identification ..."""


@pytest.fixture(scope="module")
def prices() -> Prices:
    rng = np.random.default_rng(7)
    rows = []
    for i in range(160):
        quality = float(rng.choice([1.0, 2.0, 3.0, 4.0, 5.0]))
        identified = float(rng.choice([0.0, 0.0, 0.0, 0.25, 0.5, 0.75, 1.0]))
        music, quill = bool(rng.random() < 0.2), bool(rng.random() < 0.2)
        log = 3.5 + WORTH["quality"] * (quality - 3) + WORTH["identified"] * identified
        log += WORTH["music"] * music + WORTH["r. quill"] * quill + 0.15 * rng.standard_normal()
        rows.append(
            replace(
                SUBJECT,
                id=f"e{i}",
                price=math.exp(log),
                quality=quality,
                identified=identified,
                subject=("single", "music") if music else ("single",),
                maker=quill or bool(rng.random() < 0.3),
                maker_name="r. quill" if quill else "",
            )
        )
    return learn(rows)


@pytest.mark.parametrize(
    ("more", "rise"),
    [
        ({"quality": 5.0}, 2 * WORTH["quality"]),
        ({"quality": 1.0}, -2 * WORTH["quality"]),
        ({"identified": 1.0}, WORTH["identified"]),
        ({"subject": ("single", "music")}, WORTH["music"]),
        ({"maker": True, "maker_name": "r. quill"}, WORTH["r. quill"]),
    ],
)
def test_each_moves_the_price_as_it_did_in_the_log(prices: Prices, more: dict, rise: float):
    plain, other = prices.median(SUBJECT), prices.median(replace(SUBJECT, **more))
    assert plain is not None
    assert other is not None
    assert math.log(other / plain) == pytest.approx(rise, abs=0.15)


def test_a_comparable_is_adjusted_for_each():
    rows = [
        replace(SUBJECT, id=f"e{i}", price=20.0 + i, quality=2.0 + i % 3, subject=("child",))
        for i in range(8)
    ]
    aim = replace(SUBJECT, quality=5.0, subject=("child", "music"), maker_name="r. quill")
    (first, *_) = learn(rows).estimate(aim).comparables
    named = [name for name, _ in first.factors]
    assert {"quality", "subject", "maker name"} <= set(named)
    assert first.adjusted == pytest.approx(
        first.price * math.prod(factor for _, factor in first.factors)
    )
