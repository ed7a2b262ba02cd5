"""What a piece is worth by the user's own log, what buying it costs, and what to bid.

Pure: nothing here reads a file, a clock or a random source that it was not handed. Estimates
are for buying decisions only.
"""
