import math

import numpy as np
import pytest

from appraise.base.errors import InputError
from appraise.pricing.features import FIGURES, GROUPS, Design, PricedRow, differs, motifs

TINTYPE = PricedRow(
    id="a",
    price=40.0,
    kind="cased",
    process={"tintype": 0.7, "ambrotype": 0.3},
    housing={"thermoplastic": 1.0},
    area=57.0,
    condition=0.8,
    channel="market",
    record="bought",
    subject=("single", "music"),
    quality=4.0,
    identified=0.0,
    maker=True,
    maker_name="r. quill",
    appeal=3,
    age=1.5,
    motif="vine",
)
BARE = PricedRow(id="b", price=10.0)


def cell(design: Design, row: PricedRow, column: str) -> float:
    return float(design.matrix([row])[0, design.columns.index(column)])


def test_columns_and_values() -> None:
    design = Design.of([TINTYPE, BARE])
    told = dict(zip(design.columns, design.matrix([TINTYPE])[0], strict=True))
    assert told["process: tintype"] == pytest.approx(0.7)
    assert told["process: ambrotype"] == pytest.approx(0.3)
    assert told["process: other"] == pytest.approx(0.0)
    assert told["channel: market"] == 1.0
    assert told["size"] == pytest.approx(math.log(57.0))
    assert told["condition"] == pytest.approx(math.log(0.8))
    assert (told["identified"], told["maker"], told["appeal"], told["age"]) == (0.0, 1.0, 3.0, 1.5)
    assert all(value == 0.0 for name, value in told.items() if name.endswith("missing"))


def test_missing_values_are_flagged_and_not_numbers() -> None:
    design = Design.of([TINTYPE, BARE])
    told = dict(zip(design.columns, design.matrix([BARE])[0], strict=True))
    for name in FIGURES:
        assert math.isnan(told[name])
    assert all(value == 1.0 for name, value in told.items() if name.endswith("missing"))
    assert told["process: tintype"] == 0.0
    assert told["process: other"] == 0.0


def test_words_that_the_log_lacks_are_other() -> None:
    design = Design.of([TINTYPE])
    strange = PricedRow(process={"pannotype": 0.6, "tintype": 0.4}, channel="moon")
    assert cell(design, strange, "process: other") == pytest.approx(0.6)
    assert cell(design, strange, "channel: other") == 1.0
    assert cell(design, strange, "channel: market") == 0.0


def test_shares_above_one_are_scaled() -> None:
    design = Design.of([TINTYPE])
    row = PricedRow(process={"tintype": 3.0, "ambrotype": 1.0})
    assert cell(design, row, "process: tintype") == pytest.approx(0.75)


@pytest.mark.parametrize(
    ("field", "value", "column"),
    [
        ("area", 0.0, "size"),
        ("area", -4.0, "size"),
        ("area", math.inf, "size"),
        ("condition", 0.0, "condition"),
        ("age", math.nan, "age"),
    ],
)
def test_nonsense_counts_as_missing(field: str, value: float, column: str) -> None:
    design = Design.of([TINTYPE])
    row = PricedRow(**{field: value})
    assert math.isnan(cell(design, row, column))
    assert cell(design, row, f"{column} missing") == 1.0


def test_nonsense_shares_are_left_out() -> None:
    row = PricedRow(process={"tintype": math.nan, "ambrotype": -1.0})
    assert cell(Design.of([TINTYPE]), row, "process missing") == 1.0
    nothing = Design.of([PricedRow(process={"tintype": 1.0, "ambrotype": 0.0})])
    assert nothing.levels["process"] == ("tintype",)


def test_every_group_has_columns_and_blocks_hold_theirs() -> None:
    design = Design.of([TINTYPE, BARE])
    for name in GROUPS:
        assert any(column.startswith(name) for column in design.columns)
    block = design.columns[design.block("process")]
    assert block == ("process: ambrotype", "process: tintype", "process: other")
    assert design.columns[design.block("process").stop] == "process missing"
    with pytest.raises(KeyError):
        design.block("size")


def test_a_log_of_one_kind_only_and_an_empty_log() -> None:
    one = Design.of([TINTYPE, TINTYPE])
    assert one.matrix([TINTYPE, TINTYPE]).shape == (2, len(one.columns))
    none = Design.of([])
    assert none.matrix([]).shape == (0, len(none.columns))
    assert cell(none, TINTYPE, "kind: other") == 1.0


def test_known_ratios_are_taken_off() -> None:
    row = PricedRow(id="c", price=50.0, ratios=(("asking", math.log(1.25)), ("size", 0.0)))
    assert row.level_price == pytest.approx(math.log(40.0))


@pytest.mark.parametrize("price", [None, 0.0, -3.0, math.nan, math.inf])
def test_a_row_without_a_price_has_no_level(price: float | None) -> None:
    with pytest.raises(InputError, match="entry 'x' has no price"):
        _ = PricedRow(id="x", price=price).level_price


def test_differences_are_told_by_group() -> None:
    assert not any(differs(TINTYPE, TINTYPE, name) for name in GROUPS)
    assert not any(differs(BARE, BARE, name) for name in GROUPS)
    assert all(differs(TINTYPE, BARE, name) for name in GROUPS)
    assert motifs([TINTYPE, BARE]) == ["vine", ""]
    assert np.isnan(Design.of([]).matrix([BARE])).sum() == len(FIGURES)
