"""The keys of a drink's file, as the owner is told of them."""

from __future__ import annotations

from service.bench.forms.shapes import Field, Pattern, Shape, name, time

EXAMPLE = '"2 scoops", "14 ml" or "18 g"'
AMOUNT = Field("quantity", "how much, for the size that the steps are written for", False, EXAMPLE)
HOT = Field("quantity", "how much in the hot drink; left out: the same", False, EXAMPLE)

DRINK: dict[Pattern, Shape] = {
    (): Shape(
        "The drink and what may be asked of it.",
        {
            "name": name(),
            "family": Field("choice", "its heading on the register", source="families"),
            "about": Field("text", "what it is, in a sentence"),
            "size": Field("choice", "the size that the steps are written for", source="sizes"),
            "sugars": Field("list", "sugar levels offered; left out: all", needed=False, source="sugars"),
            "ices": Field("list", "ice levels offered; left out: all", needed=False, source="ices"),
            "hot": Field("yes/no", "whether it can be had hot", needed=False),
            "shots": Field("number", "extra shots, at most", needed=False),
            "shot_replaces": Field(
                "choice", "what makes way for an extra shot", needed=False, source="pantry"
            ),
            "toppings": Field("list", "toppings offered; left out: all", needed=False, source="toppings"),
            "milks": Field("list", "milks that can be swapped in", needed=False, source="milks"),
            "without": Field("list", "what may be left out", needed=False, source="pantry"),
            "vessel": Field(
                "choice", "where it is mixed; left out: in its cup", needed=False, source="vessels"
            ),
            "least_share": Field(
                "quantity", "how far it may shrink under toppings", needed=False, example='"65 %"'
            ),
        },
    ),
    ("prices",): Shape(
        "Prices by size; a size without one is not offered.",
        {},
        Field("price", "its price", needed=False),
        keys="sizes",
    ),
    ("usual",): Shape(
        "How it comes when nothing is said.",
        {
            "size": Field("choice", "its usual size", source="sizes"),
            "sugar": Field("choice", "its usual sugar level", source="sugars"),
            "ice": Field("choice", "its usual ice level, or hot", source="usual ices"),
        },
    ),
    ("keep",): Shape(
        "What cannot be left out, by ingredient.",
        {},
        Field("text", "what the drink would lose without it", False, '"it would be a milk tea"'),
        keys="pantry",
        optional=True,
    ),
    ("top_up",): Shape(
        "What stands in for ice that is left out.",
        {
            "cold": Field("choice", "with what, in a cold drink", source="pantry"),
            "hot": Field("choice", "with what, in a hot drink", needed=False, source="pantry"),
            "to": Field(
                "choice", "how far: to the usual fill, or at equal strength", needed=False, source="to"
            ),
            "station": Field("choice", "where", source="stations"),
            "tool": Field("choice", "measured with what", source="tools"),
        },
        optional=True,
    ),
    ("steps", "*"): Shape(
        "A step of the recipe.",
        {
            "station": Field("choice", "where", source="stations"),
            "do": Field("choice", "what hands do", source="actions"),
            "what": Field("choice", "what goes in", needed=False, source="pantry"),
            "amount": AMOUNT,
            "hot": HOT,
            "tool": Field(
                "choice", "measured with what; left out: what the words say", needed=False, source="tools"
            ),
            "role": Field("choice", "what it is for, where modifiers ask", needed=False, source="roles"),
            "when": Field("choice", "only iced, only hot, or always", needed=False, source="whens"),
            **time(),
            "words": Field("text", "your own wording of it", needed=False),
            "short": Field("text", "its label in a cell, at most 14 characters", needed=False),
        },
        one="step",
    ),
    ("steps", "*", "amount"): Shape(
        "How much by size; a size that is left out follows from the one that the steps are written for.",
        {},
        Field("quantity", "how much at this size", needed=False, example=EXAMPLE),
        keys="sizes",
        optional=True,
    ),
    ("steps", "*", "hot"): Shape(
        "How much by size in the hot drink; a size that is left out follows from the one that the steps are "
        "written for.",
        {},
        Field("quantity", "how much at this size, hot", needed=False, example=EXAMPLE),
        keys="sizes",
        optional=True,
    ),
    ("steps", "*", "instead"): Shape(
        "Another ingredient at an ice level.",
        {},
        Field("choice", "what goes in at this ice level", needed=False, source="pantry"),
        keys="ices",
        optional=True,
    ),
}
