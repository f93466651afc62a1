"""What the tests of recipes/ share."""

from __future__ import annotations

import pytest

from recipes.book import Book
from recipes.reading.reader import read_book
from tests.recipes.cases import DEMO, bar


@pytest.fixture(scope="session")
def demo() -> Book:
    """The demo book, read once."""
    return read_book(DEMO)


@pytest.fixture(scope="session")
def powder_bar() -> Book:
    """The small bar with the powder milk tea of common practice."""
    return bar()
