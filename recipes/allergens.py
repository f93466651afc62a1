"""The allergens that must be told: the fourteen of Regulation (EU) 1169/2011, Annex II.

Cereals containing gluten and nuts are told by the name of the cereal or nut, as the Annex asks.
"""

from __future__ import annotations

from collections.abc import Mapping

GROUPS: tuple[str, ...] = (
    "cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk",
    "nuts", "celery", "mustard", "sesame", "sulphites", "lupin", "molluscs",
)  # fmt: skip
"""The fourteen groups, in the order of the Annex."""

MEMBERS: Mapping[str, tuple[str, ...]] = {
    "cereals containing gluten": ("wheat", "spelt", "khorasan wheat", "rye", "barley", "oats"),
    "nuts": (
        "almonds", "hazelnuts", "walnuts", "cashews", "pecan nuts", "Brazil nuts", "pistachio nuts",
        "macadamia nuts",
    ),
}  # fmt: skip
"""The groups whose members are told by name."""


def _written() -> dict[str, str]:
    """What a pantry may write, and how it is told."""
    told: dict[str, str] = {}
    for group in GROUPS:
        for member in MEMBERS.get(group, ()):
            told[member] = (
                f"{member} (gluten)" if group == "cereals containing gluten" else f"{member} (nuts)"
            )
        if group not in MEMBERS:
            told[group] = group
    return told


TOLD: Mapping[str, str] = _written()
"""Every word a pantry may write for an allergen, with the words it is told in, in the Annex's order."""

ORDER: Mapping[str, int] = {words: place for place, words in enumerate(TOLD.values())}
"""Where each told allergen stands, for sorting."""
