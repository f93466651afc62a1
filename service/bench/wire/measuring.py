"""A change of brand; weighing a measure, and how far a station chills."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from recipes.weighing import Weighing
from service.bench.wire.base import Grams, Share
from service.bench.wire.book import Edit
from service.bench.wire.trying import Mover
from service.books.wire import BookFault
from service.wire import Asked, Id, Wire


class BrandLabel(Asked):
    """What the new package says, per 100 g; what is left out stays as it is in the pantry."""

    brand: Annotated[str, Field(min_length=1, max_length=40)] | None = None
    sugars_g: Share | None = None
    dry_g: Share | None = None
    fat_g: Share | None = None
    carbohydrate_g: Share | None = None
    protein_g: Share | None = None
    fibre_g: Share | None = None
    energy_kj: Annotated[float, Field(ge=0, le=4000, allow_inf_nan=False)] | None = None
    energy_kcal: Annotated[float, Field(ge=0, le=1000, allow_inf_nan=False)] | None = None
    caffeine_mg_per_g: Annotated[float, Field(ge=0, le=100, allow_inf_nan=False)] | None = None
    allergens: Annotated[list[Id], Field(max_length=20)] | None = None
    price: Annotated[str, Field(min_length=1, max_length=40)] | None = None


class BrandIn(Asked):
    """POST /api/owner/brand: another brand of an ingredient, weighed with one of the bar's tools.

    One unit of ``tool`` (a level scoop, a stroke, a ladle, 1 ml of a jug) weighs ``unit_g``, or the mean of
    ``readings_g``; with neither the density stays. With ``keep_mass`` the recipes' amounts of it are written
    in grams as they were, so that the new brand is dosed to the same mass.
    """

    ingredient: Id
    tool: Id | None = None
    unit_g: Grams | None = None
    readings_g: Annotated[list[Grams], Field(max_length=100)] = Field(default_factory=list)
    label: BrandLabel
    keep_mass: bool = False


class Brand(Wire):
    """What a change of brand comes to: the edits that make it, and the recipes that move. Save the edits.

    ``energy`` says in words which energy holds and where it comes from; "" where the book is refused.
    """

    weighing: Weighing | None
    density_before: float
    density_after: float
    edits: list[Edit]
    faults: list[BookFault]
    energy: str
    movers: list[Mover]


class WeighIn(Asked):
    """POST /api/owner/weigh: repeated readings of one measure, in grams, in the order they were taken."""

    what: Literal["scoop", "stroke", "shot", "cube", "ladle"]
    readings_g: Annotated[list[Grams], Field(min_length=2, max_length=100)]
    ingredient: Id | None = None
    tool: Id | None = None


class Weighed(Wire):
    """What the readings come to, and the edits that take their mean into the book.

    A scoop or ladle gives the ingredient's density (its tool's volume is known); a stroke, shot or cube
    gives what the tool holds (the ingredient's density is known). ``finding`` says it in words. Without an
    ingredient and tool there are no edits.
    """

    weighing: Weighing
    finding: str
    edits: list[Edit]


Celsius = Annotated[float, Field(ge=-40, le=100, allow_inf_nan=False)]


class ChillReading(Wire):
    """One trial at a station: a known mass of liquid on a known mass of ice, worked as for a drink.

    ``end_c`` is read at once in the strained liquid. Drained ice from a bin is at 0 °C.
    """

    liquid_g: Grams
    liquid_c: Celsius
    ice_g: Grams
    ice_c: Celsius
    end_c: Celsius


class ChillIn(Asked):
    """POST /api/owner/chill: how far does a station get with chilling? In the order they were tried."""

    station: Id
    readings: Annotated[list[ChillReading], Field(min_length=1, max_length=100)]


class Chilled(Wire):
    """What the trials come to: of each, the melting that happened in per cent of that at equilibrium.

    From two trials on a verdict, and the edit that takes the mean over as the station's ``melt``.
    """

    extents_pct: list[float]
    weighing: Weighing | None
    finding: str
    edits: list[Edit]
