"""The exact choice: of all that a hand would measure, what comes nearest to the target for the least fuss.

Each ingredient's amount x_i would be exactly as strong as the target in a drink of V_i = x_i V*/x_i*
millilitres, V* being the target's. With V the liquid that the chosen amounts settle to, what is minimised is

    J = Σ w_i (V_i/V - 1)² + w_fill (V/V* - 1)² + w_ice (n/n* - 1)² + Σ effort_i

under the seal line and inside the vessel (ice and top-up are held to their own level: what they do shows in
V). ``effort`` is what a measure costs beyond a plain one, in the same coin: its seconds of hands
(``recipes.hands``; 0.01 / patience each) and what its spread adds to the expected squared error. What the
owner wrote for the size costs nothing: hands are used to it. Two rules stand outside J: a sweetener stands
within half a step of its tool of what the level wants in V, and ice is rounded to the nearest or less, never
to none. What is looked at is what ``recipes.building.options`` lists, no more.

Branch and bound: within a narrow band of V each amount costs at least what it would cost at the end of
the band nearest to it, and the amounts chosen so far cost at least what they would at the V that suits them
best together; a branch that cannot beat the best known with that, or cannot settle within the band, is left.
The first bound comes from rounding; every band within that bound is looked at, so the result is the optimum.
Ties go to the amounts nearest to the target, then to the larger. A search that would look at more than
``MOST_LOOKS`` amounts gives up with ``Unsettled``: some tool's step is far from what the recipe wants.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass

from recipes.balance.heat import FUSION, ICE_DENSITY, WATER_HEAT
from recipes.balance.load import MOST_BRIX, Load, rest
from recipes.book import Taste, Tool
from recipes.building.options import Option, options, tells_apart_ml
from recipes.building.plan import Part, Plan
from recipes.building.target import Target
from recipes.hands import Hands, beyond, plain_spread_ml, spread_ml

TIE = 1e-12
"""Scores nearer than this are the same score."""

FULL_ML = 1e-6
"""How far past a limit is still floating point, ml."""

FIRST_BOUND, NEXT_BOUND, LAST_BOUND = 0.004, 6.0, 40.0
"""Where the search begins when plain rounding does not fit, how it widens, and where it gives up."""

SEED_SHARES = (0.94, 0.97, 1.03, 1.06)
"""Amounts of drink, as shares of the target's, for which plain rounding is tried first."""

BAND, WIDER = 0.1, 2.0
"""The liquid is looked at band by band, the first so wide as a share of the target's, each further one so
many times wider."""

ANOTHER_STROKE = 0.005
"""What it costs to sweeten otherwise than the level says, in squared error: 7 % of an ingredient. So a level
is the same strokes wherever nothing speaks against it, and half a stroke goes up."""

LESS_ICE = 0.01
"""What it costs to give less ice than the nearest measure of what is asked for: 10 % of an ingredient. A
level that is ordered is given, and the drink made a little smaller for it, unless it would shrink by much."""

LEAST_SHARE = 0.02
"""No drink is looked for below this share of the target's."""

LEAST_ML = 0.05
"""Less than this of anything is nothing: a drop."""

MOST_LOOKS = 500_000
"""How many amounts one search may look at, about a second; the demo book's worst takes a fiftieth of it."""

WATER_ML, DRY_ML = (0.99, 1 / 0.955), (0.58, 0.70)
"""Bounds on the room of a gram of water and of a gram dissolved in it, ml, from 0 to 100 °C: water by
IAPWS-95, sugar in solution about 0.61 to 0.63; a little wider than that."""

ROUGH_DRY_ML, ROUGHLY = 0.62, ((30.0, (0.996, 1.026)), (100.0, (0.996, 1.057)))
"""The room of a gram dissolved, ml, and within which shares of a reckoning by that, with a gram of water as a
millilitre, a solution settles that is no warmer than so many °C."""

OWN_LEVEL = ("ice", "top_up")
"""Roles held to their own level, whatever the drink comes to: what they do shows in the drink's strength."""


@dataclass(frozen=True, slots=True)
class Choice:
    """The amounts chosen for each of the plan's parts and for the top-up, and their score J."""

    amounts: tuple[Option, ...]
    top_up: Option
    score: float


@dataclass(frozen=True, slots=True)
class Limits:
    """What may not be passed: the room for the drink in the cup, and the vessel; ``least_ml`` is how high the
    cup must stand, because the same drink with less in it stands there."""

    room_ml: float
    vessel_ml: float
    least_ml: float = 0.0


@dataclass
class Unsettled(Exception):
    """Raised when a search would look at too much; ``part`` is the one whose tool is the furthest from it."""

    part: Part


_Column = tuple[float, ...]
"""One option of one variable: w, w V_i, w V_i², its cost whatever V, its load by field, and the least and
most room that its liquid can take."""


def weight(taste: Taste, part: Part) -> float:
    """How much the strength of a part counts, or its count for what is held to its own level."""
    if part.role == "ice":
        return taste.ice
    if part.role == "top_up":
        return taste.milk if part.ingredient.tastes else taste.top_up
    if not part.ingredient.tastes:
        return taste.water
    return {"sweetener": taste.sweetener, "milk": taste.milk}.get(part.role, taste.part)


def search(
    plan: Plan, target: Target, limits: Limits, taste: Taste, efforts: Efforts, most: float = LAST_BOUND
) -> Choice | None:
    """The best choice for a plan that scores no worse than ``most``; None when nothing measurable fits.

    Raises ``Unsettled``.
    """
    return _Search(plan, target, limits, taste, efforts).best(most)


def rounding(plan: Plan, target: Target, limits: Limits, taste: Taste, efforts: Efforts) -> Choice | None:
    """The best of plain roundings, which is a choice but not always the best; None when none of them fits."""
    return _Search(plan, target, limits, taste, efforts).seed()


class Efforts:
    """What measures cost beyond plain ones, in squared relative error; worked out once for each reading."""

    def __init__(self, hands: Hands) -> None:
        self._hands = hands
        self._known: dict[tuple[str, int], tuple[float, float]] = {}

    def of(self, part: Part, option: Option, wanted_ml: float, weight: float) -> float:
        """The effort of an option: its seconds, and what its spread adds; nothing as the owner wrote it."""
        if not option.counts or (part.written_ml is not None and abs(option.ml - part.written_ml) < 1e-6):
            return 0.0
        seconds, spread = self._reading(*option.counts[0])
        if len(option.counts) > 1:
            more, wider = self._reading(*option.counts[1])
            seconds, spread = seconds + more + self._hands.other_tool, spread + wider
        elif option.counts[0][0] is not part.tool and option.counts[0][0] is not part.jug:
            seconds += self._hands.other_tool
        return seconds * self._hands.per_second + weight * spread / (wanted_ml * wanted_ml)

    def _reading(self, tool: Tool, steps: int) -> tuple[float, float]:
        """Seconds beyond a plain measure, and the variance in ml² beyond that of one at a mark or level."""
        found = self._known.get((tool.id, steps))
        if found is None:
            measure = tool.measure(steps * tool.least)
            spread = spread_ml(measure) ** 2 - plain_spread_ml(measure) ** 2
            found = self._known[tool.id, steps] = beyond(self._hands, measure), max(0.0, spread)
        return found


class _Search:
    """One search. ``free`` are the places of the variables: the coarsest first, the top-up last."""

    def __init__(self, plan: Plan, target: Target, limits: Limits, taste: Taste, efforts: Efforts) -> None:
        self.plan, self.limits, self.taste, self.efforts = plan, limits, taste, efforts
        self.target_ml = target.settled.liquid_ml
        wanted = [*zip(plan.parts, target.wanted_ml, strict=True)]
        if plan.top_up is not None:
            wanted.append((plan.top_up, target.top_up_ml))
        self.wanted = wanted
        self.fixed = [_fixed(part, ml) for part, ml in wanted]
        free = [place for place, option in enumerate(self.fixed) if option is None]
        self.free = sorted(free, key=self._coarseness)
        self.weights = [weight(taste, part) for part, _ in wanted]
        # What sweetens, by its depth: how much is wanted, and half of what its tool tells apart.
        self.sweet = {
            depth: (wanted[place][1], tells_apart_ml(*wanted[place]) / 2)
            for depth, place in enumerate(self.free)
            if wanted[place][0].role == "sweetener"
        }
        self.looks = 0
        # Each amount is met in every band and at every bound: what it adds up to is worked out once.
        self._columns: list[dict[float, _Column]] = [{} for _ in wanted]
        self._units = [_load(part.unit) for part, _ in wanted]
        self._level = {
            place: self._by_level(place) for place in self.free if wanted[place][0].role == "sweetener"
        }
        load = Load()
        for (part, _), option in zip(wanted, self.fixed, strict=True):
            if option is not None:
                load = load.plus(part.unit, option.ml)
        self.least, self.most = self._reach(load) if self.target_ml > 0 else (LEAST_SHARE, LEAST_SHARE)
        self.start = (0.0, 0.0, 0.0, 0.0, *_load(load))

    def _reach(self, fixed: Load) -> tuple[float, float]:
        """The least and the most liquid that the limits let settle, as shares of the target's: it stays
        under the room, and stands with its foam and whatever ice is left as high as it must."""
        least = LEAST_SHARE
        least_ml = self.limits.least_ml - FULL_ML
        foams = any(self.wanted[place][0].unit.foam_ml for place in self.free)
        if least_ml > 0 and not foams:
            for part, ml in self.wanted:
                if part.role == "ice":
                    fixed = fixed.plus(part.unit, _most_ice_ml(part, ml))
            # Very cold ice freezes some more.
            least_ml -= fixed.foam_ml + (fixed.ice_g + fixed.ice_cold / FUSION) / ICE_DENSITY
            least = max(LEAST_SHARE, least_ml / self.target_ml)
        return least, (self.limits.room_ml + FULL_ML) / self.target_ml

    def _coarseness(self, place: int) -> tuple[bool, float, int]:
        part, wanted = self.wanted[place]
        return part.role == "top_up", -part.tools[-1].step_ml / wanted, place

    def coarsest(self) -> Part:
        """The part whose tool's step is the furthest from measuring what is wanted."""
        return max((self.wanted[place] for place in self.free), key=_off_at_best)[0]

    def best(self, most: float) -> Choice | None:
        """The optimum, or None where that would score worse than ``most``."""
        if self.target_ml <= 0:
            return None
        seed = self.seed()
        if not self.free or (seed is not None and seed.score <= TIE):
            return seed
        # Looked at closely first, then wider: what is found near needs no look further away.
        bound = FIRST_BOUND
        while seed is not None and bound * NEXT_BOUND < seed.score:
            found = self._within(bound, None)
            if found is not None:
                return found
            bound *= NEXT_BOUND
        if seed is not None:
            return self._within(seed.score, seed)
        while True:
            found = self._within(min(bound, most), None)
            if found is not None or bound >= most:
                return found
            bound *= NEXT_BOUND

    def seed(self) -> Choice | None:
        """The best of plain roundings for a few amounts of drink, or the first that is near; None when none
        of them fits."""
        near = []
        for place in self.free:
            part, wanted = self.wanted[place]
            step = part.tool.step_ml
            found = _offered(part, SEED_SHARES[0] * wanted - step, SEED_SHARES[-1] * wanted + step, wanted)
            if not found:
                return None
            near.append((place, wanted, found, [option.ml for option in found]))
        best: Choice | None = None
        tried = set()
        for share in (1.0, *SEED_SHARES):
            places = tuple([_nearest(amounts, share * wanted) for _, wanted, _, amounts in near])
            if places in tried:
                continue
            tried.add(places)
            picked = [found[n] for (_, _, found, _), n in zip(near, places, strict=True)]
            columns = [self._column(place, option) for place, option in zip(self.free, picked, strict=True)]
            total = tuple(map(sum, zip(self.start, *columns, strict=True)))
            score = self.score(total, picked)
            if score is not None and (best is None or score < best.score - TIE):
                best = self.choice(picked, score)
                if score <= FIRST_BOUND:
                    break  # near enough for the search to begin with
        return best

    def _column(self, place: int, option: Option) -> _Column:
        known = self._columns[place].get(option.ml)
        if known is None:
            known = self._columns[place][option.ml] = self._worked_out(place, option)
        return known

    def _worked_out(self, place: int, option: Option) -> _Column:
        part, wanted = self.wanted[place]
        ml, w = option.ml, self.weights[place]
        hard = self.efforts.of(part, option, wanted, w)
        mass, dry, capacity, heat, ice, cold, foam, low, high = self._units[place]
        if part.role == "sweetener" and ml != self._level[place]:
            hard += ANOTHER_STROKE
        if part.role == "ice" and ml < wanted - part.tool.step_ml / 2 - FULL_ML:
            hard += LESS_ICE
        if part.role in OWN_LEVEL:
            first, second, hard = 0.0, 0.0, w * (ml / wanted - 1) ** 2 + hard
            w = 0.0
        else:
            volume = ml * self.target_ml / wanted
            first, second = w * volume, w * volume * volume
        return (w, first, second, hard, ml * mass, ml * dry, ml * capacity, ml * heat, ml * ice, ml * cold,
                ml * foam, ml * low, ml * high)  # fmt: skip

    def _by_level(self, place: int) -> float:
        """What the sugar level comes to in the drink as aimed at: the nearest step, ties up."""
        part, wanted = self.wanted[place]
        stride = tells_apart_ml(part, wanted)
        return math.floor(wanted / stride + 0.5 + TIE) * stride

    def score(self, total: _Column, chosen: list[Option]) -> float | None:
        """J of a whole choice from the sums of its columns; None over a limit or not as sweet as its
        level.
        """
        w, s1, s2, cost, mass, dry, capacity, heat, ice, cold, *_ = total
        _, melted, liquid = rest(mass, dry, capacity, heat, ice, cold, self.plan.melt_share)
        if liquid <= 0 or not self.fits(total, melted, liquid):
            return None
        for depth, (wanted, half) in self.sweet.items():
            off = chosen[depth].ml - wanted * liquid / self.target_ml
            # Ties go up: half a stroke short is one short.
            if not -half + TIE < off <= half + FULL_ML:
                return None
        z = 1 / liquid
        return cost + w - 2 * s1 * z + s2 * z * z + self.taste.fill * (liquid / self.target_ml - 1) ** 2

    def fits(self, total: _Column, melted: float, liquid: float) -> bool:
        """Whether a choice that settles so stays under the room and in the vessel, and is as much as it must
        be.
        """
        _, _, _, _, mass, dry, capacity, heat, ice, _, foam, *_ = total
        filled = liquid + max(0.0, ice - melted) / ICE_DENSITY + foam
        if not self.limits.least_ml - FULL_ML <= filled <= self.limits.room_ml + FULL_ML:
            return False
        if mass + ice / ICE_DENSITY < 0.9 * self.limits.vessel_ml:
            return True  # even as warm water it takes less
        return Load(mass, dry, capacity, heat, ice).unmelted_ml <= self.limits.vessel_ml + FULL_ML

    def choice(self, chosen: list[Option], score: float) -> Choice:
        """The options of the free places, with the fixed ones, in the order of the parts."""
        amounts = list(self.fixed)
        for place, option in zip(self.free, chosen, strict=True):
            amounts[place] = option
        whole = tuple(option for option in amounts if option is not None)
        parts = len(self.plan.parts)
        return Choice(whole[:parts], whole[parts] if len(whole) > parts else Option(0.0, ()), max(0.0, score))

    def _within(self, bound: float, seed: Choice | None) -> Choice | None:
        """The best of all choices that score no worse than ``bound``, or the seed."""
        reach = math.sqrt(bound / self.taste.fill)
        low, high = max(1 - reach, self.least), min(1 + reach, self.most)
        if low > high:
            return seed
        table = [self._near(place, bound, low, high) for place in self.free]
        if not all(table):
            return seed
        descent = _Descent(self, table, bound)
        for first, last in _bands(low, high):
            descent.within(self.target_ml * first, self.target_ml * last)
        return seed if descent.chosen is None else self.choice(descent.chosen, descent.best)

    def _near(self, place: int, bound: float, low: float, high: float) -> list[tuple[_Column, Option]]:
        """The options of one variable that alone do not cost more than the bound, the likeliest first."""
        part, wanted = self.wanted[place]
        if part.role in OWN_LEVEL:
            low = high = 1.0
        w = self.weights[place]
        # What weighs nothing is still bounded, by four times what is wanted.
        reach = min(3.0, math.sqrt(bound / w)) if w > 0 else 3.0
        least, most = wanted * low * max(0.0, 1 - reach), wanted * high * (1 + reach)
        found = _offered(part, least, most, wanted)
        found.sort(key=lambda option: (abs(option.ml - wanted), -option.ml))
        return [(self._column(place, option), option) for option in found]


def _bands(low: float, high: float) -> list[tuple[float, float]]:
    """The bands of V as shares of the target's, from the target outwards, so that a good choice is found
    before the far ones are looked at; those are wider, since what is so far off in its fill rarely is the
    best."""
    reach, width = BAND / 2, BAND
    found = [(1 - reach, 1 + reach)]
    while 1 - reach > low or 1 + reach < high:
        found += [(1 - reach - width, 1 - reach), (1 + reach, 1 + reach + width)]
        reach, width = reach + width, width * WIDER
    clamped = [(max(low, first), min(high, last)) for first, last in found]
    return [(first, last) for first, last in clamped if first <= last]


def _nearest(amounts: list[float], wanted: float) -> int:
    """The place of the amount nearest to the wanted one, the larger on a tie; amounts in order."""
    place = bisect_left(amounts, wanted)
    if place == len(amounts) or (place and wanted - amounts[place - 1] < amounts[place] - wanted - TIE):
        return place - 1
    return place


def _off_at_best(pair: tuple[Part, float]) -> float:
    """How far off the nearest step of a part's own tool is, as a share of what is wanted."""
    part, wanted = pair
    steps = math.floor(wanted / part.tool.step_ml + 0.5)
    return abs(steps * part.tool.step_ml / wanted - 1)


def _fixed(part: Part, wanted_ml: float) -> Option | None:
    """The amount of what is not to be chosen: shots, pulled as ordered, and nothing of what is not wanted."""
    if wanted_ml < LEAST_ML:
        return Option(0.0, ())
    if part.tool.kind != "shot":
        return None
    steps = max(1, round(wanted_ml / part.tool.step_ml))
    return Option(steps * part.tool.step_ml, ((part.tool, steps),))


def _offered(part: Part, low_ml: float, high_ml: float, wanted_ml: float) -> list[Option]:
    """What may be chosen of a part: of ice the nearest or less, and never none."""
    found = options(part, low_ml, high_ml, wanted_ml)
    if part.role != "ice":
        return found
    most_ml = _most_ice_ml(part, wanted_ml)
    return [option for option in found if 0 < option.ml <= most_ml] or [
        Option(part.tool.step_ml, ((part.tool, 1),))
    ]


def _load(unit: Load) -> tuple[float, ...]:
    """A load by field, and the least and most room that its liquid can take."""
    return (unit.mass_g, unit.dry_g, unit.capacity, unit.heat, unit.ice_g, unit.ice_cold, unit.foam_ml,
            *_room(unit))  # fmt: skip


def _most_ice_ml(part: Part, wanted_ml: float) -> float:
    """The most ice that is given: the nearest measure of it, one at the least."""
    return max(part.tool.step_ml, wanted_ml + part.tool.step_ml / 2) + FULL_ML


def _room(unit: Load) -> tuple[float, float]:
    """The least and the most room that a load's liquid can take, whatever melts or freezes."""
    water = unit.mass_g - unit.dry_g
    low = water * WATER_ML[0] + unit.dry_g * DRY_ML[0] - unit.ice_cold / FUSION * WATER_ML[1]
    return low, (water + unit.ice_g) * WATER_ML[1] + unit.dry_g * DRY_ML[1]


_Row = list[tuple[float, _Column, Option]]
"""The options of one variable in one band, each with the least it costs there, the cheapest first."""


class _Descent:
    """The search, band by band of V, depth first, leaving every branch that cannot beat the best known.

    Two bounds: amount by amount, what each costs at the least in the band; and what the amounts chosen so far
    and the fill cost together at the V that suits them best, a parabola in z = 1/V.
    """

    def __init__(self, of: _Search, table: list[list[tuple[_Column, Option]]], bound: float) -> None:
        self.of, self.table = of, table
        self.best = bound
        self.chosen: list[Option] | None = None
        self._rows: list[_Row] = []
        self._rest: list[float] = []
        self._z = 0.0, 0.0
        self._fill = 0.0, 0.0, 0.0

    def within(self, first_ml: float, last_ml: float) -> None:
        """Look at every choice that settles to a liquid of ``first_ml`` to ``last_ml``."""
        target = self.of.target_ml
        off = max(0.0, first_ml / target - 1, 1 - last_ml / target)
        fill = self.of.taste.fill * off * off
        if fill > self.best:
            return
        rows = []
        for depth, options_here in enumerate(self.table):
            row = self._row(depth, options_here, first_ml, last_ml)
            if not row:
                return
            rows.append(row)
        rest, low, high = [0.0], [0.0], [0.0]
        for row in reversed(rows):
            rest.append(rest[-1] + row[0][0])
            low.append(low[-1] + min([found[1][11] for found in row]))
            high.append(high[-1] + max([found[1][12] for found in row]))
        self._rows, self._rest = rows, rest[::-1]
        self._low, self._high = low[::-1], high[::-1]
        self._band = first_ml, last_ml
        self._z = 1 / last_ml, 1 / first_ml
        # From first_ml up, (V/V* - 1)² is at least (V* z - 1)² (first/V*)²: one more parabola in z.
        w = self.of.taste.fill * (first_ml / target) ** 2
        self._fill = w, w * target, w * target * target
        self._go(0, fill, (*self._fill, *self.of.start[3:]), [])

    def _row(
        self, depth: int, options_here: list[tuple[_Column, Option]], first_ml: float, last_ml: float
    ) -> _Row:
        row: _Row = []
        least, most = -math.inf, math.inf
        if depth in self.of.sweet:
            wanted, half = self.of.sweet[depth]
            half += FULL_ML
            least = wanted * first_ml / self.of.target_ml - half
            most = wanted * last_ml / self.of.target_ml + half
        best = self.best
        for column, option in options_here:
            if not least <= option.ml <= most:
                continue
            w, cost = column[0], column[3]
            if w > 0:
                volume = column[1] / w
                if volume < first_ml:
                    off = volume / first_ml - 1
                    cost += w * off * off
                elif volume > last_ml:
                    off = volume / last_ml - 1
                    cost += w * off * off
            if cost <= best:
                row.append((cost, column, option))
        # Stable: of equal costs the nearest to the target stays first.
        if len(row) > 1:
            row.sort(key=_cost)
        return row

    def _go(self, depth: int, cost: float, total: _Column, chosen: list[Option]) -> None:
        last = depth == len(self._rows) - 1
        rest, low, high = self._rest[depth + 1], self._low[depth + 1], self._high[depth + 1]
        first_ml, last_ml = self._band
        z_low, z_high = self._z
        t0, t1, t2, t3, t4, t5, t6, t7, t8, t9, t10, t11, t12 = total
        for least, column, option in self._rows[depth]:
            if cost + least + rest > self.best - TIE:
                return
            self.of.looks += 1
            if self.of.looks > MOST_LOOKS:
                raise Unsettled(self.of.coarsest())
            w, s1, s2, c, mass, dry, capacity, heat, ice, cold, foam, room_low, room_high = column
            if t11 + room_low + low > last_ml or t12 + room_high + high < first_ml:
                continue  # whatever else is chosen, this does not settle within the band
            w, s1, s2, c = w + t0, s1 + t1, s2 + t2, c + t3
            z = s1 / s2
            z = z_low if z < z_low else z_high if z > z_high else z
            if c + w - (2 * s1 - s2 * z) * z + rest > self.best - TIE:
                continue
            both = (w, s1, s2, c, t4 + mass, t5 + dry, t6 + capacity, t7 + heat, t8 + ice, t9 + cold, t10 +
            foam,
                    t11 + room_low, t12 + room_high)  # fmt: skip
            chosen.append(option)
            if last:
                self._leaf(both, chosen)
            else:
                self._go(depth + 1, cost + least, both, chosen)
            chosen.pop()

    def _leaf(self, total: _Column, chosen: list[Option]) -> None:
        # Every choice settles within one band only, and is scored there: a rough reckoning tells where, and
        # often that it cannot be the best.
        w, s1, s2, cost, mass, dry, capacity, heat, ice, cold, *_ = total
        spare = (heat - cold) / FUSION
        melted = self.of.plan.melt_share * (ice if ice < spare else spare) if spare > 0 else spare
        warm = capacity + melted * WATER_HEAT
        if 100 * dry <= MOST_BRIX * (mass + melted) and warm > 0:
            celsius = (spare - melted) * FUSION / warm
            least_ml, most_ml = (ROUGHLY[0] if celsius <= ROUGHLY[0][0] else ROUGHLY[1])[1]
            rough_ml = mass - dry + melted + dry * ROUGH_DRY_ML
            least_ml, most_ml = rough_ml * least_ml, rough_ml * most_ml
            if most_ml < self._band[0] or least_ml > self._band[1]:
                return
            z = s1 / s2
            z = 1 / most_ml if z * most_ml < 1 else 1 / least_ml if z * least_ml > 1 else z
            if cost + w - (2 * s1 - s2 * z) * z > self.best - TIE:
                return
        fill, fill1, fill2 = self._fill
        score = self.of.score((w - fill, s1 - fill1, s2 - fill2, *total[3:]), chosen)
        if score is not None and score < self.best - TIE:
            self.best, self.chosen = score, list(chosen)


def _cost(found: tuple[float, _Column, Option]) -> float:
    return found[0]
