"""What a piece is worth by the user's own log, what buying it costs, and what to bid.

Regression, comparables, worth, bill, bid, track record. Pure; beside `reading` and `inquiry` the
only room that imports numpy.
"""
