"""The book: everything a shop's owner has written down, as frozen values.

A book is read by ``recipes.reading.reader`` and never changed afterwards: a changed file makes another book
with another ``version``. Mappings are keyed by id and keep the order of the files, which is the order
for people to see. Base units throughout: grams, millilitres, degrees Celsius, seconds; money in integer
minor units of the shop's currency.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal

from recipes.balance.energy import Factors
from recipes.hands import HOUSE, Hands, Measure, ToolKind
from recipes.model import Duration, Line

RULES = "6"
"""Raised whenever the resolver's rules change: the same files then make another book version."""

Kind = Literal["powder", "syrup", "liquid", "tea", "milk", "espresso", "ice", "topping"]
"""What an ingredient is, as far as the rules care."""

Role = Literal["part", "sweetener", "dissolve", "milk", "ice", "work"]
"""What a step is for: modifiers act on roles, never on names.

``part`` scales with the size; ``sweetener`` scales with size and sugar level; ``dissolve`` is hot water
(or the stirring that goes with it) which a hot shot stands in for; ``milk`` is what a milk choice swaps;
``ice`` scales with size and ice level; ``work`` has no ingredient (shake, seal).
"""

When = Literal["always", "iced", "hot"]
"""For which drinks a step is made: ``iced`` is every ice level (no ice included), ``hot`` only hot."""

TopUpTo = Literal["fill", "strength"]
"""How far a top-up goes when ice is missing: to the fill of the regular drink, or only for its melt."""


@dataclass(frozen=True, slots=True)
class Shop:
    """The shop: ``currency`` an ISO 4217 code, ``time_zone`` an IANA name, ``day_starts`` local "HH:MM"."""

    name: str
    town: str
    currency: str
    minor_digits: int
    time_zone: str
    day_starts: str


@dataclass(frozen=True, slots=True)
class Tax:
    """The tax on a sale: ``percent`` as decimal text, in the prices or on top, rounded per order or line."""

    name: str
    percent: str
    included: bool
    rounded: Literal["order", "line"]


Bumped = Literal["last touch", "by hand"]
"""What bumps a drink once all its stations are done: that last touch itself, or a touch of its own."""


@dataclass(frozen=True, slots=True)
class Floor:
    """How the floor works a rush: times in seconds after ring-in, and after ready for ``board_keeps_s``.

    A ticket is soon late from ``soon_s`` and late from ``late_s``. ``board_keeps_s`` is how long a ready
    number stands on the customers' board; at the hand-off it stays until it is handed off.
    """

    soon_s: float = 300.0
    late_s: float = 480.0
    bump: Bumped = "by hand"
    board_keeps_s: float = 600.0


@dataclass(frozen=True, slots=True)
class Station:
    """A place at the counter.

    ``melt_share`` is how much of the melting at equilibrium happens there (``heat.chilling_extent``).
    """

    id: str
    name: str
    melt_share: float


@dataclass(frozen=True, slots=True)
class Tool:
    """What an amount is measured with.

    One unit holds ``unit_ml``; a hand can measure multiples of ``smallest`` units. A jug or jigger is
    read in millilitres (``unit_ml`` 1), up to ``reads_ml`` at once where the book says how much it holds, at
    marks ``mark_ml`` apart (``smallest`` where the book names no other). A unit of an ice scoop is told by
    the ice in it, without the air between."""

    id: str
    name: str
    kind: ToolKind
    one: str
    many: str
    unit_ml: float
    smallest: Fraction
    reads_ml: float | None = None
    mark_ml: float | None = None
    step_ml: float = field(init=False, repr=False, compare=False)
    """The smallest step of it in ml, worked out once: the search asks for it all the time."""
    least: float = field(init=False, repr=False, compare=False)
    """``smallest`` as a number."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "least", float(self.smallest))
        object.__setattr__(self, "step_ml", self.unit_ml * self.least)

    def measure(self, count: float) -> Measure:
        """The act of measuring ``count`` units with it."""
        marks = self.mark_ml if self.mark_ml is not None else self.least
        return Measure(self.kind, count, self.unit_ml, marks, self.reads_ml)


@dataclass(frozen=True, slots=True)
class Vessel:
    """Where a drink is mixed, and the most it takes. A drink built in its cup names no vessel."""

    id: str
    name: str
    limit_ml: float


@dataclass(frozen=True, slots=True)
class Size:
    """A cup: ``line_ml`` is the highest fill that still seals, ``brim_ml`` the most it could hold."""

    id: str
    name: str
    line_ml: float
    brim_ml: float


@dataclass(frozen=True, slots=True)
class SugarLevel:
    """A sugar level: per cent of the recipe's added sweetener, and the customer's word for it."""

    percent: int
    name: str


@dataclass(frozen=True, slots=True)
class IceLevel:
    """An ice level: ``factor`` times the recipe's cubes. ``hot`` is one too, with factor 0."""

    id: str
    name: str
    factor: float


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One thing in the pantry, as the brand in use measures.

    ``density`` g/ml as poured or scooped; ``body_density`` g/ml of the thing itself (a topping's pieces,
    solid ice), equal to ``density`` for liquids; ``sugars``, ``dry``, ``fat``, ``carbohydrate`` (without
    fibre), ``protein`` and ``fibre`` g/g; ``caffeine`` mg/g; energy per 100 g; ``finer`` are tools that may
    add what the recipe's own tool cannot measure, less than one step of it; ``serving_c`` is how it stands
    at the bar, ``hot_c`` how warm a step that heats it makes it, if one may; ``price_per_kg`` in minor
    units; ``hold_s`` seconds it may be kept once opened or made.
    """

    id: str
    name: str
    short: str
    kind: Kind
    brand: str
    density: float
    body_density: float
    sugars: float
    dry: float
    caffeine: float
    energy_kj: float
    energy_kcal: float
    allergens: tuple[str, ...]
    serving_c: float
    hot_c: float | None
    price_per_kg: float
    hold_s: float | None
    fat: float = 0.0
    carbohydrate: float = 0.0
    protein: float = 0.0
    fibre: float = 0.0
    finer: tuple[str, ...] = ()

    @property
    def tastes(self) -> bool:
        """Whether it brings more than water."""
        return self.dry > 0 or self.caffeine > 0


@dataclass(frozen=True, slots=True)
class Topping:
    """A topping on offer. A full portion is ``portion_ml`` of ``ingredient`` as measured by ``tool``.

    ``half_price`` is None where it is not served by halves; else its tool measures half a portion as well.
    ``hot`` tells whether it may go into a hot drink; ``caution`` is what a customer must be told.
    """

    id: str
    name: str
    ingredient: str
    tool: str
    portion_ml: float
    price: int
    half_price: int | None
    hot: bool
    caution: str | None

    def cost(self, half: bool) -> int:
        """What a portion costs. Raises ``ValueError`` for half of what is not served by halves."""
        if not half:
            return self.price
        if self.half_price is None:
            raise ValueError(f"{self.name} is not served by halves")
        return self.half_price


@dataclass(frozen=True, slots=True)
class Milk:
    """A milk on offer, and its ingredient in the pantry."""

    id: str
    name: str
    ingredient: str
    price: int


@dataclass(frozen=True, slots=True)
class Shot:
    """An extra shot: what it is, where it is pulled, how long that takes.

    ``crema_ml`` is the foam it carries, ``collapse`` the share of it gone by the time it is handed over.
    """

    ingredient: str
    tool: str
    station: str
    duration: Duration
    crema_ml: float
    price: int
    collapse: float = 0.0

    @property
    def foam_ml(self) -> float:
        """The foam that is left of a shot's crema, ml."""
        return self.crema_ml * (1 - self.collapse)


@dataclass(frozen=True, slots=True)
class Family:
    """A family of drinks, a heading on the register.

    ``drinks`` are those that stand first under it, in this order; the others follow by their files' names.
    """

    id: str
    name: str
    drinks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Measured:
    """An amount as the recipe wants it: which tool measures it, and how many millilitres that is."""

    tool: str
    ml: float


@dataclass(frozen=True, slots=True)
class RecipeStep:
    """One step of a recipe.

    ``by_size`` holds its amount at the reference size and at every other size that the owner has written;
    ``hot`` likewise for the hot drink, empty where that takes the same. What is not written is scaled from
    the reference size. ``instead`` names another ingredient by ice level id ("none": tea from the fridge).
    ``words`` is the owner's own wording, if there is one; else the step is worded from its action."""

    station: str
    action: str
    role: Role
    when: When
    ingredient: str | None
    by_size: Mapping[str, Measured]
    hot: Mapping[str, Measured]
    instead: Mapping[str, str]
    duration: Duration | None
    words: str | None
    short: str | None

    def written(self, size: str, hot: bool) -> Measured | None:
        """The amount that the owner wrote for a size, hot or iced; None where it has to be scaled."""
        return (self.hot if hot and self.hot else self.by_size).get(size)


@dataclass(frozen=True, slots=True)
class TopUp:
    """What brings a drink up when ice is missing: the ingredient when cold, when hot, and how far."""

    cold: str
    hot: str | None
    to: TopUpTo
    station: str
    tool: str


@dataclass(frozen=True, slots=True)
class Drink:
    """A drink on the menu and its recipe.

    ``ices`` holds ice level ids, "hot" among them where allowed. ``toppings``, ``milks`` and ``without``
    are the ids allowed; ``keep`` says, by ingredient id, what the drink would lose without what cannot
    be left out. ``reference`` is the size the steps are written for, ``least_share`` how far the drink may
    shrink under toppings. ``shot_replaces`` is what makes way for extra shots, beyond the dissolving water
    that they stand in for anyway.
    """

    id: str
    name: str
    family: str
    about: str
    prices: Mapping[str, int]
    sizes: tuple[str, ...]
    sugars: tuple[int, ...]
    ices: tuple[str, ...]
    shots: int
    toppings: tuple[str, ...]
    milks: tuple[str, ...]
    without: tuple[str, ...]
    keep: Mapping[str, str]
    default: Line
    reference: str
    vessel: str | None
    least_share: float
    top_up: TopUp | None
    shot_replaces: str | None
    steps: tuple[RecipeStep, ...]


@dataclass(frozen=True, slots=True)
class Taste:
    """What the resolver holds dear: the weight of each squared relative error, a house choice of the book.

    ``part``, ``milk`` and ``water`` (which dissolves) weigh an ingredient's strength, ``ice`` and ``top_up``
    how far ice and top-up are from their own level, ``fill`` the amount of drink. ``sweetener`` is light: it
    is held to the nearest step of its tool anyway, and nothing else shall bend for what a stroke rounds."""

    part: float = 1.0
    sweetener: float = 0.05
    milk: float = 1.0
    water: float = 0.1
    ice: float = 0.3
    top_up: float = 0.025
    fill: float = 1.0


class Memory:
    """What has been worked out from a book so far; never part of its value, never copied along with it."""

    __slots__ = ("allergens", "efforts", "made", "plans", "toppings")

    def __init__(self) -> None:
        self.plans: dict[Any, Any] = {}
        self.made: dict[Any, Any] = {}
        self.toppings: dict[Any, Any] = {}
        self.allergens: dict[tuple[str, ...], str] = {}
        self.efforts: Any = None

    def forget(self) -> None:
        """Start again, as for a new book."""
        for known in (self.plans, self.made, self.toppings, self.allergens):
            known.clear()

    def __reduce__(self) -> tuple[type[Memory], tuple[()]]:
        return Memory, ()


@dataclass(frozen=True, slots=True)
class Book:
    """A whole book. ``version`` is the content address of ``files`` (text by name) and ``RULES``.

    ``sugars`` is keyed by per cent; every other mapping by id. ``tolerance_pct`` is the error in taste
    beyond which a build says so, ``limit_pct`` the one beyond which it is refused.
    """

    version: str
    files: Mapping[str, str]
    shop: Shop
    tax: Tax
    stations: Mapping[str, Station]
    tools: Mapping[str, Tool]
    vessels: Mapping[str, Vessel]
    sizes: Mapping[str, Size]
    sugars: Mapping[int, SugarLevel]
    ices: Mapping[str, IceLevel]
    tolerance_pct: float
    toppings: Mapping[str, Topping]
    toppings_max: int
    toppings_station: str
    milks: Mapping[str, Milk]
    shot: Shot
    pantry: Mapping[str, Ingredient]
    families: Mapping[str, Family]
    drinks: Mapping[str, Drink]
    limit_pct: float = 60.0
    taste: Taste = Taste()
    hands: Hands = HOUSE
    factors: Factors = "EU"
    floor: Floor = Floor()
    memory: Memory = field(default_factory=Memory, init=False, repr=False, compare=False)
