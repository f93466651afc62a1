"""The owner's part of the wire: the bench, the proof, versions and measuring.

The same rules as in ``service.wire``. An amount of money with a fraction of a minor unit (what a drink's
ingredients cost) is a float in minor units. Routes under /api/owner and /cards answer only on this machine
(loopback) unless OWNER_ANYWHERE=1: they have no lock of their own yet.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from recipes.model import Build, Line
from recipes.proof.model import Advice, DrinkProof, Reason
from recipes.weighing import Weighing
from service.wire import BookFault, Id, LineIn, Menu, Millis, Minor, Wire

Version = Annotated[str, Field(min_length=1, max_length=64, description="a book's content address")]
Note = Annotated[str, Field(max_length=500)]
Scalar = str | bool | list[str]
Order = Annotated[list[int | dict[str, Scalar]], Field(max_length=100)]
Grams = Annotated[float, Field(gt=0, le=10_000, allow_inf_nan=False)]
MOST_EDITS = 600
Share = Annotated[float, Field(ge=0, le=100, allow_inf_nan=False, description="g in 100 g")]


# --- the book as forms --------------------------------------------------------------------------


class Edit(Wire):
    """One change to a book's file.

    ``path`` leads to a key: ["tools", "scoop", "holds"], ["steps", 2, "amount"] (steps count from 0).
    ``value`` is as an Entry has it: text (numbers and prices too, "4.60"), yes/no, a list; an object puts in
    a whole table by a new id; None takes the key or table out. With an empty path ``value`` is the whole
    file's text, and None removes the file. Where a list of tables stands (["steps"]) ``value`` is their
    order: each member is the place where a table stands, or a table put in; a place that is not named is
    taken out. Edits are made one after the other, so each path is that after those before it.
    """

    file: Annotated[str, Field(min_length=1, max_length=100)]
    path: Annotated[list[str | int], Field(max_length=8)]
    value: Scalar | dict[str, Scalar] | Order | None


class Option(Wire):
    """One of the values that a choice or list takes."""

    value: str
    name: str


class OptionSource(Wire):
    """What a choice can be of.

    Those that are tables or keys of a file say where: more can be put in there.
    """

    name: str
    file: str
    path: list[str]
    options: list[Option]


class FieldShape(Wire):
    """What one key of a table takes.

    ``kind``: "quantity" is a number with a unit, "price" and "number" are plain numbers (sent as text),
    "list" takes any of its options. ``source`` names the OptionSource ("" for none). ``help`` says what it is
    for, ``accepted`` what it takes, in words.
    """

    key: str
    kind: Literal["text", "quantity", "number", "price", "choice", "list", "yes/no"]
    help: str
    accepted: str
    source: str
    needed: bool


class TableShape(Wire):
    """What one kind of table holds: ``fields``, and where ``more`` is told any number of others like it.

    ``keys`` names the OptionSource of those others ("percents": whole numbers). ``one`` names one of many of
    its kind ("ingredient"), which stand in ``file`` ("drinks/": any drink's) at ``path``, ``ordered`` in a
    list without ids. An ``optional`` table may be left out.
    """

    name: str
    help: str
    fields: list[FieldShape]
    more: FieldShape | None
    keys: str
    one: str
    file: str
    path: list[str]
    ordered: bool
    optional: bool


class Entry(Wire):
    """One key as it is written. ``comment`` is what the owner wrote beside it."""

    key: str
    value: Scalar
    comment: str
    line: int


class FormTable(Wire):
    """One table of a file as a form: its written keys, and the name of its shape ("" for an unknown one).

    ``written``: it stands in the file; one that could is there as well.
    """

    path: list[str | int]
    title: str
    line: int
    shape: str
    written: bool
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
    sources: list[OptionSource]
    shapes: list[TableShape]
    faults: list[BookFault]


class FormsIn(Wire):
    """POST /api/owner/forms: how would these files look after these edits? Nothing is saved."""

    edits: Annotated[list[Edit], Field(max_length=MOST_EDITS)]


class Forms(Wire):
    """The files that the edits name, as forms, and the options of the whole book with them."""

    files: list[BookFile]
    sources: list[OptionSource]


# --- trying an edit -----------------------------------------------------------------------------


class TryIn(Wire):
    """POST /api/owner/try: what would these edits do? Nothing is saved."""

    edits: Annotated[list[Edit], Field(max_length=MOST_EDITS)]
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


class ComponentChange(Wire):
    """By how much a component's share of a drink changes (per cent, with its sign), where it does so most."""

    label: str
    change_pct: float
    title: str


class Mover(Wire):
    """A recipe that moves: the worst change of any component's share of the drink, and every changed dose.

    Looked at are the drink as it comes at every size, iced and hot. ``components`` are all that change, the
    most changed first. ``refused`` tells what can no longer be made, ``allergens`` what changes in what must
    be told.
    """

    drink: str
    name: str
    worst_pct: float
    worst_label: str
    components: list[ComponentChange]
    doses: list[DoseChange]
    refused: list[str]
    allergens: list[str]


class Trial(Wire):
    """The answer to a try. With ``faults`` the edited book would be refused, and nothing else is told.

    ``menu`` is that of the edited book, for a drink that the register does not have yet.
    """

    version: str
    faults: list[BookFault]
    before: Outcome | None
    after: Outcome | None
    sizes: list[SizeOutcome]
    movers: list[Mover]
    menu: Menu | None = None


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


class ChillIn(Wire):
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


# --- saving and versions ------------------------------------------------------------------------


class SaveIn(Wire):
    """POST /api/owner/save. ``base_version`` is the Workbook's; ``anyway`` is the owner's explicit word."""

    edits: Annotated[list[Edit], Field(max_length=MOST_EDITS)]
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
    "holds", "fails". ``drinks`` are those proved so far, ``reasons`` why combinations of theirs are refused.
    ``columns`` are those of the heat map; a drink's row holds a cell for each column that it has.
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
    reasons: list[Reason]
    advice: list[Advice]


class ProveIn(Wire):
    """POST /api/owner/proof: prove this version, or go on with its proof; left out: the folder's."""

    version: Version | None = None
