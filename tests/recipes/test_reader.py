"""Books that are refused: each row changes one thing in a good book and names the fault it must bring."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from recipes.book import Floor
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.reader import MOST_BYTES, MOST_FILES, parse_book, read_book, version
from tests.recipes.cases import DEMO, EXTRAS, HEAD, PANTRY, SHOP, T6, bar, files


def faults_of(changed: dict[str, str]) -> tuple[Fault, ...]:
    """The faults that reading these files brings; none when they are good."""
    try:
        parse_book(changed)
    except BookRefused as refused:
        return refused.faults
    return ()


def line_with(text: str, part: str) -> int:
    """The line of ``text`` (from 1) that holds ``part``."""
    return next(number for number, line in enumerate(text.splitlines(), 1) if part in line)


def test_a_good_book_is_read() -> None:
    assert faults_of(files()) == ()


ALL = '[families.all]\nname = "All"\n'
"""The end of the shop's file, where a table can be added."""

# file, what is replaced, by what, the key at fault, and words the message must hold.
ONE_CHANGE = [
    ("shop.toml", 'currency = "EUR"', 'currency = "EURO"', "shop.currency", "did you mean EUR?"),
    ("shop.toml", 'time_zone = "Europe/Lisbon"', 'time_zone = "Lisbon"', "shop.time_zone", "IANA"),
    ("shop.toml", 'day_starts = "04:00"', 'day_starts = "24:00"', "shop.day_starts", '"04:00"'),
    ("shop.toml", 'percent = "10 %"', 'percent = "110 %"', "tax.percent", "from 0 to 100"),
    ("shop.toml", 'percent = "10 %"', "percent = 10", "tax.percent", 'text such as "10 %"'),
    ("shop.toml", 'rounded = "order"', 'rounded = "never"', "tax.rounded", "order, line"),
    ("shop.toml", 'holds = "18 ml"', 'holds = "-18 ml"', "tools.scoop.holds", "not a number and a unit"),
    (
        "shop.toml",
        'holds = "18 ml"',
        'holds = "18 pints"',
        "tools.scoop.holds",
        "'pints' is not one of the units",
    ),
    ("shop.toml", 'holds = "18 ml"', "holds = nan", "tools.scoop.holds", "accepted: text such as"),
    ("shop.toml", 'holds = "18 ml"', "holds = inf", "tools.scoop.holds", "accepted: text such as"),
    ("shop.toml", 'holds = "18 ml"', 'holds = "9000 l"', "tools.scoop.holds", "from 0.5 to 250"),
    ("shop.toml", 'kind = "jug"', 'kind = "jug"\nholds = "0.5 ml"', "tools.jug.holds", "from 20 to 2000"),
    ("shop.toml", 'kind = "jug"', 'kind = "bucket"', "tools.jug.kind", "scoop, pump, jigger"),
    ("shop.toml", 'brim = "330 ml"', 'brim = "200 ml"', "sizes.small.brim", "below the seal line"),
    ("shop.toml", 'name = "Small"', 'name = "Medium"', "sizes.medium.name", "is the name of small already"),
    ("shop.toml", 'name = "Small"', 'name = ""', "sizes.small.name", "text in quotes"),
    ("shop.toml", '50 = "half sugar"', 'some = "half sugar"', "sugar.some", "per cents from 0 to 500"),
    ("shop.toml", 'cubes = "100 %"', 'cubes = "99 %"', "ice", "the regular one"),
    ("shop.toml", "[families.all]", "[Families.all]", "Families", "is not a key here"),
    ("shop.toml", "[stations.tea]\nname", "[stations.tea]\nnaem", "stations.tea.naem", "did you mean name?"),
    (
        "shop.toml",
        'tolerance = "10 %"',
        'tolerance = "10 %"\nlimit = "5 %"',
        "shop.limit",
        "further off than what is told",
    ),
    ("shop.toml", 'tolerance = "10 %"', 'tolerance = "10 %"\nenergy = "UK"', "shop.energy", "EU, US"),
    ("shop.toml", ALL, ALL + '[taste]\nfill = "-1"', "taste.fill", "not a number"),
    ("shop.toml", ALL, ALL + "[taste]\nfill = nan", "taste.fill", "accepted: text such as"),
    ("shop.toml", ALL, ALL + '[taste]\nfill = "0"', "taste", "must weigh something"),
    ("shop.toml", ALL, ALL + '[taste]\nluck = "1"', "taste.luck", "is not a key here"),
    ("shop.toml", ALL, ALL + '[floor]\nsoon = "5"', "floor.soon", "not a number and a unit"),
    ("shop.toml", ALL, ALL + '[floor]\nsoon = "5 ml"', "floor.soon", "one of the units s, min, h"),
    ("shop.toml", ALL, ALL + '[floor]\nlate = "5 h"', "floor.late", "from 30 to 14400"),
    ("shop.toml", ALL, ALL + '[floor]\nlate = "5 min"', "floor.late", "no later than soon (5 min)"),
    ("shop.toml", ALL, ALL + '[floor]\nbump = "last tuch"', "floor.bump", "did you mean last touch?"),
    ("shop.toml", ALL, ALL + "[floor]\nboard_keeps = 10", "floor.board_keeps", 'text such as "10 min"'),
    (
        "shop.toml",
        ALL,
        ALL + '[floor]\nboard = "10 min"',
        "floor.board",
        "accepted: soon, late, bump, board_keeps",
    ),
    (
        "extras.toml",
        'crema = "10 ml"',
        'crema = "10 ml"\ncollapse = "101 %"',
        "shot.collapse",
        "from 0 to 100",
    ),
    (
        "pantry.toml",
        'sugars = "40 %"',
        'sugars = "40 %"\nfiner = ["tweezers"]',
        "powder.finer",
        "scoop, pump",
    ),
    (
        "pantry.toml",
        'sugars = "40 %"',
        'sugars = "40 %"\ncarbohydrate = "30 %"',
        "powder.carbohydrate",
        "40.0% sugars",
    ),
    (
        "pantry.toml",
        'dry = "96 %"',
        'carbohydrate = "70 %"\nfat = "40 %"\ndry = "96 %"',
        "powder.dry",
        "110.0% of components",
    ),
    ("pantry.toml", 'density = "0.50 g/ml"', 'density = "0.50"', "powder.density", "a number and a unit"),
    ("pantry.toml", 'density = "0.50 g/ml"', 'density = "50 g/ml"', "powder.density", "from 0.1 to 1.5"),
    ("pantry.toml", 'sugars = "40 %"', 'sugars = "98 %"', "powder.sugars", "more than 96% dry matter"),
    ("pantry.toml", "1680 kJ/400 kcal", "400 kJ/1680 kcal", "powder.energy", "do not agree"),
    ("pantry.toml", '["oats"]', '["gluten"]', "oat.allergens", "oats"),
    ("pantry.toml", '["oats"]', '["oats", "oats"]', "oat.allergens", "twice"),
    ("pantry.toml", 'price = "1 EUR/kg"', 'price = "1 USD/kg"', "powder.price", "EUR/kg"),
    ("pantry.toml", 'name = "Jelly"', 'name = "Pearls"', "jelly.name", "is the name of pearls already"),
    ("pantry.toml", 'kind = "powder"', 'kind = "dust"', "powder.kind", "powder, syrup, liquid"),
    ("pantry.toml", "[hot_water]", "[Hot-Water]", "Hot-Water", "is not an id"),
    (
        "extras.toml",
        'ingredient = "jelly"',
        'ingredient = "gelly"',
        "toppings.choices.jelly.ingredient",
        "jelly?",
    ),
    (
        "extras.toml",
        'portion = "1 ladle"',
        'portion = "0 ladles"',
        "toppings.choices.pearls.portion",
        "above nothing",
    ),
    ("extras.toml", "price = 0.65", "price = 0.655", "toppings.choices.pearls.price", "at most 2 decimals"),
    ("extras.toml", "price = 0.65", "price = -1", "toppings.choices.pearls.price", "from 0 to 10000 EUR"),
    ("extras.toml", "price = 0.65", "price = -4.80", "toppings.choices.pearls.price", "is -4.80; accepted"),
    (
        "extras.toml",
        "price = 0.65",
        "price = [true, 1.5]",
        "toppings.choices.pearls.price",
        "is [true, 1.5];",
    ),
    ("extras.toml", "most = 3", "most = 1e400", "toppings.most", "is 1E+400; accepted: a whole number"),
    ("extras.toml", "price = 0.65", "price = 1e400", "toppings.choices.pearls.price", "from 0 to 10000 EUR"),
    ("extras.toml", "price = 0.65", "price = 1e-400", "toppings.choices.pearls.price", "at most 2 decimals"),
    ("extras.toml", "price = 0.65", "price = inf", "toppings.choices.pearls.price", "from 0 to 10000 EUR"),
    ("extras.toml", "price = 0.65", "price = nan", "toppings.choices.pearls.price", "from 0 to 10000 EUR"),
    (
        "extras.toml",
        'station = "toppings"',
        'station = "roof"',
        "toppings.station",
        "toppings, scoop, espresso",
    ),
    ("extras.toml", "most = 3", "most = true", "toppings.most", "a whole number"),
    ("drinks/it.toml", 'family = "all"', 'family = "none"', "family", "accepted: all"),
    ("drinks/it.toml", 'size = "medium"', 'size = "huge"', "size", "small, medium, large"),
    ("drinks/it.toml", "sugar = 100", "sugar = 33", "usual.sugar", "0, 50, 100, 125"),
    ("drinks/it.toml", 'ice = "regular"', 'ice = "lots"', "usual.ice", "none, less, regular"),
    (
        "drinks/it.toml",
        'amount = "2 scoops"',
        'amount = "2 scops"',
        "steps.1.amount",
        "not a measure of this bar",
    ),
    ("drinks/it.toml", 'amount = "2 scoops"', 'amount = "900 scoops"', "steps.1.amount", "up to 2 l"),
    ("drinks/it.toml", 'amount = "2 scoops"', "amount = 2", "steps.1.amount", "text in quotes"),
    (
        "drinks/it.toml",
        'amount = "2 scoops"',
        'amount = "many scoops"',
        "steps.1.amount",
        "a number and a unit",
    ),
    ("drinks/it.toml", 'what = "powder"', 'what = "powdr"', "steps.1.what", "did you mean powder?"),
    ("drinks/it.toml", 'station = "scoop"', 'station = "scop"', "steps.1.station", "did you mean scoop?"),
    ("drinks/it.toml", 'station = "shake"', 'station = "toppings"', "steps.7.station", "lies before 'tea'"),
    ("drinks/it.toml", 'time = "30 to 60 s"', 'time = "60 to 30 s"', "steps.8.time", "starts above its end"),
    ("drinks/it.toml", 'role = "sweetener"', 'role = "sweet"', "steps.3.role", "did you mean sweetener?"),
    ("drinks/it.toml", 'without = ["creamer"]', 'without = ["milk"]', "without", "in no step of this drink"),
    ("drinks/it.toml", 'amount = "100 ml"', 'amount = "300 ml"', "steps", "over its seal line"),
    ("drinks/it.toml", "hot = true", "hot = true\nhott = true", "hott", "did you mean hot?"),
    ("drinks/it.toml", "hot = true", 'hot = "yes"', "hot", "true or false"),
    ("drinks/it.toml", "hot = true", 'hot = true\nmilks = ["oat"]', "milks", 'role = "milk"'),
    ("drinks/it.toml", "hot = true", 'shot_replaces = "milk"', "shot_replaces", "in no step"),
    ("drinks/it.toml", 'what = "tea"', 'what = "pearls"', "steps.6.what", "is a topping"),
    ("drinks/it.toml", 'tool = "jug"', 'tool = "scoop"', "top_up.tool", "jug or jigger"),
    ("drinks/it.toml", "large = 5.00", "large = 5.001", "prices.large", "at most 2 decimals"),
]


@pytest.mark.parametrize(("file", "old", "new", "key", "words"), ONE_CHANGE)
def test_one_wrong_thing_is_refused_at_its_place(file: str, old: str, new: str, key: str, words: str) -> None:
    book = files()
    assert old in book[file]
    book[file] = book[file].replace(old, new, 1)
    at_key = [fault for fault in faults_of(book) if (fault.file, fault.key) == (file, key)]
    assert at_key, [str(fault) for fault in faults_of(book)]
    assert words in at_key[0].message
    assert at_key[0].accepted
    place = line_with(book[file], new.splitlines()[-1])
    nearby = (
        [line_with(book[file], f"[{key.split('.')[0]}"), place]
        if key in ("ice", "steps", "taste")
        else [place]
    )
    if key in ("sizes.medium.name", "jelly.name"):  # told where the second of the two stands
        nearby = [
            number for number, line in enumerate(book[file].splitlines(), 1) if new.split("= ")[1] in line
        ][-1:]
    assert at_key[0].line in nearby


def test_the_floor_is_as_it_was_where_the_book_says_nothing_of_it() -> None:
    book = files()
    assert parse_book(book).floor == Floor(soon_s=300, late_s=480, bump="by hand", board_keeps_s=600)
    book["shop.toml"] += '[floor]\nsoon = "90 s"\nlate = "1/2 h"\nbump = "last touch"\nboard_keeps = "2 h"\n'
    assert parse_book(book).floor == Floor(soon_s=90, late_s=1800, bump="last touch", board_keeps_s=7200)


def test_every_fault_of_a_file_is_told_at_once() -> None:
    broken = (
        T6.replace('"2 scoops"', '"2 scops"')
        .replace('what = "tea"', 'what = "tee"')
        .replace("hot =", "warm =")
    )
    keys = {fault.key for fault in faults_of(files(broken))}
    assert {"steps.1.amount", "steps.2.amount", "steps.6.what", "warm"} <= keys


def test_a_fault_reads_as_file_line_key_message() -> None:
    fault = faults_of(files(T6.replace('"7 cubes"', '"7 cubs"')))[0]
    line = line_with(T6.replace('"7 cubes"', '"7 cubs"'), "cubs")
    assert str(fault).startswith(
        f"drinks/it.toml:{line}: steps.7.amount: 'cubs' is not a measure of this bar"
    )


def test_missing_keys_are_told_at_their_table() -> None:
    fault = faults_of(files(T6.replace('about = "The', 'aboutt = "The')))
    assert [each.key for each in fault] == ["about", "aboutt"]
    assert "is missing" in fault[0].message


def test_text_that_is_not_toml_is_told_with_its_line() -> None:
    fault = faults_of(files(T6.replace("hot = true", "hot = = true")))[0]
    assert (fault.file, fault.key) == ("drinks/it.toml", "(syntax)")
    assert fault.line == line_with(T6, "hot = true")


def test_a_topping_that_comes_after_the_drink_is_refused() -> None:
    late = EXTRAS.replace('station = "toppings"', 'station = "seal"')
    assert "toppings come before the drink" in faults_of(files(extras=late))[0].message


def test_two_drinks_of_one_name_are_refused() -> None:
    book = files() | {"drinks/other.toml": T6}
    assert [fault.key for fault in faults_of(book)] == ["name"]


@pytest.mark.parametrize(
    "name", ["drinks/../shop.toml", "drinks/Bad.toml", "drinks/a/b.toml", "x.toml", "drinks/it.txt"]
)
def test_files_that_are_none_of_a_book_are_refused(name: str) -> None:
    found = faults_of(files() | {name: T6})
    assert [(fault.file, fault.line) for fault in found] == [(name, 1)]
    assert "drinks/<id>.toml" in found[0].message


@pytest.mark.parametrize("name", ["shop.toml", "pantry.toml", "extras.toml", "drinks/it.toml"])
def test_missing_files_are_refused(name: str) -> None:
    book = files()
    del book[name]
    assert len(faults_of(book)) == 1


def test_too_much_text_is_refused() -> None:
    assert "is too large" in faults_of(files(T6 + "#" * MOST_BYTES))[0].message
    many = {f"drinks/d{number}.toml": T6 for number in range(MOST_FILES)}
    assert "too many" in faults_of(files() | many)[0].message


def test_deeply_nested_text_is_refused_and_no_crash() -> None:
    assert faults_of(files("x = " + "[" * 50_000))[0].file == "drinks/it.toml"


def written(folder: Path) -> Path:
    """The small book in a folder."""
    (folder / "drinks").mkdir()
    for name, text in files().items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def test_a_folder_is_read_as_its_files(tmp_path: Path) -> None:
    assert read_book(written(tmp_path)) == bar()


def test_hidden_files_in_the_folder_are_left_alone(tmp_path: Path) -> None:
    (written(tmp_path) / "drinks" / ".it.toml.swp").write_bytes(b"\xff")
    assert read_book(tmp_path).version == bar().version


@pytest.mark.parametrize("what", ["link", "folder", "pipe", "bytes", "large", "other"])
def test_what_is_no_plain_text_file_is_refused(tmp_path: Path, what: str) -> None:
    folder = tmp_path / "book"
    folder.mkdir()
    target = written(folder) / "drinks" / "odd.toml"
    outside = tmp_path / "outside.toml"
    outside.write_text(T6, encoding="utf-8")
    if what == "link":
        target.symlink_to(outside)
    elif what == "folder":
        target.mkdir()
    elif what == "pipe":
        os.mkfifo(target)
    elif what == "bytes":
        target.write_bytes(b'name = "x"\nabout = "\xff"\n')
    elif what == "large":
        target.write_bytes(b"#" * (MOST_BYTES + 1))
    else:
        (folder / "drinks" / "notes.txt").write_text("hello", encoding="utf-8")
    with pytest.raises(BookRefused) as refused:
        read_book(folder)
    (fault,) = refused.value.faults
    assert fault.file == ("drinks/notes.txt" if what == "other" else "drinks/odd.toml")
    assert fault.line == (2 if what == "bytes" else 1)


def test_a_linked_drinks_folder_is_refused(tmp_path: Path) -> None:
    inside, outside = tmp_path / "book", tmp_path / "elsewhere"
    inside.mkdir()
    outside.mkdir()
    written(outside)
    for name in ("shop.toml", "pantry.toml", "extras.toml"):
        (inside / name).write_bytes((outside / name).read_bytes())
    (inside / "drinks").symlink_to(outside / "drinks")
    with pytest.raises(BookRefused, match=r"drinks:1: .*is a link"):
        read_book(inside)


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BookRefused, match="is not a folder"):
        read_book(tmp_path / "nowhere")


def test_the_version_is_that_of_the_content() -> None:
    assert bar().version == bar().version == version(files())
    assert len(bar().version) == 16
    assert set(bar().version) <= set("0123456789abcdef")
    assert bar(T6 + "# one more word\n").version != bar().version
    assert version({"a": "bc"}) != version({"ab": "c"})


def test_a_book_is_read_again_from_its_files() -> None:
    book = read_book(DEMO)
    assert parse_book(book.files) == book


def test_the_parts_of_the_test_book_are_what_they_say() -> None:
    """The rows above replace text in these; a row that replaces nothing would prove nothing."""
    assert len({SHOP, PANTRY, EXTRAS, HEAD, T6}) == 5
