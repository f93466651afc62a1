"""Where keys stand, against the keys that tomllib finds in the same text."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import pytest

from recipes.reading.locate import Path, line_of, locate
from tests.recipes.cases import demo_files

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
