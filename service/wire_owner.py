"""The owner's part of the wire: the bench, the proof, versions and measuring.

The same rules as in ``service.wire``. An amount of money with a fraction of a minor unit (what a drink's
ingredients cost) is a float in minor units. Routes under /api/owner and /cards answer only on this machine
(loopback) unless OWNER_ANYWHERE=1: they have no lock of their own yet.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from recipes.model import Build, Line
from recipes.proof.model import Advice, DrinkProof
from recipes.weighing import Weighing
from service.wire import BookFault, Id, LineIn, Millis, Minor, Wire

Version = Annotated[str, Field(min_length=1, max_length=64, description="a book's content address")]
Note = Annotated[str, Field(max_length=500)]
Scalar = str | bool | list[str]
Grams = Annotated[float, Field(gt=0, le=10_000, allow_inf_nan=False)]
Share = Annotated[float, Field(ge=0, le=100, allow_inf_nan=False, description="g in 100 g")]


# --- the book as forms --------------------------------------------------------------------------


class Edit(Wire):
    """One change to a book's file.

    ``path`` leads to a key: ["tools", "scoop", "holds"], ["steps", 2, "amount"] (steps count from 0).
    ``value`` is as an Entry has it: text (numbers and prices too, "4.60"), yes/no, a list; an object puts in
    a whole table (at ["steps", 5] when there are five steps: one more); None takes the key or table out.
    With an empty path ``value`` is the whole file's text, and None removes the file.
    """

    file: Annotated[str, Field(min_length=1, max_length=100)]
    path: Annotated[list[str | int], Field(max_length=8)]
    value: Scalar | dict[str, Scalar] | None


class Option(Wire):
    """One of the values that a choice or list takes."""

    value: str
    name: str


class Entry(Wire):
    """One key of a table. ``value`` None: it is not written, and the book's usual value holds.

    ``kind``: "quantity" is a number with a unit, "price" and "number" are plain numbers (sent as text),
    "list" takes any of ``options``. ``help`` says what it is for, ``comment`` what the owner wrote beside it.
    """

    path: list[str | int]
    key: str
    value: Scalar | None
    kind: Literal["text", "quantity", "number", "price", "choice", "list", "yes/no"]
    help: str
    accepted: str
    options: list[Option]
    needed: bool
    comment: str
    line: int | None


class FormTable(Wire):
    """One table of a file as a form. ``repeats`` tells that more of its kind can be put in and taken out."""

    path: list[str | int]
    title: str
    help: str
    line: int
    repeats: bool
    entries: list[Entry]


class BookFile(Wire):
    """One file of the book: its forms, and its raw text."""

    file: str
    title: str
    tables: list[FormTable]
    text: str


class Workbook(Wire):
    """GET /api/owner/book: the book in the folder, to be edited.

    ``version`` is that of the files shown (the base of a save), ``open`` the one in force. ``holds`` tells
    whether the proof of ``version`` holds, None while that is not known. With ``faults`` the files are
    refused as they stand, and the forms show what could be read.
    """

    version: str
    open: str
    note: str
    at: Millis | None
    holds: bool | None
    files: list[BookFile]
    faults: list[BookFault]


# --- trying an edit -----------------------------------------------------------------------------


class TryIn(Wire):
    """POST /api/owner/try: what would these edits do? Nothing is saved."""

    edits: Annotated[list[Edit], Field(max_length=300)]
    line: LineIn


class Money(Wire):
    """What one drink brings: its price, that without tax, its ingredients' cost, and the rest."""

    price: Minor
    net: float
    cost: float
    margin: float
    margin_pct: float


class Outcome(Wire):
    """A line in one book: its build and money, or why it is refused."""

    line: Line | None
    build: Build | None
    money: Money | None
    refusal: str | None


class SizeOutcome(Wire):
    """The line at one size, before and after; ``error_pct`` is the worst component's."""

    size: str
    name: str
    before: Outcome
    after: Outcome
    before_error_pct: float | None
    after_error_pct: float | None


class DoseChange(Wire):
    """An amount that changes: "2 scoops" to "2½ scoops", at one size of the drink as it comes."""

    size: str
    title: str
    label: str
    before: str
    after: str


class Mover(Wire):
    """A recipe that moves: the worst change of any component's share of the drink, and every changed dose.

    Looked at are the drink as it comes at every size, iced and hot. ``refused`` tells what can no longer be
    made, ``allergens`` what changes in what must be told.
    """

    drink: str
    name: str
    worst_pct: float
    worst_label: str
    doses: list[DoseChange]
    refused: list[str]
    allergens: list[str]


class Trial(Wire):
    """The answer to a try. With ``faults`` the edited book would be refused, and nothing else is told."""

    version: str
    faults: list[BookFault]
    before: Outcome | None
    after: Outcome | None
    sizes: list[SizeOutcome]
    movers: list[Mover]


# --- a change of brand, and measuring -----------------------------------------------------------


class BrandLabel(Wire):
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


class BrandIn(Wire):
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
    """What a change of brand comes to: the edits that make it, and the recipes that move. Save the edits."""

    weighing: Weighing | None
    density_before: float
    density_after: float
    edits: list[Edit]
    faults: list[BookFault]
    movers: list[Mover]


class WeighIn(Wire):
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


# --- saving and versions ------------------------------------------------------------------------


class SaveIn(Wire):
    """POST /api/owner/save. ``base_version`` is the Workbook's; ``anyway`` is the owner's explicit word."""

    edits: Annotated[list[Edit], Field(max_length=300)]
    note: Note
    base_version: Version
    anyway: bool = False


class PublishIn(Wire):
    """POST /api/owner/publish: open the version in the folder by the owner's word though its proof fails."""

    version: Version
    note: Note = ""


class RollBackIn(Wire):
    """POST /api/owner/roll-back: write the files of an earlier version back, as a new version."""

    version: Version
    note: Note = ""


class Saved(Wire):
    """The answer to a save or roll-back. ``state``: "open" already in force; "proving" will be when its
    proof passes; "draft" has a proof that fails."""

    version: str
    state: Literal["open", "proving", "draft"]
    changed: list[str]


class BookVersion(Wire):
    """One version of the book. ``anyway``: opened by the owner's word though its proof failed or was not
    done; ``kept`` tells whether its files are still there to roll back to."""

    version: str
    note: str
    at: Millis
    by: Literal["bench", "folder", "roll-back"]
    state: Literal["open", "proving", "draft", "earlier"]
    holds: bool | None
    anyway: bool
    kept: bool
    changed: list[str]


class Versions(Wire):
    """GET /api/owner/versions, the latest first."""

    versions: list[BookVersion]


# --- the proof ----------------------------------------------------------------------------------


class HeatColumn(Wire):
    """One column of the heat map: a modifier's value."""

    modifier: str
    value: str
    name: str


class Proof(Wire):
    """GET /api/owner/proof, and what ``levelscoop prove --json`` prints.

    ``state``: "none" not begun, "running", "stopped" with ``done`` of ``total`` combinations looked at,
    "holds", "fails". ``drinks`` are those proved so far. ``columns`` are those of the heat map; a drink's
    row holds a cell for each column that it has.
    """

    version: str
    state: Literal["none", "running", "stopped", "holds", "fails"]
    done: int
    total: int
    seconds: float
    tolerance_pct: float
    combinations: int
    built: int
    refused: int
    flagged: int
    violated: int
    mean_pct: float
    worst_pct: float
    columns: list[HeatColumn]
    drinks: list[DrinkProof]
    advice: list[Advice]


class ProveIn(Wire):
    """POST /api/owner/proof: prove this version, or go on with its proof; left out: the folder's."""

    version: Version | None = None
