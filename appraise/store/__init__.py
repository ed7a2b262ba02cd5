"""What the user keeps: SQLite revisions with undo, search, merge, backups and pictures.

The SQLite store of revisions. `log` opens it and holds the one way to write (`Log.commit`),
`current_state` what every record is now, `revisions`, `undo`, `drafts`, `search`, `merge`,
`backup`, `check`, `salvage`, `pictures`; `records`, `owned_pieces`, `bench`, `venue_book` and
`piece_record` what belongs together in it. A record with a `key` (a venue, a rate, the currency)
has the same id in every log.
"""
