"""From a line to its target: what should go in at this size, before fitting and rounding.

Modifiers change amounts and ingredients here, by the role of each step, never by name.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from recipes.book import Book, Drink, Ingredient, RecipeStep, Tool, Topping
from recipes.lines import complete
from recipes.model import HOT, Line, Refusal


@dataclass(frozen=True, slots=True)
class Part:
    """One ingredient to go in: ``scaling_ml`` shrinks with the drink, ``fixed_ml`` does not.

    ``fixed_ml`` of a part can be negative: tea that makes way for a shot.
    """

    ingredient: Ingredient
    tool: Tool
    temperature_c: float
    role: str
    scaling_ml: float
    fixed_ml: float = 0.0

    def wanted_ml(self, share: float) -> float:
        """How much should go in when the drink is made at ``share`` of its size."""
        return max(0.0, self.scaling_ml * share + self.fixed_ml)


@dataclass(frozen=True, slots=True)
class Target:
    """The target of a line. ``plan`` are the steps that are made, each with its part if it has one."""

    drink: Drink
    line: Line
    hot: bool
    plan: tuple[tuple[RecipeStep, Part | None], ...]
    shots: Part | None
    toppings: tuple[tuple[Topping, Part, bool], ...]

    @property
    def parts(self) -> list[Part]:
        """Everything that goes in, toppings first, but the top-up."""
        found = [part for _, part, _ in self.toppings]
        found += [part for _, part in self.plan if part is not None]
        return found if self.shots is None else [*found, self.shots]


def target(book: Book, line: Line) -> Target:
    """The target of a line. Raises ``Refusal`` for what the book does not allow."""
    line = complete(
        book, line.drink, line.size, line.sugar, line.ice, line.shots, line.toppings, line.milk, line.without
    )
    drink = book.drinks[line.drink]
    hot = line.ice == HOT
    _refuse_toppings_in_heat(book, line, hot)
    scale = book.sizes[line.size].line_ml / book.sizes[drink.reference].line_ml
    plan = tuple(
        (step, _part(book, line, drink, step, scale, hot))
        for step in drink.steps
        if _is_made(line, step, hot)
    )
    return Target(
        drink=drink,
        line=line,
        hot=hot,
        plan=tuple((step, part) for step, part in plan if step.ingredient is None or part is not None),
        shots=_extra_shots(book, line, hot),
        toppings=_toppings(book, line),
    )


def regular(book: Book, of: Target) -> Target | None:
    """The same line at the regular ice level, which top-ups compare with; None when it has no less ice."""
    if (
        of.drink.ices == (HOT,)
        or of.drink.top_up is None
        or (not of.hot and book.ices[of.line.ice].factor >= 1)
    ):
        return None
    level = next(level.id for level in book.ices.values() if level.factor == 1)
    line = replace(of.line, ice=level)
    scale = book.sizes[line.size].line_ml / book.sizes[of.drink.reference].line_ml
    plan = tuple(
        (step, _part(book, line, of.drink, step, scale, hot=False))
        for step in of.drink.steps
        if _is_made(line, step, hot=False)
    )
    return replace(of, line=line, hot=False, plan=plan)


def temperature(ingredient: Ingredient, hot: bool) -> float:
    """How warm an ingredient goes in, °C."""
    return ingredient.hot_c if hot and ingredient.hot_c is not None else ingredient.serving_c


def _is_made(line: Line, step: RecipeStep, hot: bool) -> bool:
    """Whether a step is made at all for this line."""
    if step.when == ("iced" if hot else "hot") or (hot and step.role == "ice"):
        return False
    if step.ingredient in line.without:
        return False
    # A hot shot poured on the powder stands in for the dissolving water: dropped, not added to.
    return not (line.shots and step.role == "dissolve" and step.ingredient is not None)


def _part(book: Book, line: Line, drink: Drink, step: RecipeStep, scale: float, hot: bool) -> Part | None:
    """What a step puts in, or None when it puts nothing in (work, or 0 % of it)."""
    if step.ingredient is None or step.amount is None:
        return None
    factors: Mapping[str, float] = {"sweetener": line.sugar / 100, "ice": book.ices[line.ice].factor}
    factor = factors.get(step.role, 1.0)
    if factor == 0:
        return None
    chosen = step.instead.get(line.ice, step.ingredient)
    if step.role == "milk" and line.milk is not None:
        chosen = book.milks[line.milk].ingredient
    ingredient = book.pantry[chosen]
    tool = book.tools[step.amount.tool]
    wanted = step.amount.ml * scale * factor
    # A shot is pulled whole: it follows the size of the cup, but does not shrink with a drink under toppings.
    shot = tool.kind == "shot"
    gives_way = drink.shot_replaces == step.ingredient and line.shots > 0
    fixed = -line.shots * book.tools[book.shot.tool].unit_ml if gives_way else 0.0
    return Part(
        ingredient=ingredient,
        tool=tool,
        temperature_c=temperature(ingredient, hot),
        role=step.role,
        scaling_ml=0.0 if shot else wanted,
        fixed_ml=wanted if shot else fixed,
    )


def _extra_shots(book: Book, line: Line, hot: bool) -> Part | None:
    if line.shots == 0:
        return None
    tool, ingredient = book.tools[book.shot.tool], book.pantry[book.shot.ingredient]
    return Part(ingredient, tool, temperature(ingredient, hot), "part", 0.0, line.shots * tool.unit_ml)


def _toppings(book: Book, line: Line) -> tuple[tuple[Topping, Part, bool], ...]:
    """Toppings in the order of the book, which is the order of the counter."""
    halves = {choice.topping: choice.half for choice in line.toppings}
    found = []
    for topping in book.toppings.values():
        if topping.id in halves:
            half = halves[topping.id]
            ingredient = book.pantry[topping.ingredient]
            volume = topping.portion_ml / 2 if half else topping.portion_ml
            tool = book.tools[topping.tool]
            found.append(
                (topping, Part(ingredient, tool, ingredient.serving_c, "topping", 0.0, volume), half)
            )
    return tuple(found)


def _refuse_toppings_in_heat(book: Book, line: Line, hot: bool) -> None:
    for choice in line.toppings if hot else ():
        topping = book.toppings[choice.topping]
        if not topping.hot:
            accepted = tuple(each for each in book.drinks[line.drink].toppings if book.toppings[each].hot)
            message = f"A hot drink cannot take {topping.name}: heat spoils that topping."
            raise Refusal("topping not for hot", "toppings", topping.id, message, accepted)
