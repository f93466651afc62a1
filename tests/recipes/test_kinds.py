"""What things can be: kinds, bounds and portions; each row changes one thing in a good book."""

from __future__ import annotations

import tomllib
from fractions import Fraction

import pytest

from recipes.asking.combinations import all_lines, count
from recipes.asking.lines import complete
from recipes.asking.price import price
from recipes.asking.spoken import read_line
from recipes.building.resolve import resolve
from recipes.model import Refusal, ToppingChoice
from recipes.reading.extras import written
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.pantry import read_pantry
from recipes.reading.reader import parse_book
from recipes.reading.shop import read_shop
from recipes.reading.table import Page, Table
from recipes.units import VOLUME_ML, in_unit
from tests.recipes.cases import EXTRAS, MILKY, PANTRY, SHOP, T6, bar, files


def faults_of(book: dict[str, str]) -> tuple[Fault, ...]:
    """The faults that reading these files brings; none when they are good."""
    try:
        parse_book(book)
    except BookRefused as refused:
        return refused.faults
    return ()


def told(book: dict[str, str], file: str, key: str, near: str) -> str:
    """The message of the one fault of a book, at this key of this file and on the line with ``near``."""
    (fault,) = faults_of(book)
    assert (fault.file, fault.key) == (file, key), str(fault)
    assert near in book[file].splitlines()[fault.line - 1], str(fault)
    return fault.message


def table(text: str) -> Table:
    """A file's top table, to read this file alone."""
    return Table(Page("it.toml", {(): 1}), (), tomllib.loads(text))


def changed(text: str, table: str, key: str, value: str) -> str:
    """A file with ``key`` of ``[table]`` written anew, or added where it is not there."""
    before, header, after = text.partition(f"[{table}]\n")
    assert header, table
    own, more, rest = after.partition("\n[")
    kept = [line for line in own.splitlines() if not line.startswith(f"{key} = ")]
    return f"{before}{header}{key} = {value}\n" + "\n".join(kept) + more + rest


STEPS = {"ice": "steps.7", "tea": "steps.6", "powder": "steps.1", "hot_water": "steps.4"}


# ---- kinds


@pytest.mark.parametrize("other", ["ice", "tea", "powder", "milk"])
def test_a_topping_is_of_the_kind_topping(other: str) -> None:
    book = files(extras=EXTRAS.replace('ingredient = "jelly"', f'ingredient = "{other}"'))
    message = told(book, "extras.toml", "toppings.choices.jelly.ingredient", f'"{other}"')
    assert "accepted: an ingredient of kind 'topping': pearls, popping, jelly" in message


def test_a_milk_is_of_the_kind_milk_and_a_shot_is_espresso() -> None:
    book = files(extras=EXTRAS.replace('ingredient = "oat"', 'ingredient = "pearls"'))
    assert "of kind 'milk': milk, oat" in told(book, "extras.toml", "milks.oat.ingredient", '"pearls"')
    book = files(extras=EXTRAS.replace('ingredient = "espresso"', 'ingredient = "ice"'))
    assert "of kind 'espresso': espresso" in told(book, "extras.toml", "shot.ingredient", '"ice"')


INSTEAD = 'what = "tea"\ninstead = { none = "%s" }'
WRONG_KIND = [
    ('what = "ice"', 'what = "tea"\nrole = "ice"', "steps.7.what", "an ingredient of kind 'ice': ice"),
    ('what = "ice"', 'what = "tea"', "steps.7.what", "ice and 'tea' (of kind 'liquid') do not go together"),
    ('what = "tea"', 'what = "ice"', "steps.6.what", 'accepted: do = "ice"'),
    ('what = "hot_water"', 'what = "creamer"', "steps.4.what", "kind liquid, tea, milk: hot_water, tea"),
    ('cold = "water"', 'cold = "ice"', "top_up.cold", "kind liquid, tea, milk"),
    ('cold = "water"', 'cold = "pearls"', "top_up.cold", "kind liquid, tea, milk"),
    ('hot = "hot_water"', 'hot = "powder"', "top_up.hot", "kind liquid, tea, milk"),
    ("hot = true", 'hot = true\nshot_replaces = "ice"', "shot_replaces", "'ice' is of kind 'ice'"),
    ('what = "tea"', INSTEAD % "ice", "steps.6.instead.none", "'ice' is of kind 'ice'"),
    ('what = "tea"', INSTEAD % "jelly", "steps.6.instead.none", "'jelly' is of kind 'topping'"),
    ('what = "ice"', 'what = "ice"\ninstead = { less = "water" }', "steps.7.instead.less", "kind ice: ice"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "key", "words"), WRONG_KIND)
def test_a_step_takes_what_suits_it(old: str, new: str, key: str, words: str) -> None:
    assert old in T6
    book = files(T6.replace(old, new))
    assert words in told(book, "drinks/it.toml", key, new.splitlines()[0 if "role" in new else -1])


def test_a_step_whose_milk_is_swapped_holds_milk() -> None:
    book = files(MILKY.replace('what = "milk"', 'what = "water"'))
    assert "drinks/it.toml: steps.7.what" in {f"{each.file}: {each.key}" for each in faults_of(book)}
    assert any("of kind milk: milk, oat" in each.message for each in faults_of(book))


def test_a_sweetener_without_sugars_is_one_too() -> None:
    """Sweetened with what brings no sugars: a shop's own choice, and no slip."""
    none = changed(changed(PANTRY, "fructose", "sugars", '"0 %"'), "fructose", "dry", '"1 %"')
    assert faults_of(files(pantry=none)) == ()


# ---- bounds of ingredients

INGREDIENT = [
    ("water", "density", '"2 g/ml"', "from 0.3 to 1.5"),
    ("tea", "density", '"0.098 g/ml"', "from 0.3 to 1.5"),
    ("milk", "density", '"10.31 g/ml"', "milk 1.03"),
    ("espresso", "density", '"0.1 g/ml"', "from 0.9 to 1.5"),
    ("fructose", "density", '"0.9 g/ml"', "from 1 to 1.6"),
    ("fructose", "density", '"1.61 g/ml"', "honey 1.4"),
    ("powder", "density", '"0.05 g/ml"', "from 0.1 to 1.5"),
    ("pearls", "density", '"0.2 g/ml"', "from 0.3 to 1.6"),
    ("pearls", "body", '"1.7 g/ml"', "from 0.3 to 1.6"),
    ("ice", "body", '"1.0 g/ml"', "ice is 0.917"),
    ("ice", "density", '"0.2 g/ml"', "solid cube"),
    ("ice", "serving", '"80 °C"', "above 0 °C there is no ice"),
    ("ice", "serving", '"1 °C"', "from -30 to 0"),
    ("tea", "serving", '"-30 °C"', "from -5 to 100"),
    ("milk", "serving", '"-6 °C"', "neither frozen nor boiling"),
    ("hot_water", "serving", '"101 °C"', "from -5 to 100"),
    ("pearls", "serving", '"-31 °C"', "from -30 to 100"),
]


@pytest.mark.parametrize(("ingredient", "key", "value", "words"), INGREDIENT)
def test_a_slip_in_an_ingredient_is_refused_at_its_line(
    ingredient: str, key: str, value: str, words: str
) -> None:
    book = files(pantry=changed(PANTRY, ingredient, key, value))
    assert words in told(book, "pantry.toml", f"{ingredient}.{key}", f"{key} = {value}")


def test_what_is_heated_for_hot_drinks_is_not_cooled_by_it() -> None:
    warm = changed(PANTRY, "milk", "serving", '"70 °C"')
    assert "from 70 to 100" in told(files(pantry=warm), "pantry.toml", "milk.hot", 'hot = "65 °C"')


REAL = [
    ("water", "density", "1 g/ml"),  # by definition, nearly
    ("hot_water", "density", "0.958 g/ml"),  # water at 100 °C, IAPWS R6-95
    ("water", "density", "0.4 g/ml"),  # whipped cream, common practice
    ("fructose", "density", "1.42 g/ml"),  # honey of 17 % water, USDA and Codex STAN 12: about 1.42
    ("fructose", "density", "1.33 g/ml"),  # sucrose solution of 67 % at 20 °C, ICUMSA
    ("powder", "density", "0.85 g/ml"),  # granulated sugar, 200 g to the US cup of 237 ml
    ("ice", "body", "0.9167 g/ml"),  # ice Ih at 0 °C, IAPWS R10-06
    ("ice", "serving", "0 °C"),
    ("ice", "serving", "-18 °C"),  # a freezer, Codex CAC/RCP 8-1976
    ("pearls", "serving", "-18 °C"),  # frozen fruit
    ("hot_water", "serving", "100 °C"),
]


@pytest.mark.parametrize(("ingredient", "key", "value"), REAL)
def test_what_is_in_real_bars_is_read(ingredient: str, key: str, value: str) -> None:
    pantry = changed(PANTRY, ingredient, key, f'"{value}"')
    if (ingredient, key) == ("ice", "body"):  # the body of a piece is at least its heap's
        pantry = changed(pantry, "ice", "density", '"0.55 g/ml"')
    root = table(pantry)
    assert ingredient in read_pantry(root, read_shop(table(SHOP), ()))
    assert root.page.faults == []


# ---- bounds of tools

TOOL = [
    ("cube", "smallest", '"10"', "from 0.25 to 1 (a part of one measure)"),  # an ice scoop in tens
    ("scoop", "smallest", '"2"', "from 0.25 to 1"),
    ("scoop", "smallest", '"1/5"', "from 0.25 to 1"),
    ("scoop", "smallest", '"2/3"', "2/3 of a measure is not taken by hand; accepted: 1, 1/2, 1/3 or 1/4"),
    ("pump", "smallest", '"0.9"', "9/10 of a measure"),
    ("shot", "smallest", '"0"', "from 0.25 to 1"),
    ("jug", "smallest", '"0.4"', "from 0.5 to 100 (millilitres between two marks)"),
    ("jug", "smallest", '"101"', "from 0.5 to 100"),
    ("scoop", "holds", '"300 ml"', "from 0.5 to 250"),
    ("pump", "holds", '"70 ml"', "from 0.5 to 60"),
    ("shot", "holds", '"4 ml"', "from 10 to 120"),
    ("shot", "holds", '"400 ml"', "from 10 to 120"),
    ("cube", "holds", '"270 ml"', "not a scoop of them"),
    ("ladle", "holds", '"600 ml"', "from 5 to 250"),
    ("jug", "holds", '"3 l"', "from 20 to 2000"),
]


@pytest.mark.parametrize(("tool", "key", "value", "words"), TOOL)
def test_a_slip_in_a_tool_is_refused_at_its_line(tool: str, key: str, value: str, words: str) -> None:
    book = files(shop=changed(SHOP, f"tools.{tool}", key, value))
    assert words in told(book, "shop.toml", f"tools.{tool}.{key}", f"{key} = {value}")


def test_a_jigger_is_not_coarser_than_what_it_holds() -> None:
    jigger = (
        '[tools.dropper]\nname = "dropper"\nkind = "jigger"\nholds = "30 ml"\nsmallest = "40"\n[tools.jug]'
    )
    book = files(shop=SHOP.replace("[tools.jug]", jigger))
    assert "from 0.5 to 30" in told(book, "shop.toml", "tools.dropper.smallest", '"40"')


@pytest.mark.parametrize("part", ["1", "1/2", "0.5", "1/3", "1/4", "0.25"])
def test_parts_that_a_hand_can_take_are_read(part: str) -> None:
    book = bar(shop=changed(SHOP, "tools.scoop", "smallest", f'"{part}"'))
    assert book.tools["scoop"].smallest == Fraction(part)


@pytest.mark.parametrize(
    ("tool", "holds"),
    [("scoop", "1/4 tsp"), ("scoop", "1 cup"), ("pump", "1/4 fl oz"), ("pump", "2 fl oz"), ("shot", "25 ml"),
     ("shot", "60 ml"), ("cube", "8 ml"), ("cube", "120 ml"), ("ladle", "1 fl oz"), ("ladle", "8 fl oz")],
)  # fmt: skip
def test_what_is_sold_to_bars_is_read(tool: str, holds: str) -> None:
    """Measuring spoons and cups of the US kitchen, pumps, ladles and moulds as catalogues have them: common
    practice."""
    root = table(changed(SHOP, f"tools.{tool}", "holds", f'"{holds}"'))
    found = read_shop(root, ())
    assert root.page.faults == []
    assert found.tools[tool].unit_ml == pytest.approx(float(in_unit(holds, VOLUME_ML)))


# ---- portions of toppings

PEARLS = 'ingredient = "pearls"\nportion = "1 ladle"'


def pearls(portion: str, more: str = "") -> str:
    """The extras with another portion of pearls."""
    assert PEARLS in EXTRAS
    return EXTRAS.replace(PEARLS, f'ingredient = "pearls"\nportion = "{portion}"\n{more}'.rstrip())


WHOLE_LADLES = changed(SHOP, "tools.ladle", "smallest", '"1"')
ODD = [
    ("3/4 ladle", SHOP, 'smallest step, 1/2 ladle; accepted: "1/2 ladle" or "1 ladle"'),
    ("1/4 ladle", SHOP, 'accepted: "1/2 ladle"'),
    ("1 1/4 ladles", SHOP, 'accepted: "1 ladle" or "1 1/2 ladles"'),
    ("58 ml", SHOP, 'the jug\'s smallest step, 5 ml; accepted: "55 ml" or "60 ml"'),
    ("40 g", SHOP, 'accepted: "55 ml" or "60 ml"'),  # at 0.72 g/ml 55.6 ml
    ("1/2 ladle", WHOLE_LADLES, 'smallest step, 1 ladle; accepted: "1 ladle"'),
]


@pytest.mark.parametrize(("portion", "shop", "words"), ODD)
def test_a_portion_is_so_many_steps_of_its_tool(portion: str, shop: str, words: str) -> None:
    found = [
        each for each in faults_of(files(shop=shop, extras=pearls(portion)))
        if each.key == "toppings.choices.pearls.portion"
    ]  # fmt: skip
    assert [each.file for each in found] == ["extras.toml"]
    assert words in found[0].message


@pytest.mark.parametrize(
    ("portion", "shop", "words"),
    [
        ("1/2 ladle", SHOP, 'half = false, or a portion of "1 ladle"'),
        ("1 1/2 ladles", SHOP, 'half = false, or a portion of "1 ladle" or "2 ladles"'),
        ("55 ml", SHOP, 'half = false, or a portion of "50 ml" or "60 ml"'),
    ],
)
def test_half_a_portion_is_so_many_steps_as_well_or_is_not_served(
    portion: str, shop: str, words: str
) -> None:
    book = files(shop=shop, extras=pearls(portion))
    assert words in told(book, "extras.toml", "toppings.choices.pearls.portion", f'portion = "{portion}"')
    assert faults_of(files(shop=shop, extras=pearls(portion, "half = false"))) == ()


def test_a_half_is_never_dearer_than_the_whole() -> None:
    book = files(extras=EXTRAS.replace("half_price = 0.45", "half_price = 0.81"))
    message = told(book, "extras.toml", "toppings.choices.popping.half_price", "0.81")
    assert "never dearer than the whole" in message
    assert faults_of(files(extras=EXTRAS.replace("half_price = 0.45", "half_price = 0.80"))) == ()


def test_a_price_of_a_half_that_is_not_served_is_refused() -> None:
    book = files(extras=EXTRAS.replace("half_price = 0.45", "half = false\nhalf_price = 0.45"))
    assert "not served" in told(book, "extras.toml", "toppings.choices.popping.half_price", "half_price")


def test_a_line_that_asks_for_half_of_it_is_refused_in_words() -> None:
    book = bar(extras=pearls("1/2 ladle", "half = false"))
    with pytest.raises(Refusal, match="Pearls come by the whole portion only, not by halves") as refused:
        read_line(book, "medium powder milk tea, half pearls")
    assert (refused.value.field, refused.value.value) == ("toppings", "pearls")
    line = complete(book, "it", toppings=[ToppingChoice("pearls")])
    put = next(step.amount for step in resolve(book, line).steps if step.ingredient == "pearls")
    assert put is not None
    assert (put.count, put.unit, put.error_pct) == (0.5, "ladle", 0)
    assert price(book, line) == 400 + 65


def test_what_is_not_served_by_halves_is_neither_offered_nor_proved_by_halves() -> None:
    """Of three toppings at most three go in; pearls in or not, the others in, half or not: 2 x 3 x 3."""
    book = bar(extras=pearls("1/2 ladle", "half = false"))
    lines = list(all_lines(book, "it"))
    assert len(lines) == count(book, "it") == len(set(lines))
    assert len({line.toppings for line in lines}) == 2 * 3 * 3
    assert ToppingChoice("pearls", half=True) not in {each for line in lines for each in line.toppings}


def test_thirds_of_a_ladle_are_said_as_thirds() -> None:
    book = bar(shop=changed(SHOP, "tools.ladle", "smallest", '"1/3"'), extras=pearls_in_thirds())
    build = resolve(book, complete(book, "it", toppings=[ToppingChoice("pearls", half=True)]))
    (step,) = [each for each in build.steps if each.ingredient == "pearls"]
    assert "⅓ ladle" in step.text
    assert written(book.tools["ladle"], 5) == "1 2/3 ladles"


def pearls_in_thirds() -> str:
    """All toppings by two thirds of a ladle."""
    return EXTRAS.replace('portion = "1 ladle"', 'portion = "2/3 ladle"')
