"""What one follows, wants, has in stock, works on and owns, and what follows from that."""
