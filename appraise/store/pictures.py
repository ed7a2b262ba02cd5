"""Pictures of pieces: an entry lists them, the log keeps their files.

Attaching one is an edit like any other and can be undone; files are never taken away.
"""

from dataclasses import replace
from pathlib import Path

from appraise.base.errors import InputError
from appraise.records.entry import Entry, Picture
from appraise.store.faults import faults_told
from appraise.store.log import Log
from appraise.store.picture_files import digest_of, keep, path_of

LARGEST = 100_000_000  # bytes


def attach(log: Log, ref: str, file: Path) -> Entry:
    """Copy a picture into the log's care and list it with an entry.

    The file is durable before the entry speaks of it. Attaching twice changes nothing.

    Raises:
        InputError: when there is no such file or entry, or it is empty or over 100 MB.
        StoreError: when it cannot be kept.
    """
    entry = log.entry(ref)
    try:
        size = file.stat().st_size
    except OSError as error:
        raise InputError(f"cannot be read: {error.strerror}", where=str(file)) from error
    if not file.is_file() or not 0 < size <= LARGEST:
        raise InputError("is not a photo of 1 byte to 100 MB", where=str(file))
    with faults_told(file):
        picture = Picture(digest_of(file), file.name)
    if any(each.sha256 == picture.sha256 for each in entry.pictures):
        return entry
    keep(file, path_of(log.path, picture), picture.sha256)
    return log.edit(replace(entry, pictures=(*entry.pictures, picture)), was=entry)


def detach(log: Log, ref: str, sha256: str) -> Entry:
    """List a picture with an entry no longer; its file stays for the history.

    Raises:
        InputError: when the entry lists no picture, or several, that begin so.
    """
    entry = log.entry(ref)
    chosen = [each for each in entry.pictures if each.sha256.startswith(sha256.lower())]
    if len(chosen) != 1:
        known = ", ".join(each.sha256[:8] for each in entry.pictures)
        raise InputError(f"'{sha256}' is not one photo of {entry.id}", "", f"Known: {known}.")
    rest = tuple(each for each in entry.pictures if each != chosen[0])
    return log.edit(replace(entry, pictures=rest), was=entry)
