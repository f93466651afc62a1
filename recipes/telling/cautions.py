"""What people must be told about a drink: heat, choking, caffeine, allergens.

Usual caution, not a legal opinion: local rules come first. Nothing here ever calls a drink "free of"
anything: the bar's tools are shared.
"""

from __future__ import annotations

from collections.abc import Sequence

from recipes.book import Book
from recipes.model import Balance, Caution

SCALD_C = 60.0
"""Above this a drink scalds within seconds (US CPSC, pub. 5098: 60 °C burns adult skin in 6 s)."""

CHOKING = "Choking: small round pieces through a wide straw; not for children under 5."
"""Pediatric advice puts round firm food off to 4; BfR Opinion 031/2012 saw the risk to age 4, so under 5."""

HIGH_CAFFEINE_MG_PER_L = 150.0
"""Strictly above this the statement of Regulation (EU) 1169/2011 Annex III 4.1 applies."""

SINGLE_DOSE_MG = 200.0
"""A single dose without safety concern for an adult (EFSA Journal 2015;13(5):4102)."""

HOT_STEP = "Hot: can scald"
"""The caution on a step that handles something hotter than ``SCALD_C``."""


def cautions(
    book: Book, name: str, balance: Balance, toppings: Sequence[str], allergens: tuple[str, ...]
) -> list[Caution]:
    """Everything to tell with this drink. ``toppings`` are their own cautions, ``allergens`` the drink's."""
    told: list[Caution] = []
    warm = balance.temperature_c
    if warm > SCALD_C:
        words = f"Very hot: about {warm:.0f} °C when handed over. It can scald; let it cool."
        told.append(Caution("very hot", words, (warm,)))
    told.extend(Caution("topping", words) for words in dict.fromkeys(toppings))
    told.extend(_caffeine(name, balance))
    told.append(Caution("allergens", allergen_words(book, allergens)))
    return told


def _caffeine(name: str, balance: Balance) -> list[Caution]:
    """The statement of Annex III 4.1 (not where the name says coffee or tea), and the single-dose advice."""
    if balance.liquid_ml <= 0:
        return []
    told: list[Caution] = []
    per_litre = 1000 * balance.caffeine_mg / balance.liquid_ml
    if per_litre > HIGH_CAFFEINE_MG_PER_L and not _says_coffee_or_tea(name):
        words = (
            "High caffeine content. Not recommended for children or pregnant or breast-feeding women "
            f"({per_litre / 10:.0f} mg/100 ml)."
        )
        told.append(Caution("high caffeine", words, (per_litre / 10,)))
    if balance.caffeine_mg > SINGLE_DOSE_MG:
        dose = balance.caffeine_mg
        words = f"{dose:.0f} mg caffeine: more than the 200 mg advised at one time for adults."
        told.append(Caution("single dose", words, (dose,)))
    return told


def _says_coffee_or_tea(name: str) -> bool:
    return bool({"tea", "coffee"} & set(name.lower().replace("-", " ").split()))


def allergen_words(book: Book, allergens: tuple[str, ...]) -> str:
    """What a drink contains and what else is about; remembered, as it is the same for hundreds of drinks."""
    words = book.memory.allergens
    found = words.get(allergens)
    if found is None:
        found = words[allergens] = _allergen_words(book, allergens)
    return found


def _allergen_words(book: Book, allergens: tuple[str, ...]) -> str:
    used = sorted({each for ingredient in book.pantry.values() for each in ingredient.allergens})
    contains = f"Contains {', '.join(allergens)}. " if allergens else ""
    where = f" It is made where we use {_and(used)}." if used else ""
    return f"{contains}Allergies? Ask us before you order.{where}"


def _and(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
