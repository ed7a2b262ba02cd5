"""The entries of a piece are found by its file, although most texts are not looked into."""

import tempfile
from dataclasses import replace
from pathlib import Path

from hypothesis import given, settings
from records.test_piece_files import pieces
from store.logkit import bought, opened

from appraise.records.entry_piece import own_entries
from appraise.records.piece_file import write_piece
from appraise.store.piece_record import own_of


@settings(max_examples=40)
@given(pieces(), pieces())
def test_whatever_stands_in_the_file(piece, other):
    with tempfile.TemporaryDirectory() as name, opened(Path(name) / "log.sqlite") as log:
        assert own_of(log, piece) == frozenset()
        for one in (piece, other, replace(piece, title=f"{piece.title} more"[:90])):
            log.add(bought("one", piece=write_piece(one)))
        log.add(bought("sold", record="sold", paid=None, hammer=bought().paid))
        log.add(bought("one", record="sold", paid=None, hammer=bought().paid))
        expected = own_entries(piece, log.entries())
        assert own_of(log, piece) == expected
        assert bool(expected) == bool(piece.findings)
