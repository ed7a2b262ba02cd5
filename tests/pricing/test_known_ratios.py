import math

import pytest

from appraise.knowledge.records import Ratios
from appraise.pricing.known import known_ratios

RATIOS = Ratios(formats={"sixth": 1.0, "quarter": 2.0}, asking=1.25)


@pytest.mark.parametrize(
    ("form", "condition", "record", "told"),
    [
        ("sixth", None, "bought", {}),
        ("", 1.0, "bought", {}),
        ("unheard-of", 0.0, "hammer", {}),
        ("quarter", 0.8, "bought", {"size": 2.0, "condition": 0.8}),
        ("sixth", None, "asking", {"record": 1.25}),
        ("sixth", None, "unsold", {"record": 1.25}),
    ],
)
def test_ratios_that_hold(
    form: str, condition: float | None, record: str, told: dict[str, float]
) -> None:
    found = {name: math.exp(log) for name, log in known_ratios(RATIOS, form, condition, record)}
    assert found == pytest.approx(told)
