"""The terminal app: one module per screen, one action registry, two themes of our own."""
