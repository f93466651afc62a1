"""Lines typed in words, and lines told in words."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes.asking.lines import complete
from recipes.asking.spoken import read_line
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Line, Refusal, ToppingChoice
from recipes.telling.words import accepted_in_words, title, words

PEARLS = ToppingChoice("pearls")

SAID: list[tuple[str, Line]] = [
    (
        "large roasted oolong milk tea, less ice, 50% sugar, pearls and half grass jelly, oat milk, "
        "1 shot, no creamer",
        Line(
            "roasted_oolong_milk_tea",
            "large",
            50,
            "less",
            1,
            (ToppingChoice("grass_jelly", True), PEARLS),
            "oat",
            ("creamer",),
        ),
    ),
    (
        "NO CREAMER oat milk ½ Grass Jelly, pearls; an extra shot. Half sugar - less ice "
        "LARGE roasted oolong milk tea",
        Line(
            "roasted_oolong_milk_tea",
            "large",
            50,
            "less",
            1,
            (ToppingChoice("grass_jelly", True), PEARLS),
            "oat",
            ("creamer",),
        ),
    ),
    ("a taro milk tea please", Line("taro_milk_tea", "medium", 100, "regular")),
    ("taro_milk_tea", Line("taro_milk_tea", "medium", 100, "regular")),
    ("hot cocoa", Line("hot_cocoa", "small", 100, "hot")),
    ("hot taro milk tea", Line("taro_milk_tea", "medium", 100, "hot")),
    ("taro milk tea hot 0 sugar", Line("taro_milk_tea", "medium", 0, "hot")),
    ("taro milk tea with no sugar and no ice", Line("taro_milk_tea", "medium", 0, "none")),
    ("taro milk tea 125 %", Line("taro_milk_tea", "medium", 125, "regular")),
    ("two shots, small taro milk tea", Line("taro_milk_tea", "small", 100, "regular", 2)),
    ("taro milk tea 2 extra shots", Line("taro_milk_tea", "medium", 100, "regular", 2)),
    ("extra ice extra sugar taro milk tea extra shot", Line("taro_milk_tea", "medium", 125, "extra", 1)),
    (
        "taro milk tea without the creamer",
        Line("taro_milk_tea", "medium", 100, "regular", without=("creamer",)),
    ),
    (
        "popping pearls, mango green tea",
        Line("mango_green_tea", "medium", 100, "regular", toppings=(ToppingChoice("popping"),)),
    ),
]


@pytest.mark.parametrize(("text", "line"), SAID)
def test_a_line_in_words_is_understood(demo: Book, text: str, line: Line) -> None:
    assert read_line(demo, text) == line


NOT_UNDERSTOOD = [
    ("laarge taro milk tea", "laarge", "large"),
    ("taro milk tee", "taro", "taro milk tea"),
    ("taro milk tea with lots of ice", "lots", ""),
    ("taro milk tea, pearlz", "pearlz", "pearls"),
    ("taro milk tea half shot", "half", ""),
    ("taro milk tea 3", "3", ""),
    ("taro milk tea no", "no", ""),
    ("taro milk tea, no creemer", "no creemer", "no creamer"),
    ("matcha latte", "matcha", "matcha milk tea"),
]


@pytest.mark.parametrize(("text", "word", "nearest"), NOT_UNDERSTOOD)
def test_what_is_not_understood_is_named_with_the_nearest(
    demo: Book, text: str, word: str, nearest: str
) -> None:
    with pytest.raises(Refusal) as refused:
        read_line(demo, text)
    assert (refused.value.code, refused.value.value) == ("not understood", word)
    assert refused.value.accepted[:1] == ((nearest,) if nearest else refused.value.accepted[:1])
    assert repr(word) in refused.value.message


def test_nobody_is_offered_what_they_cannot_have_meant(demo: Book) -> None:
    """Who asks for something is not offered to leave it out, nor a second drink."""
    for text, never in (("matcha latte", "no matcha"), ("taro milk tea, almond milk", "almond milk tea")):
        with pytest.raises(Refusal) as refused:
            read_line(demo, text)
        assert never not in refused.value.accepted
        assert never not in refused.value.message


@pytest.mark.parametrize(
    ("text", "accepted"),
    [
        ("mango green tea hot", ("no ice", "less ice", "regular ice", "extra ice")),
        ("taro milk tea 33 % sugar", ("no sugar", "quarter sugar", "half sugar", "less sugar", "full sugar",
                                      "extra sugar")),
        ("large ginger lemon tea", ("small", "medium")),
        ("taro milk tea no taro", ("no creamer",)),
        ("taro milk tea 9 shots", ("0", "1", "2")),
        ("hot taro milk tea, popping pearls", ("pearls", "red beans")),
    ],
)  # fmt: skip
def test_what_is_accepted_is_told_by_name(demo: Book, text: str, accepted: tuple[str, ...]) -> None:
    with pytest.raises(Refusal) as refused:
        resolve(demo, read_line(demo, text))
    assert accepted_in_words(demo, refused.value)[: len(accepted)] == accepted


@pytest.mark.parametrize(
    ("text", "code", "field"),
    [
        ("", "no drink", "drink"),
        ("large less ice", "no drink", "drink"),
        ("large small taro milk tea", "said twice", "size"),
        ("taro milk tea honeydew milk tea", "said twice", "drink"),
        ("taro milk tea 50 % sugar no sugar", "said twice", "sugar"),
        ("taro milk tea 33 % sugar", "unknown sugar", "sugar"),
        ("mango green tea hot", "ice not offered", "ice"),
        ("taro milk tea no taro", "cannot leave out", "without"),
        ("taro milk tea 99 shots", "too many shots", "shots"),
        ("taro milk tea " * 50, "too long", "drink"),
    ],
)
def test_what_cannot_be_is_refused(demo: Book, text: str, code: str, field: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_line(demo, text)
    assert (refused.value.code, refused.value.field) == (code, field)


@given(text=st.text(max_size=60))
def test_any_text_is_a_line_or_a_refusal(demo: Book, text: str) -> None:
    found: Line | None = None
    try:
        found = read_line(demo, text)
    except Refusal as caught:
        refusal = caught
    assert found.drink in demo.drinks if found else refusal.message


def test_words_say_what_differs_from_the_usual(demo: Book) -> None:
    line = SAID[0][1]
    assert title(demo, line) == "Large Roasted Oolong Milk Tea"
    assert words(demo, line) == (
        "less ice", "half sugar", "½ grass jelly", "pearls", "1 extra shot", "oat milk", "no creamer",
    )  # fmt: skip
    assert words(demo, complete(demo, "taro_milk_tea")) == ()
    assert words(demo, complete(demo, "taro_milk_tea", ice="hot", shots=2)) == ("hot", "2 extra shots")


def test_what_is_told_in_words_is_understood_again(demo: Book) -> None:
    for line in [line for _, line in SAID]:
        assert read_line(demo, ", ".join([title(demo, line), *words(demo, line)])) == line
