"""From a line to its plan: what should go in at this size, before fitting and rounding.

Modifiers change amounts and ingredients here, by the role of each step, never by name. Toppings are no part
of a plan: they wait in the cup and only take room (``recipes.garnish``).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from recipes.balance.load import Load, load_of
from recipes.book import Book, Drink, Ingredient, RecipeStep, Tool
from recipes.model import HOT, Amount, Line

MIXING = ("shake", "stir", "whisk")
"""Work that brings ice and drink together."""

LEAST_DISSOLVING_ML = 10.0
"""What hot shots leave to pour of the dissolving water is poured from here up: less is not worth the step."""


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """One ingredient to go in: ``scaling_ml`` shrinks with the drink, ``fixed_ml`` does not.

    ``fixed_ml`` of a part can be negative: tea that makes way for a shot. ``tools`` are what it is measured
    with, the recipe's own first, then the finer ones. ``unit`` is what one millilitre of it brings.
    """

    ingredient: Ingredient
    tools: tuple[Tool, ...]
    temperature_c: float
    role: str
    scaling_ml: float
    fixed_ml: float
    unit: Load

    @property
    def tool(self) -> Tool:
        """The recipe's own tool."""
        return self.tools[0]

    def wanted_ml(self, share: float) -> float:
        """How much should go in when the drink is made at ``share`` of its size."""
        return max(0.0, self.scaling_ml * share + self.fixed_ml)


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """What a line without its toppings should be made of.

    ``steps`` are those that are made, each with its part if it has one; ``regular`` are the parts of the same
    line with regular ice, which a top-up compares with (None when it has no less ice). ``ice_factor`` times
    the recipe's cubes are asked for; ``melt_share`` is that of the station where it is mixed.
    """

    drink: Drink
    line: Line
    hot: bool
    steps: tuple[tuple[RecipeStep, Part | None], ...]
    parts: tuple[Part, ...]
    shots: Part | None
    regular: tuple[Part, ...] | None
    top_up: Part | None
    ice_factor: float
    melt_share: float


def plan(book: Book, line: Line) -> Plan:
    """The plan of a canonical line; its toppings are left out of account."""
    drink = book.drinks[line.drink]
    hot = line.ice == HOT
    steps = _steps(book, drink, line, hot)
    shots = _extra_shots(book, line, hot)
    parts = tuple(part for _, part in steps if part is not None) + ((shots,) if shots else ())
    return Plan(
        drink=drink,
        line=line,
        hot=hot,
        steps=steps,
        parts=parts,
        shots=shots,
        regular=_regular(book, drink, line, shots),
        top_up=_top_up(book, drink, line, hot),
        ice_factor=book.ices[line.ice].factor,
        melt_share=_melt_share(book, steps),
    )


def temperature(ingredient: Ingredient, hot: bool) -> float:
    """How warm an ingredient goes in, °C."""
    return ingredient.hot_c if hot and ingredient.hot_c is not None else ingredient.serving_c


def part(
    book: Book, ingredient: Ingredient, tool: Tool, celsius: float, role: str, scaling: float, fixed: float
) -> Part:
    """A part with what a millilitre of it brings; espresso carries what is left of its crema."""
    foam = book.shot.foam_ml / book.tools[book.shot.tool].unit_ml if ingredient.kind == "espresso" else 0.0
    step = tool.step_ml
    finer = [book.tools[each] for each in ingredient.finer if each != tool.id]
    tools = (tool, *(each for each in finer if each.step_ml < step))
    return Part(ingredient, tools, celsius, role, scaling, fixed, load_of(ingredient, 1.0, celsius, foam))


def sugar_sources(used: Iterable[tuple[Part, Amount]]) -> Iterator[tuple[str, float]]:
    """Grams of sugars by what brings them, sweeteners left out."""
    for part, amount in used:
        if part.role != "sweetener" and part.ingredient.sugars:
            yield part.ingredient.short.lower(), amount.mass_g * part.ingredient.sugars


def _steps(book: Book, drink: Drink, line: Line, hot: bool) -> tuple[tuple[RecipeStep, Part | None], ...]:
    scale = book.sizes[line.size].line_ml / book.sizes[drink.reference].line_ml
    steps = [step for step in drink.steps if _is_made(line, step, hot)]
    gives_way = _gives_way(drink, steps, scale, line.shots * book.tools[book.shot.tool].unit_ml)
    made = [
        (step, _part(book, drink, line, step, scale, hot, gives_way.get(place, 0.0)))
        for place, step in enumerate(steps)
    ]
    return tuple((step, found) for step, found in made if step.ingredient is None or found is not None)


def _gives_way(drink: Drink, steps: list[RecipeStep], scale: float, shots_ml: float) -> dict[int, float]:
    """How many millilitres of each step make way for the extra shots.

    Hot shots poured on the powder stand in for the dissolving water, millilitre by millilitre. Only what they
    bring beyond that takes the room of what the recipe says they replace: a shot takes its room once, so that
    no drink gets smaller for having more in it.
    """
    found: dict[int, float] = {}
    dissolving = [place for place, step in enumerate(steps) if step.role == "dissolve" and step.amount]
    replaced = [place for place, step in enumerate(steps) if step.ingredient == drink.shot_replaces]
    for place in (*dissolving, *replaced) if shots_ml else ():
        amount = steps[place].amount
        if amount is not None and place not in found:
            found[place] = min(shots_ml, amount.ml * scale)
            shots_ml -= found[place]
    return found


def _is_made(line: Line, step: RecipeStep, hot: bool) -> bool:
    """Whether a step is made at all for this line."""
    if step.when == ("iced" if hot else "hot") or (hot and step.role == "ice"):
        return False
    return step.ingredient not in line.without


def _part(
    book: Book, drink: Drink, line: Line, step: RecipeStep, scale: float, hot: bool, gives_way_ml: float
) -> Part | None:
    """What a step puts in, or None when it puts nothing in (work, 0 % of it, or shots in its place)."""
    if step.ingredient is None or step.amount is None:
        return None
    factor = scale
    if step.role == "sweetener":
        factor *= line.sugar / 100
    elif step.role == "ice":
        factor *= book.ices[line.ice].factor
    if factor == 0:
        return None
    own = book.pantry[step.ingredient]
    chosen = book.pantry[step.instead.get(line.ice, step.ingredient)]
    # The same thing at another temperature goes by mass, as a recipe's strength does.
    wanted = step.amount.ml * factor * own.density / chosen.density
    if step.role == "milk" and line.milk is not None:
        chosen, wanted = book.pantry[book.milks[line.milk].ingredient], step.amount.ml * factor
    tool = book.tools[step.amount.tool]
    if gives_way_ml and step.role == "dissolve" and wanted - gives_way_ml < LEAST_DISSOLVING_ML:
        return None
    scaling, fixed = wanted, -gives_way_ml
    if tool.kind == "shot":
        # Pulled whole: it follows the size of the cup, but does not shrink with a drink under toppings.
        scaling, fixed = 0.0, wanted
    return part(book, chosen, tool, temperature(chosen, hot), step.role, scaling, fixed)


def _extra_shots(book: Book, line: Line, hot: bool) -> Part | None:
    if line.shots == 0:
        return None
    tool, ingredient = book.tools[book.shot.tool], book.pantry[book.shot.ingredient]
    volume = line.shots * tool.unit_ml
    return part(book, ingredient, tool, temperature(ingredient, hot), "shot", 0.0, volume)


def _regular(book: Book, drink: Drink, line: Line, shots: Part | None) -> tuple[Part, ...] | None:
    """The parts of the same line with regular ice; None where nothing is topped up to compare with it."""
    less = line.ice == HOT or book.ices[line.ice].factor < 1
    if not less or drink.ices == (HOT,) or drink.top_up is None:
        return None
    level = next(level.id for level in book.ices.values() if level.factor == 1)
    steps = _steps(book, drink, replace(line, ice=level), hot=False)
    found = tuple(part for _, part in steps if part is not None)
    return found if shots is None else (*found, shots)


def _top_up(book: Book, drink: Drink, line: Line, hot: bool) -> Part | None:
    """What tops the drink up. A milk is always the milk chosen: another could harm who chose it."""
    rule = drink.top_up
    if rule is None or (hot and rule.hot is None):
        return None
    chosen = rule.hot if hot and rule.hot else rule.cold
    milks = {milk.ingredient for milk in book.milks.values()}
    if chosen in milks and line.milk is not None:
        chosen = book.milks[line.milk].ingredient
    ingredient = book.pantry[chosen]
    return part(book, ingredient, book.tools[rule.tool], temperature(ingredient, hot), "top_up", 0.0, 0.0)


def _melt_share(book: Book, steps: tuple[tuple[RecipeStep, Part | None], ...]) -> float:
    """That of the station which mixes the ice in; of the ice's own station when nothing is mixed after it."""
    share, iced = 1.0, False
    for step, found in steps:
        if step.role == "ice" and found is not None:
            share, iced = book.stations[step.station].melt_share, True
        elif iced and step.action in MIXING:
            share = book.stations[step.station].melt_share
    return share
