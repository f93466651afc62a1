"""Why combinations are refused, reason by reason over the whole book, in words that an owner can act upon."""

from __future__ import annotations

from collections.abc import Sequence

from recipes.proof.model import DrinkCount, DrinkProof, Reason

_WORDS = {
    "topping not for hot": (
        "A topping that heat spoils, in a hot drink",
        "Meant so: jelly, pudding or popping pearls would melt or burst. The register says so and asks for "
        "another choice.",
        "Only where a topping does stand heat: say so in its table of extras.toml (hot).",
    ),
    "too full": (
        "No room in the cup",
        "Toppings, shots and ice leave less of the drink itself than its recipe allows (its least share). "
        "The register names what would fit.",
        "Smaller portions, fewer toppings or shots in the small cup, or a lower least share in the recipe.",
    ),
    "too coarse": (
        "The tools are too coarse",
        "Something would come out further from its recipe than the book's limit.",
        "A finer measure for it, as said below; or not offering that sugar level at that size.",
    ),
    "no build": (
        "A fault of the resolver",
        "No build was found, and no honest reason either. This breaks the proof; the book is not at fault.",
        "Send the drink's file with the fault.",
    ),
}
"""Each reason's code: its name, what it means, and what would cure it."""


def reasons(proofs: Sequence[DrinkProof]) -> list[Reason]:
    """The reasons for which combinations of these drinks are refused, the one that meets most first."""
    all_of_them = max(1, sum(proof.combinations for proof in proofs))
    counts: dict[str, dict[str, int]] = {}
    for proof in proofs:
        for refused in proof.refusals:
            drinks = counts.setdefault(refused.code, {})
            drinks[proof.name] = drinks.get(proof.name, 0) + refused.count
    found = []
    for code, drinks in counts.items():
        title, meaning, cure = _WORDS.get(code, (code.capitalize(), "", ""))
        count = sum(drinks.values())
        found.append(
            Reason(
                code=code,
                title=title,
                count=count,
                share_pct=round(100 * count / all_of_them, 2),
                drinks=tuple(
                    DrinkCount(name, met) for name, met in sorted(drinks.items(), key=lambda pair: -pair[1])
                ),
                meaning=meaning,
                cure=cure,
            )
        )
    return sorted(found, key=lambda reason: -reason.count)
