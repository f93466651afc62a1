"""Where keys stand, against the keys that tomllib finds in the same text."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import pytest

from recipes.reading.faults import BookRefused
from recipes.reading.locate import Path, line_of, locate
from recipes.reading.reader import parse_book
from recipes.reading.scan import MOST_TABLES, too_much
from tests.recipes.cases import T6, demo_files, files

TEXT = '''\
# a = 1
a = 1
"b c" = [
  "[x]",   # not a header
  "y = 2",
]
d.e = """
f = 3
[g]
"""
h = { i = 4, j = [5] }

[k]
l = "]["  # [m]
[k.n]
o = 6
[[p]]
q = 7
[[p]]
q = 8
[[p.r]]
s = 9
[p.t]
u = 10
'''

PLACES: dict[Path, int] = {
    ("a",): 2, ("b c",): 3, ("d", "e"): 7, ("h",): 11, ("h", "i"): 11, ("h", "j"): 11, ("k",): 13,
    ("k", "l"): 14, ("k", "n"): 15, ("k", "n", "o"): 16,
    ("p", 0): 17, ("p", 0, "q"): 18, ("p", 1): 19, ("p", 1, "q"): 20,
    ("p", 1, "r", 0): 21, ("p", 1, "r", 0, "s"): 22, ("p", 1, "t"): 23, ("p", 1, "t", "u"): 24,
}  # fmt: skip


@pytest.mark.parametrize(("path", "line"), PLACES.items())
def test_a_key_stands_on_its_line(path: Path, line: int) -> None:
    tomllib.loads(TEXT)
    assert line_of(locate(TEXT), path) == line


def paths(value: object, path: Path = ()) -> Iterator[Path]:
    """Every way to a key in what tomllib gives."""
    inner: Iterator[tuple[str | int, object]] = iter(())
    if isinstance(value, dict):
        inner = iter(value.items())
    elif isinstance(value, list) and all(isinstance(each, dict) for each in value):
        inner = iter(enumerate(value))
    for key, each in inner:
        yield (*path, key)
        yield from paths(each, (*path, key))


def test_every_key_of_the_demo_book_is_found_on_a_line_that_names_it() -> None:
    found = 0
    for text in demo_files().values():
        lines, places = text.split("\n"), locate(text)
        for path in paths(tomllib.loads(text)):
            named = next(part for part in reversed(path) if isinstance(part, str))
            assert named in lines[line_of(places, path) - 1], path
            found += 1
    assert found > 1000


ODD = "\n".join(
    [
        r"",
        r'"sh\u006fts" = 99',
        r"'lit\eral' = 1",
        r'[ "t\"w.o" . three ]  # [not]',
        r'four = """ "" \""" [[x]]',
        r'y = 1 """" # """',
        r"five = ''' \"\"\" ''' # '''".replace("\\", ""),
        r'six = { a = "}", b = [1, "]"] } # {',
        r'"" = 2',
        r"[[a.b]]",
        r'seven = [ # ["""',
        r'  "x = 1", [ 2.5, 3 ],',
        r"] # ]",
        r"eight = 1979-05-27 07:32:00",
        r"[[a.b]]",
        r"nine.ten = 4.20",
    ]
)
"""Keys that look like values, and values that look like keys."""

ODD_PLACES: dict[Path, int] = {
    ("shots",): 2, ("lit\\eral",): 3, ('t"w.o',): 4, ('t"w.o', "three"): 4, ('t"w.o', "three", "four"): 5,
    ('t"w.o', "three", "five"): 7, ('t"w.o', "three", "six"): 8, ('t"w.o', "three", ""): 9,
    ("a", "b", 0): 10, ("a", "b", 0, "seven"): 11, ("a", "b", 0, "eight"): 14, ("a", "b", 1): 15,
    ("a", "b", 1, "nine", "ten"): 16,
}  # fmt: skip


@pytest.mark.parametrize(("path", "line"), ODD_PLACES.items())
def test_a_key_written_oddly_stands_on_its_line_under_the_name_it_means(path: Path, line: int) -> None:
    value = tomllib.loads(ODD)
    for part in path:
        value = value[part]  # type: ignore[index]
    assert locate(ODD)[path] == line


def test_a_fault_at_a_key_written_with_escapes_is_told_at_its_line() -> None:
    book = files(T6.replace("shots = 2", '"sh\\u006fts" = 99'))
    with pytest.raises(BookRefused) as refused:
        parse_book(book)
    (fault,) = refused.value.faults
    assert (fault.key, fault.found) == ("shots", "99")
    assert "u006fts" in book["drinks/it.toml"].splitlines()[fault.line - 1]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a = 1\nb = [[[[[[[[[1]]]]]]]]]\n", 2),
        ("a = [\n" * 9 + "1" + "\n]" * 9, 9),
        ("c = 1\n\nd = {a={a={a={a={a={a={a={a={a=1}}}}}}}}}\n", 3),
        ("[t]\n" + "a." * 1200 + "b = 1\n", 2),
        ("[t]\n" + "a . " * 8 + '"b" = 1\n', 2),
        ("\n[a.b.c.d.e.f.g.h.i]\n", 2),
        ("x = 1\n" + "[[s]]\n" * (MOST_TABLES + 1), MOST_TABLES + 2),
    ],
)
def test_too_deep_or_too_many_is_told_at_its_line_before_any_recursion(text: str, line: int) -> None:
    assert (too_much(text) or (0,))[0] == line


@pytest.mark.parametrize(
    "text",
    [
        "[a.b.c.d.e.f.g.h]\ni = 1\n",
        "a = [[[[[[[[1]]]]]]]]\n",
        'a = "[[[[[[[[[[" # [[[[[[[[[[\nb = \'\'\'\n[[[[[[[[[[\n\'\'\'\nc = """\n{{{{{{{{{{\n"""\n',
        "a = [" + "1.5, " * 100 + "]\n",
        "[[s]]\n" * MOST_TABLES,
    ],
)
def test_what_is_as_deep_as_may_be_is_read(text: str) -> None:
    assert too_much(text) is None
    tomllib.loads(text)
