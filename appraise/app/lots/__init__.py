"""Lots: the sales one follows, what closes when, bids and results."""
