"""One piece told to one reader: what each is told, and how that is written.

The parts of which a verdict and a report for a reader are made: `readers.py` is the one table of
readers and parts (`VERDICT` and `WHY` are the user's own screen), `redaction.py` takes away what a
reader must not see before the piece is judged. After a change of words: `PYTHONPATH=tests python
tests/documents/test_reader_forms.py` writes the golden texts again; read their diff.
"""
