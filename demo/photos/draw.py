"""Draws the demo's photos: invented pieces in simple shapes, each marked as drawn.

    python demo/photos/draw.py

Nothing here was ever photographed. The pictures stand in for the photos that a user would take, so
that thumbnails and reports have something to show; every one carries the word "drawn".
"""

import math
import random
from pathlib import Path

from PIL import Image, ImageDraw, ImageFilter, ImageFont

WIDE, HIGH = 640, 400  # pixels of an open case; a card is upright in the same height
SCALE = 2  # drawn larger and made smaller, for smooth edges
LEATHER, PLASTIC, RESIN, PAPER = (62, 38, 26), (44, 27, 20), (24, 22, 22), (70, 60, 52)
BRASS, DARK, PALE = (188, 152, 84), (38, 33, 29), (205, 192, 170)
VELVET = {
    "red": (110, 24, 36),
    "green": (36, 70, 52),
    "violet": (74, 40, 84),
    "brown": (98, 62, 40),
}

PHOTOS = {
    "soldier-cap.jpg": {"figure": "soldier", "case": LEATHER, "pad": "red", "opening": "oval"},
    "girl-basket.jpg": {"figure": "girl", "case": PLASTIC, "pad": "violet", "opening": "nonpareil"},
    "man-whiskers.jpg": {"figure": "man", "case": PLASTIC, "pad": "green", "opening": "octagon"},
    "man-whiskers-hinge.jpg": {
        "figure": "man",
        "case": PLASTIC,
        "pad": "green",
        "opening": "octagon",
        "tape": True,
    },
    "couple-acorns.jpg": {"figure": "couple", "case": PLASTIC, "pad": "red", "opening": "oval"},
    "boy-chair.jpg": {"figure": "boy", "case": PAPER, "pad": "brown", "opening": "oval"},
    "ferryman.jpg": {"figure": "ferryman", "case": LEATHER, "pad": "green", "opening": "octagon"},
    "bonnet.jpg": {"figure": "bonnet", "case": LEATHER, "pad": "violet", "opening": "nonpareil"},
    "lace-collar.jpg": {"figure": "woman", "case": RESIN, "pad": "red", "opening": "oval"},
    "two-images.jpg": {"figure": "woman", "case": LEATHER, "left": "man", "opening": "oval"},
    "empty-case.jpg": {"figure": "", "case": PLASTIC, "pad": "red", "opening": ""},
}


def main() -> None:
    """Draw every photo beside this file."""
    for name, how in PHOTOS.items():
        photo(name, **how).save(Path(__file__).parent / name, quality=82, optimize=True)


def photo(name, figure, case, opening, pad="red", left="", tape=False):
    """An open case on a cloth: the pad or another image on the left, the image on the right."""
    rng = random.Random(name)
    scene = Image.new("RGB", (WIDE * SCALE, HIGH * SCALE), (126, 124, 116))
    brush = ImageDraw.Draw(scene)
    outer = [box(28, 34, 318, 366), box(322, 34, 612, 366)]
    shadow = Image.new("L", scene.size, 0)
    ImageDraw.Draw(shadow).rectangle(box(34, 44, 624, 380), fill=150)
    scene.paste((60, 58, 54), mask=shadow.filter(ImageFilter.GaussianBlur(14)))
    for half in outer:
        brush.rounded_rectangle(
            half, radius=16, fill=case, outline=tuple(c + 22 for c in case), width=4
        )
        frame(brush, half, case)
    spine(brush, case, tape)
    if left:
        package(scene, box(56, 62, 290, 338), left, opening, rng)
    else:
        velvet(scene, box(56, 62, 290, 338), VELVET[pad])
    if figure:
        package(scene, box(350, 62, 584, 338), figure, opening, rng)
    else:
        brush.rectangle(box(350, 62, 584, 338), fill=(104, 82, 58), outline=(60, 44, 30), width=6)
    light = Image.linear_gradient("L").resize(scene.size).rotate(180)
    scene = Image.composite(
        scene, Image.new("RGB", scene.size, (0, 0, 0)), light.point(lambda v: 200 + v // 5)
    )
    marked(scene)
    return scene.resize((WIDE, HIGH), Image.Resampling.LANCZOS)


def box(left, top, right, bottom):
    """Corners in pixels of the drawing."""
    return [side * SCALE for side in (left, top, right, bottom)]


def frame(brush, half, case):
    """A moulded border of two lines and studs along it."""
    left, top, right, bottom = half
    lighter = tuple(min(255, c + 30) for c in case)
    for inset in (12, 20):
        edges = [
            left + inset * SCALE,
            top + inset * SCALE,
            right - inset * SCALE,
            bottom - inset * SCALE,
        ]
        brush.rounded_rectangle(edges, radius=12, outline=lighter, width=2)
    for step in range(9):
        for x in (left + 8 * SCALE, right - 8 * SCALE):
            y = top + (bottom - top) * (step + 0.5) / 9
            brush.ellipse([x - 4, y - 4, x + 4, y + 4], fill=lighter)


def spine(brush, case, tape):
    """The hinge between the halves; taped where it broke."""
    brush.rectangle(box(314, 50, 326, 350), fill=tuple(max(0, c - 14) for c in case))
    if tape:
        brush.rectangle(
            box(300, 84, 340, 316), fill=(216, 204, 170), outline=(190, 176, 138), width=3
        )


def velvet(scene, place, colour):
    """A pad of pressed velvet: a spray within an oval."""
    brush = ImageDraw.Draw(scene)
    brush.rectangle(place, fill=colour)
    left, top, right, bottom = place
    middle, centre = (left + right) / 2, (top + bottom) / 2
    lighter = tuple(min(255, c + 26) for c in colour)
    brush.ellipse([left + 40, top + 40, right - 40, bottom - 40], outline=lighter, width=5)
    for turn in range(12):
        angle = math.tau * turn / 12
        x, y = middle + math.cos(angle) * 92, centre + math.sin(angle) * 112
        brush.ellipse([x - 26, y - 15, x + 26, y + 15], outline=lighter, width=4)
    brush.ellipse([middle - 34, centre - 34, middle + 34, centre + 34], outline=lighter, width=5)


def package(scene, place, figure, opening, rng):
    """A preserver, a brass mat with its opening, and the image in it."""
    brush = ImageDraw.Draw(scene)
    left, top, right, bottom = place
    brush.rectangle(place, fill=(214, 180, 108), outline=(120, 92, 44), width=4)
    brush.rectangle(
        [left + 14, top + 14, right - 14, bottom - 14], fill=BRASS, outline=(140, 110, 56), width=3
    )
    for _ in range(900):  # the pebbled ground of the mat
        x, y = rng.uniform(left + 18, right - 18), rng.uniform(top + 18, bottom - 18)
        brush.point([x, y], fill=(164, 130, 68))
    mask = Image.new("L", scene.size, 0)
    shape(ImageDraw.Draw(mask), opening, [left + 52, top + 46, right - 52, bottom - 46])
    scene.paste(image(figure, place, rng), mask=mask)
    rim = mask.filter(ImageFilter.FIND_EDGES).filter(ImageFilter.MaxFilter(5))
    scene.paste((240, 214, 150), mask=rim)


def shape(brush, opening, place):
    """The opening of a mat."""
    left, top, right, bottom = place
    if opening == "octagon":
        cut = 56
        brush.polygon(
            [
                (left + cut, top),
                (right - cut, top),
                (right, top + cut),
                (right, bottom - cut),
                (right - cut, bottom),
                (left + cut, bottom),
                (left, bottom - cut),
                (left, top + cut),
            ],
            fill=255,
        )
    elif opening == "nonpareil":
        brush.rectangle([left, top + 60, right, bottom - 60], fill=255)
        brush.ellipse([left, top, right, top + 190], fill=255)
        brush.ellipse([left, bottom - 190, right, bottom], fill=255)
    else:
        brush.ellipse(place, fill=255)


def image(figure, place, rng):
    """A sitter in warm greys, softened, with scattered specks."""
    plate = Image.new("RGB", (WIDE * SCALE, HIGH * SCALE), (92, 86, 78))
    brush = ImageDraw.Draw(plate)
    left, top, right, bottom = place
    middle = (left + right) / 2
    if figure == "couple":
        sitter(brush, "man", middle - 78, top + 190, bottom, 0.86)
        sitter(brush, "woman", middle + 78, top + 206, bottom, 0.82)
    else:
        size = {"girl": 0.9, "boy": 0.9}.get(figure, 1.1)
        sitter(brush, figure, middle, top + 186, bottom, size)
    plate = plate.filter(ImageFilter.GaussianBlur(4))
    brush = ImageDraw.Draw(plate)
    for _ in range(70):
        x, y = rng.uniform(left, right), rng.uniform(top, bottom)
        brush.ellipse([x, y, x + 3, y + 3], fill=(130, 122, 108))
    return plate


def sitter(brush, figure, x, y, bottom, size):
    """Head, hair, shoulders and what the sitter wears or holds."""

    def oval(dx, dy, w, h, fill):
        brush.ellipse(
            [x + (dx - w) * size, y + (dy - h) * size, x + (dx + w) * size, y + (dy + h) * size],
            fill=fill,
        )

    coat = PALE if figure in ("girl", "bonnet") else DARK
    brush.polygon(
        [
            (x - 120 * size, bottom),
            (x - 96 * size, y + 104 * size),
            (x, y + 62 * size),
            (x + 96 * size, y + 104 * size),
            (x + 120 * size, bottom),
        ],
        fill=coat,
    )
    oval(0, 66, 26, 34, (176, 164, 144))
    if figure in ("woman", "girl"):
        oval(0, -12, 66, 68, (52, 44, 38))
    oval(0, 0, 50, 64, (196, 184, 162))
    oval(0, -46, 50, 26, (56, 48, 42))
    for side in (-19, 19):
        oval(side, -8, 6, 4, (60, 52, 46))
    oval(0, 12, 5, 9, (168, 154, 132))
    oval(0, 34, 14, 4, (128, 104, 92))
    worn(brush, oval, figure, x, y, size)


def worn(brush, oval, figure, x, y, size):
    """What tells one sitter from another."""
    if figure in ("soldier", "ferryman"):
        oval(0, -52, 60 if figure == "soldier" else 88, 14, DARK if figure == "soldier" else PALE)
        oval(0, -66, 50, 22, (48, 46, 50) if figure == "soldier" else PALE)
    if figure == "soldier":
        for step in range(4):
            oval(0, 110 + step * 26, 6, 6, PALE)
    if figure == "man":
        for side in (-40, 40):
            oval(side, 20, 13, 34, (70, 60, 52))
        brush.polygon(
            [(x - 24 * size, y + 74 * size), (x + 24 * size, y + 74 * size), (x, y + 150 * size)],
            fill=PALE,
        )
    if figure == "woman":
        oval(0, 84, 58, 20, (226, 218, 202))
        oval(0, 94, 10, 10, (90, 80, 70))
    if figure == "bonnet":
        oval(0, -34, 84, 56, (222, 212, 192))
        oval(0, 4, 48, 58, (186, 172, 150))
        for side in (-18, 18):
            oval(side, 0, 6, 4, (60, 52, 46))
        oval(0, 36, 13, 3, (120, 100, 88))
    if figure == "girl":
        brush.rounded_rectangle(
            [x - 74 * size, y + 150 * size, x + 74 * size, y + 236 * size],
            radius=20,
            fill=(120, 104, 78),
        )
        brush.arc(
            [x - 66 * size, y + 84 * size, x + 66 * size, y + 220 * size],
            180,
            360,
            fill=(120, 104, 78),
            width=8,
        )
    if figure == "boy":
        oval(0, 84, 44, 12, (226, 218, 202))
        brush.rectangle(
            [x - 150 * size, y - 10 * size, x - 134 * size, y + 300 * size], fill=(66, 52, 40)
        )


def marked(scene):
    """The word that says what it is."""
    font = ImageFont.load_default(size=15 * SCALE)
    ImageDraw.Draw(scene).text(
        (WIDE * SCALE - 14 * SCALE, HIGH * SCALE - 10 * SCALE),
        "drawn",
        font=font,
        fill=(236, 232, 222),
        anchor="rb",
    )


if __name__ == "__main__":
    main()
