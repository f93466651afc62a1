"""What a proof says, as plain values: counts, worst cases, refusals, violations, a heat map.

Aggregates only: a book has hundreds of thousands of combinations, and nobody reads a list of them. The
same classes travel on the wire (service/bench/wire). The error of a combination is the largest of its
components' errors, in per cent, without sign.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from recipes.hands import Fuss
from recipes.model import Line, RefusalCode
from recipes.proof.levels import Coincide

Kind = Literal["no build", "overfull", "not measurable", "out of tolerance", "not monotone"]
"""What can be wrong with a combination.

``no build``: neither a build nor an honest refusal; ``overfull``: past the seal line or the vessel's limit;
``not measurable``: an amount that its tool cannot measure; ``out of tolerance``: an error past the book's
tolerance that no note names; ``not monotone``: worse than its neighbour (more sugar less sweet, more ice
warmer, more shots less caffeine) without a cause.
"""


@dataclass(frozen=True, slots=True)
class CaseError:
    """How far one component of a combination is off what the recipe wants, in per cent of it."""

    ingredient: str
    label: str
    error_pct: float


@dataclass(frozen=True, slots=True)
class Case:
    """One combination worth telling, in the customer's words, its components the furthest off first."""

    line: Line
    title: str
    words: tuple[str, ...]
    error_pct: float
    errors: tuple[CaseError, ...]
    flagged: bool


@dataclass(frozen=True, slots=True)
class Refused:
    """Combinations refused for one reason: how many, and one of them with the words it is refused in.

    ``message`` is all that the register says, ``cause`` the same without what would do instead. ``field`` is
    the part of the line that is refused, ``code`` the reason's code.
    """

    code: RefusalCode
    field: str
    count: int
    message: str
    cause: str
    example: Case


@dataclass(frozen=True, slots=True)
class Violation:
    """Combinations that break the proof in one way at one thing: how many, and one of them with figures.

    ``what`` names the thing: an ingredient, the cup or vessel, or the modifier that is not monotone.
    """

    kind: Kind
    what: str
    count: int
    message: str
    example: Case


@dataclass(frozen=True, slots=True)
class Coarse:
    """An ingredient that its tool cannot measure within the tolerance in ``count`` built combinations.

    ``wanted_ml`` is the least amount wanted among them, ``step_ml`` the tool's smallest step, ``example`` the
    combination that is the furthest off.
    """

    ingredient: str
    label: str
    tool: str
    count: int
    wanted_ml: float
    step_ml: float
    example: Case


@dataclass(frozen=True, slots=True)
class HeatCell:
    """All built combinations of a drink with one modifier's value: their mean and worst error in per cent,
    how many are fussy to make, and the mean seconds of hands measuring.

    ``modifier`` is size, sugar, ice, shots, topping, milk or without; ``value`` its id, ``name`` for people.
    """

    modifier: str
    value: str
    name: str
    built: int
    refused: int
    mean_pct: float
    worst_pct: float
    fussy: int
    seconds: float


@dataclass(frozen=True, slots=True)
class Fussiness:
    """Builds with one kind of fuss: how many, and for one of them what is fussy and which it is."""

    kind: Fuss
    count: int
    what: str
    example: str


@dataclass(frozen=True, slots=True)
class Sweetest:
    """The sweetener that is the furthest from what is wanted, in steps of its tool, and where."""

    label: str
    steps: float
    example: str


@dataclass(frozen=True, slots=True)
class HandProof:
    """``built`` combinations by hand: how many have something ``fussy``, the mean ``seconds`` of hands
    measuring, and each kind of fuss, the most met first.

    ``parts`` counts the errors of all that is no sweetener: place k those nearest to k/2 per cent, the last
    one 50 per cent and more; ``median_pct`` and ``p95_pct`` are read from it, to a quarter of a per cent."""

    built: int
    fussy: int
    seconds: float
    fuss: tuple[Fussiness, ...]
    parts: tuple[int, ...]
    median_pct: float
    p95_pct: float
    sweetest: Sweetest | None


@dataclass(frozen=True, slots=True)
class DrinkProof:
    """What proving one drink came to. ``flagged`` are built past the tolerance with a note that says so;
    ``hand`` is what it asks of hands, ``same`` are its plain levels that come to one measure."""

    drink: str
    name: str
    fingerprint: str
    combinations: int
    built: int
    refused: int
    flagged: int
    mean_pct: float
    worst_pct: float
    worst: tuple[Case, ...]
    refusals: tuple[Refused, ...]
    violations: tuple[Violation, ...]
    violated: int
    coarse: tuple[Coarse, ...]
    heat: tuple[HeatCell, ...]
    hand: HandProof
    same: tuple[Coincide, ...]


@dataclass(frozen=True, slots=True)
class Advice:
    """One thing to do about the book, in plain words with figures; ``count`` combinations gain from it."""

    drink: str | None
    count: int
    text: str


@dataclass(frozen=True, slots=True)
class DrinkCount:
    """How many combinations of a drink, by its name."""

    name: str
    count: int


@dataclass(frozen=True, slots=True)
class Reason:
    """Everything that a book refuses for one reason, over all its drinks.

    ``count`` combinations are ``share_pct`` of all; ``drinks`` are those it meets, the most met first.
    ``title`` names the reason, ``meaning`` says why it is refused and whether that is meant, ``cure`` what
    would let more of them be made.
    """

    code: str
    title: str
    count: int
    share_pct: float
    drinks: tuple[DrinkCount, ...]
    meaning: str
    cure: str
