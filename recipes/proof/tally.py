"""Adding up: combinations come in one by one, aggregates go out. Nothing here keeps a combination but the
few worst and one example of each kind."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Generic, TypeVar

from recipes.book import Book
from recipes.building.resolve import Resolved, in_words, resolve
from recipes.model import Amount, Build, Line, Refusal, RefusalCode
from recipes.proof.checks import Breach, sweet_step_g, too_full, untold
from recipes.proof.hand_tally import HandTally, merged_hands
from recipes.proof.heat import Heat, merged_heat
from recipes.proof.levels import Coincide
from recipes.proof.looks import DrinkLook, Looks
from recipes.proof.model import Case, CaseError, Coarse, DrinkProof, Kind, Refused, Violation
from recipes.telling import words

WORST = 8
"""How many worst cases a drink's proof tells of, each of another component or size."""

KINDS_TOLD = 50
"""How many kinds of refusal or violation are told of one drink; the rest is counted in the last of them."""

Key = TypeVar("Key")


@dataclass(slots=True)
class _Counted(Generic[Key]):
    """How often something was met, and what was met first."""

    first: Key
    count: int = 0


@dataclass(slots=True)
class _Coarse:
    count: int
    wanted_ml: float
    amount: Amount
    error: CaseError
    line: Line
    errors: list[CaseError]
    flagged: bool


@dataclass(slots=True)
class Tally:
    """The aggregates of one drink, or of a part of its combinations."""

    book: Book
    drink: str
    built: int = 0
    refused: int = 0
    flagged: int = 0
    violated: int = 0
    total: float = 0.0
    worst: dict[tuple[str, str], tuple[float, Line, list[CaseError], bool]] = field(default_factory=dict)
    refusals: dict[tuple[RefusalCode, str], _Counted[tuple[Line, str, str]]] = field(default_factory=dict)
    violations: dict[tuple[Kind, str], _Counted[tuple[Line, str, list[CaseError]]]] = field(
        default_factory=dict
    )
    coarse: dict[str, _Coarse] = field(default_factory=dict)
    heat: Heat = field(default_factory=Heat)
    hand: HandTally = field(init=False)
    looks: Looks = field(init=False)
    sweet_step_g: float = field(init=False)

    def __post_init__(self) -> None:
        self.hand = HandTally(self.book, self.drink)
        self.looks = Looks(self.book, self.hand)
        self.sweet_step_g = sweet_step_g(self.book, self.drink)

    def add_refused(self, line: Line, refusal: Refusal) -> None:
        """One combination refused."""
        self.refused += 1
        kind = (refusal.code, refusal.field)
        found = self.refusals.get(kind)
        if found is None:
            found = self.refusals[kind] = _Counted(
                (line, _with_ways_out(self.book, line, refusal), refusal.message)
            )
        found.count += 1
        self.heat.add_refused(line)

    def add_built(self, line: Line, found: Resolved) -> list[Breach]:
        """One combination built; every way in which it breaks the proof by itself."""
        drink, toppings = self.looks.drink(found), self.looks.toppings(found)
        hand = self.looks.hand(found, drink, toppings)
        error = drink.error_pct
        wrong = [*too_full(found.levels), *toppings.unmeasurable, *drink.unmeasurable]
        self.built += 1
        self.total += error
        flagged = False
        if drink.told:
            build = in_words(self.book, found)
            unsaid = list(untold(build))
            wrong += unsaid
            flagged = not unsaid
            self.flagged += flagged
            self._add_coarse(line, build, drink, flagged)
        if drink.errors:
            key = (drink.errors[0].ingredient, line.size)
            if key not in self.worst or self.worst[key][0] < error:
                self.worst[key] = (error, line, drink.errors, flagged)
        self.hand.add(line, hand, drink.off)
        self.heat.add_built(line, error, bool(hand.fussy), hand.seconds)
        return wrong

    def add_breach(self, line: Line, breach: Breach, errors: list[CaseError]) -> None:
        """One way in which a combination breaks the proof."""
        key = (breach.kind, breach.what)
        found = self.violations.setdefault(key, _Counted((line, breach.message, errors)))
        found.count += 1
        self.violated += 1

    def _add_coarse(self, line: Line, build: Build, drink: DrinkLook, flagged: bool) -> None:
        errors = drink.errors
        for error in errors:
            if error.ingredient not in drink.told:
                continue
            amounts = [
                step.amount for step in build.steps if step.ingredient == error.ingredient and step.amount
            ]
            if not amounts:
                continue
            # The last is measured with the finest tool.
            amount = amounts[-1]
            known = self.coarse.get(error.ingredient)
            if known is None:
                self.coarse[error.ingredient] = _Coarse(
                    1, amount.wanted_ml, amount, error, line, errors, flagged
                )
                continue
            known.count += 1
            known.wanted_ml = min(known.wanted_ml, amount.wanted_ml)
            if abs(error.error_pct) > abs(known.error.error_pct):
                known.amount, known.error, known.line = amount, error, line
                known.errors, known.flagged = errors, flagged

    def proof(self, fingerprint: str, same: Sequence[Coincide] = ()) -> DrinkProof:
        """What it came to; ``same`` are the levels that are one measure."""
        book = self.book
        worst = sorted(self.worst.values(), key=lambda found: -found[0])[:WORST]
        return DrinkProof(
            drink=self.drink,
            name=book.drinks[self.drink].name,
            fingerprint=fingerprint,
            combinations=self.built + self.refused,
            built=self.built,
            refused=self.refused,
            flagged=self.flagged,
            mean_pct=round(self.total / self.built, 4) if self.built else 0.0,
            worst_pct=round(worst[0][0], 4) if worst else 0.0,
            worst=tuple(case(book, line, errors, flagged) for _, line, errors, flagged in worst),
            refusals=tuple(
                Refused(code, field, found.count, *found.first[1:], case(book, found.first[0], [], False))
                for (code, field), found in list(self.refusals.items())[:KINDS_TOLD]
            ),
            violations=tuple(
                Violation(
                    kind,
                    what,
                    found.count,
                    found.first[1],
                    case(book, found.first[0], found.first[2], False),
                )
                for (kind, what), found in list(self.violations.items())[:KINDS_TOLD]
            ),
            violated=self.violated,
            coarse=tuple(
                _coarse(book, ingredient, found)
                for ingredient, found in sorted(self.coarse.items(), key=lambda pair: -pair[1].count)
            ),
            heat=self.heat.cells(book, self.drink),
            hand=self.hand.proof(),
            same=tuple(same),
        )


def case(book: Book, line: Line, errors: list[CaseError], flagged: bool) -> Case:
    """One combination in the customer's words."""
    error = abs(errors[0].error_pct) if errors else 0.0
    return Case(
        line, words.title(book, line), words.words(book, line), round(error, 4), tuple(errors[:6]), flagged
    )


def _with_ways_out(book: Book, line: Line, refusal: Refusal) -> str:
    """What is told of the first refusal of a kind: with what would do instead."""
    try:
        resolve(book, line)
    except Refusal as whole:
        return whole.message
    except Exception:  # whatever it is: the refusal that is told of says so already
        pass
    return refusal.message


def _coarse(book: Book, ingredient: str, found: _Coarse) -> Coarse:
    tool = book.tools[found.amount.tool]
    return Coarse(
        ingredient=ingredient,
        label=found.error.label,
        tool=tool.id,
        count=found.count,
        wanted_ml=round(found.wanted_ml, 4),
        step_ml=round(tool.unit_ml * tool.least, 4),
        example=case(book, found.line, found.errors, found.flagged),
    )


def merged(parts: list[DrinkProof]) -> DrinkProof:
    """The proofs of a drink's parts as one. At least one part."""
    first = parts[0]
    built = sum(part.built for part in parts)
    worst = sorted((each for part in parts for each in part.worst), key=lambda each: -each.error_pct)
    return replace(
        first,
        combinations=sum(part.combinations for part in parts),
        built=built,
        refused=sum(part.refused for part in parts),
        flagged=sum(part.flagged for part in parts),
        violated=sum(part.violated for part in parts),
        mean_pct=round(sum(part.mean_pct * part.built for part in parts) / built, 4) if built else 0.0,
        worst_pct=max(part.worst_pct for part in parts),
        worst=tuple(worst[:WORST]),
        refusals=_refusals(parts),
        violations=_violations(parts),
        coarse=_coarses(parts),
        heat=merged_heat([part.heat for part in parts]),
        hand=merged_hands([part.hand for part in parts]),
        same=tuple(each for part in parts for each in part.same),
    )


def _refusals(parts: list[DrinkProof]) -> tuple[Refused, ...]:
    found: dict[tuple[str, str], Refused] = {}
    for each in (each for part in parts for each in part.refusals):
        known = found.get((each.code, each.field))
        found[each.code, each.field] = (
            each if known is None else replace(known, count=known.count + each.count)
        )
    return tuple(sorted(found.values(), key=lambda each: -each.count))


def _violations(parts: list[DrinkProof]) -> tuple[Violation, ...]:
    found: dict[tuple[Kind, str], Violation] = {}
    for each in (each for part in parts for each in part.violations):
        known = found.get((each.kind, each.what))
        found[each.kind, each.what] = (
            each if known is None else replace(known, count=known.count + each.count)
        )
    return tuple(sorted(found.values(), key=lambda each: -each.count))


def _coarses(parts: list[DrinkProof]) -> tuple[Coarse, ...]:
    found: dict[str, Coarse] = {}
    for each in (each for part in parts for each in part.coarse):
        known = found.get(each.ingredient)
        if known is None:
            found[each.ingredient] = each
            continue
        example = max(known.example, each.example, key=lambda case: case.error_pct)
        wanted = min(known.wanted_ml, each.wanted_ml)
        found[each.ingredient] = replace(
            known, count=known.count + each.count, wanted_ml=wanted, example=example
        )
    return tuple(sorted(found.values(), key=lambda each: -each.count))
