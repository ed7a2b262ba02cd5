"""Free text into claims: one-line first looks, log entries and whole listings."""

from appraise.listing.reader import read
from appraise.listing.records import FIELDS, Claim, Flag, Listing

__all__ = ["FIELDS", "Claim", "Flag", "Listing", "read"]
