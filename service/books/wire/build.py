"""A build as every display may have it: what to do and what to tell, nothing of what it costs or earns."""

from __future__ import annotations

from recipes.model import Caution, Fill, Line, Note, Step
from service.wire import Wire


class Facts(Wire):
    """What a guest may ask of a drink: by calculation, at hand-over. ``brix`` is the per cent by mass of
    sugars in the liquid."""

    temperature_c: float
    sugars_g: float
    added_sugars_g: float
    brix: float
    caffeine_mg: float
    energy_kj: float
    energy_kcal: float


class Build(Wire):
    """The exact build of one line: its steps in order, the cup, and what to say about it.

    ``id`` is the content address: the same book and line always give the same id and the same build.
    ``allergens`` and ``cautions`` are what must be told; ``notes`` what the bar may want to know. ``uses``
    are the ids of every ingredient that goes in, for selling out. ``facts`` are None where the book that they
    would come from is gone.
    """

    id: str
    book: str
    line: Line
    title: str
    words: tuple[str, ...]
    steps: tuple[Step, ...]
    fill: Fill
    facts: Facts | None
    allergens: tuple[str, ...]
    cautions: tuple[Caution, ...]
    notes: tuple[Note, ...]
    uses: tuple[str, ...]
