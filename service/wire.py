"""The wire: everything that crosses between the service and a display, and nothing else.

Commands go up over HTTP, changes come down over Socket.IO. The TypeScript types in
``display/src/wire.gen.ts`` and the OpenAPI document are both generated from this module.
Times are milliseconds since 1970 UTC on the service's clock; money is integer minor units.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from recipes.model import Build, Line


class Wire(BaseModel):
    """A message: frozen, and closed, so that a misspelt field is refused rather than ignored."""

    model_config = ConfigDict(extra="forbid", frozen=True)


Id = Annotated[str, Field(min_length=1, max_length=80)]
Millis = Annotated[int, Field(ge=0)]
Minor = Annotated[int, Field(description="money in minor units of the shop's currency")]


# --- up: commands -------------------------------------------------------------------------------


class ToppingIn(Wire):
    """A topping of a line as rung in."""

    topping: Id
    half: bool = False


class LineIn(Wire):
    """A line as rung in. A choice left out takes the drink's own default from the book."""

    drink: Id
    size: Id | None = None
    sugar: Annotated[int, Field(ge=0, le=1000)] | None = None
    ice: Id | None = None
    shots: Annotated[int, Field(ge=0, le=20)] = 0
    toppings: Annotated[list[ToppingIn], Field(max_length=20)] = []
    milk: Id | None = None
    without: Annotated[list[Id], Field(max_length=20)] = []


class DrinkIn(Wire):
    """A line of an order with how many of it, and a note for the bar."""

    line: LineIn
    quantity: Annotated[int, Field(ge=1, le=50)] = 1
    note: Annotated[str, Field(max_length=2000)] = ""


class RingIn(Wire):
    """POST /api/orders."""

    name: Annotated[str, Field(max_length=2000)] = ""
    drinks: Annotated[list[DrinkIn], Field(min_length=1, max_length=100)]


class StartStep(Wire):
    """POST /api/drinks/{id}/start: the timer of one step begins."""

    step: Annotated[int, Field(ge=1, le=200)]


class FinishSteps(Wire):
    """POST /api/drinks/{id}/finish: one or more steps (a whole cell of the sheet) are done."""

    steps: Annotated[list[Annotated[int, Field(ge=1, le=200)]], Field(min_length=1, max_length=200)]


class VoidIn(Wire):
    """POST /api/drinks/{id}/void and /api/tickets/{id}/void."""

    reason: Annotated[str, Field(min_length=1, max_length=500)]


class SoldOutIn(Wire):
    """POST /api/sold-out: an ingredient, topping, milk or drink runs out, or is back."""

    item: Id
    sold_out: bool


class Done(Wire):
    """The answer to a command: where the journal stands now, and whether anything changed."""

    position: int
    changed: bool


# --- down: prices and quotes --------------------------------------------------------------------


class Totals(Wire):
    """What an order comes to. ``gross`` is what is paid; ``net + tax == gross`` always."""

    currency: str
    net: Minor
    tax: Minor
    gross: Minor
    tax_name: str
    tax_percent: str
    tax_included: bool


class Quote(Wire):
    """POST /api/quote answers a LineIn: the build and its price, or a problem document."""

    price: Minor
    build: Build


class ReceiptLine(Wire):
    """One line of a receipt."""

    title: str
    words: list[str]
    quantity: int
    unit: Minor
    amount: Minor


class Receipt(Wire):
    """The answer to a ring-in. ``number`` is what is called out; ``id`` names the order for ever."""

    id: str
    number: int
    name: str
    day: str
    rung_at: Millis
    lines: list[ReceiptLine]
    totals: Totals


# --- down: the queue ----------------------------------------------------------------------------


class StepState(Wire):
    """Where one step of a drink stands. A timer is (started_at, the build's duration)."""

    state: Literal["todo", "running", "done"]
    started_at: Millis | None = None
    finished_at: Millis | None = None


class QueueDrink(Wire):
    """One drink (one cup) as the displays see it. ``build`` keys into ``builds``.

    ``id`` is ``<ticket id>.<n>`` with n from 1. ``steps[i]`` is the state of step i + 1.
    """

    id: str
    build: str
    note: str
    state: Literal["waiting", "making", "made", "void"]
    steps: list[StepState]
    bumped_at: Millis | None = None


class Ticket(Wire):
    """An order as the bar sees it, until it is handed off or void.

    ``gross`` is what was paid at ring-in, ``due`` what its drinks come to that are not void: the
    difference is to be paid back.
    """

    id: str
    number: int
    name: str
    day: str
    rung_at: Millis
    state: Literal["waiting", "making", "ready"]
    ready_at: Millis | None = None
    drinks: list[QueueDrink]
    gross: Minor
    due: Minor


class Snapshot(Wire):
    """Socket event ``snapshot``, and GET /api/queue: the whole queue at one position.

    ``store`` names the journal that positions count in; a position means nothing in another.
    """

    store: str
    position: int
    now: Millis
    book: str
    tickets: list[Ticket]
    builds: dict[str, Build]
    sold_out: list[str]


class Change(Wire):
    """Socket event ``change``: what became of the queue between two positions.

    Tickets named here replace those held; ``gone`` have left the queue (handed off or void), of which
    ``struck`` are void, so that hands that are at them can be told to stop.
    ``builds`` are those a display may not have yet. ``sold_out`` and ``book`` are None when they did
    not change. A display whose position is not ``after``, or that knows another ``store``, asks for the
    rest with ``follow``.
    """

    store: str
    after: int
    position: int
    now: Millis
    tickets: list[Ticket]
    gone: list[str]
    struck: list[str]
    builds: dict[str, Build]
    sold_out: list[str] | None = None
    book: str | None = None


class Follow(Wire):
    """Socket event ``follow``, display to service: join, from the last position seen (or None).

    ``store`` is that of the snapshot or change last seen: in another, or without it, the whole is sent.
    """

    since: Annotated[int, Field(ge=0)] | None = None
    store: Annotated[str, Field(max_length=80)] | None = None


# --- down: the menu -----------------------------------------------------------------------------


class Shop(Wire):
    """The shop itself, and how it writes money and time."""

    name: str
    town: str
    currency: str
    minor_digits: int
    time_zone: str


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
    """One word of the register's sentence: an ice level, a milk, a topping, an ingredient."""

    id: str
    name: str
    price: Minor = 0
    half_price: Minor | None = None
    allergens: list[str] = []
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


# --- down: orders and times ---------------------------------------------------------------------


class OrderRow(Wire):
    """One order of a business day, for the register's list and the times page.

    ``gross`` is what was paid at ring-in, ``due`` what its drinks come to that are not void.
    """

    id: str
    number: int
    name: str
    rung_at: Millis
    ready_at: Millis | None
    handed_off_at: Millis | None
    state: Literal["waiting", "making", "ready", "handed off", "void"]
    void_reason: str | None
    drinks: int
    titles: list[str]
    gross: Minor
    due: Minor


class Orders(Wire):
    """GET /api/orders?day=YYYY-MM-DD."""

    day: str
    orders: list[OrderRow]


class Spread(Wire):
    """How a set of times is spread, in seconds. All None when there are none."""

    count: int
    p50: float | None
    p90: float | None
    p95: float | None
    longest: float | None


class HourTimes(Wire):
    """Times of the tickets rung in within one hour of the shop's day (local hour, 0 to 23)."""

    hour: int
    to_ready: Spread


class DrinkTimes(Wire):
    """Times from ring-in to made, of one drink on the menu."""

    drink: str
    name: str
    to_made: Spread


class StationTimes(Wire):
    """Hands-on times (start to finish of steps) at one station."""

    station: str
    name: str
    at_work: Spread


class Times(Wire):
    """GET /api/times?day=YYYY-MM-DD: a business day in review. ``days`` are those with orders."""

    day: str
    days: list[str]
    open: int
    void: int
    to_ready: Spread
    to_hand_off: Spread
    by_hour: list[HourTimes]
    by_drink: list[DrinkTimes]
    by_station: list[StationTimes]
    orders: list[OrderRow]


class Span(Wire):
    """A stretch of a drink's life. ``kind``: waiting for hands, at a step, made and waiting."""

    kind: Literal["waiting", "step", "idle", "made"]
    station: str | None
    label: str
    start: Millis
    end: Millis | None


class DrinkLife(Wire):
    """One drink's stretches, in order, without gap."""

    id: str
    title: str
    words: list[str]
    spans: list[Span]


class Mark(Wire):
    """Something that happened to a ticket at a moment."""

    at: Millis
    what: str


class Life(Wire):
    """GET /api/tickets/{id}/life: one ticket from ring-in to hand-off, as a strip."""

    ticket: OrderRow
    now: Millis
    drinks: list[DrinkLife]
    marks: list[Mark]


class FieldFault(Wire):
    """One field that was wrong: which, what it held, what is accepted."""

    field: str
    value: str
    accepted: str


class Problem(Wire):
    """An RFC 9457 problem document (application/problem+json)."""

    type: str
    title: str
    status: int
    detail: str
    errors: list[FieldFault] = []
