"""A learnt log as bytes and back: plain figures and texts, no code."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import Any

import msgspec
import numpy as np

from appraise.base.errors import InputError
from appraise.pricing.estimate import Prices
from appraise.pricing.features import PricedRow
from appraise.pricing.regression import squares_of


class _Packed(msgspec.Struct, array_like=True):
    """The rows, and the learnt log without them and without what the features tell."""

    rows: msgspec.Raw
    rest: msgspec.Raw


def pack(prices: Prices) -> bytes:
    """A learnt log as one MessagePack value."""
    rows = msgspec.Raw(msgspec.msgpack.encode(prices.rows))
    nothing = np.empty((0, 0))
    model = prices.model and replace(prices.model, x=nothing, squares=nothing)
    rest = msgspec.msgpack.encode(replace(prices, rows=(), model=model), enc_hook=_plain)
    return msgspec.msgpack.encode(_Packed(rows, msgspec.Raw(rest)))


def unpack(data: bytes | memoryview) -> Prices:
    """What `pack` wrote.

    Raises:
        InputError: when it is anything else.
    """
    with _read():
        packed = msgspec.msgpack.decode(data, type=_Packed)
        prices = msgspec.msgpack.decode(packed.rest, type=Prices, dec_hook=_array)
        model = prices.model
        if model is not None:
            x = model.scale.apply(prices.features)
            model = replace(model, x=x, squares=squares_of(x))
        return replace(prices, rows=_rows(packed), model=model)


def unpack_rows(data: bytes | memoryview) -> tuple[PricedRow, ...]:
    """The rows alone of what `pack` wrote; errors as in `unpack`."""
    with _read():
        return _rows(msgspec.msgpack.decode(data, type=_Packed))


def _rows(packed: _Packed) -> tuple[PricedRow, ...]:
    return msgspec.msgpack.decode(packed.rows, type=tuple[PricedRow, ...])


@contextmanager
def _read() -> Iterator[None]:
    try:
        yield
    except (msgspec.MsgspecError, ValueError, TypeError) as error:
        raise InputError("is no learnt log") from error


def _plain(value: Any) -> Any:
    """An array as its type, shape and bytes; a number of numpy's as one of Python's."""
    if isinstance(value, np.ndarray):
        return [value.dtype.str, list(value.shape), np.ascontiguousarray(value).tobytes()]
    if isinstance(value, np.generic):
        return value.item()
    raise TypeError(f"{type(value).__name__} cannot be kept")


def _array(_: Any, told: Any) -> Any:
    kind, shape, data = told
    return np.frombuffer(data, dtype=np.dtype(kind)).reshape(shape)
