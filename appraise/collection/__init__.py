"""What follows from owned and followed things.

What follows from owned and followed things. Pure. Lots: `lotsteps` what becomes of one and what
closes when, `lot_results` what the log learns of it, `lotworth` one ceiling for several pieces,
`budget_status` the sum of all bids. The bench: `repairs` what has to be said of one, `sizing`,
`sameyears` and `fits` what goes with what, `wanting` wishes and twins. Pieces: `transitions` what
happens to one, `examinations` as it was bought and looked at since, `upkeep` what is due and for a
conservator, `air` measures and light against `care:`, `arrival` the piece in hand against what was
claimed, `sale` a sale's bill and gain.
"""
