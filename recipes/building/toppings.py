"""The toppings of a line: what they are, the room they take, what they bring and what to say about them."""

from __future__ import annotations

from dataclasses import dataclass, field

from recipes import measures
from recipes.asking.price import toppings_price
from recipes.balance.load import Load
from recipes.balance.outcome import Sums, rounded, sums
from recipes.book import Book, Topping
from recipes.building.plan import Part, part, sugar_sources
from recipes.model import HOT, Amount, Layer, Line, Refusal, Step, ToppingChoice
from recipes.telling.words import topping_words

MOST_TOPPINGS = 2048
"""How many sets of toppings a book remembers before it starts again."""


@dataclass(frozen=True, slots=True, eq=False)
class Portion:
    """One topping in the cup."""

    topping: Topping
    part: Part
    amount: Amount


@dataclass(frozen=True, slots=True, eq=False)
class Toppings:
    """All toppings of a line in the order of the book, which is the order of the counter.

    ``sugars`` are grams by what brings them; ``shown`` remembers the steps.
    """

    portions: tuple[Portion, ...]
    load: Load
    sums: Sums
    cautions: tuple[str, ...]
    words: tuple[str, ...]
    address: str
    price: int
    layers: tuple[Layer, ...]
    sugars: tuple[tuple[str, float], ...]
    shown: list[tuple[Step, ...]] = field(default_factory=list)


def toppings_key(line: Line) -> tuple[str, bool, tuple[ToppingChoice, ...]]:
    """What the toppings of a line depend on."""
    return line.drink, line.ice == HOT, line.toppings


def toppings_of(book: Book, line: Line) -> Toppings:
    """The toppings of a canonical line; remembered. Raises ``Refusal`` for what heat would spoil."""
    memory, key = book.memory.toppings, toppings_key(line)
    found: Toppings | None = memory.get(key)
    if found is None:
        if len(memory) >= MOST_TOPPINGS:
            memory.clear()
        found = memory[key] = _laid_out(book, line)
    return found


def _laid_out(book: Book, line: Line) -> Toppings:
    _refuse_in_heat(book, line)
    halves = {choice.topping: choice.half for choice in line.toppings}
    portions = tuple(
        _portion(book, topping, halves[topping.id])
        for topping in book.toppings.values()
        if topping.id in halves
    )
    load = Load()
    for portion in portions:
        load = load.plus(portion.part.unit, portion.amount.volume_ml)
    told = [portion.topping.caution for portion in portions if portion.topping.caution is not None]
    return Toppings(
        portions=portions,
        load=load,
        sums=sums((each.part.ingredient, each.amount.mass_g, False) for each in portions),
        cautions=tuple(dict.fromkeys(told)),
        words=tuple(topping_words(book, choice) for choice in line.toppings),
        address=repr([(choice.topping, choice.half) for choice in line.toppings]),
        price=toppings_price(book, line.toppings),
        layers=tuple(_layer(portion) for portion in portions),
        sugars=tuple(sugar_sources((each.part, each.amount) for each in portions)),
    )


def _layer(portion: Portion) -> Layer:
    room_ml = portion.part.unit.body_ml * portion.amount.volume_ml
    return Layer("topping", portion.topping.name, rounded(room_ml))


def _portion(book: Book, topping: Topping, half: bool) -> Portion:
    ingredient, tool = book.pantry[topping.ingredient], book.tools[topping.tool]
    volume = topping.portion_ml / 2 if half else topping.portion_ml
    found = part(book, ingredient, tool, "topping", 0.0, volume)
    return Portion(topping, found, measures.amount(tool, ingredient, volume))


def _refuse_in_heat(book: Book, line: Line) -> None:
    for choice in line.toppings if line.ice == HOT else ():
        topping = book.toppings[choice.topping]
        if not topping.hot:
            accepted = tuple(each for each in book.drinks[line.drink].toppings if book.toppings[each].hot)
            message = f"A hot drink cannot take {topping.name}: heat spoils that topping."
            raise Refusal("topping not for hot", "toppings", topping.id, message, accepted)
