"""The keys of the shop, the pantry and the extras, as the owner is told of them."""

from __future__ import annotations

from service.bench.forms.shapes import Field, Pattern, Shape, name, time

ACTS = {
    "scoop": "a level scoop",
    "half_scoop": "half a scoop, with its trims",
    "pump": "the reach for a pump",
    "stroke": "each stroke",
    "half_stroke": "half a stroke",
    "jigger": "a jigger filled to a mark and poured",
    "between_marks": "reading it between two marks, besides",
    "second_fill": "filling it once more",
    "jug": "a jug filled to a mark at eye level and poured",
    "other_tool": "laying one tool away and taking another",
    "tongs": "the reach for the tongs",
    "cube": "each cube",
    "ice_scoop": "a scoop of ice, struck level",
    "ladle": "a ladle",
    "shot": "starting shots and pouring them",
    "steam": "steaming milk, besides the time that it takes to warm",
}
"""What hands are timed at, by the key of [hands]."""

SHOP: dict[Pattern, Shape] = {
    ("shop",): Shape(
        "The shop itself.",
        {
            "name": name("the shop's name"),
            "town": Field("text", "where it is"),
            "currency": Field("choice", "what prices are in", source="currencies"),
            "time_zone": Field("text", "for the hours on the times page", example='"Europe/Lisbon"'),
            "day_starts": Field("text", "sales before this hour belong to the day before", example='"04:00"'),
            "tolerance": Field(
                "quantity", "a build says so when it is further from the recipe", example='"10 %"'
            ),
            "limit": Field(
                "quantity", "and is refused when it is further than this", needed=False, example='"30 %"'
            ),
            "energy": Field(
                "choice", "whose factors and rounding energy goes by", needed=False, source="factors"
            ),
        },
    ),
    ("tax",): Shape(
        "The tax on a sale.",
        {
            "name": name(),
            "percent": Field("quantity", "its rate", example='"10 %"'),
            "included": Field("yes/no", "whether prices include it", needed=False),
            "rounded": Field("choice", "once for an order, or on every line", source="rounded"),
        },
    ),
    ("floor",): Shape(
        "The floor in a rush: when the bar is told to hurry, and what becomes of a drink that is done.",
        {
            "soon": Field(
                "quantity", "how long after ring-in a ticket is soon late", needed=False, example='"5 min"'
            ),
            "late": Field("quantity", "and when it is late", needed=False, example='"8 min"'),
            "bump": Field(
                "choice",
                "what bumps a drink once every station is done: that last touch itself, or a hand",
                needed=False,
                source="bumped",
            ),
            "board_keeps": Field(
                "quantity",
                "how long a ready number stands on the customers' board; it never leaves the hand-off",
                needed=False,
                example='"10 min"',
            ),
        },
        optional=True,
    ),
    ("taste",): Shape(
        "How much each squared error weighs when amounts are chosen; left out: the weight of the house.",
        {},
        Field("quantity", "a weight from 0 to 100", needed=False, example='"1"'),
        keys="taste parts",
        optional=True,
    ),
    ("hands",): Shape(
        "Seconds of hands for each act of measuring, and what they are worth beside taste; left out: the "
        "house's.",
        {
            "patience": Field(
                "quantity",
                "seconds worth spending to bring an ingredient that is 10 % off to the recipe",
                needed=False,
                example='"8 s"',
            ),
            **{
                act: Field("quantity", f"seconds for {words}", needed=False, example='"4 s"')
                for act, words in ACTS.items()
            },
        },
        optional=True,
    ),
    ("stations", "*"): Shape(
        "A place at the counter; the order of the file is the order of the counter.",
        {
            "name": name(),
            "melt": Field(
                "quantity",
                "how far melting gets there before the cup moves on",
                needed=False,
                example='"100 %"',
            ),
        },
        one="station",
    ),
    ("tools", "*"): Shape(
        "What an amount is measured with.",
        {
            "name": name(),
            "kind": Field("choice", "what it is; a jug and a jigger are read in ml", source="tool kinds"),
            "one": Field("text", "one of its measures in a word", needed=False, example='"scoop"'),
            "many": Field("text", "several of them in a word", needed=False, example='"scoops"'),
            "holds": Field(
                "quantity",
                "what one of them holds; an ice scoop with the air between, a jigger to its brim",
                needed=False,
                example='"20 ml"',
            ),
            "marks": Field(
                "quantity", "how far apart the marks of a jug or jigger stand", needed=False, example='"5 ml"'
            ),
            "smallest": Field("quantity", "the smallest step a hand can measure with it", example='"1/2"'),
        },
        one="tool",
    ),
    ("vessels", "*"): Shape(
        "Where a drink is mixed.",
        {"name": name(), "holds": Field("quantity", "the most it takes", example='"850 ml"')},
        one="mixing vessel",
    ),
    ("sizes", "*"): Shape(
        "A cup.",
        {
            "name": name(),
            "line": Field("quantity", "the seal line: the highest fill that still seals", example='"360 ml"'),
            "brim": Field("quantity", "the most it could hold", example='"400 ml"'),
        },
        one="cup size",
    ),
    ("sugar",): Shape(
        "Sugar levels: per cent of the sweetener that a recipe adds, and the customer's word for it.",
        {},
        Field("text", "the customer's word for this level", example='"half sugar"'),
        keys="percents",
        one="sugar level",
    ),
    ("ice", "*"): Shape(
        "An ice level.",
        {
            "name": name("the customer's word for it"),
            "cubes": Field("quantity", "how much of the recipe's cubes", example='"75 %"'),
        },
        one="ice level",
    ),
    ("families", "*"): Shape(
        "A heading on the register.",
        {
            "name": name(),
            "drinks": Field(
                "list",
                "its drinks in their order, easier under Order of the menu; others follow",
                needed=False,
                source="drinks",
            ),
        },
        one="heading",
    ),
}

PANTRY: dict[Pattern, Shape] = {
    ("*",): Shape(
        "An ingredient as the brand in use measures.",
        {
            "name": name(),
            "short": Field("text", "its name in a cell of the bar sheet, at most 14 characters"),
            "kind": Field("choice", "what it is, as far as the rules care", source="kinds"),
            "brand": Field("text", "the brand in use", needed=False),
            "density": Field(
                "quantity", "mass of a millilitre as scooped, pumped or poured", example='"0.50 g/ml"'
            ),
            "body": Field(
                "quantity", "density of one piece of a topping or of ice", needed=False, example='"1.15 g/ml"'
            ),
            "sugars": Field("quantity", "share of the mass", example='"38 %"'),
            "dry": Field("quantity", "what is left without its water, share of the mass", example='"96 %"'),
            "fat": Field("quantity", "share of the mass, as on the label", needed=False, example='"12 %"'),
            "carbohydrate": Field(
                "quantity",
                "share of the mass, sugars included, without fibre",
                needed=False,
                example='"70 %"',
            ),
            "protein": Field("quantity", "share of the mass", needed=False, example='"4 %"'),
            "fibre": Field("quantity", "share of the mass", needed=False, example='"2 %"'),
            "caffeine": Field("quantity", "in a gram of it", needed=False, example='"0.2 mg/g"'),
            "energy": Field(
                "quantity", "of 100 g, as on the label", needed=False, example='"1720 kJ/411 kcal"'
            ),
            "finer": Field(
                "list",
                "tools that may add what the recipe's own tool cannot measure",
                needed=False,
                source="tools",
            ),
            "allergens": Field("list", "what must be told, by law", needed=False, source="allergens"),
            "serving": Field("quantity", "how warm it stands at the bar", example='"4 °C"'),
            "hot": Field(
                "quantity",
                "how warm a step makes it that steams or heats it",
                needed=False,
                example='"65 °C"',
            ),
            "price": Field("quantity", "what it costs you", example='"9.50 EUR/kg" or "1.20 EUR/l"'),
            "keep": Field("quantity", "how long it keeps once opened or made", needed=False, example='"4 h"'),
        },
        one="ingredient",
    )
}

EXTRAS: dict[Pattern, Shape] = {
    ("toppings",): Shape(
        "Toppings on offer.",
        {
            "most": Field("number", "how many go into one cup at most"),
            "station": Field("choice", "where they go into the cup", source="stations"),
        },
    ),
    ("toppings", "choices", "*"): Shape(
        "A topping on offer.",
        {
            "name": name("the customer's word for it"),
            "ingredient": Field("choice", "what it is in the pantry", source="pantry"),
            "portion": Field("quantity", "a full portion", example='"1 ladle"'),
            "price": Field("price", "a full portion's price"),
            "half": Field("yes/no", "whether half a portion is served; left out: yes", needed=False),
            "half_price": Field("price", "a half portion's price; left out: half", needed=False),
            "hot": Field("yes/no", "whether it may go into a hot drink", needed=False),
            "choking": Field("yes/no", "whether small children can choke on it", needed=False),
        },
        one="topping",
    ),
    ("milks", "*"): Shape(
        "A milk on offer.",
        {
            "name": name("the customer's word for it"),
            "ingredient": Field("choice", "what it is in the pantry", source="pantry"),
            "price": Field("price", "what it costs more than the recipe's milk", needed=False),
        },
        one="milk",
    ),
    ("shot",): Shape(
        "An extra shot.",
        {
            "ingredient": Field("choice", "what it is in the pantry", source="pantry"),
            "tool": Field("choice", "what pulls it", source="tools"),
            "station": Field("choice", "where it is pulled", source="stations"),
            **time(),
            "crema": Field("quantity", "the foam that it carries", example='"10 ml"'),
            "collapse": Field(
                "quantity", "the share of it gone at hand-over", needed=False, example='"50 %"'
            ),
            "price": Field("price", "what one costs"),
        },
    ),
}
