"""Scaling, rounding, sugar, milk, leaving out, balance, cautions and notes of a build."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Build, Line, Refusal, ToppingChoice
from recipes.reading.faults import BookRefused
from tests.recipes.cases import MILKY, PANTRY, SHOP, T6, bar, entry


def count(build: Build, ingredient: str) -> float:
    """How much of an ingredient a build asks for, in its tool's units; 0 when it has none."""
    return sum(step.amount.count for step in build.steps if step.ingredient == ingredient and step.amount)


@pytest.mark.parametrize(
    ("size", "sugar", "scoops", "strokes", "tea", "cubes"),
    # 300, 400 and 600 ml to the line: factors 3/4, 1 and 3/2; 5.25 cubes are 5, 10.5 are 11 (half up)
    [("small", 0, 1.5, 0, 75, 5), ("medium", 100, 2, 2, 100, 7), ("large", 100, 3, 3, 150, 11)],
)
def test_amounts_scale_with_the_seal_line_and_round_half_up(
    powder_bar: Book, size: str, sugar: int, scoops: float, strokes: int, tea: int, cubes: int
) -> None:
    build = resolve(powder_bar, complete(powder_bar, "it", size=size, sugar=sugar))
    assert (count(build, "powder"), count(build, "fructose")) == (scoops, strokes)
    assert (count(build, "tea"), count(build, "ice")) == (tea, cubes)


def test_times_do_not_scale(powder_bar: Book) -> None:
    small, large = (resolve(powder_bar, complete(powder_bar, "it", size=size)) for size in ("small", "large"))
    assert [step.duration for step in small.steps] == [step.duration for step in large.steps]


@pytest.mark.parametrize(("sugar", "strokes"), [(0, 0), (50, 1), (100, 2)])
def test_sugar_scales_the_sweetener_only(powder_bar: Book, sugar: int, strokes: int) -> None:
    build = resolve(powder_bar, complete(powder_bar, "it", sugar=sugar))
    usual = resolve(powder_bar, complete(powder_bar, "it"))
    assert count(build, "fructose") == strokes
    for other in ("powder", "creamer", "tea", "ice", "hot_water"):
        assert count(build, other) == count(usual, other)


def test_no_sugar_has_no_sweetener_step_and_says_what_sugar_stays(powder_bar: Book) -> None:
    build = resolve(powder_bar, complete(powder_bar, "it", sugar=0))
    assert "fructose" not in build.uses
    assert build.balance.added_sugars_g == 0
    assert build.balance.sugars_g == pytest.approx(18 * 0.4)  # 2 scoops of 18 ml at 0.5 g/ml, 40 % sugar
    assert any(note.words.startswith("7 g sugars come with taro powder") for note in build.notes)


def test_added_sugar_is_that_of_the_strokes(powder_bar: Book) -> None:
    """HFCS with 76 % dry matter (SR28 19351): 14 ml at 1.37 g/ml hold 14.58 g."""
    build = resolve(powder_bar, complete(powder_bar, "it"))
    assert build.balance.added_sugars_g == pytest.approx(14 * 1.37 * 0.76, abs=1e-3)
    assert build.balance.brix == pytest.approx(
        100 * build.balance.sugars_g / build.balance.liquid_g, abs=1e-3
    )


def test_mass_is_kept(powder_bar: Book) -> None:
    build = resolve(powder_bar, complete(powder_bar, "it"))
    put_in = sum(step.amount.mass_g for step in build.steps if step.amount)
    assert build.balance.liquid_g + build.balance.ice_left_g == pytest.approx(put_in, abs=0.01)


def test_another_milk_goes_in_at_the_same_volume_with_its_own_allergens() -> None:
    book = bar(MILKY)
    whole = resolve(book, complete(book, "it", without=["creamer"]))
    oat = resolve(book, complete(book, "it", milk="oat", without=["creamer"]))
    assert count(whole, "milk") == count(oat, "oat") == 40
    assert (whole.allergens, oat.allergens) == (("milk",), ("oats (gluten)",))


def test_milk_in_a_hot_drink_is_steamed_and_says_how_warm() -> None:
    """40 ml at 1.031 g/ml, 41.24 g, steamed from 4 to 65 °C. This bar's milk is as heavy as milk and warms
    like water, 4.18 J/(g K) at 30 °C: 41.24 x 4.18 x 61 = 10.5 kJ from steam of 2601 J/g that ends as water
    of 272 J/g (2.2 bar, 0.95 dry; IAPWS-IF97) are 4.5 g of water."""
    book = bar(MILKY)
    build = resolve(book, complete(book, "it", ice="hot"))
    step = next(step for step in build.steps if step.ingredient == "milk")
    assert (step.action, step.celsius) == ("steam", 65)
    assert step.text == "Steam 40 ml of whole milk to 65 °C, pour it in"
    put_in = sum(each.amount.mass_g for each in build.steps if each.amount)
    assert build.balance.liquid_g - put_in == pytest.approx(4.5, abs=0.1)


def test_without_a_step_that_heats_it_nothing_is_warmer_than_it_stands() -> None:
    unheated = MILKY.replace('do = "steam"', 'do = "pour"')
    with pytest.raises(BookRefused, match="'milk' stands at 4 °C and is meant to be 65 °C") as refused:
        bar(unheated)
    fault = refused.value.faults[0]
    assert (fault.file, fault.key) == ("drinks/it.toml", "steps.8.do")
    assert 'do = "steam" or "heat"' in fault.accepted
    with pytest.raises(BookRefused, match="steam needs to know how warm 'milk' shall be"):
        bar(MILKY, pantry=PANTRY.replace('hot = "65 °C"\n', ""))


def test_what_may_be_left_out_is_left_out(powder_bar: Book) -> None:
    build = resolve(powder_bar, complete(powder_bar, "it", without=["creamer"]))
    assert "creamer" not in build.uses
    assert build.allergens == ()
    assert build.words == ("no creamer",)


def test_a_build_never_says_that_an_allergen_is_absent(demo: Book) -> None:
    for drink in demo.drinks.values():
        build = resolve(demo, drink.default)
        told = " ".join(
            [said.words for said in build.cautions] + [said.words for said in build.notes]
        ).lower()
        assert "free" not in told
        assert "ask us" in told
        for allergen in resolve(demo, drink.default).allergens:
            assert f"contains {allergen}" in told or f", {allergen}" in told


def test_round_pearls_bring_a_choking_caution(powder_bar: Book) -> None:
    with_pearls = resolve(
        powder_bar, complete(powder_bar, "it", toppings=[ToppingChoice("pearls", half=True)])
    )
    with_jelly = resolve(powder_bar, complete(powder_bar, "it", toppings=[ToppingChoice("jelly")]))
    assert any(
        "under 5" in caution.words for caution in with_pearls.cautions
    )  # AAP: under 4; BfR 031/2012: to age 4
    assert not any("Choking" in caution.words for caution in with_jelly.cautions)


def named(name: str, caffeine: str) -> Build:
    """The milk tea under another name and with another caffeine in its tea."""
    old = entry("tea", "Strong black tea", "liquid", "0.98", serving="80 °C", caffeine="0.36 mg/g")
    new = old.replace("0.36 mg/g", caffeine)
    assert old in PANTRY
    book = bar(T6.replace("Powder Milk Tea", name), pantry=PANTRY.replace(old, new))
    return resolve(book, complete(book, "it"))


@pytest.mark.parametrize(
    ("name", "caffeine", "said"),
    [
        ("Powder Cloud", "0.30 mg/g", False),  # about 97 mg/l
        ("Powder Cloud", "0.60 mg/g", True),  # about 195 mg/l
        ("Powder Milk Tea", "0.60 mg/g", False),  # the name says tea
        ("Coffee Cloud", "0.60 mg/g", False),
        ("Steam Cloud", "0.60 mg/g", True),  # "steam" is not "tea"
    ],
)
def test_high_caffeine_is_told_above_150_mg_per_litre(name: str, caffeine: str, said: bool) -> None:
    """Regulation (EU) 1169/2011 Annex III 4.1: above 150 mg/l, not where the name includes coffee or tea."""
    build = named(name, caffeine)
    told = [caution.words for caution in build.cautions if caution.code == "high caffeine"]
    per_100_ml = build.balance.caffeine_mg / build.balance.liquid_ml * 100
    assert bool(told) == said
    if said:
        assert f"({per_100_ml:.0f} mg/100 ml)" in told[0]


def test_more_than_200_mg_at_once_is_told(powder_bar: Book) -> None:
    """A single dose of 200 mg is without concern for adults (EFSA Journal 2015;13(5):4102)."""
    two = resolve(powder_bar, complete(powder_bar, "it", size="large", shots=2))
    assert two.balance.caffeine_mg > 200
    assert any("more than the 200 mg" in caution.words for caution in two.cautions)
    one = resolve(powder_bar, complete(powder_bar, "it", shots=1))
    assert one.balance.caffeine_mg < 200
    assert not any("200 mg" in caution.words for caution in one.cautions)


def test_half_a_stroke_goes_up_and_is_what_the_pump_can_tell_apart(powder_bar: Book) -> None:
    """A small wants 1.5 strokes: 2, a third too much in the drink as wanted, and nothing to tell anybody."""
    small = resolve(powder_bar, complete(powder_bar, "it", size="small"))
    worst = small.errors[0]
    assert worst.ingredient == "fructose"
    assert 25 < worst.error_pct < 100 / 3 + 0.1
    assert worst.tolerance_pct == pytest.approx(100 * 3.5 * 1.37 / worst.wanted_g, rel=1e-3)
    assert not any("than the recipe" in note.words for note in small.notes)
    amount = next(step.amount for step in small.steps if step.ingredient == "fructose")
    assert amount is not None
    assert (amount.count, amount.error_pct) == (2, worst.error_pct)
    assert amount.mass_g / amount.volume_ml * amount.wanted_ml == pytest.approx(worst.wanted_g, rel=1e-4)


def test_what_is_off_beyond_the_tolerance_is_told() -> None:
    """A large wants one and a half of the reference's single scoop, and the scoop takes whole ones: 1 or 2,
    at least 15 % off however the rest bends."""
    whole = SHOP.replace('holds = "18 ml"\nsmallest = "1/2"', 'holds = "18 ml"\nsmallest = "1"')
    one = T6.replace('what = "powder"\namount = "2 scoops"', 'what = "powder"\namount = "1 scoop"')
    book = bar(one, shop=whole)
    build = resolve(book, complete(book, "it", size="large"))
    worst = build.errors[0]
    assert worst.ingredient == "powder"
    assert abs(worst.error_pct) > 15
    more = "more" if worst.error_pct > 0 else "less"
    told = f"Taro powder: {abs(worst.error_pct):.0f} % {more} than the recipe"
    (note,) = [note for note in build.notes if note.thing == "powder"]
    assert note.words == f"{told}, as near as the level scoop measures"
    assert (note.code, note.figures) == ("off the recipe", (worst.error_pct,))
    usual = resolve(book, complete(book, "it"))
    assert usual.score == 0
    assert {error.error_pct for error in usual.errors} == {0}
    assert not any("than the recipe" in note.words for note in usual.notes)


def test_layers_add_up_and_stand_on_the_toppings(powder_bar: Book) -> None:
    build = resolve(powder_bar, complete(powder_bar, "it", shots=1, toppings=[ToppingChoice("jelly")]))
    kinds = [layer.what for layer in build.fill.layers]
    assert kinds[0] == "topping"
    assert kinds[-1] == "foam"
    assert sum(layer.volume_ml for layer in build.fill.layers) == pytest.approx(
        build.fill.filled_ml, abs=0.01
    )
    assert build.fill.head_ml == pytest.approx(build.fill.line_ml - build.fill.filled_ml, abs=0.001)


def test_a_line_that_the_book_does_not_know_is_refused(powder_bar: Book) -> None:
    with pytest.raises(Refusal) as refused:
        resolve(powder_bar, replace(complete(powder_bar, "it"), ice="tepid"))
    assert refused.value.field == "ice"


def test_equal_orders_are_equal_builds(powder_bar: Book) -> None:
    one = Line("it", "medium", 100, "regular", toppings=(ToppingChoice("pearls"), ToppingChoice("jelly")))
    other = replace(one, toppings=(ToppingChoice("jelly"), ToppingChoice("pearls")))
    assert resolve(powder_bar, one) == resolve(powder_bar, other)


def test_any_difference_makes_another_id(powder_bar: Book) -> None:
    line = complete(powder_bar, "it")
    others = [
        replace(line, size="large"),
        replace(line, sugar=50),
        replace(line, ice="less"),
        replace(line, shots=1),
        replace(line, toppings=(ToppingChoice("jelly"),)),
        replace(line, toppings=(ToppingChoice("jelly", True),)),
        replace(line, without=("creamer",)),
        line,
    ]
    ids = [resolve(powder_bar, each).id for each in others]
    ids.append(resolve(bar(T6.replace("For tests", "For you").replace("The powder", "A powder")), line).id)
    assert len(set(ids)) == len(ids)
    assert all(len(each) == 16 and int(each, 16) >= 0 for each in ids)


def test_another_process_makes_the_same_build_to_the_last_digit(demo: Book) -> None:
    program = (
        "from pathlib import Path\n"
        "from tests.recipes.cases import DEMO\n"
        "from recipes.reading.reader import read_book\n"
        "from recipes.building.resolve import resolve\n"
        "book = read_book(DEMO)\n"
        "print(repr([resolve(book, drink.default) for drink in book.drinks.values()]))\n"
    )
    ours = repr([resolve(demo, drink.default) for drink in demo.drinks.values()])
    for seed in ("1", "2"):
        theirs = subprocess.run(
            [sys.executable, "-c", program],
            cwd=Path(__file__).parents[2],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True, text=True, check=True, timeout=60,
        ).stdout.strip()  # fmt: skip
        assert theirs == ours
