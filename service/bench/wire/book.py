"""The book as forms: what is written in its files, what could be, and an edit of it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from service.bench.wire.base import MOST_EDITS, Order, Scalar
from service.books.wire import BookFault
from service.wire import Asked, Millis, Wire


class Edit(Asked):
    """One change to a book's file.

    ``path`` leads to a key: ["tools", "scoop", "holds"], ["steps", 2, "amount"] (steps count from 0).
    ``value`` is as an Entry has it: text (numbers and prices too, "4.60"), yes/no, a list; an object puts in
    a whole table by a new id; None takes the key or table out. With an empty path ``value`` is the whole
    file's text, and None removes the file. Where a list of tables stands (["steps"]) ``value`` is their
    order: each member is the place where a table stands, or a table put in; a place that is not named is
    taken out. Where tables stand by their ids (["families"], or the keys of ["sugar"]) a list of ids is their
    order; those not named follow. Edits are made one after the other, so each path is that after those
    before it.
    """

    file: Annotated[str, Field(min_length=1, max_length=100)]
    path: Annotated[list[str | int], Field(max_length=8)]
    value: Scalar | dict[str, Scalar] | Order | None


class Option(Wire):
    """One of the values that a choice or list takes."""

    value: str
    name: str


class OptionSource(Wire):
    """What a choice can be of.

    Those that are tables or keys of a file say where: more can be put in there.
    """

    name: str
    file: str
    path: list[str]
    options: list[Option]


class FieldShape(Wire):
    """What one key of a table takes.

    ``kind``: "quantity" is a number with a unit, "price" and "number" are plain numbers (sent as text),
    "list" takes any of its options. ``source`` names the OptionSource ("" for none). ``help`` says what it is
    for, ``accepted`` what it takes, in words.
    """

    key: str
    kind: Literal["text", "quantity", "number", "price", "choice", "list", "yes/no"]
    help: str
    accepted: str
    source: str
    needed: bool


class TableShape(Wire):
    """What one kind of table holds: ``fields``, and where ``more`` is told any number of others like it.

    ``keys`` names the OptionSource of those others ("percents": whole numbers). ``one`` names one of many of
    its kind ("ingredient"), which stand in ``file`` ("drinks/": any drink's) at ``path``, ``ordered`` in a
    list without ids. An ``optional`` table may be left out.
    """

    name: str
    help: str
    fields: list[FieldShape]
    more: FieldShape | None
    keys: str
    one: str
    file: str
    path: list[str]
    ordered: bool
    optional: bool


class Entry(Wire):
    """One key as it is written. ``comment`` is what the owner wrote beside it."""

    key: str
    value: Scalar
    comment: str
    line: int


class FormTable(Wire):
    """One table of a file as a form: its written keys, and the name of its shape ("" for an unknown one).

    ``written``: it stands in the file; one that could is there as well.
    """

    path: list[str | int]
    title: str
    line: int
    shape: str
    written: bool
    entries: list[Entry]


class BookFile(Wire):
    """One file of the book: its forms, and its raw text."""

    file: str
    title: str
    tables: list[FormTable]
    text: str


class Workbook(Wire):
    """GET /api/owner/book: the book in the folder, to be edited.

    ``version`` is that of the files shown (the base of a save), ``open`` the one in force. ``holds`` tells
    whether the proof of ``version`` holds, None while that is not known. With ``faults`` the files are
    refused as they stand, and the forms show what could be read.
    """

    version: str
    open: str
    note: str
    at: Millis | None
    holds: bool | None
    files: list[BookFile]
    sources: list[OptionSource]
    shapes: list[TableShape]
    faults: list[BookFault]


class FormsIn(Asked):
    """POST /api/owner/forms: how would these files look after these edits? Nothing is saved."""

    edits: Annotated[list[Edit], Field(max_length=MOST_EDITS)]


class Forms(Wire):
    """The files that the edits name, as forms, and the options of the whole book with them."""

    files: list[BookFile]
    sources: list[OptionSource]
