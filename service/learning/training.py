"""Training: a bent drink with its amounts hidden, and what was answered held against the exact build."""

from __future__ import annotations

import hashlib
import math
import random
from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from recipes.asking.lines import complete, default_line, own_milk
from recipes.book import Book, Drink
from recipes.building.resolve import resolve
from recipes.building.steps import amount_words
from recipes.measures import figure
from recipes.model import Amount, Build, Duration, Line, Refusal, Step, ToppingChoice
from recipes.telling.words import left_out_name
from service.books.wire import Station
from service.learning.card_rows import unshaken
from service.learning.wire import Checked, PersonScore, TrainingChoice, TrainingDrink, TrainingStep

CHOICES = 4
"""How many answers there are to pick from."""

COUNTED = ("scoop", "pump", "shot", "ice scoop", "ladle", "cube")
"""Kinds of tools whose units a person can know by heart; what is read off in ml is on the sheet."""

HEATS_C = (45, 55, 65, 75, 85)
"""Heats to pick from, °C."""

TRIES = 200
"""How many lines are thrown before giving up on a book that refuses them all."""

TIMES = (0.5, 1, 2, 3)
"""Spans of time to pick from, as multiples of the right one."""


class NoDrink(Exception):
    """Raised when no line of a book can be built."""


def bent_drink(book: Book, seed: int) -> Line:
    """A random line that can be built, mostly bent by a few modifiers. Raises NoDrink."""
    chance = random.Random(seed)
    for _ in range(TRIES):
        drink = book.drinks[chance.choice(sorted(book.drinks))]
        line = _bend(book, drink, chance)
        try:
            resolve(book, line)
        except Refusal:
            continue
        return line
    raise NoDrink("No line of this book could be built.")


def _bend(book: Book, drink: Drink, chance: random.Random) -> Line:
    many = chance.choices((0, 1, 2), (5, 4, 1))[0]
    toppings = chance.sample(drink.toppings, min(many, len(drink.toppings), book.toppings_max))
    own = own_milk(book, drink)
    others = [milk for milk in drink.milks if milk != own]
    return complete(
        book,
        drink.id,
        chance.choice(drink.sizes),
        chance.choice(drink.sugars),
        chance.choice(drink.ices),
        chance.choice((0, 0, *range(drink.shots + 1))),
        [ToppingChoice(topping, chance.random() < 0.3) for topping in toppings],
        chance.choice([None, None, *others]),
        chance.sample(drink.without, 1) if drink.without and chance.random() < 0.2 else (),
    )


def training_drink(book: Book, seed: int, scores: bool) -> TrainingDrink:
    """The drink of a seed, its stations and amounts hidden. Raises NoDrink."""
    line = bent_drink(book, seed)
    build = resolve(book, line)
    about = book.drinks[line.drink].about
    return TrainingDrink(
        seed=seed,
        book=book.version,
        line=line,
        title=build.title,
        words=list(build.words),
        about=about if any(step.action == "shake" for step in build.steps) else unshaken(about),
        stations=[Station(id=each.id, name=each.name) for each in book.stations.values()],
        steps=[_shown(book, build, step) for step in build.steps],
        scores=scores,
    )


Asks = Literal["amount", "heat", "time", "station"]


def asks(book: Book, build: Build, step: Step) -> Asks:
    """What a step asks for beside its station: only what a person can know by heart.

    That is a count as the recipe is written, at the sugar and ice asked for, of the toppings and shots
    asked for, and the heat of milk. What is read off a jug or a jigger, and what toppings or shots have
    squeezed, is on the sheet.
    """
    if step.celsius is not None:
        return "heat"
    if step.amount is not None:
        return "amount" if step.amount.kind in COUNTED and _known(book, build, step) else "station"
    timed = step.duration is not None and step.duration.low_s < step.duration.high_s
    return "time" if timed else "station"


def _known(book: Book, build: Build, step: Step) -> bool:
    """Whether the count is the plain drink's at this size, sugar and ice; toppings and shots are as asked."""
    assert step.amount is not None
    if step.amount.kind in ("shot", "ladle"):
        return True
    line = build.line
    plain = replace(default_line(book, line.drink), size=line.size, sugar=line.sugar, ice=line.ice)
    return _amount(book, plain, step, _place(build, step)) == amount_words(step.amount)


def _shown(book: Book, build: Build, step: Step) -> TrainingStep:
    amount = step.amount
    chance = random.Random(hashlib.sha256(f"{build.id} {step.number}".encode()).digest())
    return TrainingStep(
        number=step.number,
        action=step.action,
        label=book.pantry[step.ingredient].name if step.ingredient is not None else step.short,
        asks=asks(book, build, step),
        kind=amount.kind if amount else None,
        unit=amount.unit if amount else None,
        choices=list(_choices(book, asks(book, build, step), step, chance)),
    )


def _choices(book: Book, what: Asks, step: Step, chance: random.Random) -> Iterator[TrainingChoice]:
    """Answers to pick from in rising order, exactly one of them right; counts a whole unit apart."""
    if what == "heat" and step.celsius is not None:
        wrong_c = sorted((each for each in HEATS_C if each != step.celsius), key=lambda c: abs(c - 65))
        for celsius in sorted([step.celsius, *wrong_c[: CHOICES - 1]]):
            yield TrainingChoice(count=celsius, text=f"{celsius:g} °C")
    elif what == "amount" and step.amount is not None:
        count = step.amount.count
        below = min(chance.randrange(CHOICES), math.ceil(count) - 1)
        for n in range(-below, CHOICES - below):
            yield TrainingChoice(count=count + n, text=_counted(book, step.amount, count + n))
    elif what == "time" and step.duration is not None:
        for times in TIMES:
            low, high = (round(times * each) for each in (step.duration.low_s, step.duration.high_s))
            yield TrainingChoice(
                count=step.duration.high_s if times == 1 else high,
                text=_time(step.duration if times == 1 else replace(step.duration, low_s=low, high_s=high)),
            )


def _counted(book: Book, amount: Amount, count: float) -> str:
    tool = book.tools[amount.tool]
    return amount_words(replace(amount, count=count, unit=tool.one if count <= 1 else tool.many))


def _time(duration: Duration) -> str:
    low, high = figure(duration.low_s), figure(duration.high_s)
    return f"{high} s" if low == high else f"{low} to {high} s"


def check(
    book: Book, build: Build, step: Step, station: str, count: float | None, score: PersonScore | None
) -> Checked:
    """Whether a step's station and amount are right, what would be, and why."""
    what = asks(book, build, step)
    right, text = _right(what, step)
    count_right = True
    if what in ("amount", "heat"):
        count_right = count is not None and right is not None and abs(count - right) < 1e-6
    elif what == "time" and step.duration is not None:
        count_right = count is not None and abs(count - step.duration.high_s) < 1e-6
    station_right = station == step.station
    return Checked(
        right=station_right and count_right,
        station_right=station_right,
        count_right=count_right,
        station=step.station,
        count=right,
        text=text,
        why=" ".join(_why(book, build, step, station_right)),
        score=score,
    )


def _right(what: Asks, step: Step) -> tuple[float | None, str]:
    if what == "heat":
        return step.celsius, step.text
    if what == "amount" and step.amount is not None:
        return step.amount.count, step.text
    if what == "time" and step.duration is not None:
        return step.duration.high_s, f"{step.text}, {_time(step.duration)}"
    return None, step.text


def _why(book: Book, build: Build, step: Step, station_right: bool) -> Iterator[str]:
    """Where the step belongs, if that was not known, and which modifiers made its amount what it is."""
    if not station_right:
        yield f"Its station is {book.stations[step.station].name}."
    if step.amount is None or step.ingredient is None:
        return
    line = build.line
    plain = replace(default_line(book, line.drink), size=line.size)
    place = _place(build, step)
    usual = _amount(book, plain, step, place)
    if line == plain:
        yield f"As it comes, the drink takes {amount_words(step.amount)}."
        return
    said = amount_words(step.amount)
    says = [
        words
        for words, without in _modifiers(book, line, plain)
        if _amount(book, without, step, place) != said
    ]
    comes = f"As it comes it takes {usual}" if usual is not None else "As it comes it has none"
    if says:
        yield f"{comes}; with {_listed(says)} it is {said}."
    else:
        yield f"{comes}, and nothing that was asked for changes that."


def _listed(words: list[str]) -> str:
    """ "no sugar, less ice and pearls"."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _place(build: Build, step: Step) -> int:
    """Which of the steps with the same ingredient this is, from 0 (a recipe's shot, then the extra ones)."""
    return [each.number for each in build.steps if each.ingredient == step.ingredient].index(step.number)


def _amount(book: Book, line: Line, step: Step, place: int) -> str | None:
    """How much a line takes at a step's place, in words; None when none, or when it is refused."""
    try:
        found = resolve(book, line)
    except Refusal:
        return None
    said = [
        amount_words(each.amount)
        for each in found.steps
        if each.ingredient == step.ingredient and each.amount
    ]
    return said[place] if place < len(said) else None


def _modifiers(book: Book, line: Line, plain: Line) -> Iterator[tuple[str, Line]]:
    """Each modifier of a line in words, with the line as it would be without it."""
    if line.sugar != plain.sugar:
        yield book.sugars[line.sugar].name, replace(line, sugar=plain.sugar)
    if line.ice != plain.ice:
        yield book.ices[line.ice].name, replace(line, ice=plain.ice)
    if line.shots:
        yield "1 extra shot" if line.shots == 1 else f"{line.shots} extra shots", replace(line, shots=0)
    for choice in line.toppings:
        others = tuple(each for each in line.toppings if each != choice)
        name = book.toppings[choice.topping].name
        yield f"½ {name}" if choice.half else name, replace(line, toppings=others)
    if line.milk is not None:
        yield book.milks[line.milk].name, replace(line, milk=None)
    for ingredient in line.without:
        left = tuple(each for each in line.without if each != ingredient)
        yield f"no {left_out_name(book, ingredient)}", replace(line, without=left)
