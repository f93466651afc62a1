"""The order of the menu: families, drinks and levels stand as the owner wants, and builds stay the same."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from recipes.building.resolve import resolve
from recipes.proof.fingerprint import fingerprint
from recipes.reading.faults import BookRefused
from recipes.reading.reader import parse_book, read_book
from service.bench.editing.arrange import CannotArrange, arrange_named
from service.bench.editing.edits import EditRefused, apply
from service.bench.movers import movers
from service.bench.wire import Edit
from service.cli.books import DEMO
from service.learning.allergen_rows import sections
from tests.owner.bench import OwnersShop
from tests.proof.books import GOOD, SHOP, files

TEXT = """# The shop.

# Our headings.

# the sellers
[families.powder]
name = "Powder"   # since May
# once called Instant

[families.fruit]
name = "Fruit"
drinks = ["mango"]

# --- hot from here ---

[families.hot]
name = "Hot"

[sugar]
# none at all
0 = "no sugar"
50 = "half sugar"    # the favourite
100 = "full sugar"
"""


def named(id: str, name: str) -> str:
    return GOOD.replace('"Iced Tea"', f'"{name}"')


THREE = {
    "apple": named("apple", "Apple"),
    "berry": named("berry", "Berry"),
    "cherry": named("cherry", "Cherry"),
}


def listing(drinks: str) -> dict[str, str]:
    """The small bar with three drinks, its one family with a list of drinks."""
    texts = files(**THREE)
    texts["shop.toml"] = SHOP.replace('name = "All"\n', f'name = "All"\ndrinks = {drinks}\n')
    return texts


def test_families_are_moved_with_their_comments_and_what_stands_apart_stays() -> None:
    after = arrange_named(TEXT, ("families",), ["hot", "powder", "fruit"])
    assert after == TEXT.replace(
        """# the sellers
[families.powder]
name = "Powder"   # since May
# once called Instant

[families.fruit]
name = "Fruit"
drinks = ["mango"]

# --- hot from here ---

[families.hot]
name = "Hot"
""",
        """[families.hot]
name = "Hot"

# the sellers
[families.powder]
name = "Powder"   # since May
# once called Instant

# --- hot from here ---

[families.fruit]
name = "Fruit"
drinks = ["mango"]
""",
    )


def test_levels_are_moved_with_what_is_written_beside_them() -> None:
    after = arrange_named(TEXT, ("sugar",), ["100", "50"])
    sugar = '# none at all\n100 = "full sugar"\n50 = "half sugar"    # the favourite\n0 = "no sugar"\n'
    assert after.endswith(f"[sugar]\n{sugar}")
    assert list(tomllib.loads(after)["sugar"]) == ["100", "50", "0"]


DEMO_SHOP = (DEMO / "shop.toml").read_text("utf-8")


@given(some.data())
def test_any_order_says_the_same_and_the_first_order_brings_the_file_back(data: some.DataObject) -> None:
    table = data.draw(some.sampled_from(["families", "sizes", "ice", "sugar", "stations", "tools"]))
    before = tomllib.loads(DEMO_SHOP)
    ids = list(before[table])
    order = data.draw(some.permutations(ids))
    after = arrange_named(DEMO_SHOP, (table,), order)
    assert tomllib.loads(after) == before
    assert list(tomllib.loads(after)[table]) == order
    assert arrange_named(after, (table,), ids) == DEMO_SHOP


@pytest.mark.parametrize(
    ("text", "order"),
    [
        (TEXT, ["hot", "cold"]),
        (TEXT, ["hot", "hot"]),
        ('families = { a = { name = "A" }, b = { name = "B" } }\n', ["b"]),
        ('[families]\na = """\nlong"""\nb = "short"\n', ["b", "a"]),
    ],
)
def test_what_cannot_be_moved_is_refused_and_not_torn(text: str, order: list[str]) -> None:
    with pytest.raises(CannotArrange):
        arrange_named(text, ("families",), order)


def test_drinks_stand_as_listed_and_the_others_follow_by_their_files() -> None:
    assert [*parse_book(files(**THREE)).drinks] == ["apple", "berry", "cherry"]
    assert [*parse_book(listing('["cherry"]')).drinks] == ["cherry", "apple", "berry"]
    assert [*parse_book(listing('["cherry", "berry", "apple"]')).drinks] == ["cherry", "berry", "apple"]
    assert [*parse_book(listing("[]")).drinks] == ["apple", "berry", "cherry"]


@pytest.mark.parametrize(
    ("drinks", "words"),
    [
        ('["cherry", "chery"]', "did you mean cherry?"),
        ('["cherry", "cherry"]', "twice"),
        ('"cherry"', "a list of any of apple, berry, cherry"),
    ],
)
def test_a_wrong_list_is_a_fault_at_its_line(drinks: str, words: str) -> None:
    texts = listing(drinks)
    with pytest.raises(BookRefused) as refused:
        parse_book(texts)
    (fault,) = refused.value.faults
    lines = texts["shop.toml"].split("\n")
    assert (fault.file, fault.key, lines[fault.line - 1]) == (
        "shop.toml", "families.all.drinks", f"drinks = {drinks}",
    )  # fmt: skip
    assert words in fault.message


def test_the_order_changes_no_build_and_needs_no_new_proof() -> None:
    before = read_book(DEMO)
    menu = list(before.families)[::-1]
    fruit = [id for id, drink in before.drinks.items() if drink.family == "fruit"]
    edits = [
        Edit(file="shop.toml", path=["families"], value=menu),
        Edit(file="shop.toml", path=["families", "fruit", "drinks"], value=[*reversed(fruit)]),
    ]
    after = parse_book(apply(before.files, edits))
    assert [*after.families] == menu
    assert [id for id, drink in after.drinks.items() if drink.family == "fruit"] == [*reversed(fruit)]
    assert [section.name for section in sections(after)][: len(menu)] == [
        before.families[id].name for id in menu
    ]
    assert movers(before, after) == []
    for id, drink in before.drinks.items():
        assert fingerprint(before, id) == fingerprint(after, id)
        old, new = resolve(before, drink.default), resolve(after, drink.default)
        assert (old.steps, old.balance, old.fill) == (new.steps, new.balance, new.fill)


def test_a_drink_that_goes_leaves_the_list_and_one_of_another_family_as_well() -> None:
    texts = listing('["cherry", "berry"]')
    texts["shop.toml"] += '\n[families.more]\nname = "More"\n'
    gone = apply(texts, [Edit(file="drinks/cherry.toml", path=[], value=None)])
    assert [*parse_book(gone).drinks] == ["berry", "apple"]
    moved = apply(texts, [Edit(file="drinks/berry.toml", path=["family"], value="more")])
    assert parse_book(moved).families["all"].drinks == ("cherry",)
    assert [*parse_book(moved).drinks] == ["cherry", "apple", "berry"]
    both = [Edit(file=f"drinks/{id}.toml", path=[], value=None) for id in ("cherry", "berry")]
    assert "drinks =" not in apply(texts, both)["shop.toml"]


def test_an_order_of_ids_that_are_not_there_names_the_key() -> None:
    with pytest.raises(EditRefused) as refused:
        apply(files(iced=GOOD), [Edit(file="shop.toml", path=["sizes"], value=["large", "huge"])])
    assert (refused.value.fault.file, refused.value.fault.key) == ("shop.toml", "sizes")
    assert "small, large" in refused.value.fault.message


def test_the_register_has_the_order_as_soon_as_it_is_saved(tmp_path: Path) -> None:
    shop = OwnersShop(tmp_path, None, **THREE)
    try:
        assert shop.wait_proved(shop.desk.fold.state.book or "")
        edits = [{"file": "shop.toml", "path": ["families", "all", "drinks"], "value": ["cherry", "apple"]}]
        base = shop.get("/api/owner/book")["version"]
        saved = shop.send("/api/owner/save", {"edits": edits, "note": "best first", "base_version": base})
        assert saved["state"] == "open", "nothing is to be proved anew"
        assert [drink["id"] for drink in shop.get("/api/menu")["drinks"]] == ["cherry", "apple", "berry"]
        options = shop.get("/api/owner/book")["sources"]
        drinks = next(source for source in options if source["name"] == "drinks")["options"]
        assert {"value": "cherry", "name": "Cherry"} in drinks
    finally:
        shop.close()
