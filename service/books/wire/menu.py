"""All that can be rung in, and the state of the book."""

from __future__ import annotations

from typing import Literal

from recipes.model import Line
from service.wire import Id, Minor, Wire


class Shop(Wire):
    """The shop itself, and how it writes money and time."""

    name: str
    town: str
    currency: str
    minor_digits: int
    time_zone: str


class Floor(Wire):
    """How the floor works a rush.

    Seconds after ring-in from which a ticket is soon late, and late; how a drink done at every station is
    bumped; seconds that a ready number stands on the customers' board.
    """

    soon_s: float
    late_s: float
    bump: Literal["last touch", "by hand"]
    board_keeps_s: float


class Station(Wire):
    """A station, in counter order."""

    id: str
    name: str


class Size(Wire):
    """A cup size; ``line_ml`` is its seal line."""

    id: str
    name: str
    line_ml: float
    brim_ml: float


class Choice(Wire):
    """One word of the register's sentence: an ice level, a milk, a topping, an ingredient.

    ``half_price`` is None for all but a topping that is served by halves as well.
    """

    id: str
    name: str
    price: Minor = 0
    half_price: Minor | None = None
    allergens: list[str] = []  # noqa: RUF012  (pydantic copies it)
    caution: str | None = None


class SugarLevel(Wire):
    """A sugar level, per cent of the recipe's added sweetener, and the word for it."""

    percent: int
    name: str


class MenuDrink(Wire):
    """A drink on the menu: which choices it allows, and what it is when nothing is said.

    ``uses`` is what runs out with it as it comes: ingredients, and the milks and toppings that they are.
    """

    id: str
    name: str
    family: str
    about: str
    prices: dict[str, Minor]
    sizes: list[str]
    sugars: list[int]
    ices: list[str]
    shots: int
    toppings: list[str]
    milks: list[str]
    without: list[Choice]
    default: Line
    uses: list[str]


class Family(Wire):
    """A family of drinks."""

    id: str
    name: str


class BookFault(Wire):
    """A fault in the book folder: where, what was found, what is accepted."""

    file: str
    line: int
    key: str
    found: str
    accepted: str
    message: str


class BookState(Wire):
    """GET /api/book: the version in force, and what is wrong with a newer one that was refused."""

    version: str
    faults: list[BookFault]


class TaxRule(Wire):
    """The tax of the book: ``percent`` (a decimal number as text), contained in prices or added on top.

    ``rounded`` says where it is rounded, half up: once per order, or on each line (unit times quantity).
    """

    name: str
    percent: str
    included: bool
    rounded: Literal["order", "line"]


class Menu(Wire):
    """GET /api/menu: all the register needs. ``faults`` tells of a newer book that was refused.

    ``ingredients`` are what else can run out: what recipes use, toppings and milks left aside.
    """

    book: str
    shop: Shop
    floor: Floor
    stations: list[Station]
    families: list[Family]
    drinks: list[MenuDrink]
    sizes: list[Size]
    sugars: list[SugarLevel]
    ices: list[Choice]
    toppings: list[Choice]
    toppings_max: int
    milks: list[Choice]
    ingredients: list[Choice]
    shot_price: Minor
    shot_item: Id
    tax: TaxRule
    faults: list[BookFault]
