"""One table of a book's file, read key by key; every fault is noted with its place and reading goes on.

Each reading method returns a usable value even after a fault, so that one run finds all of them; the
book is refused in the end, so such a value never reaches anyone.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation
from fractions import Fraction
from itertools import islice
from typing import Any, TypeVar

from recipes.reading.currencies import Currency
from recipes.reading.faults import Fault
from recipes.reading.locate import Path, line_of
from recipes.units import NotAQuantity, number

_MISSING = object()

MOST_FAULTS = 100
"""How many faults of one file are told at once; nobody mends more than that in one sitting."""

MOST_QUANTITY = 80
"""The longest text of a quantity, in characters."""

T = TypeVar("T", bound=str | int)


@dataclass(frozen=True, slots=True)
class Beyond:
    """A figure as written that is larger or smaller than any number can be."""

    text: str

    def __str__(self) -> str:
        return self.text


def figure(text: str) -> Decimal | Beyond:
    """A number with a point or an exponent, exactly; for the parser, which must not fall over any of them."""
    try:
        return Decimal(text)
    except InvalidOperation:
        return Beyond(text)


@dataclass(frozen=True)
class Page:
    """One file being read: its name, where its keys stand, and the list that faults go to."""

    file: str
    lines: Mapping[Path, int]
    faults: list[Fault] = field(default_factory=list)

    def fault(self, path: Path, found: object, accepted: str, message: str) -> None:
        """Note a fault at ``path``; past ``MOST_FAULTS`` only that there are more."""
        if self.is_full():
            return
        key = ".".join(str(part + 1) if isinstance(part, int) else part for part in path) or "(file)"
        shown = "nothing" if found is _MISSING else _shown(found)
        line = line_of(self.lines, path)
        self.faults.append(Fault(self.file, line, key, shown, accepted, message))
        if self.is_full():
            more = f"has more than {MOST_FAULTS} faults; the others are told once these are mended"
            self.faults.append(Fault(self.file, line, "(file)", shown, f"{MOST_FAULTS} faults mended", more))

    def is_full(self) -> bool:
        """Whether no more faults of this file are noted."""
        return len(self.faults) >= MOST_FAULTS


def _shown(value: object) -> str:
    """A value as an owner wrote it, cut where it is long."""
    text = _written(value)
    return text if len(text) <= 60 else text[:59] + "…"


def _written(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and value.bit_length() > 200:
        return "a number too large to print"
    if isinstance(value, str):
        return f'"{value}"' if value.isprintable() else ascii(value[:60]).replace("'", '"')
    if isinstance(value, list):
        # No more than can be shown: a list may be as long as its file, and lists in it as deep as a line.
        shown = ["[…]" if isinstance(each, list) else _written(each) for each in value[:5]]
        return f"[{', '.join(shown)}{', …' if len(value) > 5 else ''}]"
    return "a table" if isinstance(value, dict) else str(value)


class Table:
    """A table at ``path`` of a page. Read its keys, then call ``close``, which refuses the unknown ones."""

    def __init__(self, page: Page, path: Path, data: Mapping[str, Any]) -> None:
        self.page, self.path, self._data = page, path, data
        self._asked: list[str] = []

    def fault(self, key: str | None, accepted: str, message: str) -> None:
        """Note a fault at ``key`` of this table (or at the table itself)."""
        path = self.path if key is None else (*self.path, key)
        found = "" if key is None else self._data.get(key, _MISSING)
        self.page.fault(path, found, accepted, message)

    def has(self, key: str) -> bool:
        """Whether the key is there; asking makes it a known key."""
        self._asked.append(key)
        return key in self._data

    def holds_table(self, key: str) -> bool:
        """Whether a table stands at ``key``, rather than a value."""
        return isinstance(self._data.get(key), dict)

    def _take(self, key: str, kind: type | tuple[type, ...], accepted: str) -> Any:  # noqa: ANN401 - what TOML gives
        """The value of ``key`` when it is there and of this kind, else None after a fault."""
        self._asked.append(key)
        value = self._data.get(key, _MISSING)
        if value is _MISSING:
            self.fault(key, accepted, f"is missing; accepted: {accepted}")
            return None
        if not isinstance(value, kind) or (isinstance(value, bool) and kind is not bool):
            self.fault(key, accepted, f"is {_shown(value)}; accepted: {accepted}")
            return None
        return value

    def text(self, key: str, most: int = 80, default: str | None = None) -> str:
        """One line of text, at most ``most`` characters."""
        if default is not None and not self.has(key):
            return default
        accepted = f"text in quotes, 1 to {most} characters on one line"
        value = self._take(key, str, accepted)
        if value is None:
            return ""
        # Printable: without control characters, such as those that turn the direction of what is read.
        if not value.strip() or len(value) > most or not value.isprintable():
            self.fault(key, accepted, f"is {_shown(value)}; accepted: {accepted}")
        return str(value)[:most].strip()

    def flag(self, key: str, default: bool) -> bool:
        """true or false."""
        if not self.has(key):
            return default
        value = self._take(key, bool, "true or false")
        return default if value is None else bool(value)

    def whole(self, key: str, low: int, high: int, default: int | None = None) -> int:
        """A whole number between ``low`` and ``high``."""
        if default is not None and not self.has(key):
            return default
        accepted = f"a whole number from {low} to {high}"
        value = self._take(key, int, accepted)
        if value is None:
            return low
        if not low <= value <= high:
            self.fault(key, accepted, f"is {_shown(value)}; accepted: {accepted}")
            return low
        return int(value)

    def money(self, key: str, currency: Currency, default: int | None = None) -> int:
        """An amount of money in minor units, written as 4.20 for 420."""
        if default is not None and not self.has(key):
            return default
        accepted = f"a price from 0 to {currency.most} {currency.code} {currency.decimals}"
        value = self._take(key, (int, Decimal), accepted)
        if value is None:
            return 0
        exact = Decimal(value)
        if not exact.is_finite() or not 0 <= exact <= currency.most or _decimals(exact) > currency.digits:
            self.fault(key, accepted, f"is {_shown(value)}; accepted: {accepted}")
            return 0
        # Nought may be written with any exponent, 0e99 as well as 0.00.
        return int(exact.scaleb(currency.digits)) if exact else 0

    def choice(self, key: str, accepted: Collection[T], default: T | None = None) -> T:
        """One of ``accepted``."""
        if default is not None and not self.has(key):
            return default
        words = listed(accepted)
        value = self._take(key, (str, int), words)
        if value is not None and value not in accepted:
            self.fault(key, words, f"is {_shown(value)}{_meant(value, accepted)}; accepted: {words}")
        return value if value in accepted else next(iter(accepted))

    def choices(self, key: str, accepted: Collection[T], default: Collection[T]) -> tuple[T, ...]:
        """A list of things out of ``accepted``, none of them twice."""
        if not self.has(key):
            return tuple(default)
        words = f"a list of any of {listed(accepted)}"
        values = self._take(key, list, words)
        kept: list[T] = []
        for value in values or ():
            if self.page.is_full():
                break
            plain = isinstance(value, str | int) and not isinstance(value, bool)
            if value in kept:
                self.fault(key, words, f"names {_shown(value)} twice")
            elif not plain or value not in accepted:
                self.fault(key, words, f"names {_shown(value)}{_meant(value, accepted)}; accepted: {words}")
            else:
                kept.append(value)
        return tuple(kept)

    def parsed(
        self,
        key: str,
        parse: Callable[[str], Fraction],
        low: float,
        high: float,
        example: str,
        default: float | None = None,
        why: str = "",
    ) -> float:
        """A quantity written as text, between ``low`` and ``high`` in the unit that ``parse`` gives.

        ``why`` nothing else can be is told with a fault.
        """
        if default is not None and not self.has(key):
            return default
        return float(self.exact(key, parse, low, high, example, why))

    def exact(
        self,
        key: str,
        parse: Callable[[str], Fraction],
        low: float,
        high: float,
        example: str,
        why: str = "",
    ) -> Fraction:
        """As ``parsed``, as the exact number that was written."""
        # As written: the float 0.01 lies a hair above one hundredth, which is accepted too.
        least = Fraction(str(low))
        accepted = f'text such as "{example}", from {low:g} to {high:g}{why and f" ({why})"}'
        text = self._take(key, str, accepted)
        if text is None:
            return least
        if len(text) > MOST_QUANTITY or not text.isprintable():
            self.fault(key, accepted, f"is {_shown(text)}; accepted: {accepted}")
            return least
        try:
            value = parse(text)
        except NotAQuantity as problem:
            self.fault(key, accepted, f"{problem}; accepted: {accepted}")
            return least
        if not least <= value <= Fraction(str(high)):
            self.fault(key, accepted, f"is {_shown(text)}; accepted: {accepted}")
            return least
        return value

    def percent(self, key: str, low: float, high: float, default: float | None = None) -> float:
        """A share written as ``"65 %"``, as 0.65; ``low`` and ``high`` are in per cent."""
        value = self.parsed(key, percent, low, high, f"{low:g} %", None if default is None else default * 100)
        return value / 100

    def table(self, key: str, needed: bool = True) -> Table:
        """A table inside this one; an empty one when it is missing and not needed."""
        if not needed and not self.has(key):
            return Table(self.page, (*self.path, key), {})
        value = self._take(key, dict, f"a table [{key}]")
        return Table(self.page, (*self.path, key), value or {})

    def tables(self, key: str, most: int = 200) -> list[Table]:
        """A list of tables, ``[[key]]``, at least one of them."""
        accepted = f"1 to {most} tables [[{key}]]"
        values = self._take(key, list, accepted)
        if values is None:
            return []
        if not 1 <= len(values) <= most or not all(isinstance(value, dict) for value in values):
            self.fault(key, accepted, f"is not {accepted}")
            return []
        return [Table(self.page, (*self.path, key, place), value) for place, value in enumerate(values)]

    def each(self, most: int = 300, least: int = 1) -> Iterator[tuple[str, Table]]:
        """Every key of this table that opens a table, with it; ids must be plain words."""
        if not least <= len(self._data) <= most:
            accepted = f"{least} to {most} entries"
            self.fault(None, accepted, f"holds {len(self._data)} entries; accepted: {accepted}")
        self._asked += self._data
        for key, value in islice(self._data.items(), most):
            if not is_id(key):
                self.fault(key, ID, f"is not an id; accepted: {ID}")
            elif not isinstance(value, dict):
                self.fault(key, f"a table [{key}]", f"is {_shown(value)}; accepted: a table [{key}]")
            else:
                yield key, Table(self.page, (*self.path, key), value)

    def __iter__(self) -> Iterator[str]:
        return iter(tuple(self._data))

    def close(self) -> None:
        """Refuse every key that was not asked for."""
        known = list(dict.fromkeys(self._asked))
        for key in self._data:
            if self.page.is_full():
                return
            if key not in known:
                words = listed(known)
                self.fault(key, words, f"is not a key here{_meant(key, known)}; accepted: {words}")


ID = "small letters, digits and _, at most 40, starting with a letter"
"""What an id looks like, in words."""


def is_id(text: str) -> bool:
    """Whether ``text`` can be an id."""
    plain = text.isascii() and text.replace("_", "a").isalnum() and text == text.lower()
    return plain and text[:1].isalpha() and len(text) <= 40


def _decimals(exact: Decimal) -> int:
    """How many decimals a finite number has, noughts at its end left out; exact however many there are."""
    _, figures, exponent = exact.as_tuple()
    places = -int(exponent)
    while places > 0 and figures and figures[-1] == 0:
        figures, places = figures[:-1], places - 1
    return max(0, places) if figures else 0


def percent(text: str) -> Fraction:
    """``"65 %"`` as 65. Raises ``NotAQuantity``."""
    figure, _, sign = text.strip().rpartition("%")
    if sign or not figure:
        raise NotAQuantity(f'{text!r} is not a share such as "65 %"')
    return number(figure.strip())


def listed(things: Collection[object]) -> str:
    """Things in a row, for a message; long rows are cut."""
    words = [str(thing) for thing in things]
    return ", ".join(words) if len(words) <= 30 else f"{', '.join(words[:30])} … ({len(words)} in all)"


def _meant(value: object, accepted: Collection[object]) -> str:
    """What may have been meant, as a question in brackets; nothing when nothing comes near."""
    if not isinstance(value, str):
        return ""
    near = difflib.get_close_matches(value[:80], [str(each) for each in accepted], 1, 0.7)
    return f" (did you mean {near[0]}?)" if near else ""
