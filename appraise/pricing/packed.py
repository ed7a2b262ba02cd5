"""A learnt log as bytes and back: plain figures and texts, no code."""

from typing import Any

import msgspec
import numpy as np

from appraise.base.errors import InputError
from appraise.pricing.estimate import Prices


def pack(prices: Prices) -> bytes:
    """A learnt log as one MessagePack value."""
    return msgspec.msgpack.encode(prices, enc_hook=_plain)


def unpack(data: bytes) -> Prices:
    """What `pack` wrote.

    Raises:
        InputError: when it is anything else.
    """
    try:
        return msgspec.msgpack.decode(data, type=Prices, dec_hook=_array)
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
