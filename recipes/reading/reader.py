"""From a folder of files to a book, or to every fault in it at once.

A book's folder holds shop.toml, pantry.toml, extras.toml and drinks/<id>.toml, one file per drink. How
amounts are written is told at the head of ``recipes.measures``; units and numbers in ``recipes.units``.
"""

from __future__ import annotations

import hashlib
import os
import re
import stat
import tomllib
from collections.abc import Mapping
from itertools import islice
from pathlib import Path

from recipes.book import RULES, Book, Drink, Family
from recipes.reading.checks import check
from recipes.reading.drinks import Shelf, read_drink
from recipes.reading.extras import read_extras
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.locate import locate
from recipes.reading.pantry import read_pantry
from recipes.reading.scan import too_much
from recipes.reading.shop import read_shop
from recipes.reading.table import ID, Page, Table, figure, is_id

SHARED = ("shop.toml", "pantry.toml", "extras.toml")
"""The files that every book has once."""

MOST_BYTES = 256 * 1024
"""The largest file that is read."""

MOST_IN_BOOK = 512 * 1024
"""The most characters in all files of a book together: two hundred drinks with a full pantry, and no more
than is read or refused in about a second."""

MOST_KEYS = 20_000
"""The most keys in all files of a book together, for the same reasons; the demo book has 1,800."""

MOST_FILES = 200
"""The most files a book may have."""

MOST_IN_LINE = 1000
"""The longest line, in characters. Nobody can read a longer one."""


def is_book_file(name: str) -> bool:
    """Whether a name can be that of a book's file: no path leads anywhere else."""
    if name in SHARED:
        return True
    folder, _, file = name.partition("/")
    return folder == "drinks" and file.endswith(".toml") and is_id(file.removesuffix(".toml"))


def read_book(folder: Path) -> Book:
    """Read the book in ``folder``. Raises ``BookRefused`` with every fault found."""
    faults: list[Fault] = []
    files = _read_files(folder, faults)
    if faults:
        raise BookRefused(faults)
    return parse_book(files)


def parse_book(files: Mapping[str, str]) -> Book:
    """The book in these files (text by name such as "drinks/taro.toml"). Raises ``BookRefused``."""
    faults: list[Fault] = []
    for name in SHARED:
        if name not in files:
            faults.append(
                _whole_file(name, "nothing", "a file", f"is missing; a book has {', '.join(SHARED)}")
            )
    drinks = {name: _drink_id(name, faults) for name in sorted(files) if name not in SHARED}
    if not drinks:
        faults.append(
            _whole_file(
                "drinks", "nothing", "drinks/<id>.toml", "there is no drink; accepted: drinks/<id>.toml"
            )
        )
    _check_amount_of_text(files, faults)
    if faults:
        raise BookRefused(faults)
    roots = {name: _root(name, text, faults) for name, text in sorted(files.items())}
    if faults:
        raise BookRefused(faults)

    # A fault in a file makes whatever refers to it look faulty too: later files wait for it to be mended.
    shop = read_shop(roots["shop.toml"], tuple(drinks.values()))
    _refuse(roots)
    pantry = read_pantry(roots["pantry.toml"], shop)
    _refuse(roots)
    extras = read_extras(roots["extras.toml"], shop, pantry)
    _refuse(roots)
    shelf = Shelf(shop, pantry, extras)
    read = [read_drink(drink_id, roots[name], shelf) for name, drink_id in drinks.items()]
    _refuse(roots)

    book = Book(
        version=version(files),
        files=dict(files),
        shop=shop.shop,
        tax=shop.tax,
        stations=shop.stations,
        tools=shop.tools,
        vessels=shop.vessels,
        sizes=shop.sizes,
        sugars=shop.sugars,
        ices=shop.ices,
        tolerance_pct=shop.tolerance_pct,
        limit_pct=shop.limit_pct,
        hands=shop.hands,
        taste=shop.taste,
        factors=shop.factors,
        floor=shop.floor,
        toppings=extras.toppings,
        toppings_max=extras.toppings_max,
        toppings_station=extras.toppings_station,
        milks=extras.milks,
        shot=extras.shot,
        pantry=pantry,
        families=shop.families,
        drinks=_by_family({drink.id: drink for drink in read}, shop.families),
    )
    check(book, {name: root.page for name, root in roots.items()})
    _refuse(roots)
    return book


def version(files: Mapping[str, str]) -> str:
    """The content address of a book: 16 hex digits of SHA-256 over the rules, file names and texts."""
    address = hashlib.sha256(f"rules {RULES}\n".encode())
    for name, text in sorted(files.items()):
        data = text.encode()
        address.update(f"{name}\n{len(data)}\n".encode())
        address.update(data)
    return address.hexdigest()[:16]


def _by_family(drinks: Mapping[str, Drink], families: Mapping[str, Family]) -> dict[str, Drink]:
    """Drinks in the order of the menu: by family and in it as shop.toml has them, then by file name."""
    order = {id: place for place, id in enumerate(families)}

    def place(drink: Drink) -> tuple[int, int]:
        listed = families[drink.family].drinks
        return order[drink.family], listed.index(drink.id) if drink.id in listed else len(listed)

    return {drink.id: drink for drink in sorted(drinks.values(), key=place)}


def _refuse(roots: Mapping[str, Table]) -> None:
    faults = [fault for root in roots.values() for fault in root.page.faults]
    if faults:
        raise BookRefused(faults)


def _whole_file(file: str, found: str, accepted: str, message: str) -> Fault:
    return Fault(file, 1, "(file)", found, accepted, message)


def _drink_id(name: str, faults: list[Fault]) -> str:
    folder, _, file = name.partition("/")
    if folder != "drinks" or not file.endswith(".toml") or not is_id(file.removesuffix(".toml")):
        accepted = f"{', '.join(SHARED)} or drinks/<id>.toml ({ID})"
        faults.append(_whole_file(name, name, accepted, f"is not a file of a book; accepted: {accepted}"))
    return file.removesuffix(".toml")


def _check_amount_of_text(files: Mapping[str, str], faults: list[Fault]) -> None:
    if len(files) > MOST_FILES:
        message = f"{len(files)} files are too many; accepted: at most {MOST_FILES}"
        faults.append(_whole_file("(book)", str(len(files)), f"at most {MOST_FILES} files", message))
    for name, text in files.items():
        size = len(text.encode("utf-8", "surrogatepass"))
        if size > MOST_BYTES:
            message = f"is too large ({size} bytes); accepted: at most {MOST_BYTES} bytes"
            faults.append(_whole_file(name, f"{size} bytes", f"at most {MOST_BYTES} bytes", message))
    for what, amount, most in (
        ("characters", sum(len(text) for text in files.values()), MOST_IN_BOOK),
        ("keys", sum(text.count("=") for text in files.values()), MOST_KEYS),
    ):
        if amount > most and not faults:
            accepted = f"at most {most} {what}"
            message = f"is too large ({amount} {what} in all its files); accepted: {accepted}"
            faults.append(_whole_file("(book)", f"{amount} {what}", accepted, message))


def _root(name: str, text: str, faults: list[Fault]) -> Table:
    """The top table of a file, or an empty one after a fault in its TOML."""
    fault = _too_much(name, text)
    if fault is None:
        try:
            data = tomllib.loads(text, parse_float=figure)
        except (tomllib.TOMLDecodeError, RecursionError, ValueError) as problem:
            fault = _syntax(name, text, str(problem))
        else:
            return Table(Page(name, locate(text)), (), data)
    faults.append(fault)
    return Table(Page(name, {(): 1}), (), {})


def _too_much(name: str, text: str) -> Fault | None:
    """A fault where a line is too long, or nests deeper than the parser may be led, or a table too many."""
    for number, written in enumerate(text.split("\n"), 1):
        if len(written) > MOST_IN_LINE:
            found, accepted = f"{len(written)} characters", f"at most {MOST_IN_LINE} characters in a line"
            message = f"this line is too long ({found}); accepted: {accepted}"
            return Fault(name, number, "(line)", found, accepted, message)
    much = too_much(text)
    if much is None:
        return None
    line, key, found, accepted = much
    return Fault(name, line, key, found, accepted, f"{found} are too many to be read; accepted: {accepted}")


def _syntax(name: str, text: str, words: str) -> Fault:
    place = re.search(r"\(at line (\d+), column \d+\)", words)
    line = int(place[1]) if place else len(text.splitlines()) or 1
    return Fault(name, line, "(syntax)", "text that is not TOML", "TOML 1.0", f"is not TOML: {words}")


def _read_files(folder: Path, faults: list[Fault]) -> dict[str, str]:
    """The text of every file of the folder: plain files in it and in drinks/, no links, UTF-8 only."""
    files: dict[str, str] = {}
    if not folder.is_dir():
        faults.append(_whole_file(str(folder), "no folder", "a folder", "is not a folder that can be read"))
        return files
    names = [name for name in SHARED if (folder / name).is_symlink() or (folder / name).exists()]
    names += _names_of_drinks(folder / "drinks", faults)
    if len(names) > MOST_FILES:
        _check_amount_of_text(dict.fromkeys(names, ""), faults)
        return files
    for name in names:
        text = _read_file(folder, name, faults)
        if text is not None:
            files[name] = text
        if sum(map(len, files.values())) > MOST_IN_BOOK:
            break  # told by whoever checks the amount of text; the rest need not be read for that
    return files


def _names_of_drinks(drinks: Path, faults: list[Fault]) -> list[str]:
    """The names of the files in drinks/ in order, hidden ones left out; no more than would be too many."""
    if drinks.is_symlink():
        accepted = "a folder in the book itself"
        faults.append(_whole_file("drinks", "a link", "a folder", f"is a link; accepted: {accepted}"))
        return []
    try:
        entries = drinks.iterdir() if drinks.is_dir() else iter(())
        shown = (entry.name for entry in entries if not entry.name.startswith("."))
        names = sorted(islice(shown, MOST_FILES + 1))
    except OSError as problem:
        message = f"is a folder that cannot be read ({problem.strerror}); accepted: a folder of drinks"
        faults.append(_whole_file("drinks", "a folder that cannot be read", "a folder of drinks", message))
        return []
    for name in names:
        if not (name.isprintable() and name.isascii()):
            # Told in escapes: the name itself may turn the line it stands in, or fit no terminal.
            _drink_id(f"drinks/{ascii(name)[1:-1]}", faults)
    return [f"drinks/{name}" for name in names if name.isprintable() and name.isascii()]


def _read_file(folder: Path, name: str, faults: list[Fault]) -> str | None:
    accepted = f"a plain file of UTF-8 text, at most {MOST_BYTES} bytes"
    try:
        # O_NOFOLLOW and O_NONBLOCK: neither a link out of the folder nor a pipe may stand in for a file.
        handle = os.open(folder / name, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
    except OSError as problem:
        found = "a link" if (folder / name).is_symlink() else "a file that cannot be read"
        reason = found if found == "a link" else f"{found} ({problem.strerror})"
        faults.append(_whole_file(name, found, accepted, f"is {reason}; accepted: {accepted}"))
        return None
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        faults.append(_whole_file(name, "no plain file", accepted, f"is no plain file; accepted: {accepted}"))
        return None
    with os.fdopen(handle, "rb") as file:
        data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        faults.append(
            _whole_file(name, f"over {MOST_BYTES} bytes", accepted, f"is too large; accepted: {accepted}")
        )
        return None
    try:
        # Editors of other systems write a mark at the front and two characters at the end of a line.
        return data.decode("utf-8").removeprefix("\ufeff").replace("\r\n", "\n")
    except UnicodeDecodeError as problem:
        line = data[: problem.start].count(b"\n") + 1
        found = f"byte {data[problem.start]:#04x}"
        faults.append(
            Fault(name, line, "(file)", found, accepted, f"is not UTF-8 ({found}); accepted: {accepted}")
        )
        return None
