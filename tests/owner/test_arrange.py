"""Tables of a list in another order: each keeps its comments and bytes; what stands apart stays put."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as some

from recipes.reading.reader import parse_book, read_book
from service.bench.editing.arrange import CannotArrange, arrange
from service.bench.editing.edits import EditRefused, apply
from service.bench.wire import Edit
from service.cli.books import DEMO
from tests.proof.books import GOOD, files

ICED = "drinks/iced.toml"
TEXT = """name = "Tea"   # the drink

# What hands do, in the order of the counter:

# first the powder
[[steps]]   # by the window
do = "scoop"          # level
amount = "2 scoops"
# was 3 before May

# --- from here on wet ---

[[steps]]
do = "pour"
words = '''
[[steps]] is only words here
'''
[steps.instead]
none = "cold"   # from the fridge

[[steps]]
do = "stir"
tools = [
  "a",
]

[after]
key = 1
"""
POWDER = """# first the powder
[[steps]]   # by the window
do = "scoop"          # level
amount = "2 scoops"
# was 3 before May"""
POUR = TEXT[TEXT.index('[[steps]]\ndo = "pour"') : TEXT.index('\n\n[[steps]]\ndo = "stir"')]
STIR = TEXT[TEXT.index('[[steps]]\ndo = "stir"') : TEXT.index("\n\n[after]")]


def steps(text: str) -> list[Any]:
    return list(tomllib.loads(text).get("steps", []))


def test_a_table_moves_with_its_comments_and_nothing_else_does() -> None:
    """Written out by hand: the heading in the middle stays between the first and the second place."""
    assert arrange(TEXT, ("steps",), [1, 0, 2]) == (
        TEXT.replace(POWDER, "@").replace(POUR, POWDER).replace("@", POUR)
    )
    assert arrange(TEXT, ("steps",), [2, 1, 0]) == (
        TEXT.replace(POWDER, "@").replace(STIR, POWDER).replace("@", STIR)
    )


def test_the_order_as_it_is_changes_no_byte() -> None:
    assert arrange(TEXT, ("steps",), [0, 1, 2]) == TEXT
    for text in RECIPES:
        assert arrange(text, ("steps",), range(len(steps(text)))) == text


def test_a_heading_stays_where_it_stood_when_a_table_comes_or_goes_before_it() -> None:
    new = "[[steps]]\ndo = 'lid'"
    assert arrange(TEXT, ("steps",), [new, 0, 1, 2]) == TEXT.replace(POWDER, f"{new}\n\n{POWDER}")
    assert arrange(TEXT, ("steps",), [0, new, 1, 2]) == TEXT.replace(POWDER, f"{POWDER}\n\n{new}")
    assert arrange(TEXT, ("steps",), [1, 2]) == TEXT.replace(f"{POWDER}\n\n", "")


def test_what_is_put_in_stands_after_a_blank_line_and_what_is_taken_out_leaves_one() -> None:
    more = arrange(GOOD, ("steps",), [0, '[[steps]]\ndo = "stir"\n', 1, 2, 3])
    assert more == GOOD.replace(
        '[[steps]]\nstation = "bar"\ndo = "pour"',
        '[[steps]]\ndo = "stir"\n\n[[steps]]\nstation = "bar"\ndo = "pour"',
    )
    last = arrange(GOOD, ("steps",), [0, 1, 2, 3, '[[steps]]\ndo = "stir"\n'])
    assert last == GOOD + '\n[[steps]]\ndo = "stir"\n'
    ice = '[[steps]]\nstation = "bar"\ndo = "ice"\nwhat = "ice"\namount = "3 cubes"\n\n'
    assert arrange(GOOD, ("steps",), [0, 1, 3]) == GOOD.replace(ice, "")
    assert arrange(GOOD, ("steps",), []) == GOOD[: GOOD.index("[[steps]]")].rstrip("\n") + "\n"
    assert arrange("name = 1\n", ("steps",), ["[[steps]]\na = 1"]) == "name = 1\n\n[[steps]]\na = 1\n"


RECIPES = [TEXT, *(text for file, text in read_book(DEMO).files.items() if file.startswith("drinks/"))]


@given(some.data())
def test_any_order_is_that_of_a_plain_list(data: some.DataObject) -> None:
    """Over the demo's recipes and the text above: moved, taken out, put in; what stays, stays once."""
    text = data.draw(some.sampled_from(RECIPES))
    before = steps(text)
    places = data.draw(some.permutations(range(len(before))))
    kept = places[: data.draw(some.integers(0, len(places)))]
    order: list[int | str] = list(kept)
    for number in range(data.draw(some.integers(0, 3))):
        order.insert(data.draw(some.integers(0, len(order))), f'[[steps]]\ndo = "new {number}"\n')
    after = arrange(text, ("steps",), order)
    wanted = [before[one] if isinstance(one, int) else tomllib.loads(one)["steps"][0] for one in order]
    assert steps(after) == wanted
    rest = {key: value for key, value in tomllib.loads(text).items() if key != "steps"}
    assert {key: value for key, value in tomllib.loads(after).items() if key != "steps"} == rest
    assert "\n\n\n" not in after
    assert after.endswith("\n")
    comments = [line for line in text.splitlines() if line.startswith("#")]
    if len(kept) == len(before):
        assert sorted(line for line in after.splitlines() if line.startswith("#")) == sorted(comments)
        assert arrange(after, ("steps",), [order.index(place) for place in range(len(before))]) == text


@pytest.mark.parametrize("order", [[0, 0], [3], [-1]])
def test_an_order_that_does_not_fit_is_refused(order: list[int]) -> None:
    with pytest.raises(CannotArrange, match="from 0 to 2"):
        arrange(TEXT, ("steps",), order)


def test_a_list_that_is_not_written_with_headers_is_refused() -> None:
    with pytest.raises(CannotArrange, match=r"\[\[steps\]\]"):
        arrange("steps = [{ do = 1 }]\n", ("steps",), [0])


def test_a_moved_step_is_edited_where_it_stands_then() -> None:
    """As a display sends it: the order first, then keys by their new places."""
    poured = {"station": "bar", "do": "pour", "what": "tea", "amount": "10 ml"}
    edits = [
        Edit(file=ICED, path=["steps"], value=[1, poured, 0, 3]),
        Edit(file=ICED, path=["steps", 0, "amount"], value="90 ml"),
        Edit(file=ICED, path=["steps", 1, "instead", "none"], value="cold_tea"),
        Edit(file=ICED, path=["steps", 2, "amount"], value="7 ml"),
    ]
    after = apply(files(iced=GOOD), edits)
    made = parse_book(after).drinks["iced"].steps
    assert [(step.action, step.ingredient) for step in made] == [
        ("pour", "cold_tea"), ("pour", "tea"), ("pump", "syrup"), ("seal", None),
    ]  # fmt: skip
    amounts = [step.written("small", False) for step in made]
    assert [amount.ml for amount in amounts if amount] == [90, 10, 7]
    assert made[1].instead == {"none": "cold_tea"}


@pytest.mark.parametrize(
    ("path", "order"), [(["steps"], [9]), (["name"], [0]), (["prices"], [0]), (["steps", 0], [0])]
)
def test_an_order_for_what_is_no_list_names_the_key(path: list[str | int], order: list[int]) -> None:
    with pytest.raises(EditRefused) as refused:
        apply(files(iced=GOOD), [Edit(file=ICED, path=path, value=order)])
    assert refused.value.fault.file == ICED
    assert refused.value.fault.key.startswith(str(path[0]))
