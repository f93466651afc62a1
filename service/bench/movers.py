"""Which recipes move between two books, and by how much."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from recipes.book import Book, Drink
from recipes.building.resolve import resolve
from recipes.building.steps import amount_words
from recipes.model import HOT, Build, Line, Refusal
from recipes.proof.fingerprint import fingerprint
from recipes.telling.words import title
from service.bench.wire import ComponentChange, DoseChange, Mover

LEAST_PCT = 0.05
"""A change smaller than this is no change (per cent)."""


def movers(before: Book, after: Book) -> list[Mover]:
    """Every drink that comes out differently, the one that moves most first."""
    found: list[Mover] = []
    for id in dict.fromkeys([*before.drinks, *after.drinks]):
        if id not in after.drinks or id not in before.drinks:
            found.append(_come_or_gone(before, after, id))
        elif fingerprint(before, id) != fingerprint(after, id):
            moved = _Moved(before, after, id).mover()
            if moved is not None:
                found.append(moved)
    return sorted(found, key=lambda mover: -mover.worst_pct)


def _come_or_gone(before: Book, after: Book, id: str) -> Mover:
    gone = id not in after.drinks
    drink = (before if gone else after).drinks[id]
    word = "no longer on the menu" if gone else "new on the menu"
    return Mover(
        drink=id,
        name=drink.name,
        worst_pct=100.0,
        worst_label=word,
        components=[],
        doses=[],
        refused=[f"{drink.name} is {word}"] if gone else [],
        allergens=[],
    )


def usual_lines(drink: Drink) -> Iterator[Line]:
    """The drink as it comes at every size, iced and hot."""
    cold = next((ice for ice in drink.ices if ice != HOT), None)
    ices = dict.fromkeys(
        [drink.default.ice, *([cold] if cold else []), *([HOT] if HOT in drink.ices else [])]
    )
    one_of_each = [ice for ice in ices if ice in (drink.default.ice, HOT) or drink.default.ice == HOT]
    for size in drink.sizes:
        for ice in one_of_each:
            yield replace(drink.default, size=size, ice=ice)


class _Moved:
    """One drink in two books."""

    def __init__(self, before: Book, after: Book, id: str) -> None:
        self.before, self.after, self.id = before, after, id
        self.changes: dict[str, ComponentChange] = {}
        self.doses: list[DoseChange] = []
        self.refused: list[str] = []
        self.allergens: dict[str, None] = {}

    def mover(self) -> Mover | None:
        """How it moves; None when nothing about it changes."""
        for line in usual_lines(self.before.drinks[self.id]):
            old, new = _build(self.before, line), _build(self.after, line)
            if isinstance(old, Build) and isinstance(new, Build):
                self._compare(line, old, new)
            elif isinstance(new, str) and isinstance(old, Build):
                self.refused.append(f"{title(self.before, line)}: {new}")
        changes = sorted(self.changes.values(), key=lambda each: -abs(each.change_pct))
        if not (changes or self.doses or self.refused or self.allergens):
            return None
        return Mover(
            drink=self.id,
            name=self.after.drinks[self.id].name,
            worst_pct=abs(changes[0].change_pct) if changes else 0.0,
            worst_label=changes[0].label if changes else "",
            components=changes,
            doses=self.doses,
            refused=self.refused,
            allergens=list(self.allergens),
        )

    def _compare(self, line: Line, old: Build, new: Build) -> None:
        shares = [_shares(old), _shares(new)]
        for key in dict.fromkeys([*shares[0], *shares[1]]):
            was, now = (share.get(key, 0.0) for share in shares)
            change = round((100.0 if now > 0 else 0.0) if was == 0 else 100 * (now - was) / was, 2)
            known = self.changes.get(key)
            if abs(change) >= max(LEAST_PCT, abs(known.change_pct) + 0.01 if known else 0.0):
                self.changes[key] = ComponentChange(label=key, change_pct=change, title=self._said(line))
        doses = [_doses(old), _doses(new)]
        for key in dict.fromkeys([*doses[0], *doses[1]]):
            said = [dose.get(key, "none") for dose in doses]
            if said[0] != said[1]:
                self.doses.append(
                    DoseChange(
                        size=line.size,
                        title=self._said(line),
                        label=key,
                        before=said[0],
                        after=said[1],
                    )
                )
        for word in sorted({*old.allergens} ^ {*new.allergens}):
            self.allergens[f"no longer told: {word}" if word in old.allergens else f"now told: {word}"] = None

    def _said(self, line: Line) -> str:
        return f"{title(self.before, line)}{', hot' if line.ice == HOT else ''}"


def _build(book: Book, line: Line) -> Build | str:
    try:
        return resolve(book, line)
    except Refusal as refusal:
        return refusal.message


def _shares(build: Build) -> dict[str, float]:
    """Each ingredient's share of the drink by mass, and what it comes to; by label."""
    total = sum(step.amount.mass_g for step in build.steps if step.amount is not None)
    found: dict[str, float] = {}
    for step in build.steps:
        if step.amount is not None and total > 0:
            found[step.short] = found.get(step.short, 0.0) + step.amount.mass_g / total
    balance = build.balance
    return found | {
        "Sweetness": balance.brix,
        "Caffeine": balance.caffeine_mg,
        "Energy": balance.energy_kj,
    }


def _doses(build: Build) -> dict[str, str]:
    """Each amount in words, by its step's label; an ingredient that goes in twice is told twice."""
    found: dict[str, str] = {}
    for step in build.steps:
        if step.amount is not None:
            said = amount_words(step.amount)
            found[step.short] = f"{found[step.short]} and {said}" if step.short in found else said
    return found
