"""What is edited decides what is proved again."""

from __future__ import annotations

import pytest

from recipes.proof.fingerprint import fingerprint
from recipes.reading.reader import parse_book
from tests.proof.books import GOOD, files, iced

OTHER = iced(more="toppings = []").replace("Iced Tea", "Bare Tea").replace("shots = 1", "shots = 0")


@pytest.mark.parametrize(
    ("file", "old", "new", "proved_again"),
    [
        ("drinks/iced.toml", "120 ml", "160 ml", {"iced"}),
        ("drinks/bare.toml", "120 ml", "160 ml", {"bare"}),
        ("drinks/iced.toml", "small = 3.30", "small = 3.40", set()),
        ("drinks/iced.toml", "# the cold one", "# the cold one, really", set()),
        ("pantry.toml", 'price = "2.00 EUR/kg"', 'price = "2.10 EUR/kg"', set()),
        ("pantry.toml", 'density = "1.30 g/ml"', 'density = "1.31 g/ml"', {"iced", "bare"}),
        ("pantry.toml", 'body = "1.1 g/ml"', 'body = "1.2 g/ml"', {"iced"}),
        ("pantry.toml", 'serving = "67 °C"', 'serving = "68 °C"', {"iced"}),
        ("pantry.toml", 'serving = "80 °C"', 'serving = "81 °C"', set()),
        ("extras.toml", 'portion = "1 ladle"', 'portion = "2 ladles"', {"iced"}),
        ("extras.toml", "price = 0.70", "price = 0.70\nhalf = false", {"iced"}),
        ("extras.toml", "price = 0.70", "price = 0.70\nhalf_price = 0.30", set()),
        ("extras.toml", 'crema = "10 ml"', 'crema = "12 ml"', {"iced"}),
        ("extras.toml", "price = 0.90", "price = 0.95", set()),
        ("shop.toml", 'tolerance = "10 %"', 'tolerance = "12 %"', {"iced", "bare"}),
        ("shop.toml", 'line = "300 ml"', 'line = "310 ml"', {"iced", "bare"}),
        ("shop.toml", 'name = "Small Bar"', 'name = "Tiny Bar"', set()),
        ("shop.toml", "[tax]", '[hands]\npatience = "9 s"\n[tax]', {"iced", "bare"}),
        ("shop.toml", "[tax]", '[floor]\nlate = "7 min"\nbump = "last touch"\n[tax]', set()),
    ],
)
def test_only_what_depends_on_an_edit_is_proved_again(
    file: str, old: str, new: str, proved_again: set[str]
) -> None:
    texts = files(iced=GOOD, bare=OTHER)
    assert old in texts[file]
    before = parse_book(texts)
    after = parse_book({**texts, file: texts[file].replace(old, new, 1)})
    changed = {drink for drink in after.drinks if fingerprint(before, drink) != fingerprint(after, drink)}
    assert changed == proved_again
