"""Edits change what they name and nothing else: comments, order and spacing stay; no path leads astray."""

from __future__ import annotations

from difflib import ndiff

import pytest

from recipes.reading.reader import is_book_file, parse_book, read_book
from recipes.reading.table import Table
from service.bench.editing.edits import EditRefused, apply
from service.bench.forms.catalogue import FILES, shape_name, shapes, told
from service.bench.forms.forms import forms
from service.bench.wire import Edit, Scalar
from service.cli.books import DEMO
from tests.proof.books import GOOD, files

Value = Scalar | dict[str, Scalar] | None
ICED = "drinks/iced.toml"


def edit(file: str, path: list[str | int], value: Value) -> Edit:
    return Edit(file=file, path=path, value=value)


def difference(*edits: Edit) -> list[str]:
    """The lines that go and come, all files together."""
    before = files(iced=GOOD)
    after = apply(before, edits)
    lines = []
    for file in before:
        lines += [
            line.rstrip()
            for line in ndiff(before[file].splitlines(), after.get(file, "").splitlines())
            if line[0] in "+-"
        ]
    return lines


@pytest.mark.parametrize(
    ("one", "lines"),
    [
        (
            edit(ICED, ["name"], "Ice Tea"),
            [
                '- name = "Iced Tea"           # the cold one',
                '+ name = "Ice Tea"           # the cold one',
            ],
        ),
        (edit(ICED, ["prices", "small"], "3.50"), ["- small = 3.30", "+ small = 3.50"]),
        (edit(ICED, ["prices", "small"], "3,50"), ["- small = 3.30", "+ small = 3.50"]),
        (edit(ICED, ["steps", 1, "amount"], "90,5 ml"), ['- amount = "120 ml"', '+ amount = "90.5 ml"']),
        (edit(ICED, ["steps", 1, "amount"], "1,250 ml"), ['- amount = "120 ml"', '+ amount = "1,250 ml"']),
        (
            edit(ICED, ["about"], "1,5 times as cold"),
            ['- about = "Cold tea and syrup over ice."', '+ about = "1,5 times as cold"'],
        ),
        (edit(ICED, ["shots"], "0"), ["- shots = 1", "+ shots = 0"]),
        (edit(ICED, ["hot"], True), ["+ hot = true"]),
        (edit(ICED, ["ices"], ["none"]), ['- ices = ["none", "regular"]', '+ ices = ["none"]']),
        (edit(ICED, ["sugars"], ["0", "100"]), ["+ sugars = [0, 100]"]),
        (edit(ICED, ["steps", 1, "amount"], "90 ml"), ['- amount = "120 ml"', '+ amount = "90 ml"']),
        (edit(ICED, ["steps", 0, "role"], None), ['- role = "sweetener"']),
        (
            edit(ICED, ["steps", 1, "instead", "none"], "tea"),
            ['+ instead = {none = "tea"}'],
        ),
        (
            edit("pantry.toml", ["tea", "density"], "0.99 g/ml"),
            ['- density = "1 g/ml"    # as good as water', '+ density = "0.99 g/ml"    # as good as water'],
        ),
        (edit("extras.toml", ["toppings", "most"], "2"), ["- most = 1", "+ most = 2"]),
    ],
)
def test_one_edit_changes_one_line(one: Edit, lines: list[str]) -> None:
    assert difference(one) == lines


def test_an_entry_put_back_as_it_is_changes_no_byte() -> None:
    """Over the demo book: every key that its forms show, saved as shown."""
    texts = dict(read_book(DEMO).files)
    for book_file in forms(texts).files:
        edits = [
            edit(book_file.file, [*table.path, entry.key], entry.value)
            for table in book_file.tables
            for entry in table.entries
            if not isinstance(entry.value, list)
        ]
        chosen = edits if len(edits) < 60 else edits[::7]
        assert apply(texts, chosen)[book_file.file] == texts[book_file.file]


@pytest.mark.parametrize(
    "name",
    [
        "../shop.toml", "/etc/passwd", "drinks/../shop.toml", "drinks/../../x.toml", "drinks/.toml",
        "drinks/A.toml",
        "drinks/a/b.toml", "drinks\\a.toml", "shop.toml/", "./shop.toml", "drinks/a.toml\n", "drinks/é.toml",
        "",
        "other.toml", "drinks/a.txt", "drinks/%2e%2e.toml", "drinks/.saving.json",
    ],
)  # fmt: skip
def test_no_other_file_can_be_named(name: str) -> None:
    assert not is_book_file(name)
    with pytest.raises(EditRefused):
        apply(files(iced=GOOD), [Edit.model_construct(file=name, path=[], value="x = 1")])


@pytest.mark.parametrize(
    ("one", "accepted"),
    [
        (edit(ICED, ["prices", "small"], "cheap"), "plain number"),
        (edit(ICED, ["prices", "small"], "1e9"), "plain number"),
        (edit(ICED, ["prices", "small"], "1,000"), "plain number"),
        (edit(ICED, ["prices", "small"], "nan"), "plain number"),
        (edit(ICED, ["prices", "small"], "007"), "plain number"),
        (edit(ICED, ["shots"], "1; drop"), "plain number"),
        (edit(ICED, ["ices"], "none"), "a list"),
        (edit(ICED, ["name"], ["a"]), "not a list"),
        (edit(ICED, ["hot"], "yes"), "true or false"),
        (edit(ICED, ["steps", 9, "do"], "stir"), "from 0"),
        (edit(ICED, ["steps", 0], None), "key of a table"),
        (edit(ICED, ["steps", 0, 1], None), "key of a table"),
        (edit(ICED, ["prices"], "x"), "not a table"),
        (edit(ICED, ["no_such"], None), "one of"),
        (edit(ICED, ["no", "such"], None), "one of"),
        (edit("drinks/nobody.toml", ["name"], "x"), "one of"),
        (edit(ICED, [], True), "text of the whole file"),
    ],
)
def test_what_cannot_be_done_is_said(one: Edit, accepted: str) -> None:
    with pytest.raises(EditRefused) as refused:
        apply(files(iced=GOOD), [one])
    assert accepted in refused.value.fault.accepted
    assert refused.value.fault.file == one.file


def test_text_that_would_break_out_of_its_quotes_stays_inside() -> None:
    nasty = 'x"\n[steps]\nname = "y'
    after = apply(files(iced=GOOD), [edit(ICED, ["about"], nasty)])
    assert "\n[steps]" not in after[ICED]


def test_whole_files_come_and_go() -> None:
    after = apply(files(iced=GOOD), [edit("drinks/other.toml", [], GOOD), edit(ICED, [], None)])
    assert set(after) == {"shop.toml", "pantry.toml", "extras.toml", "drinks/other.toml"}


def test_every_key_of_the_demo_book_is_explained() -> None:
    """A key that the reader learns must be explained to the owner too."""
    known = {shape.name: shape for shape in told()}
    unexplained = [
        f"{book_file.file}: {'.'.join(map(str, (*table.path, entry.key)))}"
        for book_file in forms(read_book(DEMO).files).files
        for table in book_file.tables
        for entry in table.entries
        if entry.key not in {field.key for field in known[table.shape].fields}
        and known[table.shape].more is None
    ]
    assert unexplained == []
    assert all(field.help for shape in told() for field in shape.fields)
    assert set(FILES) == {"shop.toml", "pantry.toml", "extras.toml"}
    assert shapes("drinks/any.toml")


def test_every_key_that_the_reader_asks_for_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Written or not: whatever the reader looks for in a table of the demo book has a field or a table."""
    asked: dict[tuple[str, str], set[str]] = {}
    close = Table.close

    def noting(table: Table) -> None:
        close(table)
        name = shape_name(table.page.file, table.path)
        if name:
            asked.setdefault((table.page.file, name), set()).update(table._asked)

    monkeypatch.setattr(Table, "close", noting)
    read_book(DEMO)
    known = {shape.name: shape for shape in told()}
    assert {name for _, name in asked} > {"shop.toml:hands", "shop.toml:tools.*", "drinks/:steps.*.amount"}
    for (file, name), keys in asked.items():
        shape = known[name]
        base = _pattern(name)
        inside = [pattern for pattern in shapes(file) if len(pattern) > len(base)]
        tables = {pattern[len(base)] for pattern in inside if pattern[: len(base)] == base}
        untold = keys - {field.key for field in shape.fields} - tables
        assert not untold or shape.more is not None, f"{name}: {untold}"


def _pattern(name: str) -> tuple[str, ...]:
    words = name.split(":", 1)[1]
    return tuple(words.split(".")) if words else ()


def test_of_work_and_tools_the_choices_are_those_that_the_reader_takes() -> None:
    offered = {
        source.name: {option.value for option in source.options} for source in forms(files(iced=GOOD)).sources
    }
    assert {"steam", "heat"} <= offered["actions"]
    assert "ice scoop" in offered["tool kinds"]


def test_forms_tell_line_comment_shape_and_options() -> None:
    texts = files(iced=GOOD)
    found = forms(texts)
    iced = next(each for each in found.files if each.file == ICED)
    for table in iced.tables:
        for entry in table.entries:
            assert texts[ICED].splitlines()[entry.line - 1].lstrip().startswith(entry.key)
    root = {entry.key: entry for entry in iced.tables[0].entries}
    assert root["name"].comment == "the cold one"
    assert root["shots"].value == "1"
    assert "vessel" not in root
    fields = {field.key: field for shape in told() for field in shape.fields if shape.name == "drinks/:"}
    assert (fields["shots"].kind, fields["vessel"].needed) == ("number", False)
    offered = {source.name: [option.value for option in source.options] for source in found.sources}
    assert offered[fields["family"].source] == ["all"]
    assert offered["stations"] == ["cup", "bar"]
    assert offered["usual ices"] == ["none", "regular", "hot"]


def test_what_could_be_written_has_a_form_as_well() -> None:
    iced = next(each for each in forms(files(iced=GOOD)).files if each.file == ICED)
    unwritten = [table.path for table in iced.tables if not table.written]
    assert ["top_up"] in unwritten
    assert ["steps", 0, "instead"] in unwritten
    assert ["prices"] not in unwritten


def test_of_everything_that_can_be_many_more_can_be_put_in() -> None:
    """Each empty table of a kind, put in with what its fields need, is read as one more."""
    assert {shape.one for shape in told() if shape.one} == {
        "station", "tool", "mixing vessel", "cup size", "sugar level", "ice level", "heading", "ingredient",
        "topping", "milk", "step",
    }  # fmt: skip
    more: dict[str, dict[str, Scalar]] = {
        "station": {"name": "Window"},
        "tool": {"name": "big scoop", "kind": "jigger", "smallest": "5"},
        "mixing vessel": {"name": "Tin", "holds": "700 ml"},
        "cup size": {"name": "Huge", "line": "900 ml", "brim": "950 ml"},
        "ice level": {"name": "a little ice", "cubes": "50 %"},
        "heading": {"name": "New ones"},
        "ingredient": {
            "name": "Oat foam", "short": "Oat foam", "kind": "liquid", "density": "0.9 g/ml", "sugars": "3 %",
            "dry": "9 %", "energy": "250 kJ/60 kcal", "serving": "4 °C", "price": "3 EUR/kg",
        },
        "topping": {"name": "more pearls", "ingredient": "pearls", "portion": "1 ladle", "price": "0.5"},
        "milk": {"name": "more oat milk", "ingredient": "oat_milk"},
    }  # fmt: skip
    before = files(iced=GOOD)
    book = parse_book(before)
    for shape in told():
        if shape.one in more:
            one = edit(shape.file, [*shape.path, "one_more"], more[shape.one])
            after = apply(before, [one])
            parse_book(after)
            assert [line for line in before[shape.file].splitlines() if line not in after[shape.file]] == []
            found = forms(after, {shape.file}).files[0].tables
            assert [*shape.path, "one_more"] in [table.path for table in found], shape.one
    sugar = parse_book(apply(before, [edit("shop.toml", ["sugar", "60"], "some sugar")]))
    assert set(sugar.sugars) - set(book.sugars) == {60}


def test_a_file_that_is_not_toml_is_still_shown() -> None:
    shown = forms({**files(iced=GOOD), ICED: "name = "})
    iced = next(each for each in shown.files if each.file == ICED)
    assert (iced.tables, iced.text) == ([], "name = ")
