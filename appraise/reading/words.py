"""Verbal bands for likelihood ratios.

ENFSI Guideline for Evaluative Reporting in Forensic Science (European Network of Forensic Science
Institutes, 2015). The printed ranges touch; the lower edge counts as inside. Below 2 the findings
do not support one side over the other.
"""

BANDS = (
    (1_000_000, "extremely strong"),
    (10_000, "very strong"),
    (1_000, "strong"),
    (100, "moderately strong"),
    (10, "moderate"),
    (2, "weak"),
)
NONE = "no"


def word_for(ratio: float) -> str:
    """The band of a likelihood ratio above or below 1; a ratio below 1 counts as its inverse.

    Raises:
        ValueError: when the ratio is not above 0.
    """
    if not ratio > 0:
        raise ValueError(f"a likelihood ratio is above 0, not {ratio}")
    strength = max(ratio, 1 / ratio) * (1 + 1e-12)
    return next((word for edge, word in BANDS if strength >= edge), NONE)
