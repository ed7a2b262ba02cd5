"""The sale of an owned piece as a bill."""

import datetime as dt
from typing import Any

from appraise.base.jsonvalues import picked
from appraise.base.money import as_json
from appraise.collection.sale import Gain, Sale
from appraise.documents.document import Document, Table, section
from appraise.documents.entry import entry_json
from appraise.records.entry import Entry
from appraise.records.owned import OwnedPiece
from appraise.records.stored import Stored


def sale_json(
    one: Stored[OwnedPiece], sale: Sale, gain: Gain, sold: Entry | None, as_of: dt.date
) -> dict[str, Any]:
    """A sale as JSON, schema "appraise.kept-sale/1"; `entry` is None where it was only tried."""
    return {
        "schema": "appraise.kept-sale/1",
        "as_of": as_of.isoformat(),
        "kept": picked(one.thing, "title status", id=one.id),
        "taken": [{"what": what, "amount": as_json(money)} for what, money in sale.taken],
        **picked(sale, "price net"),
        **picked(gain, "cost mending gain uncounted"),
        "entry": entry_json(sold) if sold else None,
    }


def sale_document(sale: Sale, gain: Gain) -> Document:
    """A sale as a bill, each amount with its currency."""
    rows = [("price", str(sale.price))]
    rows += [(f"less {what}", f"-{money}") for what, money in sale.taken]
    rows.append(("net proceeds", str(sale.net)))
    if gain.net is not None and gain.net.currency != sale.price.currency:
        rows.append(("in your currency", str(gain.net)))
    if gain.cost is not None:
        rows.append(("less its total cost", f"-{gain.cost}"))
    if gain.mending.amount:
        rows.append(("less later costs", f"-{gain.mending}"))
    rows += [("without a rate, not counted", str(money)) for money in gain.uncounted]
    if gain.gain is None:
        rows.append(("gain", "not known: a cost or rate is missing"))
    else:
        rows.append(("gain" if gain.gain.amount >= 0 else "loss", str(gain.gain)))
    return Document("", section("sale", "", Table("", (), tuple(rows), (1,), len(rows) - 1)))
