"""From a line to its plan: what should go in at this size, before fitting and rounding.

Modifiers change amounts and ingredients here, by the role of each step, never by name. Toppings are no part
of a plan: they wait in the cup and only take room (``recipes.building.toppings``).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from recipes.actions import HEATING, STEAMING
from recipes.balance.load import Load, load_of, steamed_load
from recipes.book import Book, Drink, Ingredient, Measured, RecipeStep, Tool
from recipes.measures import nearest
from recipes.model import HOT, Amount, Line

MIXING = ("shake", "stir", "whisk")
"""Work that brings ice and drink together."""

LEAST_DISSOLVING_ML = 10.0
"""What hot shots leave to pour of the dissolving water is poured from here up: less is not worth the step."""


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """One ingredient to go in: ``scaling_ml`` shrinks with the drink, ``fixed_ml`` does not.

    ``fixed_ml`` of a part can be negative: tea that makes way for a shot. ``tools`` are what it is measured
    with, the recipe's own first, then the finer ones; ``jug`` measures what is more than a jigger holds.
    ``written_ml`` is what the owner wrote for this size, the measure that hands are used to. ``unit`` is what
    one millilitre of it brings.
    """

    ingredient: Ingredient
    tools: tuple[Tool, ...]
    temperature_c: float
    role: str
    scaling_ml: float
    fixed_ml: float
    unit: Load
    jug: Tool | None = None
    written_ml: float | None = None

    @property
    def tool(self) -> Tool:
        """The recipe's own tool."""
        return self.tools[0]

    @property
    def steam_g(self) -> float:
        """Grams of steam that one millilitre takes up."""
        return max(0.0, self.unit.mass_g - self.ingredient.density) if self.unit.mass_g else 0.0

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
    shots = _extra_shots(book, line, steps)
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


def temperature(ingredient: Ingredient, action: str) -> float:
    """How warm an ingredient goes in, °C: only a step that heats it makes it warmer than it stands."""
    return ingredient.hot_c if action in HEATING and ingredient.hot_c is not None else ingredient.serving_c


def part(
    book: Book,
    ingredient: Ingredient,
    tool: Tool,
    role: str,
    scaling: float,
    fixed: float,
    action: str = "pour",
    written_ml: float | None = None,
) -> Part:
    """A part with what a millilitre of it brings: espresso what is left of its crema, steamed milk the
    steam.
    """
    celsius = temperature(ingredient, action)
    foam = book.shot.foam_ml / book.tools[book.shot.tool].unit_ml if ingredient.kind == "espresso" else 0.0
    unit = load_of(ingredient, 1.0, celsius, foam)
    if action in STEAMING and celsius > ingredient.serving_c:
        unit = steamed_load(ingredient, 1.0, ingredient.serving_c, celsius)
    step = tool.step_ml
    finer = [book.tools[each] for each in ingredient.finer if each != tool.id]
    tools = (tool, *(each for each in finer if each.step_ml < step))
    jug = None
    if tool.kind == "jigger" and tool.reads_ml is not None:
        jug = next((each for each in book.tools.values() if each.kind == "jug"), None)
    return Part(ingredient, tools, celsius, role, scaling, fixed, unit, jug, written_ml)


def sugar_sources(used: Iterable[tuple[Part, Amount]]) -> Iterator[tuple[str, float]]:
    """Grams of sugars by what brings them, sweeteners left out."""
    for part, amount in used:
        if part.role != "sweetener" and part.ingredient.sugars:
            yield part.ingredient.short.lower(), amount.mass_g * part.ingredient.sugars


def amount_at(book: Book, drink: Drink, step: RecipeStep, size: str, hot: bool) -> Measured | None:
    """How much a step puts in at a size: as the owner wrote it, else scaled from the reference size.

    Cups scale by their seal lines; a shot is pulled whole, at least one. None for work.
    """
    written = step.written(size, hot)
    if written is not None:
        return written
    reference = step.written(drink.reference, hot)
    if reference is None:
        return None
    tool = book.tools[reference.tool]
    wanted = reference.ml * book.sizes[size].line_ml / book.sizes[drink.reference].line_ml
    if tool.kind == "shot":
        wanted = max(1.0, nearest(wanted / tool.step_ml, 1.0)) * tool.step_ml
    return Measured(reference.tool, wanted)


def _steps(book: Book, drink: Drink, line: Line, hot: bool) -> tuple[tuple[RecipeStep, Part | None], ...]:
    steps = [step for step in drink.steps if _is_made(line, step, hot)]
    amounts = [amount_at(book, drink, step, line.size, hot) for step in steps]
    gives_way = _gives_way(book, drink, line, steps, amounts)
    own_shots = _own_shots(book, steps, amounts) if line.shots else None
    made: list[tuple[RecipeStep, Part | None]] = []
    for place, (step, amount) in enumerate(zip(steps, amounts, strict=True)):
        extra = line.shots if place == own_shots else 0
        made.append((step, _part(book, line, step, amount, hot, gives_way.get(place, 0.0), extra)))
    return tuple((step, found) for step, found in made if step.ingredient is None or found is not None)


def _own_shots(book: Book, steps: list[RecipeStep], amounts: list[Measured | None]) -> int | None:
    """The step that pulls the recipe's own shots, which the extra ones are pulled together with."""
    for place, (step, amount) in enumerate(zip(steps, amounts, strict=True)):
        if step.ingredient == book.shot.ingredient and amount is not None and amount.tool == book.shot.tool:
            return place
    return None


def _gives_way(
    book: Book, drink: Drink, line: Line, steps: list[RecipeStep], amounts: list[Measured | None]
) -> dict[int, float]:
    """How many millilitres of each step make way for shots; below 0 where it stands in for part of a shot.

    Hot shots poured on the powder stand in for the dissolving water, millilitre by millilitre. Only what they
    bring beyond that takes the room of what the recipe says they replace: a shot takes its room once, so that
    no drink gets smaller for having more in it. What is whisked keeps its water: the shot goes on top.
    """
    found: dict[int, float] = {}
    shots_ml = line.shots * book.tools[book.shot.tool].unit_ml
    whisked = any(step.action == "whisk" for step in steps)
    dissolving = [place for place, step in enumerate(steps) if step.role == "dissolve" and not whisked]
    replaced = [
        place for place, step in enumerate(steps)
        if step.ingredient is not None and step.ingredient == drink.shot_replaces
    ]  # fmt: skip
    for place in (*dissolving, *replaced) if shots_ml else ():
        amount = amounts[place]
        if amount is not None and place not in found:
            found[place] = min(shots_ml, amount.ml)
            shots_ml -= found[place]
    rounded_ml = _rounded_off(book, drink, line, steps, amounts)
    balancing = [*replaced, *_balancing(book, steps)]
    if rounded_ml and balancing:
        found[balancing[0]] = found.get(balancing[0], 0.0) + rounded_ml
    return found


def _balancing(book: Book, steps: list[RecipeStep]) -> list[int]:
    """The steps that make up for a whole shot, the likeliest first: tea, milk, else what is poured."""
    kinds = {
        place: book.pantry[step.ingredient].kind
        for place, step in enumerate(steps)
        if step.ingredient is not None and step.role in ("part", "milk")
    }
    return [place for wanted in ("tea", "milk", "liquid") for place, kind in kinds.items() if kind == wanted]


def _rounded_off(
    book: Book, drink: Drink, line: Line, steps: list[RecipeStep], amounts: list[Measured | None]
) -> float:
    """How many millilitres more than a size would want its whole shots bring (less when below 0)."""
    scale = book.sizes[line.size].line_ml / book.sizes[drink.reference].line_ml
    hot, over = line.ice == HOT, 0.0
    for step, amount in zip(steps, amounts, strict=True):
        if amount is None or book.tools[amount.tool].kind != "shot" or step.written(line.size, hot):
            continue
        reference = step.written(drink.reference, hot)
        over += amount.ml - (reference.ml * scale if reference else amount.ml)
    return over


def _is_made(line: Line, step: RecipeStep, hot: bool) -> bool:
    """Whether a step is made at all for this line."""
    if step.when == ("iced" if hot else "hot") or (hot and step.role == "ice"):
        return False
    return step.ingredient not in line.without


def _part(
    book: Book,
    line: Line,
    step: RecipeStep,
    amount: Measured | None,
    hot: bool,
    gives_way_ml: float,
    extra_shots: int,
) -> Part | None:
    """What a step puts in, or None when it puts nothing in (work, 0 % of it, or shots in its place)."""
    if step.ingredient is None or amount is None:
        return None
    tool, wanted = book.tools[amount.tool], amount.ml
    chosen = book.pantry[step.instead.get(line.ice, step.ingredient)]
    if step.role == "milk" and line.milk is not None:
        chosen = book.pantry[book.milks[line.milk].ingredient]
    if step.role == "sweetener":
        wanted *= line.sugar / 100
    elif step.role == "ice":
        wanted = _of_ice(book, line, tool, amount.ml)
    if wanted == 0:
        return None
    if gives_way_ml and step.role == "dissolve" and wanted - gives_way_ml < LEAST_DISSOLVING_ML:
        return None
    scaling, fixed = wanted, -gives_way_ml
    if tool.kind == "shot":
        # Pulled whole: it follows the size of the cup, but does not shrink with a drink under toppings.
        scaling, fixed = 0.0, wanted + extra_shots * tool.unit_ml
    written = step.written(line.size, hot)
    usual = written.ml if written is not None else None
    return part(book, chosen, tool, step.role, scaling, fixed, step.action, usual)


def _of_ice(book: Book, line: Line, tool: Tool, regular_ml: float) -> float:
    """The ice of a level, in whole steps of its tool: at least one where the level has any at all."""
    wanted = regular_ml * book.ices[line.ice].factor
    return max(1.0, nearest(wanted / tool.step_ml, 1.0)) * tool.step_ml if wanted > 0 else 0.0


def _extra_shots(book: Book, line: Line, steps: Iterable[tuple[RecipeStep, Part | None]]) -> Part | None:
    """The extra shots as a part of their own; None where there are none, or the recipe's take them along."""
    tool, ingredient = book.tools[book.shot.tool], book.pantry[book.shot.ingredient]
    own = any(
        step.ingredient == ingredient.id and found is not None and found.tool.id == tool.id
        for step, found in steps
    )
    if line.shots == 0 or own:
        return None
    return part(book, ingredient, tool, "shot", 0.0, line.shots * tool.unit_ml)


def _regular(book: Book, drink: Drink, line: Line, shots: Part | None) -> tuple[Part, ...] | None:
    """The parts of the same line with regular ice; None where nothing is topped up to compare with it."""
    hot = line.ice == HOT
    less = hot or book.ices[line.ice].factor < 1
    if not less or drink.ices == (HOT,) or drink.top_up is None or (hot and drink.top_up.hot is None):
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
    return part(book, ingredient, book.tools[rule.tool], "top_up", 0.0, 0.0)


def _melt_share(book: Book, steps: tuple[tuple[RecipeStep, Part | None], ...]) -> float:
    """That of the station which mixes the ice in; of the ice's own station when nothing is mixed after it."""
    share, iced = 1.0, False
    for step, found in steps:
        if step.role == "ice" and found is not None:
            share, iced = book.stations[step.station].melt_share, True
        elif iced and step.action in MIXING:
            share = book.stations[step.station].melt_share
    return share
