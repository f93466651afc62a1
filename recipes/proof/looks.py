"""What is looked at once for the hundreds of builds that are one drink under other toppings, or have the same
toppings on another drink. It comes to what putting each build into words and looking at that would."""

from __future__ import annotations

from dataclasses import dataclass

from recipes.book import Book
from recipes.building.drink import Made
from recipes.building.resolve import Resolved, in_words
from recipes.building.toppings import Toppings
from recipes.proof.by_hand import Acts, ByHand, by_hand, of_steps
from recipes.proof.checks import Breach, errors_of, unmeasurable
from recipes.proof.hand_tally import HandTally, Off
from recipes.proof.model import CaseError


@dataclass(slots=True, eq=False)
class DrinkLook:
    """What all builds of one made drink have in common: its errors, the furthest off first, the ingredients
    whose error a build must tell of; how far off its parts are, and what its own steps ask of hands."""

    errors: list[CaseError]
    told: set[str]
    error_pct: float
    off: Off
    hand: ByHand
    unmeasurable: list[Breach]


@dataclass(slots=True, eq=False)
class ToppingsLook:
    """What the steps of a set of toppings come to."""

    hand: ByHand
    unmeasurable: list[Breach]
    ingredients: frozenset[str]


class Looks:
    """The looks of one proof, by what was looked at."""

    def __init__(self, book: Book, hands: HandTally) -> None:
        self._book, self._hands, self._acts = book, hands, Acts(book)
        self._drinks: dict[Made, DrinkLook] = {}
        self._toppings: dict[Toppings, ToppingsLook] = {}

    def drink(self, found: Resolved) -> DrinkLook:
        """What is so of the drink, whatever its toppings."""
        look = self._drinks.get(found.made)
        if look is None:
            build = in_words(self._book, found)
            steps = build.steps[len(found.toppings.portions) :]
            errors = errors_of(build)
            look = self._drinks[found.made] = DrinkLook(
                errors,
                {error.ingredient for error in build.errors if error.is_told},
                abs(errors[0].error_pct) if errors else 0.0,
                self._hands.off(build),
                of_steps(self._book, steps, self._acts),
                list(unmeasurable(self._book, steps)),
            )
        return look

    def toppings(self, found: Resolved) -> ToppingsLook:
        """What is so of the toppings, whatever the drink."""
        look = self._toppings.get(found.toppings)
        if look is None:
            steps = in_words(self._book, found).steps[: len(found.toppings.portions)]
            look = self._toppings[found.toppings] = ToppingsLook(
                of_steps(self._book, steps, self._acts),
                list(unmeasurable(self._book, steps)),
                frozenset(step.ingredient for step in steps if step.ingredient is not None),
            )
        return look

    def hand(self, found: Resolved, drink: DrinkLook, toppings: ToppingsLook) -> ByHand:
        """What the build asks of hands."""
        if not toppings.ingredients:
            return drink.hand
        if not toppings.ingredients.isdisjoint(found.made.uses):
            # One ingredient in both may be one more tool for it.
            return by_hand(self._book, in_words(self._book, found), self._acts)
        fussy = toppings.hand.fussy + drink.hand.fussy
        return ByHand(fussy, toppings.hand.seconds + drink.hand.seconds)
