"""Continental plate sizes against a published list of them, the source beside each.

"Plattengroessen", a private page on the parts of a daguerreotype (daguerreotype-gallery.de), lists
the plates in use on the Continent as parts of the whole one of 8 x 6 Paris inches; the inch of
27.07 mm is by the French law of 1799 (443.296 lines to the metre, twelve to the inch).
"""

import pytest
from external.kit import piece, shipped

from appraise.reading.reading import read

INCH = 12 * 1000 / 443.296  # mm
LISTED = [  # ours, width and height in mm as listed, and as parts of the whole in Paris inches
    ("paris-full", 162, 216, 6, 8),
    ("paris-two-thirds", 144, 162, 16 / 3, 6),
    ("paris-half", 108, 162, 4, 6),
    ("third", 72, 162, 8 / 3, 6),
    ("paris-quarter", 81, 108, 3, 4),
    ("paris-sixth", 72, 81, 8 / 3, 3),
    ("paris-eighth", 54, 81, 2, 3),
    ("paris-ninth", 54, 72, 2, 8 / 3),
    ("paris-twelfth", 40.5, 72, 1.5, 8 / 3),
]


@pytest.mark.parametrize(("name", "width", "height", "across", "along"), LISTED)
def test_a_listed_plate_has_the_listed_size(name, width, height, across, along):
    own = shipped().formats[name].sizes[0]
    assert own == pytest.approx((width, height), abs=1.0)
    assert own == pytest.approx((across * INCH, along * INCH), abs=0.1)


@pytest.mark.parametrize(("name", "width", "height"), [row[:3] for row in LISTED])
def test_a_plate_of_the_listed_size_is_named_on_the_continent(name, width, height):
    seen = piece(measured={"plate": f"{width} x {height} mm"}, region="eu", kind="loose-plate")
    chances = read(seen, shipped()).formats.probabilities
    shape = shipped().formats[name].sizes[0]
    near = [  # American and continental plates of nearly one size cannot be told apart by measuring
        one.id
        for one in shipped().formats.values()
        if any(
            abs(w - shape[0]) <= 3 and abs(h - shape[1]) <= 3 and "loose-plate" in one.kinds
            for w, h in one.sizes
        )
    ]
    assert max(chances, key=lambda one: chances[one]) in near
    assert chances[name] >= 0.1


@pytest.mark.parametrize(
    ("name", "size"),
    [("three-quarter", (165, 181)), ("round", (95, 95)), ("stereo-plate", (85, 172))],
)
def test_other_sizes_of_the_list(name, size):
    sizes = shipped().formats[name].sizes
    assert any(one == pytest.approx(size, abs=1.0) for one in sizes)
