"""What the states of belonging are called, in a word or two and in a sentence."""

STATES = {
    "together": "together",
    "married": "married piece",
    "modern-case": "modern case",
    "modern-image": "modern image",
    "all-modern": "all modern",
    "period": "of its time",
    "modern": "modern",
}
"""In a word or two."""
MEANT = {
    "together": "image and case were together from the start",
    "married": "both are old, but were not together from the start",
    "modern-case": "an old image in a modern case",
    "modern-image": "a modern image in an old case",
    "all-modern": "image and case are both modern",
    "period": "it is of its time",
    "modern": "it is modern work",
}
"""In a sentence."""
TOWARDS = {"married": "a married piece", "modern": "modern work", "period": "its time"}
"""After 'support for', where the word alone does not stand there."""
