"""Trials, money, recipes that move, weighings and brands, against figures reckoned by hand."""

from __future__ import annotations

import pytest

from recipes.reading.reader import parse_book
from service.bench.measuring import CannotMeasure, chilled, weighed
from service.bench.movers import movers
from service.bench.trial import edited_book, outcome, trial
from service.bench.wire import ChillIn, ChillReading, Edit, WeighIn
from service.books.wire import LineIn, ToppingIn
from tests.proof.books import GOOD, files, iced

BARE = iced(more="toppings = []").replace("Iced Tea", "Bare Tea")
TEXTS = files(iced=GOOD, bare=BARE)
BOOK = parse_book(TEXTS)


def edited(*edits: tuple[str, list[str | int], str]) -> list[Edit]:
    return [Edit(file=file, path=path, value=value) for file, path, value in edits]


def test_what_a_drink_brings() -> None:
    """3.30 with 10 % in it is 3.00; 14 ml syrup at 1.3 g/ml and 2.00/kg, 120 g tea at 1.00/kg, 60 ml ice."""
    money = outcome(BOOK, LineIn(drink="iced")).money
    assert money is not None
    assert (money.price, money.net) == (330, 300.0)
    cost = 100 * (14 * 1.3 * 2.00 + 120 * 1.00 + 60 * 0.917 * 0.10) / 1000
    assert money.cost == pytest.approx(cost, abs=0.01)
    assert money.margin == pytest.approx(300 - cost, abs=0.02)


def test_a_dearer_drink_moves_no_recipe() -> None:
    book, faults = edited_book(TEXTS, edited(("drinks/iced.toml", ["prices", "small"], "4.40")))
    assert faults == []
    assert book is not None
    told = trial(BOOK, book, LineIn(drink="iced"))
    assert told.before is not None
    assert told.after is not None
    assert told.before.money is not None
    assert told.after.money is not None
    assert (told.before.money.price, told.after.money.price) == (330, 440)
    assert told.movers == []
    assert [each.size for each in told.sizes] == ["small", "large"]


def test_another_dose_moves_its_drink_alone_and_says_from_what_to_what() -> None:
    book, _ = edited_book(TEXTS, edited(("drinks/iced.toml", ["steps", 0, "amount"], "28 ml")))
    assert book is not None
    (moved,) = movers(BOOK, book)
    assert (moved.drink, moved.refused) == ("iced", [])
    syrup = [dose for dose in moved.doses if dose.label == "Syrup" and dose.size == "small"]
    assert [(dose.before, dose.after) for dose in syrup] == [("2 strokes", "4 strokes")]


def test_a_denser_syrup_moves_every_drink_with_it_by_as_much() -> None:
    book, _ = edited_book(TEXTS, edited(("pantry.toml", ["syrup", "density"], "1.43 g/ml")))
    assert book is not None
    moved = movers(BOOK, book)
    assert {each.drink for each in moved} == {"iced", "bare"}
    # A tenth more syrup by mass, and with it a tenth more energy, all of which is the syrup's.
    assert all(each.worst_pct == pytest.approx(10, abs=0.05) for each in moved), moved
    for each in moved:
        changes = {change.label: change.change_pct for change in each.components}
        assert changes["Energy"] == pytest.approx(10, abs=0.05)
        # The more syrup there is in a hundred grams, the less of all else.
        assert all(change < 0 for label, change in changes.items() if label in ("Tea", "Ice")), changes


def test_allergens_that_come_are_told() -> None:
    edits = [Edit(file="pantry.toml", path=["syrup", "allergens"], value=["sulphites"])]
    book, faults = edited_book(TEXTS, edits)
    assert book is not None, faults
    assert all(each.allergens == ["now told: sulphites"] for each in movers(BOOK, book))


def test_drinks_that_come_and_go_are_told() -> None:
    book, _ = edited_book(TEXTS, [Edit(file="drinks/bare.toml", path=[], value=None)])
    assert book is not None
    (gone,) = movers(BOOK, book)
    assert gone.refused == ["Bare Tea is no longer on the menu"]
    (new,) = movers(book, BOOK)
    assert new.worst_label == "new on the menu"


def test_an_edit_that_the_book_refuses_is_told_with_its_place() -> None:
    book, faults = edited_book(TEXTS, edited(("drinks/iced.toml", ["steps", 0, "what"], "honey")))
    assert book is None
    assert (faults[0].file, faults[0].key) == ("drinks/iced.toml", "steps.1.what")
    assert "syrup" in faults[0].accepted


def test_a_line_that_cannot_be_made_is_an_outcome() -> None:
    told = outcome(BOOK, LineIn(drink="bare", toppings=[ToppingIn(topping="pearls")]))
    assert told.build is None
    assert told.refusal is not None
    assert "pearls" in told.refusal


def test_a_stroke_that_is_weighed_tells_what_the_pump_holds() -> None:
    """Five strokes of 9.75 g at 1.30 g/ml are 7.5 ml each."""
    told = weighed(BOOK, WeighIn(what="stroke", readings_g=[9.75] * 5, ingredient="syrup", tool="pump"))
    assert [(each.file, each.path, each.value) for each in told.edits] == [
        ("shop.toml", ["tools", "pump", "holds"], "7.5 ml")
    ]
    book, faults = edited_book(TEXTS, told.edits)
    assert faults == []
    assert book is not None
    assert book.tools["pump"].unit_ml == 7.5


def test_a_ladle_that_is_weighed_tells_the_density() -> None:
    """A ladle of 50 ml that weighs 40 g."""
    told = weighed(
        BOOK, WeighIn(what="ladle", readings_g=[39.5, 40, 40.5, 40, 40], ingredient="pearls", tool="ladle")
    )
    assert [each.value for each in told.edits] == ["0.8 g/ml"]
    assert told.weighing.verdict == "steady"


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        (WeighIn(what="scoop", readings_g=[1, 1], ingredient="syrup", tool="pump"), "tool"),
        (WeighIn(what="stroke", readings_g=[1, 1], ingredient="syrup", tool="spoon"), "tool"),
        (WeighIn(what="stroke", readings_g=[1, 1], ingredient="honey", tool="pump"), "ingredient"),
    ],
)
def test_a_weighing_that_does_not_fit_names_the_field(asked: WeighIn, field: str) -> None:
    with pytest.raises(CannotMeasure) as refused:
        weighed(BOOK, asked)
    assert refused.value.field == field


def shaken(end_c: float) -> ChillReading:
    """250 g of tea at 25 °C on 200 g of drained ice."""
    return ChillReading(liquid_g=250, liquid_c=25, ice_g=200, ice_c=0, end_c=end_c)


def test_a_shake_that_is_measured_tells_how_far_its_station_chills() -> None:
    """Reckoned by hand with 4.19 J/(g K) and 333.4 J/g.

    At equilibrium 250 * 4.19 * 25 = 26187.5 J melt 78.55 g. When half of that melts, 39.27 g take 13093.8 J,
    and the other 13093.8 J stand in 289.27 g: 10.80 °C.
    """
    told = chilled(BOOK, ChillIn(station="bar", readings=[shaken(10.8)] * 5))
    assert told.extents_pct == pytest.approx([50.0] * 5, abs=0.1)
    assert [(each.file, each.path, each.value) for each in told.edits] == [
        ("shop.toml", ["stations", "bar", "melt"], "50 %")
    ]
    book, faults = edited_book(TEXTS, told.edits)
    assert faults == []
    assert book is not None
    assert book.stations["bar"].melt_share == 0.5
    assert movers(BOOK, book), "a station that chills less is another drink"


def test_one_shake_tells_its_share_and_takes_nothing_over() -> None:
    told = chilled(BOOK, ChillIn(station="bar", readings=[shaken(0)]))
    assert told.extents_pct == pytest.approx([100])
    assert (told.weighing, told.edits) == (None, [])


@pytest.mark.parametrize(
    ("station", "end_c", "field"),
    [("moon", 5, "station"), ("bar", 30, "readings[1]"), ("bar", 25, "readings[1].end_c")],
)
def test_a_shake_that_cannot_be_names_the_reading(station: str, end_c: float, field: str) -> None:
    with pytest.raises(CannotMeasure) as refused:
        chilled(BOOK, ChillIn(station=station, readings=[shaken(5), shaken(end_c)]))
    assert refused.value.field == field
