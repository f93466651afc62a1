"""A line typed in words, in any order and any case.

"large roasted oolong milk tea, less ice, 50% sugar, pearls and half grass jelly, oat milk, 1 shot, no
creamer": every name is one that the book gives, or its id; the longest name that fits is taken first, so
"hot cocoa" is a drink and not a hot one. What is not understood is refused with what is nearest.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from recipes.asking.lines import complete
from recipes.book import Book
from recipes.model import HOT, Line, Refusal, ToppingChoice
from recipes.telling.words import left_out_name

FILLERS = frozenset({"a", "an", "and", "with", "of", "the", "one", "please", "in"})
"""Words that may stand between the others and mean nothing here."""

COUNTS: Mapping[str, int] = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "double": 2}
"""Numbers that are said as words, before "shot"."""

ONCE = frozenset({"drink", "size"})
"""Choices of which nobody means a second one by a word that is not understood."""

MOST_CHARACTERS = 500
"""The longest text that is read."""

Meaning = tuple[str, str]
"""Which choice a phrase makes ("size", "ice", …), and its value."""

_TOKEN = re.compile(r"½|\d+|%|[^\W\d_]+(?:['’-][^\W\d_]+)*|-(?=\d)|[^\s,;.:_&+·–-]")


@dataclass
class _Said:
    """What has been understood so far; a choice made twice is refused, toppings may be many."""

    chosen: dict[str, str] = field(default_factory=dict)
    toppings: list[ToppingChoice] = field(default_factory=list)
    without: list[str] = field(default_factory=list)

    def choose(self, what: str, value: str, phrase: str) -> None:
        """Take one choice."""
        if self.chosen.setdefault(what, value) != value:
            message = f"{phrase!r} is a second {what} in one line."
            raise Refusal("said twice", what, phrase, message, (self.chosen[what],))


def read_line(book: Book, text: str) -> Line:
    """The line that ``text`` says. Raises ``Refusal`` naming the word that is not understood."""
    if len(text) > MOST_CHARACTERS:
        message = f"{len(text)} characters are too long for one line: at most {MOST_CHARACTERS}."
        raise Refusal("too long", "drink", text[:40], message)
    tokens = _TOKEN.findall(text.casefold())
    phrases = _phrases(book)
    longest = max(len(phrase) for phrase in phrases)
    said, place = _Said(), 0
    while place < len(tokens):
        place += _take(tokens[place:], phrases, longest, said)
    if "drink" not in said.chosen:
        names = tuple(drink.name for drink in book.drinks.values())
        raise Refusal("no drink", "drink", text.strip(), "No drink of the book is named.", names)
    return complete(
        book,
        said.chosen["drink"],
        size=said.chosen.get("size"),
        sugar=int(said.chosen["sugar"]) if "sugar" in said.chosen else None,
        ice=said.chosen.get("ice"),
        shots=int(said.chosen.get("shots", "0")),
        toppings=said.toppings,
        milk=said.chosen.get("milk"),
        without=said.without,
    )


def _take(tokens: list[str], phrases: Mapping[tuple[str, ...], Meaning], longest: int, said: _Said) -> int:
    """Understand the longest phrase at the front of ``tokens``; the number of tokens it took."""
    for taken, what, value in _counted(tokens):
        said.choose(what, value, " ".join(tokens[:taken]))
        return taken
    half = tokens[0] in ("½", "half")
    for length in range(min(longest, len(tokens)), 0, -1):
        meaning = phrases.get(tuple(tokens[:length]))
        if meaning is not None:
            _note(meaning, half=False, phrase=" ".join(tokens[:length]), said=said)
            return length
    for length in range(min(longest, len(tokens) - 1), 0, -1) if half else ():
        meaning = phrases.get(tuple(tokens[1 : 1 + length]))
        if meaning is not None and meaning[0] == "toppings":
            _note(meaning, half=True, phrase=" ".join(tokens[: 1 + length]), said=said)
            return 1 + length
    if tokens[0] in FILLERS:
        return 1
    raise _not_understood(tokens, phrases, said)


def _note(meaning: Meaning, half: bool, phrase: str, said: _Said) -> None:
    what, value = meaning
    if what == "toppings":
        said.toppings.append(ToppingChoice(value, half))
    elif what == "without":
        said.without.append(value)
    else:
        said.choose(what, value, phrase)


def _counted(tokens: list[str]) -> Iterator[tuple[int, str, str]]:
    """Sugar said as a number ("50 % sugar") and shots ("2 extra shots", "a shot", "extra shot")."""
    number = tokens[0] if tokens[0].isdecimal() and tokens[0].isascii() else None
    if number is not None:
        after = [token for token in tokens[1:3] if token != "%"]
        sign = tokens[1:2] == ["%"]
        if after[:1] == ["sugar"]:
            yield 2 + sign, "sugar", str(int(number))
        elif sign:
            yield 2, "sugar", str(int(number))
    count = int(number) if number is not None else COUNTS.get(tokens[0])
    rest = tokens if count is None else tokens[1:]
    extra = rest[:1] == ["extra"]
    if rest[extra : extra + 1] in (["shot"], ["shots"]):
        yield (count is not None) + extra + 1, "shots", str(1 if count is None else count)


def _phrases(book: Book) -> dict[tuple[str, ...], Meaning]:
    """Every phrase of the book with what it means; what is named first keeps a name that two things share."""
    phrases: dict[tuple[str, ...], Meaning] = {}
    for phrase, meaning in _named(book):
        phrases.setdefault(tuple(_TOKEN.findall(phrase.casefold())), meaning)
    phrases.pop((), None)
    return phrases


def _named(book: Book) -> Iterator[tuple[str, Meaning]]:
    for drink in book.drinks.values():
        yield from _both(drink.name, drink.id, ("drink", drink.id))
    for size in book.sizes.values():
        yield from _both(size.name, size.id, ("size", size.id))
    for percent, level in book.sugars.items():
        yield level.name, ("sugar", str(percent))
    for ice in book.ices.values():
        yield ice.name, ("ice", ice.id)
    yield HOT, ("ice", HOT)
    for topping in book.toppings.values():
        yield from _both(topping.name, topping.id, ("toppings", topping.id))
    for milk in book.milks.values():
        yield milk.name, ("milk", milk.id)
    left_out = {each for drink in book.drinks.values() for each in (*drink.without, *drink.keep)}
    for ingredient in sorted(left_out):
        for no in ("no", "without", "without the"):
            for name in (left_out_name(book, ingredient), book.pantry[ingredient].name, ingredient):
                yield f"{no} {name}", ("without", ingredient)


def _both(name: str, thing_id: str, meaning: Meaning) -> Iterator[tuple[str, Meaning]]:
    yield name, meaning
    yield thing_id.replace("_", " "), meaning


def _not_understood(tokens: list[str], phrases: Mapping[tuple[str, ...], Meaning], said: _Said) -> Refusal:
    """The refusal for the word at the front, with the phrases of the book that come nearest."""
    leaves_out = tokens[0] in ("no", "without")
    known = {
        " ".join(phrase): meaning
        for phrase, meaning in phrases.items()
        # "no creamer" is meant by who says no, and a second drink by nobody.
        if (phrase[0] in ("no", "without")) == leaves_out and (meaning[0] not in ONCE & said.chosen.keys())
    }
    near: dict[str, float] = {}
    for length in (4, 3, 2, 1):
        asked = " ".join(tokens[:length])
        for match in difflib.get_close_matches(asked, known, 2, 0.75):
            likeness = difflib.SequenceMatcher(None, asked, match).ratio()
            near[match] = max(likeness, near.get(match, 0.0))
    word = tokens[1] if leaves_out and len(tokens) > 1 else tokens[0]
    for phrase in known:
        if word in phrase.split():
            near.setdefault(phrase, 0.0)
    accepted = tuple(sorted(near, key=lambda phrase: -near[phrase])[:4])
    meant = (
        f"Did you mean {' or '.join(accepted)}?" if accepted else "Nothing in the book has a name like it."
    )
    field = known[accepted[0]][0] if accepted else "drink"
    heard = " ".join(tokens[:2]) if leaves_out else tokens[0]
    return Refusal("not understood", field, heard, f"{heard!r} is not understood. {meant}", accepted)
