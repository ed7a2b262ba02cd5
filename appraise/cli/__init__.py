"""The commands: the same powers as the app, for scripts and for people who like a line.

`parsing` makes the parser of the registry, `handlers` finds what runs a command: `records` for
every type of record, else one module a family; `showing` how records are shown; exit statuses in
`exits.py`; `completion` what an argument may be.
"""
