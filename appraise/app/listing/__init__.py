"""The Listing screen: a seller's text with its claims and flags lit, and what to do about them."""
