"""The terminal app: one module per screen, one action registry, two themes of our own.

The terminal app: one module a screen, one registry of actions. `examine/rooms` divides the Examine
screen, `examine/screen` writes its panes as lines; panes are told apart by grounds (`themes`), and
a role of a line may carry what a click does (`lines`).
"""
