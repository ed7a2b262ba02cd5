"""Values as JSON has them, each sort by one rule; attributes of a record under their own names."""

import datetime as dt
from decimal import Decimal
from typing import Any

from appraise.base.money import Money, as_json

DIGITS = 4  # places of a chance, and of any other fraction


def json_value(value: Any) -> Any:
    """A value as JSON has it: amounts with their currency, days as ISO 8601, fractions rounded."""
    if isinstance(value, Money):
        return as_json(value)
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, float):
        return round(value, DIGITS)
    if isinstance(value, Decimal):
        return str(value)
    return [json_value(each) for each in value] if isinstance(value, tuple) else value


def picked(thing: object, names: str, **more: Any) -> dict[str, Any]:
    """Some attributes of a record as JSON values, and beside them what bears another name.

    Args:
        thing: The record.
        names: The attributes, parted by blanks.
        more: Values of anything else.
    """
    told = {name: getattr(thing, name) for name in names.split()} | more
    return {name: json_value(value) for name, value in told.items()}
