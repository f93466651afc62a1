"""Amounts by size: a cell is written, changed or taken out on its line, and the rest of the file stays."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as some

from recipes.reading.faults import BookRefused
from recipes.reading.reader import parse_book, read_book
from service.bench.editing.edits import EditRefused, apply
from service.bench.forms.forms import forms
from service.bench.wire import Edit
from service.cli.books import DEMO
from tests.proof.books import GOOD, files, iced

ICED = "drinks/iced.toml"
SIZES = ("small", "large")
"""Of the small bar, in the order of its shop.toml; the iced tea is written for its small cup."""

Cell = tuple[int, str, str, str | None]
"""A step, a key of it, a size, and what is typed; None takes the cell out."""


def after(*cells: Cell, text: str = GOOD) -> str:
    edits = [
        Edit(file=ICED, path=["steps", place, key, size], value=value) for place, key, size, value in cells
    ]
    return apply(files(iced=text), edits)[ICED]


def pour(amount: str) -> str:
    """The file with this line where the tea's amount stands."""
    return GOOD.replace('amount = "120 ml"', amount)


@pytest.mark.parametrize(
    ("cells", "line"),
    [
        ([(1, "amount", "small", "90 ml")], 'amount = "90 ml"'),
        ([(1, "amount", "large", "250 ml")], 'amount = { small = "120 ml", large = "250 ml" }'),
        (
            [(1, "amount", "large", "250 ml"), (1, "amount", "small", "130 ml")],
            'amount = { small = "130 ml", large = "250 ml" }',
        ),
        ([(1, "amount", "large", "250 ml"), (1, "amount", "large", None)], 'amount = "120 ml"'),
        ([(1, "amount", "large", "2,5 cl")], 'amount = { small = "120 ml", large = "2.5 cl" }'),
        ([(1, "hot", "small", "100 ml")], 'amount = "120 ml"\nhot = "100 ml"'),
        (
            [(1, "hot", "large", "200 ml"), (1, "hot", "small", "100 ml")],
            'amount = "120 ml"\nhot = { small = "100 ml", large = "200 ml" }',
        ),
        ([(1, "hot", "small", "100 ml"), (1, "hot", "small", None)], 'amount = "120 ml"'),
    ],
)
def test_a_cell_changes_its_line_and_no_other(cells: list[Cell], line: str) -> None:
    assert after(*cells) == pour(line)


def test_the_comment_beside_an_amount_stays() -> None:
    text = pour('amount = "120 ml"     # to the second line')
    assert after((1, "amount", "large", "250 ml"), text=text) == pour(
        'amount = { small = "120 ml", large = "250 ml" }     # to the second line'
    )
    by_size = pour('amount = {small="120 ml",large="250 ml"}  # packed as the owner likes it')
    assert after((1, "amount", "large", "240 ml"), text=by_size) == by_size.replace("250", "240")
    assert after((1, "amount", "large", None), text=by_size) == pour(
        'amount = "120 ml"  # packed as the owner likes it'
    )


def test_the_reference_size_cannot_be_emptied() -> None:
    for text in (GOOD, pour('amount = { small = "120 ml", large = "250 ml" }')):
        with pytest.raises(EditRefused) as refused:
            after((1, "amount", "small", None), text=text)
        assert refused.value.fault.key == "steps.2.amount.small"
        assert "small, the size the steps are written for" in refused.value.fault.accepted


def test_what_is_not_written_cannot_be_taken_out() -> None:
    with pytest.raises(EditRefused) as refused:
        after((1, "amount", "large", None))
    assert refused.value.fault.key == "steps.2.amount.large"


@pytest.mark.parametrize(
    ("cell", "key"),
    [
        ((1, "amount", "large", "many"), "steps.2.amount.large"),
        ((1, "amount", "large", ""), "steps.2.amount.large"),
        ((1, "amount", "huge", "9 ml"), "steps.2.amount.huge"),
        ((1, "hot", "large", "9 ml"), "steps.2.hot.small"),
        ((1, "amount", "small", "3 buckets"), "steps.2.amount"),
    ],
)
def test_a_fault_names_its_cell(cell: Cell, key: str) -> None:
    """The last is the reference size alone, which is the key itself."""
    with pytest.raises(BookRefused) as refused:
        parse_book(files(iced=after(cell)))
    assert [fault.key for fault in refused.value.faults] == [key]


def test_an_amount_under_a_header_of_its_own_is_edited_there() -> None:
    text = pour('[steps.amount]\nsmall = "120 ml"    # by header')
    assert after((1, "amount", "small", "110 ml"), text=text) == text.replace("120", "110")
    more = tomllib.loads(after((1, "amount", "large", "240 ml"), text=text))
    assert more["steps"][1]["amount"] == {"small": "120 ml", "large": "240 ml"}


def test_cells_are_forms_whichever_way_they_are_written() -> None:
    one = forms(files(iced=pour('amount = { small = "120 ml", large = "250 ml" }'))).files
    tables = {tuple(table.path): table for each in one if each.file == ICED for table in each.tables}
    cells = tables["steps", 1, "amount"]
    assert [(entry.key, entry.value) for entry in cells.entries] == [("small", "120 ml"), ("large", "250 ml")]
    assert cells.shape == "drinks/:steps.*.amount"
    assert not tables["steps", 1, "hot"].written
    assert not tables["steps", 0, "amount"].written, "text, with a table that could stand in its place"
    lone = {entry.key: entry.value for entry in tables["steps", 0].entries}
    assert lone["amount"] == "14 ml"


CELL = some.tuples(
    some.integers(0, 2), some.sampled_from(["amount", "hot"]), some.sampled_from(SIZES),
    some.sampled_from(["1 ml", "25 ml", '7 "', None]),
)  # fmt: skip


@given(some.lists(CELL, max_size=12))
def test_any_cells_in_any_order_are_those_of_a_plain_table(cells: list[Cell]) -> None:
    """Held against a dictionary; every other line of the file stays as it was."""
    text = iced(more="# a comment that stays")
    told = {
        (place, key): ({"small": amount} if key == "amount" else {})
        for place, amount in enumerate(("14 ml", "120 ml", "3 cubes"))
        for key in ("amount", "hot")
    }
    wanted = text
    for place, key, size, value in cells:
        held = told[place, key]
        if value is None and (size not in held or (key == "amount" and size == "small")):
            with pytest.raises(EditRefused):
                after((place, key, size, value), text=wanted)
            continue
        wanted = after((place, key, size, value), text=wanted)
        if value is None:
            del held[size]
        else:
            held[size] = value
    steps = tomllib.loads(wanted)["steps"]
    for (place, key), held in told.items():
        found = steps[place].get(key)
        assert found == (held["small"] if set(held) == {"small"} else held or None)
        if isinstance(found, dict):
            assert list(found) == [size for size in SIZES if size in found]

    def rest(of: str) -> list[str]:
        return [line for line in of.splitlines() if not line.startswith(("amount", "hot"))]

    assert rest(wanted) == rest(text)


def test_every_amount_of_the_demo_book_written_again_changes_no_byte() -> None:
    texts = dict(read_book(DEMO).files)
    for file, text in texts.items():
        if not file.startswith("drinks/"):
            continue
        data = tomllib.loads(text)
        edits = []
        for place, step in enumerate(data["steps"]):
            for key in ("amount", "hot"):
                cells = step.get(key)
                for size, amount in (
                    {data["size"]: cells} if isinstance(cells, str) else cells or {}
                ).items():
                    edits.append(Edit(file=file, path=["steps", place, key, size], value=amount))
        assert edits
        assert apply(texts, edits)[file] == text
