"""A change of brand: the new label's energy, or that of its components; never the old label's."""

from __future__ import annotations

import pytest

from recipes.book import Book, Ingredient
from recipes.reading.reader import parse_book
from service.bench.brands import brand, energy_words
from service.bench.editing.edits import apply
from service.bench.trial import edited_book
from service.bench.wire import BrandIn, BrandLabel
from tests.proof.books import GOOD, files, iced

BARE = iced(more="toppings = []").replace("Iced Tea", "Bare Tea")
TEXTS = files(iced=GOOD, bare=BARE)
BOOK = parse_book(TEXTS)


def texts(factors: str = "EU") -> dict[str, str]:
    """The small bar, its syrup with an energy of its label."""
    return TEXTS | {
        "shop.toml": TEXTS["shop.toml"].replace(
            'tolerance = "10 %"', f'tolerance = "10 %"\nenergy = "{factors}"'
        )
    }


def changed(label: BrandLabel, given: dict[str, str]) -> tuple[Book, Ingredient]:
    """The book, and its syrup, after a change of brand with this label."""
    asked = BrandIn(ingredient="syrup", label=label)
    _, _, edits = brand(parse_book(given), asked)
    book, faults = edited_book(given, edits)
    assert faults == []
    assert book is not None
    return book, book.pantry["syrup"]


def test_the_syrup_of_these_tests_tells_the_energy_of_a_label() -> None:
    assert 'energy = "' in TEXTS["pantry.toml"].split("[syrup]")[1].split("\n[")[0]


@pytest.mark.parametrize("factors", ["EU", "US"])
def test_components_without_an_energy_put_the_old_labels_energy_away(factors: str) -> None:
    """60 g carbohydrate, 2 g protein, 1 g fat, 3 g fibre, by the factors of each law."""
    label = BrandLabel(sugars_g=50, dry_g=70, carbohydrate_g=60, protein_g=2, fat_g=1, fibre_g=3)
    book, syrup = changed(label, texts(factors))
    if factors == "EU":
        # Regulation (EU) 1169/2011 Annex XIV.
        assert syrup.energy_kj == pytest.approx(17 * 60 + 17 * 2 + 37 * 1 + 8 * 3)
        assert syrup.energy_kcal == pytest.approx(4 * 60 + 4 * 2 + 9 * 1 + 2 * 3)
    else:
        # General Atwater factors; fibre counts as carbohydrate.
        assert syrup.energy_kcal == pytest.approx(4 * (60 + 3) + 4 * 2 + 9 * 1)
    assert energy_words(book, "syrup", label).endswith(f"from its components by the {factors} factors.")


def test_an_energy_that_is_given_stays_as_the_label_has_it() -> None:
    label = BrandLabel(sugars_g=50, dry_g=70, carbohydrate_g=60, energy_kj=1150, energy_kcal=271)
    book, syrup = changed(label, texts())
    assert (syrup.energy_kj, syrup.energy_kcal) == (1150, 271)
    assert energy_words(book, "syrup", label) == (
        "Energy: 1150 kJ/271 kcal in 100 g, as the new label has it."
    )


def test_a_given_energy_takes_the_place_of_that_of_components() -> None:
    """First a brand known by its components alone, then one whose label tells its energy."""
    asked = BrandIn(ingredient="syrup", label=BrandLabel(sugars_g=50, dry_g=70, carbohydrate_g=60))
    _, _, edits = brand(parse_book(texts()), asked)
    between, _ = edited_book(texts(), edits)
    assert between is not None
    assert between.pantry["syrup"].energy_kcal == pytest.approx(240)
    _, syrup = changed(BrandLabel(energy_kcal=250), dict(between.files))
    # 250 kcal are 1046 kJ at 4.184 kJ each.
    assert (syrup.energy_kj, syrup.energy_kcal) == (1046, 250)


def test_another_price_leaves_the_energy_as_it_is() -> None:
    before = parse_book(texts()).pantry["syrup"]
    label = BrandLabel(price="2.50 EUR/kg")
    book, syrup = changed(label, texts())
    assert (syrup.energy_kj, syrup.energy_kcal) == (before.energy_kj, before.energy_kcal)
    assert energy_words(book, "syrup", label).endswith("the new label's was not given.")


def test_a_label_of_nothing_at_all_has_no_energy() -> None:
    nothing = BrandLabel(sugars_g=0, dry_g=0, carbohydrate_g=0, protein_g=0, fat_g=0, fibre_g=0)
    _, syrup = changed(nothing, texts())
    assert (syrup.energy_kj, syrup.energy_kcal) == (0, 0)


def test_a_new_brand_is_edits_that_the_book_takes() -> None:
    label = BrandLabel(
        brand="New", sugars_g=65, dry_g=66, energy_kj=1110, allergens=["sulphites"], price="2.50 EUR/kg"
    )
    asked = BrandIn(ingredient="syrup", tool="pump", unit_g=9.31, label=label, keep_mass=True)
    _, density, edits = brand(BOOK, asked)
    assert density == pytest.approx(1.33)
    book, faults = edited_book(TEXTS, edits)
    assert faults == []
    assert book is not None
    syrup = book.pantry["syrup"]
    assert (syrup.brand, syrup.density, syrup.sugars, syrup.energy_kj) == ("New", 1.33, 0.65, 1110)
    # 1110 kJ are 265 kcal at 4.184 kJ each.
    assert syrup.energy_kcal == 265
    before, after = (each.drinks["iced"].steps[0].written("small", False) for each in (BOOK, book))
    assert before is not None
    assert after is not None
    assert after.ml * 1.33 == pytest.approx(before.ml * 1.30, rel=1e-3)
    assert after.tool == "pump"


def test_grams_are_kept_at_every_size_that_is_written() -> None:
    """Two strokes of 7 ml in the small cup and five in the large, at 1.30 g/ml: 18.2 g and 45.5 g."""
    by_size = GOOD.replace('amount = "14 ml"', 'amount = { small = "14 ml", large = "35 ml" }  # tasted')
    texts = files(iced=by_size)
    asked = BrandIn(ingredient="syrup", tool="pump", unit_g=8.4, label=BrandLabel(), keep_mass=True)
    _, density, edits = brand(parse_book(texts), asked)
    assert density == pytest.approx(8.4 / 7)
    written = apply(texts, edits)["drinks/iced.toml"]
    assert 'amount = { small = "18.2 g", large = "45.5 g" }  # tasted\n' in written
    step = parse_book(apply(texts, edits)).drinks["iced"].steps[0]
    assert {size: round(each.ml * 1.2, 6) for size, each in step.by_size.items()} == {
        "small": 18.2, "large": 45.5,
    }  # fmt: skip
