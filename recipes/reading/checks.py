"""Checks over a whole book: a list of small functions, each from the book to its faults.

The reader has seen to single values; here things are held against each other.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import replace

from recipes.actions import HEATING
from recipes.asking.lines import own_milk
from recipes.book import Book, Drink, Ingredient, Kind, RecipeStep, Role
from recipes.building.drink import PlannedDrink
from recipes.building.refuse import unsettled
from recipes.building.resolve import resolve
from recipes.building.search import Unsettled
from recipes.model import HOT, Refusal
from recipes.reading.locate import Path
from recipes.reading.table import Page, listed

POURED: tuple[Kind, ...] = ("liquid", "tea", "milk")
"""Kinds that a cup may be filled up with."""

IN_THE_DRINK: tuple[Kind, ...] = ("powder", "syrup", "liquid", "tea", "milk", "espresso")
"""Kinds that become the drink itself: all but ice, which melts, and toppings, which lie in it."""

ROLE_KINDS: Mapping[Role, tuple[Kind, ...]] = {"dissolve": POURED, "milk": ("milk",)}
"""What may have a role that modifiers swap or let give way; a sweetener may be anything."""

Pages = Mapping[str, Page]
"""The pages of a book by file name; faults are noted on them."""


def check(book: Book, pages: Pages) -> None:
    """Run every check; the faults are on the pages."""
    _check_names(book, pages)
    for drink in book.drinks.values():
        page = pages[f"drinks/{drink.id}.toml"]
        for each in CHECKS:
            each(book, drink, page)
        if not page.faults:
            _check_fill(book, drink, page)


def _check_names(book: Book, pages: Pages) -> None:
    """Nobody can tell two things of one name apart, at the register or in a spoken order."""
    _distinct(pages["shop.toml"], "stations", [(s.id, s.name) for s in book.stations.values()])
    _distinct(pages["shop.toml"], "sizes", [(s.id, s.name) for s in book.sizes.values()])
    _distinct(pages["shop.toml"], "ice", [(level.id, level.name) for level in book.ices.values()])
    _distinct(pages["shop.toml"], "families", [(family.id, family.name) for family in book.families.values()])
    sugars = [(str(level.percent), level.name) for level in book.sugars.values()]
    _distinct(pages["shop.toml"], "sugar", sugars, inner=None)
    _distinct(pages["pantry.toml"], None, [(i.id, i.name) for i in book.pantry.values()])
    shorts = [(i.id, i.short) for i in book.pantry.values()]
    _distinct(pages["pantry.toml"], None, shorts, inner="short", what="short name")
    choices: Path = ("toppings", "choices")
    toppings = [(topping.id, topping.name) for topping in book.toppings.values()]
    _distinct(pages["extras.toml"], choices, toppings)
    _distinct(pages["extras.toml"], "milks", [(milk.id, milk.name) for milk in book.milks.values()])
    seen: dict[str, str] = {}
    for drink in book.drinks.values():
        first = seen.setdefault(_looks(drink.name), drink.id)
        if first != drink.id:
            message = f"{drink.name!r} is the name of {first} already; accepted: a name of its own"
            pages[f"drinks/{drink.id}.toml"].fault(("name",), drink.name, "a name of its own", message)


def _looks(name: str) -> str:
    """A name as it looks: letters of either case and however they are put together are the same."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def _distinct(
    page: Page,
    table: str | Path | None,
    named: Iterable[tuple[str, str]],
    inner: str | None = "name",
    what: str = "name",
) -> None:
    seen: dict[str, str] = {}
    base: Path = () if table is None else (table,) if isinstance(table, str) else table
    for key, name in named:
        first = seen.setdefault(_looks(name), key)
        if first != key:
            path = (*base, key) if inner is None else (*base, key, inner)
            message = f"{name!r} is the {what} of {first} already; accepted: a {what} of its own"
            page.fault(path, name, f"a {what} of its own", message)


def _check_counter_order(book: Book, drink: Drink, page: Page) -> None:
    """A cup goes along the counter once: toppings come before the drink, and it never goes back."""
    order = {station: place for place, station in enumerate(book.stations)}
    reached = book.toppings_station if drink.toppings else next(iter(order))
    why = "toppings come before the drink" if drink.toppings else "the counter begins there"
    for place, step in enumerate(drink.steps):
        if order[step.station] >= order[reached]:
            reached, why = step.station, f"step {place + 1} is there already"
            continue
        accepted = ", ".join(station for station in order if order[station] >= order[reached])
        message = (
            f"{step.station!r} lies before {reached!r} on the counter, and {why}; accepted here: {accepted}"
        )
        page.fault(("steps", place, "station"), step.station, accepted, message)


def _check_usual(book: Book, drink: Drink, page: Page) -> None:
    """The reference size must be one of the drink's, and every cold choice needs what cold drinks need."""
    if drink.reference not in drink.sizes:
        accepted = ", ".join(drink.sizes)
        page.fault(
            ("size",), drink.reference, accepted, f"{drink.reference!r} has no price; accepted: {accepted}"
        )
    if not drink.sugars:
        page.fault(
            ("sugars",), "none", "at least one level", "allows no sugar level; accepted: at least one level"
        )
    if not drink.ices:
        page.fault(
            ("ices",), "none", "an ice level or hot", "is neither iced nor hot; accepted: ices or hot = true"
        )


def _check_ingredients(book: Book, drink: Drink, page: Page) -> None:
    """Choices must be about something that is in the recipe."""
    has = {step.ingredient for step in drink.steps} - {None}
    words = ", ".join(sorted(str(each) for each in has))
    for ingredient in (*drink.without, *drink.keep):
        key = "without" if ingredient in drink.without else "keep"
        if ingredient not in has:
            page.fault(
                (key,), ingredient, words, f"{ingredient!r} is in no step of this drink; accepted: {words}"
            )
    for ingredient in drink.keep:
        if ingredient in drink.without:
            page.fault(
                ("keep", ingredient), ingredient, words, f'{ingredient!r} may be left out by "without" too'
            )
    if drink.shot_replaces is not None and drink.shot_replaces not in has:
        message = f"{drink.shot_replaces!r} is in no step of this drink; accepted: {words}"
        page.fault(("shot_replaces",), drink.shot_replaces, words, message)
    if drink.milks and own_milk(book, drink) is None:
        accepted = 'a step with role = "milk" and the ingredient of a milk in extras.toml'
        page.fault(
            ("milks",), "no milk", accepted, f"lets milk be swapped but has none; accepted: {accepted}"
        )


def _check_steps(book: Book, drink: Drink, page: Page) -> None:
    """Roles must suit what a step puts in, and hot drinks must not depend on iced steps alone."""
    for place, step in enumerate(drink.steps):
        _check_step(book, step, place, page)
    if HOT in drink.ices and not any(step.when != "iced" for step in drink.steps):
        page.fault(("hot",), True, "false", "every step is for iced drinks only; accepted: hot = false")


def _check_step(book: Book, step: RecipeStep, place: int, page: Page) -> None:
    here: Path = ("steps", place)
    kind = book.pantry[step.ingredient].kind if step.ingredient else None
    if kind == "topping":
        message = f"{step.ingredient!r} is a topping; toppings are ordered, not written into a recipe"
        page.fault((*here, "what"), step.ingredient, "an ingredient that is no topping", message)
    elif (kind == "ice") != (step.action == "ice"):
        ices = listed([each.id for each in book.pantry.values() if each.kind == "ice"])
        accepted = f"an ingredient of kind 'ice': {ices}" if step.action == "ice" else 'do = "ice"'
        message = f"{step.action} and {step.ingredient!r} (of kind {kind!r}) do not go together"
        page.fault((*here, "what"), step.ingredient, accepted, f"{message}; accepted: {accepted}")
    elif (kind == "ice") != (step.role == "ice"):
        message = "ice has the role ice, and nothing else has"
        page.fault((*here, "role"), step.role, 'role = "ice" for ice', message)
    elif step.role in ROLE_KINDS and kind is not None and kind not in ROLE_KINDS[step.role]:
        _fault_of_kind(book, step.ingredient, ROLE_KINDS[step.role], (*here, "what"), page)
    if step.duration is not None and step.ingredient is not None and step.role == "ice":
        page.fault((*here, "time"), "a time", "no time", "adding ice is not timed; accepted: no time")
    for level, other in step.instead.items():
        # What stands in for something takes its step: its verb, its role, its place in the drink.
        suits = ("ice",) if kind == "ice" else ROLE_KINDS.get(step.role, IN_THE_DRINK)
        _fault_of_kind(book, other, suits, (*here, "instead", level), page)


def _check_top_up(book: Book, drink: Drink, page: Page) -> None:
    """What fills a cup up is poured, and what makes way for a shot is of the drink itself."""
    if drink.top_up is not None:
        _fault_of_kind(book, drink.top_up.cold, POURED, ("top_up", "cold"), page)
        _fault_of_kind(book, drink.top_up.hot, POURED, ("top_up", "hot"), page)
    _fault_of_kind(book, drink.shot_replaces, IN_THE_DRINK, ("shot_replaces",), page)


def _fault_of_kind(
    book: Book, ingredient: str | None, kinds: Collection[Kind], path: Path, page: Page
) -> None:
    """A fault where an ingredient is of none of these kinds."""
    if ingredient is None or book.pantry[ingredient].kind in kinds:
        return
    words = ", ".join(kinds)
    suiting = listed([each.id for each in book.pantry.values() if each.kind in kinds])
    accepted = f"an ingredient of kind {words}"
    message = (
        f"{ingredient!r} is of kind {book.pantry[ingredient].kind!r} in pantry.toml; "
        f"accepted: {accepted}: {suiting or '(none is there yet)'}"
    )
    page.fault(path, ingredient, accepted, message)


def _check_heating(book: Book, drink: Drink, page: Page) -> None:
    """Nothing is warmer than it stands without a step that heats it, and what is meant hot is heated."""
    for place, step in enumerate(drink.steps):
        if step.ingredient is None or (step.when == "iced" and step.action not in HEATING):
            continue
        poured = {step.instead.get(HOT, step.ingredient)}
        if step.role == "milk":
            poured |= {book.milks[milk].ingredient for milk in drink.milks}
        for each in sorted(poured):
            _check_heat(book.pantry[each], step.action, HOT in drink.ices, ("steps", place), page)
    if drink.top_up is not None and drink.top_up.hot is not None:
        _check_heat(book.pantry[drink.top_up.hot], "pour", HOT in drink.ices, ("top_up", "hot"), page)


def _check_heat(ingredient: Ingredient, action: str, hot: bool, here: Path, page: Page) -> None:
    warm = ingredient.hot_c
    key = (*here, "do") if here[0] == "steps" else here
    if action in HEATING and (warm is None or warm <= ingredient.serving_c):
        accepted = 'an ingredient with hot = "65 °C" or so in pantry.toml'
        message = f"{action} needs to know how warm {ingredient.id!r} shall be; accepted: {accepted}"
        page.fault(key, action, accepted, message)
    elif hot and action not in HEATING and warm is not None and warm > ingredient.serving_c:
        accepted = 'do = "steam" or "heat" in a step with when = "hot", and when = "iced" here'
        message = (
            f"{ingredient.id!r} stands at {ingredient.serving_c:g} °C and is meant to be {warm:g} °C in a "
            f"hot drink, but this step does not heat it; accepted: {accepted}"
        )
        page.fault(key, action, accepted, message)


def _check_fill(book: Book, drink: Drink, page: Page) -> None:
    """The drink as it usually comes must fit its cup and its vessel in every size and with every ice."""
    for size in drink.sizes:
        for ice in drink.ices:
            planned = PlannedDrink(book, replace(drink.default, size=size, ice=ice))
            # More ice than the recipe's may cost the drink some of its size, the recipe's own may not.
            if book.ices[ice].factor <= 1:
                _check_level(planned, size, page)
            if not page.faults and not _is_made(book, planned, page):
                message = (
                    f"the {size} drink does not fit with {book.ices[ice].name}; accepted: less in the recipe"
                )
                page.fault(("steps",), f"{size}, {book.ices[ice].name}", "less in the recipe", message)
            if page.faults:
                return
    try:
        resolve(book, drink.default)
    except Refusal as refusal:
        page.fault(("usual",), refusal.value, "a drink that can be made as it usually comes", refusal.message)


def _is_made(book: Book, planned: PlannedDrink, page: Page) -> bool:
    """Whether a plain drink is made; what tool is at fault where that takes too long to find is noted."""
    try:
        return planned.made(0.0) is not None
    except Unsettled as stuck:
        message = unsettled(book, planned.plan.line, stuck.part).message
        page.fault(("steps",), stuck.part.tool.id, "amounts that the bar's tools can measure", message)
        return True


def _check_level(planned: PlannedDrink, size: str, page: Page) -> None:
    load = planned.group.load(1.0)
    filled = planned.group.settle(load).filled_ml
    if filled > planned.line_ml:
        accepted = f"at most {planned.line_ml:g} ml"
        message = f"the {size} drink comes to {filled:.0f} ml, over its seal line; accepted: {accepted}"
        page.fault(("steps",), f"{filled:.0f} ml", accepted, message)
    if load.unmelted_ml > planned.vessel_ml:
        accepted = f"at most {planned.vessel_ml:g} ml"
        message = f"the {size} drink fills its vessel with {load.unmelted_ml:.0f} ml; accepted: {accepted}"
        page.fault(("vessel",), f"{load.unmelted_ml:.0f} ml", accepted, message)
    if load.mass_g <= 0:
        page.fault(
            ("steps",), "0 ml", "some liquid", "the recipe comes to no liquid at all; accepted: some liquid"
        )


CHECKS: tuple[Callable[[Book, Drink, Page], None], ...] = (
    _check_usual,
    _check_counter_order,
    _check_ingredients,
    _check_steps,
    _check_top_up,
    _check_heating,
)
"""Every check on one drink, in order; a drink whose choices are faulty is not poured."""
