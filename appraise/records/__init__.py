"""What the user records: one module a record, a frozen dataclass and the tuple of its fields.

What the user saw (`piece.py`: Piece and Finding; `piece_file.py`, `lot_file.py`) and records, one
module a record: a frozen dataclass and one tuple of its fields (name, what may be written, kind of
value). `fields.py` reads and writes all of them as typed (form, FIELD=VALUE), `yaml_fields.py` in
YAML files, `values.py`, `quantities.py` and `terms.py` hold the kinds of value, `filter.py` the
filter line, `record_types.py` their text in the log, that of a price (`entry.py`) too. A field is
one line; what this version does not know is kept in `rest` and written back.
"""
