"""SQLite's file format, as far as records on table leaves: sqlite.org/fileformat2.html.

Section 1.6 describes pages and cells, 2.1 records, 4 the write-ahead log. Nothing here
follows the tree, so a lost branch hides no leaf.
"""

import mmap
import struct
from collections.abc import Callable, Iterator
from pathlib import Path

from appraise.store.files import journal

Value = int | float | str | bytes | None
Page = Callable[[int], bytes]

PAGE_SIZE = 4096  # SQLite's own choice for a new file, and so ours where a header is lost
_HEADER = 100
_LEAF = 0x0D
_WAL_HEADER, _FRAME_HEADER = 32, 24
_INTEGERS = {1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8}
_LONGEST = 64_000_000  # bytes of one record; the log keeps far smaller ones
_BROKEN = (ValueError, LookupError, struct.error, OverflowError)


def records(path: Path) -> Iterator[tuple[Value, ...]]:
    """Every record on every table leaf of a database file and its journal.

    Pages that are no leaves, and records that cannot be read, are passed over; what chance
    bytes look like is for the caller to judge.

    Raises:
        OSError: when a file cannot be read.
    """
    wal_path = journal(path, "-wal")
    wal = wal_path.read_bytes() if wal_path.exists() else b""
    with path.open("rb") as file:
        if not path.stat().st_size:
            return
        with mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ) as data:
            size = _page_size(data[:_HEADER])
            frames = list(_frames(wal, size))
            newest = dict(frames)

            def written(number: int) -> bytes:
                return data[(number - 1) * size : number * size]

            def journalled(number: int) -> bytes:
                return newest.get(number) or written(number)

            for number in range(1, len(data) // size + 1):
                start = _HEADER if number == 1 else 0
                yield from _leaf(written(number), start, written)
            for number, page in frames:
                yield from _leaf(page, _HEADER if number == 1 else 0, journalled)


def _page_size(head: bytes) -> int:
    told = int.from_bytes(head[16:18], "big")
    size = 65_536 if told == 1 else told
    return size if 512 <= size <= 65_536 and size & (size - 1) == 0 else PAGE_SIZE


def _frames(wal: bytes, size: int) -> Iterator[tuple[int, bytes]]:
    step = _FRAME_HEADER + size
    for at in range(_WAL_HEADER, len(wal) - step + 1, step):
        number = int.from_bytes(wal[at : at + 4], "big")
        yield number, wal[at + _FRAME_HEADER : at + step]


def _leaf(page: bytes, start: int, other: Page) -> Iterator[tuple[Value, ...]]:
    if len(page) <= start + 8 or page[start] != _LEAF:
        return
    cells = int.from_bytes(page[start + 3 : start + 5], "big")
    for place in range(min(cells, len(page) // 4)):
        at = start + 8 + 2 * place
        try:
            yield _record(_payload(page, int.from_bytes(page[at : at + 2], "big"), other))
        except _BROKEN:
            continue


def _payload(page: bytes, at: int, other: Page) -> bytes:
    """The bytes of a cell's record, with what overflowed onto other pages."""
    length, at = _varint(page, at)
    _, at = _varint(page, at)  # the row's number
    usable = len(page)
    most, least = usable - 35, (usable - 12) * 32 // 255 - 23
    if not 0 < length <= _LONGEST:
        raise ValueError("no record is of that length")
    if length <= most:
        return _slice(page, at, length)
    local = least + (length - least) % (usable - 4)
    local = local if local <= most else least
    parts = [_slice(page, at, local)]
    number = int.from_bytes(_slice(page, at + local, 4), "big")
    left = length - local
    while left > 0:
        more = other(number)
        parts.append(_slice(more, 4, min(left, usable - 4)))
        number = int.from_bytes(more[:4], "big")
        left -= usable - 4
    return b"".join(parts)


def _record(payload: bytes) -> tuple[Value, ...]:
    end, at = _varint(payload, 0)
    kinds = []
    while at < end:
        kind, at = _varint(payload, at)
        kinds.append(kind)
    values: list[Value] = []
    for kind in kinds:
        value, at = _value(payload, at, kind)
        values.append(value)
    return tuple(values)


def _value(payload: bytes, at: int, kind: int) -> tuple[Value, int]:
    if kind == 0:
        return None, at
    if kind in _INTEGERS:
        size = _INTEGERS[kind]
        return int.from_bytes(_slice(payload, at, size), "big", signed=True), at + size
    if kind == 7:
        return struct.unpack(">d", _slice(payload, at, 8))[0], at + 8
    if kind in (8, 9):
        return kind - 8, at
    if kind < 12:
        raise ValueError("no value is of that kind")
    size = (kind - 12) // 2
    raw = _slice(payload, at, size)
    return (raw.decode() if kind % 2 else raw), at + size


def _varint(data: bytes, at: int) -> tuple[int, int]:
    """Big-endian, seven bits a byte; the ninth byte counts whole."""
    value = 0
    for place in range(9):
        byte = data[at + place]
        if place == 8:
            return (value << 8) | byte, at + 9
        value = (value << 7) | (byte & 0x7F)
        if byte < 0x80:
            break
    return value, at + place + 1


def _slice(data: bytes, at: int, length: int) -> bytes:
    part = data[at : at + length]
    if len(part) != length:
        raise ValueError("the page ends before the record does")
    return part
