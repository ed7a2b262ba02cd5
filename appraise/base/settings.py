"""The user's settings: declared once here, read from settings.yaml, never required."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from appraise.base.dataclass import dataclass
from appraise.base.errors import InputError
from appraise.base.money import EXPONENTS

if TYPE_CHECKING:
    from appraise.base.yamls import Row

THEMES = ("auto", "daylight", "night")
REGIONS = ("us", "gb", "eu", "au", "unknown")


@dataclass(frozen=True, slots=True)
class Settings:
    """What a user may set; every field has a default that works.

    Attributes:
        currency: Base currency, ISO 4217.
        theme: 'auto', 'daylight' or 'night'.
        region: Where the user is at home; in the United States 5/6/2026 is the sixth of May.
        ascii: Draw with plain ASCII only.
        budget: What is left to spend, base currency; None: no limit.
        extra: What I would pay beyond resale.
        margin: What should be left over.
        repair: What mending a piece usually costs me.
        bidders: Bidders at an auction, me included, when nothing is known.
        opening: Share of the lower of asked and walk-away price that is offered first.
        backup_days: Age in days at which a backup goes that was not asked for.
        backup_size: Megabytes of all backups together, from which the oldest of these go.
    """

    currency: str = "USD"
    theme: str = "auto"
    region: str = "unknown"
    ascii: bool = False
    budget: Decimal | None = None
    extra: Decimal = Decimal(0)
    margin: Decimal = Decimal(0)
    repair: Decimal = Decimal(0)
    bidders: int = 4
    opening: Decimal = Decimal("0.75")
    backup_days: int = 500
    backup_size: int = 2_000


def load_settings(path: Path) -> Settings:
    """The settings of a home; a missing file means the defaults.

    Raises:
        InputError: one line with file, line, key and the nearest valid spelling.
    """
    if not path.exists():
        return Settings()
    from appraise.base.yamls import read  # 20 ms, and only where there is a file

    row = read(path)
    usual = Settings()
    settings = Settings(
        currency=_currency(row, usual.currency),
        theme=row.choice("theme", THEMES, usual.theme),
        region=row.choice("region", REGIONS, usual.region),
        ascii=row.flag("ascii", usual.ascii),
        budget=_amount(row, "budget") if "budget" in row else None,
        extra=_amount(row, "extra"),
        margin=_amount(row, "margin"),
        repair=_amount(row, "repair"),
        bidders=int(row.number("bidders", usual.bidders, 1, 50)),
        backup_days=int(row.number("backup_days", usual.backup_days, 1, 100_000)),
        backup_size=int(row.number("backup_size", usual.backup_size, 1, 10_000_000)),
        opening=Decimal(str(row.number("opening", float(usual.opening), 0.05, 1))),
    )
    row.done()
    return settings


def save_setting(path: Path, key: str, value: str) -> None:
    """Write one setting into the user's file; every other line of it stays as it is.

    Raises:
        InputError: when the file cannot be written.
    """
    from appraise.base.files import read_bytes, write_new

    text = read_bytes(path).decode(errors="surrogateescape") if path.exists() else ""
    kept = [row for row in text.splitlines() if not row.startswith(f"{key}:")]
    whole = "\n".join([*kept, f"{key}: {value}"]) + "\n"
    write_new(path, whole.encode(errors="surrogateescape"), over=True)


def _currency(row: Row, usual: str) -> str:
    return row.choice("currency", tuple(EXPONENTS), usual)


def _amount(row: Row, key: str) -> Decimal:
    text = row.text(key, "0")
    try:
        value = Decimal(text)
    except ArithmeticError:
        raise row.error(key, f"'{text}' is not an amount") from None
    if not (value.is_finite() and 0 <= value < Decimal("1e12")):
        raise InputError(f"{text} is not an amount of 0 or more", row.where(key))
    return value
