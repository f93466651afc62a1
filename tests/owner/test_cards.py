"""Recipe cards: what the bar's build says is what a person reads on the paper."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from recipes.measures import figure
from recipes.reader import parse_book, read_book
from recipes.resolve import resolve
from service.cli.books import DEMO
from service.owner.cards import cards
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
        assert build.cautions[-1].split(".")[0] in text.replace("\n", " ")
    assert f"Book {book.version} · 2025-10-09" in text
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


def test_halves_ranges_and_accents_are_printed() -> None:
    texts = files(iced=GOOD.replace("Iced Tea", "Thé glacé – ½ · °"))
    (first, *_) = pages(cards(parse_book(texts), ["iced"], NOON))
    assert first.startswith("Thé glacé – ½ · °")


def test_what_the_font_lacks_is_said() -> None:
    texts = files(iced=GOOD.replace("Iced Tea", "凍茶 Tea"))
    (first, *_) = pages(cards(parse_book(texts), ["iced"], NOON))
    assert first.startswith("?? Tea")
    assert "2 characters" in first
