"""The values that recipes/ takes and gives: a line as ordered, and the build it becomes.

Everything is plain, frozen data in base units: grams, millilitres, degrees Celsius, seconds.
Tools, counts and words for people are carried beside the base units, never instead of them.
The same classes travel on the wire (service/wire), so a field added here shows up there.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

HOT = "hot"
"""The one ice choice that is not an ice level: the drink is served hot, without ice."""


@dataclass(frozen=True, slots=True)
class ToppingChoice:
    """One topping of a line: its id in the book, and whether it is a half portion."""

    topping: str
    half: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """One drink as the customer wants it, every choice named by its id in the book.

    ``sugar`` is a per cent of the recipe's added sweetener; ``ice`` is an ice level's id or
    ``HOT``; ``shots`` are shots on top of the recipe's own; ``milk`` None keeps the recipe's milk;
    ``without`` names ingredients left out.
    """

    drink: str
    size: str
    sugar: int
    ice: str
    shots: int = 0
    toppings: tuple[ToppingChoice, ...] = ()
    milk: str | None = None
    without: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of one ingredient goes in, as the hand measures it and in base units.

    ``count`` is in the tool's own unit: 1.5 (level scoops), 2 (strokes), 1 (shot), 7 (cubes); for a
    free pour it is the millilitres read off the jug. ``wanted_ml`` is what would be as strong as the recipe
    in this much drink (of what two tools measure, this one's share), and ``error_pct`` is how far
    ``volume_ml`` is from it, in per cent.
    """

    tool: str
    kind: str
    unit: str
    count: float
    volume_ml: float
    mass_g: float
    wanted_ml: float
    error_pct: float


@dataclass(frozen=True, slots=True)
class Duration:
    """How long a step takes, in seconds, as a range (low equals high where there is none).

    ``attended`` tells whether it needs a pair of hands all the while, or runs by itself.
    """

    low_s: float
    high_s: float
    attended: bool


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do at one station. ``text`` is the whole instruction; ``short`` fits a bar cell.

    ``into`` names the vessel (cup, shaker) on the first step that puts something of the drink into it, and is
    empty on those that follow; ``celsius`` is how warm a step that heats makes it.
    """

    number: int
    station: str
    action: str
    text: str
    short: str
    ingredient: str | None
    amount: Amount | None
    duration: Duration | None
    caution: str | None
    into: str = ""
    celsius: float | None = None


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of the cup's cross-section, from the bottom up, in millilitres of room taken."""

    what: str
    label: str
    volume_ml: float


@dataclass(frozen=True, slots=True)
class Fill:
    """What stands in the cup at hand-over: layers from the bottom, against the seal line and brim.

    ``head_ml`` is what is left below the seal line; ``vessel_ml`` and ``vessel_limit_ml`` are the
    highest fill while mixing and what the mixing vessel holds (equal to the cup's for a drink built
    in the cup).
    """

    layers: tuple[Layer, ...]
    filled_ml: float
    line_ml: float
    brim_ml: float
    head_ml: float
    vessel: str
    vessel_ml: float
    vessel_limit_ml: float


@dataclass(frozen=True, slots=True)
class Balance:
    """What the drink is, by calculation: temperature at hand-over, mass, sugar, caffeine, energy.

    ``added_sugars_g`` counts sweeteners only; ``sugars_g`` all of it. ``brix`` is the per cent by mass
    of sugars in the liquid, ``added_brix`` that of the sweeteners alone. ``melted_g`` and ``ice_left_g`` come
    from the heat balance, of ``ice_g`` put in. ``dry_g`` is all dry matter but the toppings', ``dry_pct`` its
    share of the liquid; ``tea_pct`` the share that is tea as brewed, ``dilution_pct`` the share that is melt
    or water, all by mass. ``cost`` of the ingredients and
    ``margin`` (price less tax less cost) are in minor units of the currency.
    """

    temperature_c: float
    liquid_g: float
    liquid_ml: float
    melted_g: float
    ice_left_g: float
    sugars_g: float
    added_sugars_g: float
    brix: float
    caffeine_mg: float
    energy_kj: float
    energy_kcal: float
    ice_g: float = 0.0
    added_brix: float = 0.0
    dry_g: float = 0.0
    dry_pct: float = 0.0
    tea_pct: float = 0.0
    dilution_pct: float = 0.0
    cost: float = 0.0
    margin: float = 0.0


@dataclass(frozen=True, slots=True)
class ComponentError:
    """How strong one ingredient comes out: grams wanted in this much drink, grams given, and by how much
    that is too strong (above 0) or too weak, in per cent. ``tolerance_pct`` is how far it may be off without
    a word: the book's, or what its tool can tell apart where that is a sweetener's."""

    ingredient: str
    label: str
    wanted_g: float
    given_g: float
    error_pct: float
    tolerance_pct: float = 0.0

    @property
    def is_told(self) -> bool:
        """Whether a build says so."""
        return abs(self.error_pct) > self.tolerance_pct + 1e-6


NoteCode = Literal[
    "smaller",
    "off the recipe",
    "sugar that stays",
    "less ice",
    "no ice left",
    "stands lower",
    "not cold",
    "newer rules",
]
"""What a note is about; ``recipes.building.notes`` says when each is made."""

CautionCode = Literal[
    "very hot", "topping", "high caffeine", "single dose", "allergens", "no recipe", "allergens unknown"
]
"""What a caution is about; ``recipes.telling.cautions`` says when each is made."""


@dataclass(frozen=True, slots=True)
class Note:
    """Something that the bar may want to know: what it is about, in words, of which thing (an ingredient's
    id, or nothing), and its figures."""

    code: NoteCode
    words: str
    thing: str = ""
    figures: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Caution:
    """Something that must be told with a drink: what it is about, in words, and its figures."""

    code: CautionCode
    words: str
    figures: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Build:
    """The exact build of one line: steps in order, what it comes to, and what to say about it.

    ``id`` is the content address: the same book version and line always give the same id and the
    same build. ``allergens`` and ``cautions`` are what must be told; ``notes`` what the bar may want
    to know (a rounding past the book's tolerance, a smaller drink under many toppings).
    ``uses`` are the ids of every ingredient that goes in, for selling out. ``errors`` is what the tools leave
    of each component's strength, the furthest off first; ``score`` is the weighted error that was minimised
    (0 is the recipe itself); ``energy_words`` the energy as a label by the book's rules has it.
    """

    id: str
    book: str
    line: Line
    title: str
    words: tuple[str, ...]
    steps: tuple[Step, ...]
    fill: Fill
    balance: Balance
    allergens: tuple[str, ...]
    cautions: tuple[Caution, ...]
    notes: tuple[Note, ...]
    uses: tuple[str, ...]
    errors: tuple[ComponentError, ...] = ()
    score: float = 0.0
    energy_words: str = ""


RefusalCode = Literal[
    "unknown drink",
    "unknown size",
    "size not offered",
    "unknown sugar",
    "sugar not offered",
    "unknown ice",
    "ice not offered",
    "too many shots",
    "unknown topping",
    "topping not offered",
    "topping twice",
    "too many toppings",
    "no half portion",
    "topping not for hot",
    "unknown milk",
    "milk not offered",
    "cannot leave out",
    "nothing to leave out",
    "too full",
    "too coarse",
    "not understood",
    "said twice",
    "too long",
    "no drink",
    "not proved",
    "no build",
]
"""Why a line is refused; each is provoked in ``tests/recipes/test_refusals.py``."""


@dataclass
class Refusal(Exception):
    """Raised by resolve: why a line cannot be made, as a code and in plain words, and what would be accepted.

    ``field`` names the part of the line ("size", "sugar", "ice", "shots", "toppings", "milk",
    "without", "drink"), ``value`` what was asked for.
    """

    code: RefusalCode
    field: str
    value: str
    message: str
    accepted: tuple[str, ...] = ()

    def __str__(self) -> str:
        return self.message
