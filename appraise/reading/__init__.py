"""What the findings mean: the joint table, formats, condition. Pure, on numpy arrays.

What the findings mean. Pure, on numpy arrays. `matter` (what lies there), `evidence` (which
findings count, how far) -> `factors`, `years` (what each multiplies in) -> `joint` (the table) ->
`views` (the table from each side) -> `spans`, `condition`, `formats` -> `reading`; `influence`
(what each finding did), `conflicts` (which exclude each other), `usual` (what damage leaves of a
price).
"""
