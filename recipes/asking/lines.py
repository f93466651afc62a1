"""Lines: from what was asked for to a whole, canonical line, or a refusal.

Canonical means that equal orders are equal lines: defaults filled in, toppings and left-out
ingredients sorted, the recipe's own milk written as None.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from recipes.book import Book, Drink
from recipes.model import HOT, Line, Refusal, RefusalCode, ToppingChoice


def default_line(book: Book, drink_id: str) -> Line:
    """The drink as it comes when nothing is said. Raises ``Refusal`` for an unknown drink."""
    return _drink(book, drink_id).default


def complete(
    book: Book,
    drink: str,
    size: str | None = None,
    sugar: int | None = None,
    ice: str | None = None,
    shots: int = 0,
    toppings: Iterable[ToppingChoice] = (),
    milk: str | None = None,
    without: Iterable[str] = (),
) -> Line:
    """A whole line: what is None takes the drink's default. Raises ``Refusal`` naming field and value."""
    recipe = _drink(book, drink)
    default = recipe.default
    return Line(
        drink=recipe.id,
        size=default.size if size is None else _size(book, recipe, size),
        sugar=default.sugar if sugar is None else _sugar(book, recipe, sugar),
        ice=default.ice if ice is None else _ice(book, recipe, ice),
        shots=_shots(recipe, shots),
        toppings=_toppings(book, recipe, tuple(toppings)),
        milk=_milk(book, recipe, milk),
        without=_without(book, recipe, tuple(without)),
    )


def own_milk(book: Book, drink: Drink) -> str | None:
    """The id of the milk the recipe itself uses, or None when it has no milk to swap."""
    ingredients = {step.ingredient for step in drink.steps if step.role == "milk"}
    return next((milk.id for milk in book.milks.values() if milk.ingredient in ingredients), None)


def _drink(book: Book, drink: str) -> Drink:
    if drink not in book.drinks:
        raise Refusal(
            "unknown drink", "drink", drink, f"There is no drink {drink!r} in the book.", tuple(book.drinks)
        )
    return book.drinks[drink]


def _size(book: Book, drink: Drink, size: str) -> str:
    if size not in drink.sizes:
        code: RefusalCode = "size not offered" if size in book.sizes else "unknown size"
        name = book.sizes[size].name if size in book.sizes else repr(size)
        raise Refusal(code, "size", size, f"{drink.name} does not come in size {name}.", drink.sizes)
    return size


def _sugar(book: Book, drink: Drink, sugar: int) -> int:
    if sugar not in drink.sugars:
        code: RefusalCode = "sugar not offered" if sugar in book.sugars else "unknown sugar"
        accepted = tuple(str(percent) for percent in drink.sugars)
        raise Refusal(
            code, "sugar", str(sugar), f"{drink.name} does not come with {sugar} % sugar.", accepted
        )
    return sugar


def _ice(book: Book, drink: Drink, ice: str) -> str:
    if ice in drink.ices:
        return ice
    if ice not in book.ices:
        raise Refusal("unknown ice", "ice", ice, f"There is no ice level {ice!r}.", drink.ices)
    if drink.ices == (HOT,):
        message = f"{drink.name} is a hot drink: it does not come with {book.ices[ice].name}."
    else:
        message = (
            f"{drink.name} does not come {book.ices[ice].name}."
            if ice == HOT
            else (f"{drink.name} does not come with {book.ices[ice].name}.")
        )
    raise Refusal("ice not offered", "ice", ice, message, drink.ices)


def _shots(drink: Drink, shots: int) -> int:
    if not 0 <= shots <= drink.shots:
        accepted = tuple(str(number) for number in range(drink.shots + 1))
        plural = "" if drink.shots == 1 else "s"
        most = f"at most {drink.shots} extra shot{plural}" if drink.shots else "no extra shot"
        raise Refusal(
            "too many shots", "shots", str(shots), f"{drink.name} takes {most}, not {shots}.", accepted
        )
    return shots


def _toppings(book: Book, drink: Drink, choices: Sequence[ToppingChoice]) -> tuple[ToppingChoice, ...]:
    seen: set[str] = set()
    for choice in choices:
        topping = choice.topping
        if topping not in book.toppings:
            message = f"There is no topping {topping!r}."
            raise Refusal("unknown topping", "toppings", topping, message, drink.toppings)
        name = book.toppings[topping].name
        if topping not in drink.toppings:
            message = f"{drink.name} is not made with {name}."
            raise Refusal("topping not offered", "toppings", topping, message, drink.toppings)
        if choice.half and book.toppings[topping].half_price is None:
            message = f"{name[:1].upper()}{name[1:]} come by the whole portion only, not by halves."
            raise Refusal("no half portion", "toppings", topping, message, (topping,))
        if topping in seen:
            message = f"{name} is there twice: choose it once, whole or half."
            raise Refusal("topping twice", "toppings", topping, message, drink.toppings)
        seen.add(topping)
    if len(choices) > book.toppings_max:
        message = f"{len(choices)} toppings are too many: at most {book.toppings_max} go into one cup."
        accepted = tuple(choice.topping for choice in choices[: book.toppings_max])
        raise Refusal("too many toppings", "toppings", str(len(choices)), message, accepted)
    return tuple(sorted(choices, key=lambda choice: choice.topping))


def _milk(book: Book, drink: Drink, milk: str | None) -> str | None:
    if milk is None:
        return None
    if milk not in book.milks:
        raise Refusal("unknown milk", "milk", milk, f"There is no milk {milk!r}.", drink.milks)
    if milk not in drink.milks:
        name = book.milks[milk].name
        message = (
            f"{drink.name} is not made with {name}."
            if drink.milks
            else f"There is no milk in {drink.name} to swap."
        )
        raise Refusal("milk not offered", "milk", milk, message, drink.milks)
    return None if _is_own(book, drink, milk) else milk


def _is_own(book: Book, drink: Drink, milk: str) -> bool:
    """Whether choosing this milk asks for nothing but the recipe as it is, in the cup and on the bill."""
    ingredients = {step.ingredient for step in drink.steps if step.role == "milk"}
    return book.milks[milk].price == 0 and ingredients == {book.milks[milk].ingredient}


def _without(book: Book, drink: Drink, without: Sequence[str]) -> tuple[str, ...]:
    for ingredient in without:
        if ingredient in drink.without:
            continue
        name = book.pantry[ingredient].name.lower() if ingredient in book.pantry else repr(ingredient)
        if ingredient in drink.keep:
            message = f"{drink.name} cannot be made without {name}: {drink.keep[ingredient]}."
            raise Refusal("cannot leave out", "without", ingredient, message, drink.without)
        message = f"There is no {name} in {drink.name} that could be left out."
        raise Refusal("nothing to leave out", "without", ingredient, message, drink.without)
    return tuple(sorted(set(without)))
