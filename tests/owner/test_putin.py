"""What comes and goes in a file stands where a person would put it, and leaves every comment in its place."""

from __future__ import annotations

import tomllib

import pytest

from recipes.reading.reader import parse_book, read_book
from service.bench.editing.edits import apply
from service.bench.wire import Edit, Scalar
from service.cli.books import DEMO

Value = Scalar | dict[str, Scalar] | None

TEXT = """# The shop.
name = "Bar"     # ours
# no more keys here

# Tools, by the window first.

# level it with the card
[tools.scoop]
holds = "20 ml"  # weighed in May
# was 18 ml

[tools.pump]
holds = "7 ml"

# Sugar levels.

[sugar]
0 = "none"
50 = "half"      # the usual
100 = "full"

# Ice levels.

[ice.none]
cubes = "0 %"
"""


def after(path: list[str | int], value: Value) -> str:
    return apply({"shop.toml": TEXT}, [Edit(file="shop.toml", path=path, value=value)])["shop.toml"]


def test_a_table_comes_after_the_last_of_its_kind_and_before_the_next_heading() -> None:
    assert after(["tools", "jug"], {"holds": "1 l"}) == TEXT.replace(
        'holds = "7 ml"\n', 'holds = "7 ml"\n\n[tools.jug]\nholds = "1 l"\n'
    )
    assert after(["ice", "less"], {"cubes": "50 %"}) == TEXT + '\n[ice.less]\ncubes = "50 %"\n'
    assert after(["cups", "small"], {"line": "1 l"}) == TEXT + '\n[cups.small]\nline = "1 l"\n'


def test_a_number_comes_in_its_order_and_other_keys_come_last() -> None:
    assert after(["sugar", "25"], "a quarter") == TEXT.replace("50 =", '25 = "a quarter"\n50 =')
    assert after(["sugar", "125"], "extra") == TEXT.replace('"full"\n', '"full"\n125 = "extra"\n')
    assert after(["tools", "scoop", "kind"], "scoop") == TEXT.replace(
        "# weighed in May\n", '# weighed in May\nkind = "scoop"\n'
    )
    assert after(["town"], "Nowhere") == TEXT.replace("# ours\n", '# ours\ntown = "Nowhere"\n')


def test_a_table_goes_with_its_own_comments_and_leaves_the_headings() -> None:
    scoop = TEXT[TEXT.index("# level it") : TEXT.index("[tools.pump]")]
    assert after(["tools", "scoop"], None) == TEXT.replace(scoop, "")
    assert after(["tools", "pump"], None) == TEXT.replace('[tools.pump]\nholds = "7 ml"\n\n', "")
    assert after(["ice", "none"], None) == TEXT.replace('\n\n[ice.none]\ncubes = "0 %"', "")


@pytest.mark.parametrize("file", ["shop.toml", "pantry.toml", "extras.toml"])
def test_every_table_of_the_demo_book_can_go_and_come_without_touching_another_line(file: str) -> None:
    texts = dict(read_book(DEMO).files)
    data = tomllib.loads(texts[file])
    tables = {"shop.toml": data.get("tools", {}), "pantry.toml": data, "extras.toml": data.get("milks", {})}
    above = {"shop.toml": ("tools",), "pantry.toml": (), "extras.toml": ("milks",)}[file]
    for id, values in tables[file].items():
        gone = apply(texts, [Edit(file=file, path=[*above, id], value=None)])[file]
        kept = tomllib.loads(gone)
        inner = kept[above[0]] if above else kept
        assert id not in inner
        assert {key: inner[key] for key in inner} == {
            key: held for key, held in tables[file].items() if key != id
        }
        written = {key: held if isinstance(held, list) else str(held) for key, held in values.items()}
        back = apply({**texts, file: gone}, [Edit(file=file, path=[*above, id], value=written)])[file]
        assert set(tomllib.loads(back)) == set(data)
        lost = [line for line in texts[file].splitlines() if line not in back.splitlines()]
        assert all("=" in line or line.startswith("#") for line in lost), lost
        assert "\n\n\n" not in back


def test_all_kinds_put_in_together_make_a_book() -> None:
    """Huge is 800/480 = 1⅔ of a medium cup, so that the shaker's 850 ml still take what it comes to there."""
    edits = [
        Edit(
            file="shop.toml",
            path=["sizes", "huge"],
            value={"name": "Huge", "line": "800 ml", "brim": "850 ml"},
        ),
        Edit(file="shop.toml", path=["sugar", "60"], value="some sugar"),
        Edit(file="shop.toml", path=["ice", "bit"], value={"name": "a little ice", "cubes": "50 %"}),
        Edit(file="drinks/taro_milk_tea.toml", path=["prices", "huge"], value="6.50"),
    ]
    before = dict(read_book(DEMO).files)
    book = parse_book(apply(before, edits))
    assert list(book.sugars) == sorted(book.sugars)
    assert book.drinks["taro_milk_tea"].prices["huge"] == 650
