"""The rules of the trade, each on a whole recipe, line and build.

Expected figures are common practice: rules of thumb of working bars, with no published source, so they are
held as plausibility checks. The recipe is that of one iced powder milk tea (``cases.T6``).
"""

from __future__ import annotations

import pytest

from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Refusal, ToppingChoice
from tests.recipes.cases import PANTRY, T6, bar, entry, steps_of


def test_the_powder_milk_tea_as_it_comes(powder_bar: Book) -> None:
    build = resolve(powder_bar, complete(powder_bar, "it"))
    assert steps_of(build) == (
        "1 scoop: 2 scoops Taro powder\n"
        "2 scoop: 2 scoops Creamer\n"
        "3 scoop: 2 strokes Liquid fructos\n"  # 14 ml are two strokes of 7 ml
        "4 scoop: 25 ml Hot water\n"
        "5 scoop: Stir 20-20 s\n"
        "6 tea: 100 ml Strong black t\n"
        "7 shake: 7 cubes Ice\n"
        "8 shake: Shake 30-60 s by itself\n"
        "9 seal: Seal"
    )


def test_tools_are_of_the_usual_size(demo: Book) -> None:
    assert 15 <= demo.tools["scoop"].unit_ml <= 21
    assert 5 <= demo.tools["pump"].unit_ml <= 10  # 7 is usual; a smaller stroke tells sugar levels apart
    assert demo.tools["shot"].unit_ml == pytest.approx(40, abs=5)
    assert demo.shot.crema_ml == pytest.approx(10, abs=3)


def test_the_melt_brings_the_drink_to_about_350_ml(powder_bar: Book) -> None:
    """Predicted liquid and what is left of the ice land near 350 ml: within ten per cent."""
    fill = resolve(powder_bar, complete(powder_bar, "it")).fill
    assert fill.filled_ml == pytest.approx(350, rel=0.10)


def test_most_of_what_brings_it_there_is_melt(powder_bar: Book) -> None:
    balance = resolve(powder_bar, complete(powder_bar, "it")).balance
    assert balance.melted_g > 0.6 * (balance.melted_g + balance.ice_left_g)
    assert balance.temperature_c == pytest.approx(0, abs=1)


def test_there_is_room_for_about_two_more_cubes_below_the_seal_line(powder_bar: Book) -> None:
    head = resolve(powder_bar, complete(powder_bar, "it")).fill.head_ml
    assert 1.5 <= head / powder_bar.tools["cube"].unit_ml < 3.5


def test_the_ice_comes_almost_to_the_top_of_a_350_ml_shaker(powder_bar: Book) -> None:
    """Liquid and whole ice fill it, and do not run over."""
    fill = resolve(powder_bar, complete(powder_bar, "it")).fill
    assert 0.9 * 350 <= fill.vessel_ml <= 350


def test_a_shot_stands_in_for_the_dissolving_water(powder_bar: Book) -> None:
    """Dropped, not added to; the powder is then stirred in at the espresso machine."""
    build = resolve(powder_bar, complete(powder_bar, "it", shots=1))
    assert steps_of(build) == (
        "1 scoop: 2 scoops Taro powder\n"
        "2 scoop: 2 scoops Creamer\n"
        "3 scoop: 2 strokes Liquid fructos\n"
        "4 espresso: 1 shot Espresso 25-30 s by itself\n"
        "5 espresso: Stir 20-20 s\n"
        "6 tea: 100 ml Strong black t\n"
        "7 shake: 7 cubes Ice\n"
        "8 shake: Shake 30-60 s by itself\n"
        "9 seal: Seal"
    )
    assert "pour it on the powder" in build.steps[3].text
    assert "hot_water" not in build.uses


def test_a_shot_adds_its_liquid_foam_and_caffeine(powder_bar: Book) -> None:
    plain = resolve(powder_bar, complete(powder_bar, "it"))
    shot = resolve(powder_bar, complete(powder_bar, "it", shots=1))
    before_melt = shot.fill.vessel_ml - plain.fill.vessel_ml
    assert before_melt == pytest.approx(40 - 25, abs=1.0)  # shot in, dissolving water out
    foam = [layer for layer in shot.fill.layers if layer.what == "foam"]
    assert [layer.volume_ml for layer in foam] == [10]
    assert shot.balance.caffeine_mg - plain.balance.caffeine_mg == pytest.approx(
        84.8
    )  # 40 g at 212 mg/100 g, SR28 14210


def test_tea_makes_way_for_a_shot_only_where_the_recipe_says_so(powder_bar: Book) -> None:
    gives_way = bar(T6.replace("hot = true", 'hot = true\nshot_replaces = "tea"'))
    pours = {
        name: [step.amount.count for step in build.steps if step.ingredient == "tea" and step.amount]
        for name, build in {
            "stays": resolve(powder_bar, complete(powder_bar, "it", shots=1)),
            "gives way": resolve(gives_way, complete(gives_way, "it", shots=1)),
        }.items()
    }
    assert pours == {"stays": [100], "gives way": [100 - (40 - 25)]}  # the other 25 ml are the water's


def test_toppings_come_first_and_the_seal_last(powder_bar: Book) -> None:
    toppings = [ToppingChoice("jelly", half=True), ToppingChoice("pearls")]
    build = resolve(powder_bar, complete(powder_bar, "it", shots=1, toppings=toppings))
    stations = [step.station for step in build.steps]
    assert stations == sorted(stations, key=list(powder_bar.stations).index)
    assert steps_of(build).splitlines()[:2] == ["1 toppings: 1 ladle Pearls", "2 toppings: ½ ladle Jelly"]
    assert stations[-1] == "seal"


def test_toppings_take_the_head_room_first(powder_bar: Book) -> None:
    plain = resolve(powder_bar, complete(powder_bar, "it"))
    jelly = resolve(powder_bar, complete(powder_bar, "it", toppings=[ToppingChoice("jelly")]))
    assert [step.amount for step in jelly.steps[1:]] == [step.amount for step in plain.steps]
    # 60 ml of the heap at 0.75 g/ml are 45 g, and at 1.02 g/ml take 44.1 ml of room.
    assert plain.fill.head_ml - jelly.fill.head_ml == pytest.approx(44.1, abs=3)


def test_then_the_whole_drink_shrinks_at_the_same_strength(powder_bar: Book) -> None:
    three = [ToppingChoice("jelly"), ToppingChoice("pearls"), ToppingChoice("popping")]
    build = resolve(powder_bar, complete(powder_bar, "it", toppings=three))
    plain = resolve(powder_bar, complete(powder_bar, "it"))
    assert build.fill.filled_ml <= 400
    assert build.balance.liquid_ml < plain.balance.liquid_ml
    # Tea per water: the same to within what half scoops, a jug read in 5 ml and whole cubes allow at the
    # pour, and what 20 °C warm toppings melt in the cup afterwards.
    assert all(abs(error.error_pct) <= 5 for error in build.errors if error.ingredient != "fructose")
    assert build.balance.caffeine_mg / build.balance.liquid_ml == pytest.approx(
        plain.balance.caffeine_mg / plain.balance.liquid_ml, rel=0.15
    )
    assert any("of its size" in note.words and "toppings take" in note.words for note in build.notes)


def test_what_leaves_too_little_drink_is_refused_with_what_would_fit() -> None:
    strict = bar(T6.replace("hot = true", 'hot = true\nleast_share = "95 %"'))
    three = [ToppingChoice("jelly"), ToppingChoice("pearls"), ToppingChoice("popping")]
    line = complete(strict, "it", size="small", toppings=three)
    with pytest.raises(Refusal) as refused:
        resolve(strict, line)
    assert (refused.value.code, refused.value.field) == ("too full", "toppings")
    assert refused.value.value == "jelly, pearls, popping"
    assert "less than 95 % of the drink would be left" in refused.value.message
    assert "size large" in refused.value.accepted
    for offered in refused.value.accepted:
        assert offered in refused.value.message


def test_without_a_rule_nothing_is_topped_up() -> None:
    start, end = T6.index("[top_up]"), T6.index("[[steps]]")
    book = bar(T6[:start] + T6[end:])
    build = resolve(book, complete(book, "it", ice="none"))
    assert "water" not in build.uses
    assert build.fill.filled_ml < 200


def test_hot_drops_ice_and_shaking_and_takes_the_same_scoops_with_more_hot_water(powder_bar: Book) -> None:
    """What melts of the iced drink is hot water here, poured with the dissolving water in one go."""
    iced = resolve(powder_bar, complete(powder_bar, "it"))
    build = resolve(powder_bar, complete(powder_bar, "it", ice="hot"))
    shorts = [(step.station, step.short) for step in build.steps]
    assert shorts == [
        ("scoop", "Taro powder"), ("scoop", "Creamer"), ("scoop", "Liquid fructos"), ("scoop", "Hot water"),
        ("scoop", "Stir"), ("tea", "Strong black t"), ("seal", "Seal"),
    ]  # fmt: skip
    assert [step.amount.count for step in build.steps[:3] if step.amount] == [2, 2, 2]
    water = next(step.amount for step in build.steps if step.short == "Hot water")
    assert water is not None
    # By mass what melted; a jug read in 5 ml steps of water at 0.965 g/ml.
    assert 0.965 * (water.count - 25) == pytest.approx(iced.balance.melted_g, abs=5)
    assert build.balance.temperature_c > 70
    assert build.steps[-1].caution == "Hot: can scald"
    assert build.cautions[0].words.startswith("Very hot: about")


def test_what_is_topped_up_is_stirred_in() -> None:
    stir = '[[steps]]\nstation = "tea"\ndo = "stir"\nwhen = "hot"\n[[steps]]\nstation = "shake"'
    urn = PANTRY + entry("urn_water", "Urn water", "liquid", "0.97", serving="85 °C")
    recipe = T6.replace('[[steps]]\nstation = "shake"', stir, 1).replace(
        'hot = "hot_water"', 'hot = "urn_water"'
    )
    book = bar(recipe, pantry=urn)
    build = resolve(book, complete(book, "it", ice="hot"))
    shorts = [step.short for step in build.steps]
    assert shorts[-4:] == ["Strong black t", "Urn water", "Stir", "Seal"]


def test_juice_filled_pearls_do_not_go_into_heat(powder_bar: Book) -> None:
    line = complete(powder_bar, "it", ice="hot", toppings=[ToppingChoice("popping")])
    with pytest.raises(Refusal, match="A hot drink cannot take popping pearls") as refused:
        resolve(powder_bar, line)
    assert (refused.value.field, refused.value.value) == ("toppings", "popping")
    assert refused.value.accepted == ("pearls", "jelly")


def test_tea_comes_from_the_fridge_without_ice_where_the_recipe_says_so() -> None:
    book = bar(T6.replace('what = "tea"', 'what = "tea"\ninstead = { none = "cold_tea" }'))
    assert "cold_tea" in resolve(book, complete(book, "it", ice="none")).uses
    assert "cold_tea" not in resolve(book, complete(book, "it", ice="less")).uses


def test_a_change_of_brand_is_one_figure_in_the_pantry(powder_bar: Book) -> None:
    """Same scoops, another mass: powders differ by maker, so every recipe follows the pantry."""
    heavier = bar(pantry=PANTRY.replace('density = "0.50 g/ml"', 'density = "0.60 g/ml"'))
    first = resolve(powder_bar, complete(powder_bar, "it")).steps[0].amount
    second = resolve(heavier, complete(heavier, "it")).steps[0].amount
    assert first is not None
    assert second is not None
    assert (first.count, first.mass_g) == (2, 18)
    assert second.count == 2
    assert second.mass_g == pytest.approx(21.6)


def test_shaking_takes_30_to_60_s_by_machine_everywhere_on_the_menu(demo: Book) -> None:
    for drink in demo.drinks.values():
        for step in drink.steps:
            if step.action == "shake" and step.duration is not None:
                assert 15 <= step.duration.low_s <= step.duration.high_s <= 60
                assert not step.duration.attended
