"""Free text into claims: one-line first looks, log entries and whole listings.

A line or a seller's text -> a piece or an entry. `entities` resolves web entities and keeps places,
`passage` holds what is found in a text once for every reader, `patterns` walks the words of all
layers as one tree, `figures` reads sizes, amounts and days once for both, `measured` says what a
size is of, `leftover` decides between motif and doubt; `kinds`, `gate`, `sayings`, `clashes` what
the text offers and says; `offered` several pieces as a lot.
"""
