"""A verdict told: as JSON, as plain text for a terminal or a pipe.

What a verdict, a piece, a lot, a bill, a record tells, as a tree of plain text (`document.py`:
headings, facts, tables with bars, pictures, in a tone each; `chart.py`). `words.py` has the phrases
that every place shares. One thing, one module: `verdict.py` (and what is behind it), `bid.py`,
`lotbid.py`, `owned_page.py`, `owned_lists.py`, `arrival.py`, `track.py`, `listing.py` and so on
make the `Document` that a screen and a command both show; JSON is picked from the records beside it
(`base/jsonvalues.py`), the verdict's in `verdict_json.py`.
"""
