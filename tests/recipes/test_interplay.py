"""Modifiers together, each case on one screen; the bar measures finely, so that the rules show undimmed."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from recipes.asking.combinations import all_lines
from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import HOT, Balance, Build, Refusal, ToppingChoice
from tests.recipes.cases import FINE, MILKY, SHOP, T6, bar, files


@pytest.fixture(scope="module")
def fine() -> Book:
    return bar(shop=FINE)


def strength(balance: Balance) -> tuple[float, float, float]:
    """Sweetness, dry matter and tea (by its caffeine) of the liquid."""
    return balance.brix, balance.dry_pct, balance.caffeine_mg / balance.liquid_g


def given(build: Build, ingredient: str) -> float:
    """Millilitres of an ingredient, over all its steps."""
    return sum(step.amount.volume_ml for step in build.steps if step.amount and step.ingredient == ingredient)


@pytest.mark.parametrize("ice", ["none", "less", HOT])
def test_less_ice_and_no_ice_are_as_full_hot_takes_the_same_scoops_and_all_are_as_strong(
    fine: Book, ice: str
) -> None:
    regular = resolve(fine, complete(fine, "it"))
    other = resolve(fine, complete(fine, "it", ice=ice))
    assert strength(other.balance) == pytest.approx(strength(regular.balance), rel=0.02)
    if ice == HOT:
        assert given(other, "powder") == given(regular, "powder")
        assert other.balance.liquid_g == pytest.approx(regular.balance.liquid_g, rel=0.01)
    else:
        assert other.fill.filled_ml == pytest.approx(regular.fill.filled_ml, rel=0.01)
    assert other.balance.dilution_pct == pytest.approx(regular.balance.dilution_pct, abs=1.0)
    # The top-up stands in for the melt that is missing, and grows with the drink.
    grown = given(other, "tea") / given(regular, "tea")
    topped = given(other, "hot_water") - 25 * grown if ice == HOT else given(other, "water")
    assert topped + other.balance.melted_g == pytest.approx(regular.balance.melted_g * grown, abs=7)


def test_topped_up_to_strength_alone_it_is_as_strong_and_lower() -> None:
    rule = T6.replace('station = "tea"\ntool = "jug"', 'station = "tea"\ntool = "jug"\nto = "strength"')
    book = bar(rule, shop=FINE)
    regular, without = (resolve(book, complete(book, "it", ice=ice)) for ice in ("regular", "none"))
    assert strength(without.balance) == pytest.approx(strength(regular.balance), rel=0.02)
    assert given(without, "tea") == pytest.approx(100, abs=1)
    left = regular.balance.ice_left_g / 0.917
    assert regular.fill.filled_ml - without.fill.filled_ml == pytest.approx(left, abs=4)
    assert any("lower than with regular ice, at the same strength" in note.words for note in without.notes)


def test_extra_ice_stays_as_ice_and_costs_neither_strength_nor_the_line(fine: Book) -> None:
    regular, extra = (resolve(fine, complete(fine, "it", ice=ice)) for ice in ("regular", "extra"))
    assert extra.balance.ice_left_g > regular.balance.ice_left_g + 30
    assert extra.balance.temperature_c == regular.balance.temperature_c == 0
    assert strength(extra.balance) == pytest.approx(strength(regular.balance), rel=0.02)
    assert extra.fill.filled_ml <= extra.fill.line_ml


@pytest.mark.parametrize("shots", [1, 2])
def test_shots_bring_volume_heat_and_caffeine_and_take_the_dissolving_water(fine: Book, shots: int) -> None:
    plain, with_shots = (resolve(fine, complete(fine, "it", shots=n)) for n in (0, shots))
    assert given(with_shots, "hot_water") == 0
    assert given(with_shots, "espresso") == 40 * shots
    assert given(with_shots, "tea") == pytest.approx(given(plain, "tea"), rel=0.03)
    more = with_shots.balance.caffeine_mg - plain.balance.caffeine_mg
    assert more == pytest.approx(84.8 * shots, abs=1)  # 40 g at 212 mg/100 g, SR28 14210
    assert with_shots.balance.melted_g > plain.balance.melted_g  # 40 g at 67 °C for 25 g at 90 °C


def test_tea_makes_way_for_shots_only_where_the_recipe_says_so() -> None:
    book = bar(T6.replace("hot = true", 'hot = true\nshot_replaces = "tea"'), shop=FINE)
    tea = [given(resolve(book, complete(book, "it", shots=shots)), "tea") for shots in (0, 1, 2)]
    # A shot takes its room once: 25 of its 40 ml are those of the dissolving water.
    assert tea == pytest.approx([100, 100 - (40 - 25), 100 - (80 - 25)], abs=1)


def test_a_shot_leaves_the_dissolving_water_that_it_does_not_bring() -> None:
    """Whisked with 90 ml of water, a drink with one shot of 40 ml is whisked with 50 ml and the shot; two
    shots leave 10 ml. Of 85 ml of water they would leave 5 ml, which nobody pours."""
    waters = {}
    for water in (90, 85):
        book = bar(
            T6.replace('amount = "25 ml"', f'amount = "{water} ml"').replace("7 cubes", "3 cubes"), shop=FINE
        )
        builds = [resolve(book, complete(book, "it", shots=shots)) for shots in (0, 1, 2)]
        waters[water] = [given(build, "hot_water") for build in builds]
        unmelted = [build.fill.vessel_ml for build in builds]
        assert unmelted == pytest.approx([unmelted[0]] * 3, abs=8)
    assert waters[90] == pytest.approx([90, 50, 10], abs=1)
    assert waters[85] == pytest.approx([85, 45, 0], abs=1)


def test_what_shots_leave_of_the_water_is_poured_before_them_and_stirred_after() -> None:
    book = bar(T6.replace('amount = "25 ml"', 'amount = "90 ml"').replace("7 cubes", "3 cubes"), shop=FINE)
    build = resolve(book, complete(book, "it", shots=1))
    shorts = [(step.station, step.short) for step in build.steps[3:6]]
    assert shorts == [("scoop", "Hot water"), ("espresso", "Espresso"), ("espresso", "Stir")]


def test_another_milk_changes_allergens_and_energy_and_leaves_the_rest() -> None:
    book = bar(MILKY, shop=FINE)
    whole, oat = (
        resolve(book, complete(book, "it", milk=milk, without=["creamer"])) for milk in (None, "oat")
    )
    assert whole.allergens == ("milk",)
    assert oat.allergens == ("oats (gluten)",)
    assert (given(oat, "milk"), given(oat, "oat")) == (0, given(whole, "milk"))
    assert given(oat, "tea") == given(whole, "tea")


def test_three_toppings_with_halves_take_their_room_and_the_drink_keeps_its_strength(fine: Book) -> None:
    toppings = [ToppingChoice("jelly"), ToppingChoice("pearls", True), ToppingChoice("popping")]
    plain = resolve(fine, complete(fine, "it"))
    build = resolve(fine, complete(fine, "it", toppings=toppings))
    # Ladles of 60 ml: 45 g at 1.02, half of 43.2 g at 1.15, 42 g at 1.05 g/ml.
    room = 45 / 1.02 + 21.6 / 1.15 + 42 / 1.05
    assert sum(layer.volume_ml for layer in build.fill.layers if layer.what == "topping") == pytest.approx(
        room, abs=0.01
    )
    assert build.fill.filled_ml <= 400
    assert [step.amount.count for step in build.steps[:3] if step.amount] == [0.5, 1, 1]
    # Strength is held at the pour; what warm toppings melt in the cup afterwards is told by the balance.
    assert all(abs(error.error_pct) < 3 for error in build.errors)
    assert build.balance.dilution_pct > plain.balance.dilution_pct
    share = given(build, "tea") / given(plain, "tea")
    assert 0.65 < share < 1
    assert given(build, "powder") / given(plain, "powder") == pytest.approx(share, rel=0.03)


def test_popping_pearls_never_meet_a_hot_drink(fine: Book) -> None:
    line = complete(fine, "it", ice=HOT, toppings=[ToppingChoice("popping", half=True)])
    with pytest.raises(Refusal, match="heat spoils") as refused:
        resolve(fine, line)
    assert refused.value.accepted == ("pearls", "jelly")
    assert resolve(fine, replace(line, toppings=(ToppingChoice("pearls", half=True),))).steps


def test_without_what_the_drink_leans_on_is_refused_and_without_the_rest_keeps_its_strength(
    fine: Book,
) -> None:
    with pytest.raises(Refusal, match="cannot be made without taro powder: nothing would taste of taro"):
        complete(fine, "it", without=["powder"])
    plain, bare = (resolve(fine, complete(fine, "it", without=left)) for left in ((), ("creamer",)))
    assert bare.allergens == ()
    assert given(bare, "powder") == given(plain, "powder")
    assert bare.balance.dry_g == pytest.approx(
        plain.balance.dry_g - 14.4 * 0.97, abs=0.2
    )  # 36 ml at 0.40 g/ml


def test_ice_that_would_only_float_gives_way_before_a_drink_is_refused() -> None:
    """Four fifths of a small drink, 300 ml to the line, under three toppings of 122 ml: with all its ice
    there is no room for it, with the ice that melts anyway there is. As strong, and 0 °C when it is poured;
    129 g of toppings at 20 °C, 3.5 J/(g K), in some 180 g of drink make that 129 x 3.5 x 20 /
    (129 x 3.5 + 180 x 4) = 7.7 °C."""
    book = bar(T6.replace("hot = true", 'hot = true\nleast_share = "80 %"'), shop=FINE)
    toppings = [ToppingChoice("jelly"), ToppingChoice("pearls"), ToppingChoice("popping")]
    plain = resolve(book, complete(book, "it", size="small"))
    for ice in ("regular", "extra", "less"):
        build = resolve(book, complete(book, "it", size="small", toppings=toppings, ice=ice))
        assert build.fill.filled_ml <= 300
        assert given(build, "tea") >= 0.8 * given(plain, "tea") - 2
        assert all(abs(error.error_pct) < 3 for error in build.errors)
        if ice in ("regular", "extra"):
            assert build.balance.temperature_c == pytest.approx(7.7, abs=1.5)
            assert given(build, "ice") < 0.8 * given(plain, "ice")
            assert any("less ice, to stay under the seal line" in note.words for note in build.notes)


def test_ice_gives_way_no_further_than_it_melts() -> None:
    """At nine tenths even that is too much: refused, and what would fit is named."""
    book = bar(T6.replace("hot = true", 'hot = true\nleast_share = "90 %"'), shop=FINE)
    toppings = [ToppingChoice("jelly"), ToppingChoice("pearls"), ToppingChoice("popping")]
    for ice in ("regular", "extra", "less"):
        line = complete(book, "it", size="small", toppings=toppings, ice=ice)
        with pytest.raises(Refusal, match="too much room"):
            resolve(book, line)


@pytest.mark.parametrize("ice", ["-2 °C", "-20 °C"])
def test_who_may_have_it_with_regular_ice_may_have_it_with_extra(ice: str) -> None:
    """Of extra ice as much may give way as brings it back to the recipe's: it is never refused where that is
    made. Hot shots melt all of a small cup's ice; very cold ice melts less the more there is of it."""
    pantry = files()["pantry.toml"]
    assert '"-2 °C"' in pantry
    tight = T6.replace("hot = true", 'hot = true\nleast_share = "80 %"')
    book = bar(tight, shop=FINE, pantry=pantry.replace('"-2 °C"', f'"{ice}"'))
    made, gave_way = 0, 0
    for regular in all_lines(book, "it"):
        if regular.ice != "regular" or regular.without or regular.sugar != 100:
            continue
        try:
            resolve(book, regular)
        except Refusal:
            continue
        build = resolve(book, replace(regular, ice="extra"))
        made += 1
        gave_way += any("less ice, to stay" in note.words for note in build.notes)
    assert made > gave_way > 10


def test_what_has_no_room_even_without_ice_is_refused_where_nothing_melts() -> None:
    """All at 0 °C, so that no ice is missed: of a medium cup's 220 ml of tea and 25 of water a small one has
    300/400, 184 ml, and 39 g of powder and syrup, some 25 ml; nine tenths of that, 188 ml, find no room
    between 300 ml and three toppings of 122 ml."""
    cold = re.sub(r'serving = "\d+ °C"', 'serving = "0 °C"', files()["pantry.toml"])
    more = T6.replace("100 ml", "220 ml").replace("7 cubes", "3 cubes")
    book = bar(more.replace("hot = true", 'hot = true\nleast_share = "90 %"'), shop=FINE, pantry=cold)
    toppings = [ToppingChoice("jelly"), ToppingChoice("pearls"), ToppingChoice("popping")]
    assert resolve(book, complete(book, "it", size="small", ice="none")).fill.filled_ml > 200
    with pytest.raises(Refusal, match="too much room"):
        resolve(book, complete(book, "it", size="small", toppings=toppings))


def test_two_modifiers_that_compete_for_the_same_head_room_share_it(fine: Book) -> None:
    """Jelly fits beside the plain drink; with pearls and two shots too the drink gives way."""
    jelly = [ToppingChoice("jelly")]
    one = resolve(fine, complete(fine, "it", toppings=jelly))
    both = resolve(fine, complete(fine, "it", toppings=[*jelly, ToppingChoice("pearls")], shots=2))
    assert not any("of its size" in note.words for note in one.notes)
    assert any("of its size" in note.words for note in both.notes)
    assert both.fill.filled_ml <= both.fill.line_ml
    assert given(both, "espresso") == 80  # shots are pulled whole
    assert given(both, "tea") < given(one, "tea")


def test_what_cannot_be_measured_is_refused_with_the_measure_that_would_do() -> None:
    """A small wants 13.5 ml of powder, and a whole scoop is 18: too much, however much larger the drink is
    made for it. With a limit of 11 % it asks for steps of 2 x 0.11 x 13.5 to 18 = 3.0 to 4.0 ml; 3 and 3.5
    can be had."""
    shop = SHOP.replace('tolerance = "10 %"', 'tolerance = "10 %"\nlimit = "11 %"').replace(
        'holds = "18 ml"\nsmallest = "1/2"', 'holds = "18 ml"\nsmallest = "1"'
    )
    recipe = T6.replace('what = "powder"\namount = "2 scoops"', 'what = "powder"\namount = "1 scoop"')
    recipe = recipe.replace('what = "creamer"\namount = "2 scoops"', 'what = "creamer"\namount = "8 scoops"')
    recipe = recipe.replace('"100 ml"', '"60 ml"').replace("7 cubes", "3 cubes")
    book = bar(recipe, shop=shop)
    with pytest.raises(Refusal) as refused:
        resolve(book, complete(book, "it", size="small"))
    refusal = refused.value
    assert (refusal.code, refusal.field, refusal.value) == ("too coarse", "size", "small")
    assert "too coarse for taro powder in a Small" in refusal.message
    assert re.search(r"add a measure of 3(\.5)? ml for it", refusal.message)


def test_a_second_tool_is_reached_for_only_where_a_guest_would_notice() -> None:
    """10.5 ml wanted and a stroke is 7 ml: a third off with the pump alone. A dropper, good to a millilitre,
    leaves 9.7 % (1.02 ml), less than the 10 % that are noticed, and pays. One marked by fives does not: 7 +
    3.5 between marks leave 16 %, and who pours two strokes has less to do."""
    doses = {}
    for marks in ("0.5", "5"):
        pantry = files()["pantry.toml"].replace("[fructose]\n", '[fructose]\nfiner = ["dropper"]\n')
        tool = f'name = "dropper"\nkind = "jigger"\nsmallest = "0.5"\nmarks = "{marks} ml"\n'
        book = bar(shop=SHOP.replace("[tools.jug]", f"[tools.dropper]\n{tool}[tools.jug]"), pantry=pantry)
        build = resolve(book, complete(book, "it", size="small"))
        doses[marks] = [step for step in build.steps if step.ingredient == "fructose"]
        errors = {step.amount.error_pct for step in doses[marks] if step.amount}
        assert errors == {next(error.error_pct for error in build.errors if error.ingredient == "fructose")}
    counts = {
        marks: [(step.amount.tool, step.amount.count) for step in steps if step.amount]
        for marks, steps in doses.items()
    }
    assert counts == {"0.5": [("pump", 1), ("dropper", 3.5)], "5": [("pump", 2)]}
    assert doses["0.5"][1].text == "Measure 3½ ml of liquid fructose"
