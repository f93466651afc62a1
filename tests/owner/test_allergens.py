"""The allergen sheet: what the pantry names is told for whatever it goes into, and nothing is promised."""

from __future__ import annotations

import io
import itertools
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from recipes.allergens import ORDER, TOLD
from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Refusal, ToppingChoice
from recipes.reading.reader import parse_book, read_book
from service.cli.books import DEMO
from service.cli.main import main
from service.learning.allergen_rows import AllergenRow, in_use, sections
from service.learning.allergen_sheet import NOT_WRITTEN, YES, allergen_sheet
from tests.proof.books import ICED, PANTRY, WARMER, files

NOON = 1_760_000_000_000
"""2025-10-09 in Lisbon."""

# By hand, from the steps of each drink's file and the pantry's entries: creamer, taro powder and whole milk
# name milk; sesame powder sesame, almond powder almonds; oat drink oats (a cereal with gluten), soy drink
# soybeans; egg pudding eggs and milk; coconut jelly sulphites. Roasted oolong has creamer beside whole milk.
BY_HAND = {
    ("Taro Milk Tea", ""): {"milk"},
    ("Almond Milk Tea", ""): {"milk", "almonds (nuts)"},
    ("Black Sesame Milk Tea", ""): {"milk", "sesame"},
    ("Jasmine Milk Tea", ""): {"milk"},
    ("Jasmine Milk Tea", "with oat milk"): {"oats (gluten)"},
    ("Hot Cocoa", "with soy milk"): {"soybeans"},
    ("Roasted Oolong Milk Tea", "with oat milk"): {"milk", "oats (gluten)"},
    ("Lemon Black Tea", ""): set(),
    ("egg pudding", ""): {"eggs", "milk"},
    ("coconut jelly", ""): {"sulphites"},
    ("oat milk", ""): {"oats (gluten)"},
}


@pytest.fixture(scope="module")
def demo() -> Book:
    return read_book(DEMO)


def rows(book: Book) -> dict[tuple[str, str], AllergenRow]:
    """Every row by what it is of and, for a drink with another milk, which."""
    found: dict[tuple[str, str], AllergenRow] = {}
    of = ""
    for row in (row for section in sections(book) for row in section.rows):
        of = of if row.inset else row.name
        found[of, row.name if row.inset else ""] = row
    return found


def test_rows_are_what_a_person_reads_in_the_files(demo: Book) -> None:
    found = rows(demo)
    for key, contains in BY_HAND.items():
        assert set(found[key].contains) == contains, key
        assert found[key].some == (), key
    assert ("Jasmine Milk Tea", "with whole milk") not in found, "that is how it comes"


def test_everything_that_can_be_ordered_has_a_row_in_the_menus_order(demo: Book) -> None:
    names = [section.name for section in sections(demo)]
    assert names == [*(each.name for each in demo.families.values()), "Toppings", "Milks", "Extra shot"]
    told = [row.name for section in sections(demo) for row in section.rows if not row.inset]
    assert told == [
        *(drink.name for drink in demo.drinks.values()),
        *(topping.name for topping in demo.toppings.values()),
        *(milk.name for milk in demo.milks.values()),
        "Espresso",
    ]


def test_no_build_contains_what_its_rows_do_not_tell(demo: Book) -> None:
    """Every drink with each milk at each ice level, with its shots; sizes, sugars and toppings in turn."""
    found = rows(demo)
    tried = 0
    for drink in demo.drinks.values():
        toppings, sizes = itertools.cycle([None, *drink.toppings]), itertools.cycle(drink.sizes)
        sugars = itertools.cycle(drink.sugars)
        for milk, ice in itertools.product([None, *drink.milks], drink.ices):
            topping, size, sugar = next(toppings), next(sizes), next(sugars)
            chosen = [ToppingChoice(topping, False)] if topping else []
            line = complete(demo, drink.id, size, sugar, ice, drink.shots, chosen, milk)
            of = "" if line.milk is None else f"with {demo.milks[line.milk].name}"
            told = set(found[drink.name, of].contains) | set(found[drink.name, of].some)
            told |= set(found["Espresso", ""].contains) if drink.shots else set()
            told |= set(found[demo.toppings[topping].name, ""].contains) if topping else set()
            try:
                assert set(resolve(demo, line).allergens) <= told, line
            except Refusal:
                continue
            tried += 1
    assert tried > 100


def test_an_ingredients_allergen_is_told_for_every_drink_with_a_step_of_it(demo: Book) -> None:
    """Each ingredient is given an allergen of its own, as many at once as there are allergens."""
    words = list(TOLD.values())
    for first in range(0, len(demo.pantry), len(words)):
        given = dict(zip([*demo.pantry][first:], words, strict=False))
        pantry = {
            id: replace(each, allergens=(given[id],) if id in given else ())
            for id, each in demo.pantry.items()
        }
        found = rows(replace(demo, pantry=pantry))
        for drink in demo.drinks.values():
            steps = {step.ingredient for step in drink.steps}
            steps |= {other for step in drink.steps for other in step.instead.values()}
            row = found[drink.name, ""]
            told = {id for id, word in given.items() if word in row.contains + row.some}
            assert told >= steps & set(given), drink.id


def test_what_only_some_cups_have_is_told_as_some() -> None:
    """Only without ice does this tea come from the fridge, as its ``instead`` says."""
    cold = 'short = "Cold tea"\nkind = "liquid"\n'
    assert PANTRY.count(cold) == 1
    texts = files(iced=WARMER)
    texts["pantry.toml"] = PANTRY.replace(cold, f'{cold}allergens = ["celery"]\n')
    book = parse_book(texts)
    row = rows(book)["Iced Tea", ""]
    assert (row.contains, row.some) == ((), ("celery",))
    assert in_use(book) == ("milk", "celery"), "in the order of Annex II, where milk stands before celery"


def lines(data: bytes) -> list[str]:
    return [line for page in PdfReader(io.BytesIO(data)).pages for line in page.extract_text().splitlines()]


def test_the_paper_says_it_in_words_on_a4_with_the_caution_on_every_page(demo: Book) -> None:
    data = allergen_sheet(demo, NOON)
    # oats, eggs, soybeans, milk, almonds, sesame, sulphites: groups 1, 3, 6, 7, 8, 11, 12 of Annex II.
    boxes = [NOT_WRITTEN, NOT_WRITTEN, NOT_WRITTEN, YES, YES, NOT_WRITTEN, NOT_WRITTEN]
    assert f"Almond Milk Tea {' '.join(boxes)}" in lines(data)
    pages = PdfReader(io.BytesIO(data)).pages
    for page in pages:
        text = " ".join(page.extract_text().split())
        for words in (
            "Ask us before you order",
            "Local rules come first",
            "Everything is made where we use oats",
        ):
            assert words in text
        assert f"book version {demo.version} · 2025-10-09" in text
        assert "free of" not in text.lower()
        assert "free from" not in text.lower()
        # ISO 216: A4 is 210 x 297 mm; a point is 1/72 inch.
        assert float(page.mediabox.width) == pytest.approx(210 / 25.4 * 72, abs=0.5)
        assert float(page.mediabox.height) == pytest.approx(297 / 25.4 * 72, abs=0.5)


def test_a_drink_and_its_milks_stand_on_one_page(demo: Book) -> None:
    for number, page in enumerate(PdfReader(io.BytesIO(allergen_sheet(demo, NOON))).pages, 1):
        text = page.extract_text()
        assert text.index("sulphites") < len(text)
        after = text[text.index("sulphites") :].lstrip().splitlines()[1:2]
        assert not after[0].startswith("With "), (number, after)


def test_with_every_allergen_in_use_all_headings_are_there() -> None:
    texts = files(iced=ICED.format(more="", syrup="14 ml", tea="cold_tea", instead=""))
    every = ", ".join(f'"{word}"' for word in TOLD)
    texts["pantry.toml"] = PANTRY.replace('allergens = ["milk"]', f"allergens = [{every}]")
    book = parse_book(texts)
    assert in_use(book) == tuple(sorted(TOLD.values(), key=ORDER.__getitem__))
    text = " ".join(lines(allergen_sheet(book, NOON)))
    for word in TOLD.values():
        assert word in text


def test_the_command_writes_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "sheet.pdf"
    assert main(["cards", "--allergens", "--out", str(out)]) == 0
    assert out.read_bytes().startswith(b"%PDF-")
    assert "allergens of 20 drinks" in capsys.readouterr().out
