"""Recipe cards: what the bar's build says is what a person reads on the paper."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from recipes.building.resolve import resolve
from recipes.measures import figure
from recipes.reading.reader import parse_book, read_book
from service.bench.movers import usual_lines
from service.cli.books import DEMO
from service.learning.card_cup import height_of, layers
from service.learning.card_rows import unshaken
from service.learning.cards import cards
from tests.proof.books import GOOD, files

NOON = 1_760_000_000_000
"""2025-10-09, 09:53 in Lisbon."""


def pages(data: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(data)).pages]


def test_every_amount_of_every_size_is_on_the_card() -> None:
    book = read_book(DEMO)
    drink = book.drinks["taro_milk_tea"]
    (text,) = [
        page for page in pages(cards(book, [drink.id], NOON)) if "hot" not in page.splitlines()[1].split()
    ][:1]
    assert text.startswith(drink.name)
    for size in drink.sizes:
        build = resolve(book, replace(drink.default, size=size))
        assert book.sizes[size].name in text
        for step in build.steps:
            if step.amount is not None:
                assert f"{figure(step.amount.count)} {step.amount.unit}" in text
        assert build.cautions[-1].words.split(".")[0] in text.replace("\n", " ")
    assert f"book version {book.version} · 2025-10-09" in text
    assert "°C" in text


def test_all_cards_are_numbered_a5_pages_with_every_drink() -> None:
    book = read_book(DEMO)
    data = cards(book, list(book.drinks), NOON)
    found = pages(data)
    for drink in book.drinks.values():
        assert any(page.startswith(drink.name) for page in found)
    for number, page in enumerate(found, 1):
        assert f"page {number} of {len(found)}" in page
    for sheet in PdfReader(io.BytesIO(data)).pages:
        # ISO 216: A5 is 148 x 210 mm; a point is 1/72 inch.
        assert float(sheet.mediabox.width) == pytest.approx(210 / 25.4 * 72, abs=0.5)
        assert float(sheet.mediabox.height) == pytest.approx(148 / 25.4 * 72, abs=0.5)


def test_every_card_is_one_page_with_what_must_be_told() -> None:
    """A drink that can be had iced and hot has two cards; each carries cups, allergens and cautions."""
    book = read_book(DEMO)
    found = pages(cards(book, list(book.drinks), NOON))
    wanted = [{line.ice for line in usual_lines(drink)} for drink in book.drinks.values()]
    assert len(found) == sum(map(len, wanted))
    for drink in book.drinks.values():
        chosen = [book.toppings[topping] for topping in drink.toppings]
        for text in (page.replace("\n", " ") for page in found if page.startswith(drink.name)):
            assert "Ask us before you order" in text
            for size in drink.sizes:
                assert f"of {book.sizes[size].line_ml:g} ml" in text
            if text.split()[len(drink.name.split())] == "hot":
                assert "scald" in text
            elif any(topping.caution and "Choking" in topping.caution for topping in chosen):
                assert "Choking" in text


def test_sugars_and_energy_are_rounded_as_the_books_labels_are() -> None:
    """21 CFR 101.9(c): up to 50 Calories to the nearest five, sugars to the nearest gram.

    Two strokes of 7 ml at 1.3 g/ml are 18.2 g of syrup, of it 60 % sugars: 10.92 g. At 240 kcal in 100 g it
    has 43.68 kcal; the rest of this drink has none.
    """
    texts = files(iced=GOOD)
    texts["shop.toml"] = texts["shop.toml"].replace('tolerance = "10 %"', 'tolerance = "10 %"\nenergy = "US"')
    book = parse_book(texts)
    (text, *_) = pages(cards(book, ["iced"], NOON, "small"))
    assert "45 Calories" in text
    assert "11 g" in text
    assert "kJ" not in text


def test_a_cup_is_drawn_to_scale() -> None:
    """Half the height of a cup that is 0.74 as wide below as above holds (0.87^3 - 0.74^3)/(1 - 0.74^3)."""
    share = (0.87**3 - 0.74**3) / (1 - 0.74**3)
    assert height_of(share) == pytest.approx(0.5)
    assert height_of(0) == pytest.approx(0)
    assert height_of(1) == pytest.approx(1)
    book = read_book(DEMO)
    fill = resolve(book, book.drinks["taro_milk_tea"].default).fill
    stack = list(layers(fill))
    assert [what for what, _, _ in stack] == [layer.what for layer in fill.layers if layer.volume_ml > 0]
    assert all(low < top for _, low, top in stack)
    assert stack[-1][2] == pytest.approx(height_of(fill.filled_ml / fill.brim_ml), abs=1e-3)
    assert stack[-1][2] <= height_of(fill.line_ml / fill.brim_ml)


def test_halves_ranges_and_accents_are_printed() -> None:
    texts = files(iced=GOOD.replace("Iced Tea", "Thé glacé – ½ · °"))
    (first, *_) = pages(cards(parse_book(texts), ["iced"], NOON))
    assert first.startswith("Thé glacé – ½ · °")


def test_what_the_font_lacks_is_said() -> None:
    texts = files(iced=GOOD.replace("Iced Tea", "凍茶 Tea"))
    (first, *_) = pages(cards(parse_book(texts), ["iced"], NOON))
    assert first.startswith("?? Tea")
    assert "2 characters" in first


def test_thirds_are_printed_in_figures_that_the_font_has() -> None:
    """Windows-1252 has ¼, ½ and ¾ and no thirds. A ladle of 50 ml in thirds: two of them are 33 ml."""
    texts = files(iced=GOOD)
    shop = texts["shop.toml"].replace(
        'holds = "50 ml"\nsmallest = "1/2"', 'holds = "50 ml"\nsmallest = "1/3"'
    )
    extras = texts["extras.toml"].replace('portion = "1 ladle"', 'portion = "2/3 ladle"')
    book = parse_book({**texts, "shop.toml": shop, "extras.toml": extras})
    printed = " ".join(pages(cards(book, ["iced"], NOON)))
    assert "2/3 ladle" in printed
    assert "not in this font" not in printed


def test_levels_are_told_in_measures_and_a_hot_card_is_not_shaken() -> None:
    """The book: 4, 5 and 8 strokes of fructose at 100 per cent, so half sugar is 2, 2.5 (up to 3) and 4;
    1, 1½ and 2½ ice scoops regular. Taro milk tea is shaken with ice, and stirred hot."""
    iced, hot = pages(cards(read_book(DEMO), ["taro_milk_tea"], NOON))
    for counts in ("2 / 3 / 4", "4 / 5 / 8", "1 / 1½ / 2½"):
        assert counts in iced
    assert "into shaker" in iced
    assert "shaken" in iced
    assert "shaken" not in hot.lower()
    assert "4 / 5 / 8" in hot
    assert "ice scoop" not in hot.lower()


def test_steamed_milk_is_told_with_its_heat() -> None:
    """The pantry heats whole milk to 65 °C; the recipe takes 220 ml and 300 ml."""
    (text,) = pages(cards(read_book(DEMO), ["steamed_matcha_milk"], NOON))
    assert "220 ml · 65 °C" in text
    assert "300 ml · 65 °C" in text


def test_only_the_shaking_is_left_out_of_what_a_drink_is() -> None:
    assert unshaken("Taro and black tea, shaken.") == "Taro and black tea."
    assert unshaken("Cold fresh milk, shaken with ice; no tea.") == "Cold fresh milk; no tea."
    assert unshaken("Matcha whisked smooth.") == "Matcha whisked smooth."


def test_a_card_tells_how_long_what_goes_in_keeps() -> None:
    """The tea of the taro keeps 4 h in pantry.toml, the milk of the brown sugar milk 48 h once opened."""
    book = read_book(DEMO)
    (taro, *_) = pages(cards(book, ["taro_milk_tea"], NOON))
    assert "Keeps, once opened or made: black tea 4 h. Local food codes come first." in taro.replace(
        "\n", " "
    )
    held = {id: each.hold_s for id, each in book.pantry.items() if each.hold_s is not None}
    assert held["black_tea"] == 4 * 3600
    (brown, *_) = pages(cards(book, ["brown_sugar_milk"], NOON))
    assert held["whole_milk"] == 48 * 3600
    assert "whole milk 2 days" in brown.replace("\n", " ")
