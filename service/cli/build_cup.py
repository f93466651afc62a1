"""A small drawing of a cup in text: its layers to scale, the seal line and the head room."""

from __future__ import annotations

from recipes.model import Fill

ROWS = 9
"""How many rows the cup has from its bottom to the seal line."""

INSIDE = 12
"""How many characters a row is wide."""

_MARKS = {"topping": "●", "liquid": "░", "ice": "▒", "foam": "˙"}


def draw(fill: Fill) -> list[str]:
    """The lines of the drawing, from the seal line down; layers and head room are named at the right."""
    ends: list[tuple[float, str, str]] = []
    level = 0.0
    for layer in fill.layers:
        level += layer.volume_ml
        ends.append(
            (
                level,
                _MARKS.get(layer.what, "░"),
                f"{_label(layer.what, layer.label)} {layer.volume_ml:.0f} ml",
            )
        )
    per_row = fill.line_ml / ROWS
    rows: list[str] = []
    named: set[str] = set()
    for row in range(ROWS, 0, -1):
        middle = (row - 0.5) * per_row
        mark, label = next(((mark, label) for end, mark, label in ends if middle <= end), (" ", "head room"))
        shown = "" if label in named else label
        named.add(label)
        if label == "head room" and shown:
            shown = f"room {fill.head_ml:.0f} ml"
        rows.append(f" │{mark * INSIDE}│ {shown}"[:34])
    left_out = [label for _, _, label in ends if label not in named]
    note = [f"  and {', '.join(left_out)}"[:34]] if left_out else []
    return [f" ┝{'╍' * INSIDE}┥ seal line", *rows, f" ╰{'─' * INSIDE}╯", *note]


def _label(what: str, label: str) -> str:
    """Toppings by their name; the drink itself as "drink", which fits beside the cup."""
    return "drink" if what == "liquid" else label
