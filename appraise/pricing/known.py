"""Price ratios that hold before the log says better: by format, by condition, asking over paid."""

import math

from appraise.knowledge.records import Ratios


def known_ratios(
    ratios: Ratios, form: str, condition: float | None, record: str
) -> tuple[tuple[str, float], ...]:
    """Natural logs of the ratios of one row beside a usual sixth plate that was paid for.

    Each is named for the feature that it belongs to.

    Args:
        ratios: The judgements of data/prices.yaml.
        form: The format's word; one without a ratio, or '', brings none.
        condition: Share kept of the price of one with the usual damage, above 0; None: as usual.
        record: The entry's record type; `asking` and `unsold` are above what is paid.
    """
    found = []
    if ratios.formats.get(form, 1.0) != 1.0:
        found.append(("size", math.log(ratios.formats[form])))
    if condition is not None and condition > 0.0 and condition != 1.0:
        found.append(("condition", math.log(condition)))
    if record in ("asking", "unsold") and ratios.asking != 1.0:
        found.append(("record", math.log(ratios.asking)))
    return tuple(found)
