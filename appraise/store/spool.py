"""Rows that are put by on the disk while a file is looked at, so that memory does not hold them."""

import marshal
from collections.abc import Iterator
from tempfile import TemporaryFile
from typing import IO, Generic, TypeVar, overload

Row = TypeVar("Row", bound=tuple[object, ...])
PART = 1_000
"""Rows that are in memory at a time; a spool of fewer never touches the disk."""


class Spool(Generic[Row]):
    """Tuples of texts, numbers, None and such tuples, in the order in which they were added.

    Several may be read at once, and each as often as wanted; the file is gone with the spool.
    """

    def __init__(self) -> None:
        self._file: IO[bytes] | None = None
        self._places: list[tuple[int, int]] = []
        self._last: list[Row] = []

    def add(self, row: Row) -> None:
        """Put a row by.

        Raises:
            OSError: when the disk is full.
        """
        self._last.append(row)
        if len(self._last) == PART:
            data = marshal.dumps(self._last)
            if self._file is None:
                self._file = TemporaryFile()  # noqa: SIM115  (it is closed with the spool)
            start = self._file.seek(0, 2)
            self._file.write(data)
            self._places.append((start, len(data)))
            self._last = []

    def close(self) -> None:
        """Let go of the file; the rows are gone."""
        if self._file is not None:
            self._file.close()
        self._file, self._places, self._last = None, [], []

    def __del__(self) -> None:
        self.close()

    def __len__(self) -> int:
        return PART * len(self._places) + len(self._last)

    def __iter__(self) -> Iterator[Row]:
        for part in range(len(self._places) + 1):
            yield from self._part(part)

    @overload
    def __getitem__(self, at: int) -> Row: ...

    @overload
    def __getitem__(self, at: slice) -> list[Row]: ...

    def __getitem__(self, at: int | slice) -> Row | list[Row]:
        if isinstance(at, slice):
            return [self[place] for place in range(*at.indices(len(self)))]
        place = at + len(self) if at < 0 else at
        if not 0 <= place < len(self):
            raise IndexError(at)
        return self._part(place // PART)[place % PART]

    def _part(self, part: int) -> list[Row]:
        if part == len(self._places):
            return list(self._last)
        assert self._file is not None
        start, length = self._places[part]
        self._file.seek(start)
        rows: list[Row] = marshal.loads(self._file.read(length))
        return rows
