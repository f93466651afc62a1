"""From a plan to what is made in the room that is left: aimed at, searched for, added up, and remembered.

What a drink comes to depends on its toppings only by the room they take: it is mixed, iced and held to its
strength before it is poured over them. That is how a bar works, and why strength is held at the pour: what
warm pearls melt in the cup afterwards nobody can stir in again. The balance tells of it, the amounts do not
chase it. The room is counted in steps of ``ROOM_STEP_ML``, so that hundreds of thousands of lines come down
to some thousands of drinks, each worked out once for a book and kept in its ``memory``. Nothing remembered
changes a result: a forgetful book gives the same builds.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from recipes import measures
from recipes.asking.price import drink_price
from recipes.balance.load import Load, Settled
from recipes.balance.outcome import Sums, sums
from recipes.book import Book
from recipes.building.options import Option, tells_apart_ml
from recipes.building.plan import Part, Plan, plan, sugar_sources
from recipes.building.search import Choice, Efforts, Limits, Unsettled, rounding, search
from recipes.building.target import Group, Target, target_of
from recipes.model import Amount, ComponentError, Line, Step
from recipes.telling import words

ROOM_STEP_ML = 7.5
"""The room left by toppings is counted in whole steps of this; a part of a step stays head room.

A house choice, and no key of the book: it costs at most 7.5 ml of drink, 2 % of a small cup and less than one
cube, and saves the proof many of its searches. A line without toppings never meets it."""

WARMING_ML = 1.0
"""Head room that is kept over toppings, for what the liquid swells when they warm it."""

SIP_ML = 10.0
"""How much lower a cup may stand with one more shot in it: the dissolving water that is not worth pouring."""

MOST_TO_FILL = 0.3
"""How far off, in the score of a search, a drink may come out for being as full as the same with a shot
less.
"""

MOST_PLANS, MOST_MADE = 2048, 4096
"""How much a book remembers before it forgets all of it and starts again."""

LEAST_TOLD_PCT = 1e-6
"""A smaller error is floating point."""

Dose = tuple[Part, tuple[Amount, ...]]
"""One part with its amounts, one for each tool that it is measured with; none when nothing goes in."""


@dataclass(frozen=True, slots=True, eq=False)
class Made:
    """A drink as it is made, before it meets its toppings.

    ``doses`` of the plan's parts in order; ``top_up`` with its amounts, if there is one; ``mixed`` is where
    it settles in its vessel, ``unmelted_ml`` how high it stands there before; ``worst`` is the component that
    is the furthest past what its tool can tell apart, None where nothing is off; ``sugars`` are grams by what
    brings them; ``shown`` remembers its steps by how many toppings come before them.
    """

    plan: Plan
    target: Target
    doses: tuple[Dose, ...]
    top_up: Dose | None
    load: Load
    mixed: Settled
    sums: Sums
    errors: tuple[ComponentError, ...]
    worst: ComponentError | None
    score: float
    ice_less: Amount | None
    uses: tuple[str, ...]
    allergens: frozenset[str]
    unmelted_ml: float
    sugars: tuple[tuple[str, float], ...]
    shown: dict[tuple[int, bool], tuple[Step, ...]] = field(default_factory=dict)


class PlannedDrink:
    """One plan of a book, and what it comes to in any room."""

    def __init__(self, book: Book, line: Line) -> None:
        self.book = book
        self.plan = plan(book, line)
        self.group = Group(self.plan.parts, self.plan.melt_share)
        regular = self.plan.regular
        self.usual = None if regular is None else Group(regular, self._regular_share())
        self.line_ml = book.sizes[line.size].line_ml
        vessel = self.plan.drink.vessel
        self.vessel_ml = book.vessels[vessel].limit_ml if vessel else math.inf
        self.title = words.title(book, line)
        self.words_before, self.words_after = words.around_toppings(book, line)
        self.address = repr(
            (book.version, line.drink, line.size, line.sugar, line.ice, line.shots, line.milk, line.without)
        )
        self.price = drink_price(book, line)
        self._roundings: dict[float, bool] = {}
        self._fewer: list[PlannedDrink] | None = None
        self._key = (line.drink, line.size, line.sugar, line.ice, line.shots, line.milk, line.without)

    def _regular_share(self) -> float:
        """How far the regular drink melts: its ice meets the same station's work, hot or not."""
        level = next(level for level in self.book.ices.values() if level.factor == 1)
        line = self.plan.line
        return plan(self.book, Line(line.drink, line.size, line.sugar, level.id)).melt_share

    def made(self, body_ml: float) -> Made | None:
        """What is made under toppings of this room; None when too little of the drink would be left."""
        alone = self.in_room(self.line_ml)
        if body_ml == 0:
            return alone
        room = self.line_ml - body_ml - WARMING_ML
        if alone is not None and alone.mixed.filled_ml <= room:
            return alone
        return self.in_room(math.floor(room / ROOM_STEP_ML) * ROOM_STEP_ML)

    def fits(self, body_ml: float) -> bool:
        """Whether plain rounding makes something under toppings of this room: what is offered must be sure
        to be made, and need not be all that could be."""
        if body_ml == 0:
            return self._can(self.line_ml)
        room = self.line_ml - body_ml - WARMING_ML
        return self._can(math.floor(room / ROOM_STEP_ML) * ROOM_STEP_ML)

    def _can(self, room_ml: float) -> bool:
        """Whether enough of the drink is left in a room and plain rounding makes it; False is no answer."""
        found = self._roundings.get(room_ml)
        if found is None:
            target = self.target(room_ml)
            found = target.of_recipe >= self.plan.drink.least_share
            if found:
                limits = Limits(room_ml, self.vessel_ml, self._least_ml(room_ml))
                choice = rounding(self.plan, target, limits, self.book.taste, _efforts(self.book))
                found = choice is not None and (choice.score <= MOST_TO_FILL or not limits.least_ml)
            self._roundings[room_ml] = found
        return found

    def in_room(self, room_ml: float) -> Made | None:
        """What is made in so much room; remembered. Raises ``Unsettled`` where that takes too long to
        find.
        """
        memory = self.book.memory.made
        key = (*self._key, room_ml)
        try:
            found: Made | Unsettled | None = memory[key]
        except KeyError:
            if len(memory) >= MOST_MADE:
                memory.clear()
            try:
                found = self._make(room_ml)
            except Unsettled as unsettled:
                found = unsettled
            memory[key] = found
        if isinstance(found, Unsettled):
            raise found
        return found

    def target(self, room_ml: float) -> Target:
        """The target in so much room."""
        return target_of(self.plan, self.group, self.usual, room_ml, self.vessel_ml)

    def _make(self, room_ml: float) -> Made | None:
        target = self.target(room_ml)
        if target.of_recipe < self.plan.drink.least_share:
            return None
        taste, efforts = self.book.taste, _efforts(self.book)
        limits = Limits(room_ml, self.vessel_ml)
        choice = search(self.plan, target, limits, taste, efforts)
        if choice is None:
            return None
        made = self._complete(target, choice)
        least = self._least_ml(room_ml)
        for sip_ml in (0.0, ROOM_STEP_ML):
            if made.mixed.filled_ml >= least - sip_ml:
                return made
            # What is rounded apart must not make the cup of who pays for a shot the smaller one.
            fuller = replace(limits, least_ml=least - sip_ml)
            found = search(self.plan, target, fuller, taste, efforts, MOST_TO_FILL)
            if found is not None:
                return self._complete(target, found)
        # No amounts that are near enough fill it as much: there is no room for that shot.
        return None

    def _least_ml(self, room_ml: float) -> float:
        """How high the cup must stand for its extra shots: as high as with fewer of them, less a sip.

        Under the same toppings the drink with fewer may be the one that needs no room made for them, which
        stands less than a step of the room above this.
        """
        line = self.plan.line
        if line.shots == 0:
            return 0.0
        if self._fewer is None:
            self._fewer = [planned(self.book, replace(line, shots=shots)) for shots in range(line.shots)]
        stands = []
        for fewer in self._fewer:
            drinks = (fewer.in_room(room_ml), fewer.in_room(self.line_ml))
            stands += [drink.mixed.filled_ml for drink in drinks if drink is not None]
        return max((ml - SIP_ML for ml in stands if ml <= room_ml + ROOM_STEP_ML), default=0.0)

    def _complete(self, target: Target, choice: Choice) -> Made:
        """A choice with its load, sums and errors."""
        load = Load()
        options = list(zip(self.plan.parts, choice.amounts, target.wanted_ml, strict=True))
        if self.plan.top_up is not None:
            options.append((self.plan.top_up, choice.top_up, target.top_up_ml))
        for part, option, _ in options:
            load = load.plus(part.unit, option.ml)
        mixed = self.group.settle(load)
        # As much of everything as this much liquid wants.
        scale = mixed.liquid_ml / target.settled.liquid_ml
        doses = [(part, _amounts(part, option, wanted * scale)) for part, option, wanted in options]
        top_up = doses.pop() if self.plan.top_up is not None else None
        used = [(part, amount) for part, amounts in doses for amount in amounts]
        used += [] if top_up is None else [(top_up[0], amount) for amount in top_up[1]]
        brought = sums((part.ingredient, amount.mass_g, part.role == "sweetener") for part, amount in used)
        # Steam that warmed the milk is water in the drink.
        steam = sum(option.ml * part.steam_g for part, option, _ in options)
        if steam:
            brought = replace(brought, liquid_g=brought.liquid_g + steam, water_g=brought.water_g + steam)
        errors = _errors(
            [(part, option.ml, wanted * scale) for part, option, wanted in options], self.book.tolerance_pct
        )
        return Made(
            plan=self.plan,
            target=target,
            doses=tuple(doses),
            top_up=top_up if top_up is not None and top_up[1] else None,
            load=load,
            mixed=mixed,
            sums=brought,
            errors=errors,
            worst=max(errors, key=lambda error: abs(error.error_pct) - error.tolerance_pct, default=None),
            score=round(choice.score, 9),
            ice_less=_ice_less(options, target.less_ice_ml),
            uses=tuple(sorted({part.ingredient.id for part, _ in used})),
            allergens=frozenset(each for part, _ in used for each in part.ingredient.allergens),
            unmelted_ml=load.unmelted_ml,
            sugars=tuple(sugar_sources(used)),
        )


def _efforts(book: Book) -> Efforts:
    """What measures cost the book's hands; remembered."""
    if book.memory.efforts is None:
        book.memory.efforts = Efforts(book.hands)
    found: Efforts = book.memory.efforts
    return found


def planned(book: Book, line: Line) -> PlannedDrink:
    """The planned drink of a canonical line; remembered."""
    key = (line.drink, line.size, line.sugar, line.ice, line.shots, line.milk, line.without)
    plans = book.memory.plans
    found: PlannedDrink | None = plans.get(key)
    if found is None:
        if len(plans) >= MOST_PLANS:
            plans.clear()
        found = plans[key] = PlannedDrink(book, line)
    return found


def _amounts(part: Part, option: Option, wanted_ml: float) -> tuple[Amount, ...]:
    """An option tool by tool; each is held against its share of what is wanted, so all are off alike."""
    found = []
    for tool, steps in option.counts:
        share = wanted_ml * steps * tool.step_ml / option.ml
        found.append(measures.counted(tool, part.ingredient, steps * tool.least, share))
    return tuple(found)


def _errors(given: list[tuple[Part, float, float]], tolerance_pct: float) -> tuple[ComponentError, ...]:
    """How far each ingredient that tastes is off, over all that brings it; the furthest off first."""
    totals: dict[str, list[float]] = {}
    tells: dict[str, float] = {}
    labels: dict[str, str] = {}
    for part, ml, wanted_ml in given:
        ingredient = part.ingredient
        if (
            ingredient.tastes
            and part.role != "ice"
            and part.tool.kind != "shot"
            and (wanted_ml > 0 or ml > 0)
        ):
            grams = totals.setdefault(ingredient.id, [0.0, 0.0])
            grams[0] += wanted_ml * ingredient.density
            grams[1] += ml * ingredient.density
            labels[ingredient.id] = ingredient.short
            if part.role == "sweetener" and wanted_ml > 0:
                tells[ingredient.id] = 100 * tells_apart_ml(part, wanted_ml) / 2 / wanted_ml
    found = []
    for ingredient_id, (wanted, put_in) in totals.items():
        error = 100 * (put_in / wanted - 1) if wanted > 0 else 0.0
        if abs(error) < LEAST_TOLD_PCT:
            error = 0.0
        found.append(
            ComponentError(
                ingredient_id,
                labels[ingredient_id],
                round(wanted, 4),
                round(put_in, 4),
                round(error, 4),
                round(max(tolerance_pct, tells.get(ingredient_id, 0.0)), 4),
            )
        )
    return tuple(sorted(found, key=lambda each: -abs(each.error_pct)))


def _ice_less(options: list[tuple[Part, Option, float]], given_way_ml: float) -> Amount | None:
    """How much less ice than plain rounding gives, for the room's sake; None where it is as much."""
    for part, option, wanted_ml in options:
        if part.role == "ice":
            wanted = (wanted_ml + given_way_ml) / part.tool.unit_ml
            usual = measures.nearest(wanted, part.tool.least)
            less = usual - option.ml / part.tool.unit_ml
            return measures.counted(part.tool, part.ingredient, less, 0.0) if less > 0 else None
    return None
