"""Books that mean harm, or were made by a program that went wrong: refused at their place, soon and in little
memory; and what only looks strange, from another system's editor, is read."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from pathlib import Path

import pytest

from recipes.book import Book
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.reader import MOST_BYTES, MOST_IN_LINE, parse_book, read_book
from recipes.reading.table import MOST_FAULTS
from tests.recipes.cases import files

HOME = Path(__file__).parents[2]
GOOD = files()
SPARE = 240_000
"""So many characters go beside a good file without making it too large to be read."""

CPU_S, MEMORY = 60, 1 << 30
"""What a process that reads all of ``HUGE`` may take; one of them alone could take hours."""


def rows(line: str) -> str:
    """As many numbered lines as there is room for."""
    return "".join(line.replace("#", str(n)) for n in range(SPARE // (len(line) + 5)))


def many(drinks: int, line: str, times: int) -> dict[str, str]:
    """Many drinks of many lines."""
    return {f"drinks/d{n}.toml": line * times for n in range(drinks)}


def swapped(name: str, old: str, new: str) -> dict[str, str]:
    """The good book with one text in a file replaced."""
    assert old in GOOD[name]
    return {**GOOD, name: GOOD[name].replace(old, new, 1)}


def beside(name: str, text: str, first: bool = False) -> dict[str, str]:
    """The good book with more text in a file."""
    return {**GOOD, name: text + GOOD[name] if first else GOOD[name] + text}


def huge() -> dict[str, dict[str, str]]:
    """Books that are too much of something."""
    deep, lines = MOST_IN_LINE // 2 - 10, rows("#" + "x" * 200 + "\n")
    opened = ("[" * 900 + "\n") * 9
    price = "price = 0.65"
    return {
        "10 MB of text": beside("drinks/it.toml", f'x = "{"x" * 10_000_000}"\n', first=True),
        "a long string": beside("drinks/it.toml", f'x = "{"x" * SPARE}"\n', first=True),
        "a long text in lines": beside("drinks/it.toml", f'x = """{lines}"""\n', first=True),
        "a deep key": {**GOOD, "pantry.toml": "a." * (SPARE // 2) + "a = 1\n"},
        "deep keys": {**GOOD, "pantry.toml": rows(f"k#{'.a' * deep} = 1\n")},
        "a deep table": {**GOOD, "pantry.toml": f"[{'a.' * (SPARE // 2)}a]\n"},
        "deep tables": {**GOOD, "pantry.toml": rows(f"[k#{'.a' * deep}]\n")},
        "a deep list": {**GOOD, "drinks/it.toml": "x = " + ("[" * 900 + "\n") * 200},
        "a closed deep list": {**GOOD, "drinks/it.toml": "x = " + opened + opened.replace("[", "]")},
        "lists in lists": beside("pantry.toml", rows("x# = " + "[" * 400 + "]" * 400 + "\n")),
        "a deep inline table": {**GOOD, "drinks/it.toml": "x = " + "{a=" * (MOST_IN_LINE // 3 - 9)},
        "a long list": swapped("drinks/it.toml", '["creamer"]', "[\n" + rows('"x#",\n') + "]"),
        "one thing very often": swapped("drinks/it.toml", '["creamer"]', "[\n" + '"creamer",\n' * 9000 + "]"),
        "many unknown keys": beside("drinks/it.toml", rows("amoun# = 1\n"), first=True),
        "many ingredients": {**GOOD, "pantry.toml": rows('[i#]\nkind = "powdr"\n')},
        "many steps": beside("drinks/it.toml", rows("[[steps]]\n")),
        "many sugar levels": swapped("shop.toml", '0 = "no sugar"', '0 = "no sugar"\n' + rows('1# = "s"\n')),
        "a number of a thousand digits": swapped("extras.toml", price, "price = " + "9" * 990),
        "a number of many digits": swapped("extras.toml", price, "price = " + "9" * SPARE),
        "a fraction of many digits": swapped("extras.toml", price, "price = 0." + "9" * 900),
        "a great exponent": swapped("extras.toml", price, "price = 1e999999999"),
        "a great negative exponent": swapped("extras.toml", price, "price = 1e-999999999"),
        "hexadecimal": swapped("extras.toml", price, "price = 0x" + "f" * 990),
        "2 MB in many files": {**GOOD, **many(10, "#" * 99 + "\n", 2000)},
        "many keys in many files": {**GOOD, **many(40, "k = 1\n", 1500)},
        "keys in all lines": {**GOOD, "drinks/it.toml": rows("k# = [[1.5, 2], {a = 1}]\n")},
        "many quotes": {**GOOD, "drinks/it.toml": ('"' * 900 + "\n") * 250},
        "never closed": {**GOOD, "drinks/it.toml": 'x = """' + "\n" * SPARE},
    }  # fmt: skip


def told(name: str) -> tuple[Fault, ...]:
    """The faults of one huge book."""
    with pytest.raises(BookRefused) as refused:
        parse_book(huge()[name])
    return refused.value.faults


def read_all_huge() -> None:
    """Read every huge book; a name and its number of faults on a line. In a process of its own."""
    for name, book in huge().items():
        try:
            parse_book(book)
        except BookRefused as refused:
            print(name, len(refused.faults), len(str(refused)), flush=True)


def test_too_much_of_anything_is_refused_in_bounded_time_and_memory() -> None:
    def bounds() -> None:
        resource.setrlimit(resource.RLIMIT_CPU, (CPU_S, CPU_S))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))

    script = "from tests.recipes.test_hostile import read_all_huge\nread_all_huge()"
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=HOME,
        capture_output=True,
        text=True,
        preexec_fn=bounds,
        check=False,
    )
    assert done.returncode == 0, (done.returncode, done.stdout, done.stderr[-2000:])
    lines = [line.rsplit(" ", 2) for line in done.stdout.splitlines()]
    assert [name for name, _, _ in lines] == list(huge())
    for name, faults, characters in lines:
        assert 1 <= int(faults) <= MOST_FAULTS + 1, name
        assert int(characters) < 50_000, name


@pytest.mark.parametrize(
    ("name", "file", "key"),
    [
        ("10 MB of text", "drinks/it.toml", "(file)"),
        ("a deep key", "pantry.toml", "(line)"),
        ("2 MB in many files", "(book)", "(file)"),
        ("many keys in many files", "(book)", "(file)"),
        ("deep keys", "pantry.toml", "(nesting)"),
        ("lists in lists", "pantry.toml", "(nesting)"),
        ("many steps", "drinks/it.toml", "(tables)"),
        ("a deep list", "drinks/it.toml", "(nesting)"),
        ("a number of many digits", "extras.toml", "(line)"),
        ("a fraction of many digits", "extras.toml", "toppings.choices.pearls.price"),
        ("a great negative exponent", "extras.toml", "toppings.choices.pearls.price"),
        ("hexadecimal", "extras.toml", "toppings.choices.pearls.price"),
    ],
)
def test_it_is_refused_at_its_place(name: str, file: str, key: str) -> None:
    found = [fault for fault in told(name) if (fault.file, fault.key) == (file, key)]
    assert found, told(name)
    text = huge()[name].get(file, "")
    if key == "toppings.choices.pearls.price":
        assert text.splitlines()[found[0].line - 1].startswith("price = ")
    assert len(found[0].message) < 300


def test_more_faults_than_anybody_mends_are_cut_and_say_so() -> None:
    found = told("many unknown keys")
    assert len(found) == MOST_FAULTS + 1
    assert any("the others are told once these are mended" in fault.message for fault in found)


BIDI = "\u202e"  # turns the direction of what is read after it
ODD = {
    "a mark that turns the text": BIDI,
    "a mark that nobody sees": "\u200b",
    "a space that is none": "\u00a0",
    "a bell": "\\u0007",
    "a nought": "\\u0000",
    "a line's end": "\\n",
}


@pytest.mark.parametrize("odd", ODD.values(), ids=ODD.keys())
@pytest.mark.parametrize(
    ("file", "old", "key"),
    [
        ("shop.toml", 'name = "Test Bar', "shop.name"),
        ("pantry.toml", 'name = "Creamer', "creamer.name"),
        ("extras.toml", 'name = "jelly', "toppings.choices.jelly.name"),
        ("drinks/it.toml", 'name = "Powder Milk', "name"),
        ("drinks/it.toml", 'powder = "nothing would', "keep.powder"),
    ],
)
def test_characters_that_cannot_be_seen_are_refused(odd: str, file: str, old: str, key: str) -> None:
    with pytest.raises(BookRefused) as refused:
        parse_book(swapped(file, old, old + odd))
    (fault,) = [fault for fault in refused.value.faults if fault.key == key]
    assert fault.file == file
    assert str(fault).isprintable(), "the fault itself must not turn the line that it stands in"


def test_a_nought_in_the_text_is_no_toml() -> None:
    with pytest.raises(BookRefused) as refused:
        parse_book(swapped("pantry.toml", "[creamer]", "[crea\x00mer]"))
    (fault,) = refused.value.faults
    assert (fault.file, fault.key) == ("pantry.toml", "(syntax)")
    assert fault.line == GOOD["pantry.toml"].splitlines().index("[creamer]") + 1


SAME = [
    ("pantry.toml", 'name = "Jelly"', 'name = "PEARLS"', "jelly.name"),
    ("pantry.toml", 'short = "Jelly"', 'short = "pearls"', "jelly.short"),
    ("pantry.toml", 'name = "Jelly"', 'name = "Pearl\uff53"', "jelly.name"),  # a wide s
    ("pantry.toml", 'name = "Jelly"', 'name = "Whole  milk"', "jelly.name"),
    ("extras.toml", 'name = "oat milk"', 'name = "Whole Milk"', "milks.oat.name"),
    ("shop.toml", '50 = "half sugar"', '50 = "No Sugar"', "sugar.50"),
]


@pytest.mark.parametrize(("file", "old", "new", "key"), SAME)
def test_two_names_that_look_alike_are_refused(file: str, old: str, new: str, key: str) -> None:
    with pytest.raises(BookRefused) as refused:
        parse_book(swapped(file, old, new))
    assert [fault.key for fault in refused.value.faults if "already" in fault.message] == [key]


@pytest.mark.parametrize("name", ["Th\u00e9", "The\u0301"])
def test_two_drinks_whose_names_look_alike_are_refused(name: str) -> None:
    """é as one character, and as e with a mark above it."""
    drink = GOOD["drinks/it.toml"]
    other = drink.replace("Powder Milk Tea", name, 1)
    with pytest.raises(BookRefused) as refused:
        parse_book(
            {
                **GOOD,
                "drinks/it.toml": drink.replace("Powder Milk Tea", "Th\u00e9", 1),
                "drinks/b.toml": other,
            }
        )
    assert [fault.key for fault in refused.value.faults] == ["name"]


@pytest.mark.parametrize(
    ("file", "again"),
    [("pantry.toml", "[creamer]"), ("shop.toml", "[tools.pump]"), ("extras.toml", "[milks.oat]"),
     ("drinks/it.toml", "[prices]")],
)  # fmt: skip
def test_one_id_twice_is_refused_where_it_comes_again(file: str, again: str) -> None:
    book = beside(file, f"\n{again}\n")
    with pytest.raises(BookRefused) as refused:
        parse_book(book)
    (fault,) = refused.value.faults
    assert (fault.file, fault.key) == (file, "(syntax)")
    assert fault.line == len(book[file].rstrip("\n").split("\n"))


@pytest.mark.parametrize(
    "name",
    ["/etc/hosts", "../shop.toml", "drinks/..", "drinks/.toml", "drinks/..toml", "drinks\\a.toml",
     "drinks/a\x00.toml", "./shop.toml", "drinks//a.toml", "DRINKS/a.toml", "drinks/shop.toml/a.toml",
     f"drinks/{'a' * 41}.toml"],
)  # fmt: skip
def test_names_that_lead_elsewhere_are_refused(name: str) -> None:
    with pytest.raises(BookRefused, match="is not a file of a book"):
        parse_book({**GOOD, name: GOOD["drinks/it.toml"]})


def written(folder: Path) -> Path:
    """The good book in a folder."""
    (folder / "drinks").mkdir(parents=True)
    for name, text in GOOD.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def refused_in(folder: Path) -> Fault:
    """The one fault of a book's folder."""
    with pytest.raises(BookRefused) as refused:
        read_book(folder)
    (fault,) = refused.value.faults
    assert str(fault).isprintable()
    return fault


@pytest.mark.parametrize("what", ["a link", "a link to nothing", "a folder", "a pipe", "a link to a device"])
@pytest.mark.parametrize("name", ["shop.toml", "drinks/it.toml"])
def test_what_stands_in_for_a_file_is_refused(tmp_path: Path, name: str, what: str) -> None:
    place = written(tmp_path / "book") / name
    outside = tmp_path / "outside.toml"
    place.rename(outside)
    if what == "a folder":
        place.mkdir()
    elif what == "a pipe":
        os.mkfifo(place)
    else:
        to = {"a link": outside, "a link to nothing": tmp_path / "gone"}.get(what, Path("/dev/zero"))
        place.symlink_to(to)
    fault = refused_in(tmp_path / "book")
    assert (fault.file, fault.line, fault.key) == (name, 1, "(file)")
    assert ("link" if "link" in what else "no plain file") in fault.message


@pytest.mark.parametrize("what", ["file", "pipe"])
def test_drinks_that_are_no_folder_are_refused(tmp_path: Path, what: str) -> None:
    drinks = written(tmp_path / "book") / "drinks"
    (drinks / "it.toml").unlink()
    drinks.rmdir()
    if what == "file":
        drinks.write_text("", encoding="utf-8")
    else:
        os.mkfifo(drinks)
    assert refused_in(tmp_path / "book").message.startswith("there is no drink")


def test_a_file_that_may_not_be_read_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As another user would meet it; the tests may run as one who may read everything."""
    folder = written(tmp_path / "book")
    opened = os.open

    def locked(path: Path, *more: int) -> int:
        if Path(path).name == "it.toml":
            raise PermissionError(13, "Permission denied")
        return opened(path, *more)

    monkeypatch.setattr("recipes.reading.reader.os.open", locked)
    fault = refused_in(folder)
    assert fault.file == "drinks/it.toml"
    assert "cannot be read (Permission denied)" in fault.message


def test_a_folder_that_may_not_be_listed_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = written(tmp_path / "book")

    def locked(path: Path) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "iterdir", locked)
    with pytest.raises(BookRefused, match=r"drinks:1: .*cannot be read \(Permission denied\)"):
        read_book(folder)


@pytest.mark.parametrize("name", [f"a{BIDI}b.toml", "a\nb.toml", "caf\u00e9.toml", "\udcff.toml", "a b.toml"])
def test_odd_names_of_files_are_refused_in_words_that_can_be_printed(tmp_path: Path, name: str) -> None:
    (written(tmp_path / "book") / "drinks" / name).write_bytes(b"")
    fault = refused_in(tmp_path / "book")
    assert fault.file.startswith("drinks/")
    assert fault.file.isascii()
    assert "is not a file of a book" in fault.message


def plain(folder: Path) -> Book:
    return read_book(written(folder))


def test_a_mark_at_the_front_and_two_characters_at_each_end_are_read_as_without(tmp_path: Path) -> None:
    """As an editor of another system saves it."""
    folder = written(tmp_path / "book")
    for name, text in GOOD.items():
        (folder / name).write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert read_book(folder) == plain(tmp_path / "plain")


def test_the_largest_file_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    place = written(tmp_path / "book") / "drinks" / "it.toml"
    line = "#" * 99 + "\n"
    spare = MOST_BYTES - len(GOOD["drinks/it.toml"].encode())
    full = GOOD["drinks/it.toml"] + line * (spare // 100) + "#" * (spare % 100)
    place.write_text(full, encoding="utf-8")
    assert read_book(tmp_path / "book").drinks.keys() == {"it"}
    place.write_text(full + "#", encoding="utf-8")
    assert "too large" in refused_in(tmp_path / "book").message
