"""The Bench: parts in stock, work in hand, what one looks out for."""
