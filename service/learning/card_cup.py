"""A cup's cross-section on paper, to scale: its layers, the seal line, the head room."""

from __future__ import annotations

from collections.abc import Iterator

from fpdf import FPDF

from recipes.model import Fill

TAPER = 0.74
"""Radius at the bottom as a share of that at the brim, as usual for cups that stack; as on the screens."""

SLIM = 0.4
"""Half the width at the brim as a share of the height."""

GREYS = {"topping": 120, "ice": 248, "foam": 235, "liquid": 205}
"""What each layer is filled with, 0 black to 255 white; the ice has a hatching besides."""

Point = tuple[float, float]


def height_of(share: float) -> float:
    """Height, as a share of the cup's, to which a share of its brimful volume stands.

    The volume of a cone's slice grows with the cube of its radius.
    """
    within = min(1.0, max(0.0, share))
    return float(((TAPER**3 + within * (1 - TAPER**3)) ** (1 / 3) - TAPER) / (1 - TAPER))


def half_width(height: float) -> float:
    """Half the cup's width at a height (a share of the cup's), as a share of the cup's height."""
    return SLIM * (TAPER + (1 - TAPER) * height)


def layers(fill: Fill) -> Iterator[tuple[str, float, float]]:
    """Each layer with the heights between which it stands, from the bottom, as shares of the cup's."""
    below = 0.0
    for layer in fill.layers:
        if layer.volume_ml > 0:
            low = height_of(below / fill.brim_ml)
            below += layer.volume_ml
            yield layer.what, low, height_of(below / fill.brim_ml)


def draw_cup(page: FPDF, fill: Fill, left: float, foot: float, high: float) -> float:
    """Draw a cup ``high`` mm high that stands on ``foot``; how wide it is at the brim, mm."""
    middle = left + SLIM * high

    def slice_of(low: float, top: float) -> list[Point]:
        narrow, wide = half_width(low) * high, half_width(top) * high
        return [
            (middle - narrow, foot - low * high),
            (middle - wide, foot - top * high),
            (middle + wide, foot - top * high),
            (middle + narrow, foot - low * high),
        ]

    page.set_line_width(0.15)
    for what, low, top in layers(fill):
        page.set_fill_color(GREYS.get(what, GREYS["liquid"]))
        page.polygon(slice_of(low, top), style="DF")
        if what == "ice":
            _hatch(page, middle, foot, high, low, top)
    page.set_line_width(0.4)
    page.polygon(slice_of(0, 1), style="D")
    line = height_of(fill.line_ml / fill.brim_ml)
    reach = half_width(line) * high + 1
    page.set_line_width(0.3)
    page.set_dash_pattern(dash=1, gap=0.7)
    page.line(middle - reach, foot - line * high, middle + reach, foot - line * high)
    page.set_dash_pattern()
    page.set_line_width(0.2)
    return 2 * SLIM * high


def _hatch(page: FPDF, middle: float, foot: float, high: float, low: float, top: float) -> None:
    """Strokes across a layer, so that ice is told from liquid on any printer."""
    tall = (top - low) * high
    reach = half_width(low) * high - tall / 2
    steps = int(max(0.0, 2 * reach) // 1.6)
    for n in range(steps + 1):
        x = middle - reach + 1.6 * n
        page.line(x - tall / 2, foot - low * high, x + tall / 2, foot - top * high)
