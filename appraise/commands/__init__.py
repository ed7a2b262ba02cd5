"""What a user can do: the use cases, and one row of the registry for each.

What a user can do. `registry` and `rows_*`: one row a command (name, help, arguments, record), from
which parser, help and completion are made; a command loads the rows of its family alone.
`workspace` is what a use case works with; `kinds` what is special about a type of record, `records`
what is the same for all (add, list, edit, remove, history); `owned`, `lots` what happens to a piece
or a lot, `undo` takes an act back by its name, `odd` keeps which prices fit nothing else. A use
case returns what changed and a sentence; it neither parses nor draws.
"""
