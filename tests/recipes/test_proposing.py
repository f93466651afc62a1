"""Amounts proposed for other sizes: proportion and its error by arithmetic, and never over the seal line."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from recipes.book import Book, Drink, Tool
from recipes.building.resolve import resolve
from recipes.hands import Hands
from recipes.model import HOT, Line
from recipes.reading.reader import parse_book
from recipes.tuning.proposing import Proposal, follows, offers, proposals, told
from tests.recipes.cases import EXTRAS, PANTRY, SHOP

CUPS = (("small", 300, 350), ("medium", 400, 500), ("large", 600, 700))
"""Cups of 350, 500 and 700 ml in place of the test bar's; brims 40 ml above."""

DRINK = """
name = "Taro"
family = "all"
about = "Powder, syrup, tea, ice."
size = "small"
hot = true
vessel = "shaker"

[prices]
small = 4
medium = 5
large = 6

[usual]
size = "small"
sugar = 100
ice = "regular"

[[steps]]
station = "scoop"
do = "scoop"
what = "powder"
amount = "2 scoops"

[[steps]]
station = "scoop"
do = "pump"
what = "fructose"
amount = "4 strokes"
role = "sweetener"

[[steps]]
station = "espresso"
do = "pull"
what = "espresso"
amount = "1 shot"

[[steps]]
station = "tea"
do = "pour"
what = "cold_tea"
amount = { small = "100 ml", medium = "140 ml" }
hot = "140 ml"

[[steps]]
station = "shake"
do = "ice"
what = "ice"
amount = "3 cubes"
"""


def bar(drink: str = DRINK, vessel: str = "1200") -> Book:
    """The test bar with those cups, a 20 ml scoop and 30 ml shots."""
    shop = SHOP.replace('holds = "18 ml"', 'holds = "20 ml"').replace('holds = "40 ml"', 'holds = "30 ml"')
    shop = shop.replace('holds = "700 ml"', f'holds = "{vessel} ml"')
    for size, line, ml in CUPS:
        cup = re.compile(rf'(\[sizes\.{size}\]\nname = "\w+"\n)line = "{line} ml"\nbrim = "\d+ ml"')
        shop, count = cup.subn(rf'\1line = "{ml} ml"\nbrim = "{ml + 40} ml"', shop)
        assert count == 1
    texts = {"shop.toml": shop, "pantry.toml": PANTRY, "extras.toml": EXTRAS, "drinks/taro.toml": drink}
    return parse_book(texts)


def at(found: list[Proposal], ingredient: str, size: str, hot: bool = False) -> Proposal:
    [one] = [each for each in found if (each.ingredient, each.size, each.hot) == (ingredient, size, hot)]
    return one


def test_two_scoops_at_350_ml_are_three_and_four_at_500_and_700() -> None:
    """2 x 500/350 = 2.857 and 2 x 700/350 = 4; three for 2.857 is 3/2.857 - 1 = +5 %."""
    found = proposals(bar(), "taro")
    medium, large = at(found, "powder", "medium"), at(found, "powder", "large")
    assert (medium.wanted, medium.best.text) == ("2.86 scoops", "3 scoops")
    assert medium.best.error_pct == pytest.approx(5.0)
    assert (large.wanted, large.best.text, large.best.error_pct) == ("4 scoops", "4 scoops", 0)
    # The next are half a scoop away: 2.5/2.857 = -12.5 %, 3.5/2.857 = +22.5 %; and 2 scoops, -30 %.
    others = {each.text: each.error_pct for each in medium.others}
    assert others["2½ scoops"] == pytest.approx(-12.5)
    assert len(others) == 3


def test_seconds_are_those_of_the_hands() -> None:
    """Three level scoops at 3.6 s; two and one halved with its trims (4.2 s); 6 strokes after one reach."""
    hands, found = Hands(), proposals(bar(), "taro")
    powder = at(found, "powder", "medium")
    assert powder.best.seconds == pytest.approx(3 * 3.6)
    half = next(each for each in powder.others if each.text == "2½ scoops")
    assert half.seconds == pytest.approx(2 * 3.6 + 4.2)
    # 4 x 500/350 = 5.71 strokes.
    syrup = at(found, "fructose", "medium")
    assert (syrup.wanted, syrup.best.text) == ("5.71 strokes", "6 strokes")
    assert syrup.best.seconds == pytest.approx(hands.pump + 6 * hands.stroke)


def test_shots_come_whole() -> None:
    """30 ml shots of 1, 1, 2 in 350, 500 and 700 ml are 30/3.5, 30/5 and 60/7 ml in 100 ml."""
    found = proposals(bar(), "taro")
    texts = ["1 shot", *(at(found, "espresso", size).best.text for size in ("medium", "large"))]
    assert texts == ["1 shot", "1 shot", "2 shots"]
    per_100 = [30 * int(text.split()[0]) / ml * 100 for text, (_, _, ml) in zip(texts, CUPS, strict=True)]
    assert per_100 == pytest.approx([8.571, 6.0, 8.571], abs=1e-3)
    # 1 for 1.43 is 1/1.4286 - 1 = -30 %; 2 would be +40 %.
    medium = at(found, "espresso", "medium")
    assert medium.best.error_pct == pytest.approx(-30)
    assert next((each.text, round(each.error_pct)) for each in medium.others) == ("2 shots", 40)


def test_26_grams_with_a_scoop_of_8_are_three_scoops() -> None:
    """26/8 = 3.25: three are 24 g, 24/26 - 1 = -7.7 %; 3.5 would be 28 g, +7.7 %, and a half to trim."""
    book = bar()
    scoop = replace(book.tools["scoop"], unit_ml=16.0)  # 8 g at 0.50 g/ml
    best, second, *_ = offers(book, scoop, 26 / 0.50)
    assert (best.text, second.text) == ("3 scoops", "3½ scoops")
    assert best.error_pct == pytest.approx(-7.69, abs=0.01)
    assert second.error_pct == pytest.approx(7.69, abs=0.01)


def test_of_two_as_near_the_larger_comes_first() -> None:
    """7.5 strokes: 7 is 7/7.5 - 1 = -6.67 %, 8 is +6.67 %; a drink a little sweeter than one too weak."""
    best, second, *_ = offers(bar(), bar().tools["pump"], 7.5 * 7)
    assert (best.text, second.text) == ("8 strokes", "7 strokes")


def test_what_is_written_is_not_proposed_unless_asked_anew() -> None:
    book = bar()
    first = {(each.step, each.size, each.hot) for each in proposals(book, "taro")}
    assert (3, "medium", False) not in first
    assert {(3, "large", False), (3, "medium", True), (3, "large", True)} <= first
    assert {size for _, size, _ in first} == {"medium", "large"}
    assert {place for place, _, hot in first if hot} == {3}, "hot where hot is written"
    anew = at(proposals(book, "taro", anew=True), "cold_tea", "medium")
    assert anew.written is not None
    # 100 x 500/350 = 142.86 ml, 145 at the jug's marks of 5 ml: 145/142.86 - 1 = 1.5 %.
    assert (anew.written.ml, anew.wanted, anew.best.text) == (140, "142.9 ml", "145 ml")
    assert anew.best.error_pct == pytest.approx(1.5)


def test_sugar_levels_that_come_to_the_same_are_told() -> None:
    """Of 6 strokes 50 % are 3 and 125 % are 7.5, so 8. Of 1 stroke 50 % is 0.5, up to 1, and 125 % is 1."""
    book = bar()
    pump, sugars = book.tools["pump"], (0, 50, 100, 125)
    by_text = {each.text: each.alike for each in offers(book, pump, 6 * 7.0, sugars)}
    assert by_text["6 strokes"] == ()
    assert {each.text: each.alike for each in offers(book, pump, 7.0, sugars)}["1 stroke"] == (
        (50, 100, 125),
    )


def test_readings_stand_at_marks_and_go_by_the_jug_above_the_jigger() -> None:
    """60 ml of jigger, and what is more by the jug, both at marks of 5: 86 ml are 85 or 90."""
    book = bar()
    jigger = Tool("jigger", "jigger", "jigger", "ml", "ml", 1.0, book.tools["jug"].smallest, 60.0, 5.0)
    assert [each.text for each in offers(book, jigger, 43.0)][:2] == ["45 ml", "40 ml"]
    above = offers(book, jigger, 86.0)
    assert (above[0].text, above[0].tool) == ("85 ml", "jug")
    assert all((each.ml <= 60) == (each.tool == "jigger") for each in above)


def plain(book: Book, drink: Drink, size: str, ice: str) -> Line:
    return replace(drink.default, size=size, ice=ice)


def written(drink: str, found: list[Proposal]) -> str:
    """The drink's file with every proposal written by size."""
    head, *steps = drink.split("[[steps]]\n")
    for place, text in enumerate(steps):
        mine = [each for each in found if each.step == place and not each.hot]
        if mine:
            cells = "".join(f', {each.size} = "{each.best.text}"' for each in mine)
            one = re.sub(r"amount = \{ (.*) \}", rf"amount = {{ \1{cells} }}", text)
            steps[place] = re.sub(r'amount = ("[^"]*")', rf"amount = {{ small = \1{cells} }}", one)
        warm = [each for each in found if each.step == place and each.hot]
        if warm:
            cells = "".join(f', {each.size} = "{each.best.text}"' for each in warm)
            steps[place] = re.sub(r'hot = ("[^"]*")', rf"hot = {{ small = \1{cells} }}", steps[place])
    return "[[steps]]\n".join([head, *steps])


def test_what_is_proposed_is_read_and_made_to_the_letter_under_the_seal_line() -> None:
    book = bar()
    after = bar(written(DRINK, proposals(book, "taro")))
    drink = after.drinks["taro"]
    for size in ("medium", "large"):
        assert all(size in step.by_size for step in drink.steps)
        for ice in ("regular", HOT):
            build = resolve(after, plain(after, drink, size, ice))
            assert build.fill.filled_ml <= build.fill.line_ml
            assert build.score == 0, "obeyed to the letter"


def test_what_would_pass_a_limit_is_lowered() -> None:
    """2 ladles of 60 ml and no more, in 500 ml: 171.4 ml, which a vessel of 175 ml takes. Nearest are 3
    ladles, 180 ml (+5 %), which it does not; 2½ are 150 ml (-12.5 %).
    """
    head, *steps = DRINK.replace("large = 6\n", "").replace("hot = true\n", "").split("[[steps]]\n")
    cells = re.compile(r'amount = \{.*\}\nhot = "140 ml"')
    drink = "[[steps]]\n".join([head, cells.sub('amount = "2 ladles"', steps[3])])
    [roomy] = proposals(bar(drink), "taro")
    assert (roomy.best.text, roomy.lowered) == ("3 ladles", False)
    assert roomy.best.error_pct == pytest.approx(5.0)
    [tight] = found = proposals(bar(drink, vessel="175"), "taro")
    assert (tight.best.text, tight.lowered) == ("2½ ladles", True)
    assert tight.best.error_pct == pytest.approx(-12.5)
    assert all(other.ml < 150 for other in tight.others), "no alternative passes the limit either"
    after = bar(written(drink, found), vessel="175")
    build = resolve(after, plain(after, after.drinks["taro"], "medium", "regular"))
    assert build.fill.vessel_ml <= build.fill.vessel_limit_ml == 175
    assert build.score == 0


def test_following_is_exact_and_told_in_the_tools_words() -> None:
    book = bar()
    drink = book.drinks["taro"]
    exact = follows(book, drink, drink.steps[0], "medium", hot=False)
    assert exact is not None
    assert exact.ml == pytest.approx(40 * 500 / 350)
    assert told(book.tools["scoop"], exact.ml) == "2.86 scoops"
    assert told(book.tools["jug"], 171.43) == "171.4 ml"
