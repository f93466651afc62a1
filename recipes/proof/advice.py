"""What to do about a book, in plain words with figures, the advice that helps most combinations first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from recipes.book import Book
from recipes.building.refuse import finer_step
from recipes.building.resolve import resolve
from recipes.hands import LINE_ML
from recipes.proof.levels import told
from recipes.proof.model import Advice, Coarse, DrinkProof, Refused, Violation

WHOLE = ("shot", "cube", "ice scoop")
"""Tools whose steps cannot be made finer."""

READ = ("jigger", "jug")
"""Tools that are read at marks."""

SLACK = 1.05
"""An amount may be off by half a step of its tool, and a little for the rounding of the others."""

MOST = 40
"""How much advice is given at once."""


def advice(book: Book, proofs: Sequence[DrinkProof]) -> list[Advice]:
    """Advice on a whole book from its drinks' proofs."""
    found = [*_tools(book, proofs), *_levels(book, proofs)]
    for proof in proofs:
        found += [_mend(proof, violation) for violation in proof.violations]
        found += [_make_room(proof, refused) for refused in proof.refusals if refused.code == "too full"]
        found += [_finer(proof, refused) for refused in proof.refusals if refused.code == "too coarse"]
    return sorted(found, key=lambda each: -each.count)[:MOST]


def _tools(book: Book, proofs: Sequence[DrinkProof]) -> Iterator[Advice]:
    """One piece of advice for each ingredient that its tool measures too coarsely, over all drinks."""
    by_ingredient: dict[tuple[str, str], list[tuple[DrinkProof, Coarse]]] = {}
    for proof in proofs:
        for coarse in proof.coarse:
            by_ingredient.setdefault((coarse.ingredient, coarse.tool), []).append((proof, coarse))
    for (_, tool_id), found in by_ingredient.items():
        count = sum(coarse.count for _, coarse in found)
        proof, worst = max(found, key=lambda pair: pair[1].example.error_pct)
        least = min(coarse.wanted_ml for _, coarse in found)
        tool = book.tools[tool_id]
        drinks = proof.name if len(found) == 1 else f"{len(found)} drinks, most of all {proof.name}"
        said = ", ".join((worst.example.title, *worst.example.words))
        off = f"{worst.label} is up to {worst.example.error_pct:.0f} % off in {drinks} ({said})"
        yield Advice(
            drink=proof.drink if len(found) == 1 else None,
            count=count,
            text=f"{off}: {_cure(book, tool.kind, tool.name, worst, least, _combinations(count))}",
        )


def _levels(book: Book, proofs: Sequence[DrinkProof]) -> Iterator[Advice]:
    """One piece of advice for each set of levels that come to the same; it counts what is built at the higher
    levels of those drinks."""
    built = {(proof.drink, cell.modifier, cell.value): cell.built for proof in proofs for cell in proof.heat}
    for words, group in told(book, ((proof.drink, same) for proof in proofs for same in proof.same)):
        places = {(drink, same.kind, value) for drink, same in group for value in same.values[1:]}
        drinks = {drink for drink, _ in group}
        cure = "A guest gets the same cup: leave a level out, write more of it, or give it a finer measure."
        yield Advice(
            drink=next(iter(drinks)) if len(drinks) == 1 else None,
            count=sum(built.get(place, 0) for place in places),
            text=f"{words[:1].upper()}{words[1:]}. {cure}",
        )


def _cure(book: Book, kind: str, name: str, coarse: Coarse, least_ml: float, many: str) -> str:
    nearer = f"{many} would be nearer to the recipe."
    if kind in WHOLE:
        return f"the {name} gives steps of {coarse.step_ml:g} ml; write the amounts in whole steps. {nearer}"
    step = finer_step(least_ml, book.tolerance_pct)
    if step >= coarse.step_ml or _off_ml(book, coarse) > SLACK * coarse.step_ml / 2:
        return (
            f"the {name} with its steps of {coarse.step_ml:g} ml is fine enough for it. It gives way to what "
            f"is coarser beside it, so that the drink as a whole comes nearest ({many}): a finer measure for "
            "the others, or smaller portions of toppings, would help."
        )
    measure = f"A measure of {step:g} ml for it"
    if kind in READ and step >= LINE_ML:
        measure = f"A jigger with a mark every {LINE_ML:g} ml for it"
    elif kind in READ:
        measure += f" (a scoop or a pump: a jigger has lines every {LINE_ML:g} ml)"
    return (
        f"as little as {least_ml:.1f} ml is measured with the {name}, in steps of {coarse.step_ml:g} ml. "
        f"{measure} keeps within {book.tolerance_pct:g} %; {nearer}"
    )


def _off_ml(book: Book, coarse: Coarse) -> float:
    """How many ml the worst case is off: past half a step of its tool, it is not the tool's doing."""
    build = resolve(book, coarse.example.line)
    found = next((error for error in build.errors if error.ingredient == coarse.ingredient), None)
    return (
        0.0 if found is None else abs(found.given_g - found.wanted_g) / book.pantry[coarse.ingredient].density
    )


def _mend(proof: DrinkProof, violation: Violation) -> Advice:
    said = ", ".join((violation.example.title, *violation.example.words))
    found = f"{violation.message} ({said}; {_combinations(violation.count)})"
    text = f"{proof.name}: {found}. {_how(violation)}"
    return Advice(proof.drink, violation.count, text)


_HOW = {
    "no build": "This is a fault of the resolver, not of the book: send the drink's file with the fault.",
    "overfull": "Write less into the recipe, or allow fewer toppings or shots with it.",
    "not measurable": "Write the amount in steps that its tool can measure.",
    "out of tolerance": "Measure it with a finer tool, or raise the book's tolerance.",
}
"""What to do about each kind of violation that is seen in one build alone."""

_MONOTONE = {
    "sugar": "A finer tool for the sweetener helps, as does leaving a sugar level out.",
    "ice": "Write more cubes, or let what goes in with ice be colder: without ice it is colder now.",
    "shots": "Let a shot replace less of the tea, or none of it.",
}
"""What to do where more of something gives less of what it is there for."""


def _how(violation: Violation) -> str:
    return _HOW[violation.kind] if violation.kind in _HOW else _MONOTONE[violation.what]


def _make_room(proof: DrinkProof, refused: Refused) -> Advice:
    # What the register offers the customer instead is no business of the owner's.
    text = (
        f"{proof.name} refuses {_share(proof, refused)} as too full; for one, {_said(refused)}. "
        f"{refused.cause} Smaller portions, a lower least share in its recipe, or fewer toppings and shots "
        "at that size would end this."
    )
    return Advice(proof.drink, refused.count, text)


def _finer(proof: DrinkProof, refused: Refused) -> Advice:
    found = f"{proof.name} refuses {_share(proof, refused)} as too coarse; for one, {_said(refused)}."
    return Advice(proof.drink, refused.count, f"{found} {refused.message}")


def _share(proof: DrinkProof, refused: Refused) -> str:
    share = 100 * refused.count / max(1, proof.combinations)
    return f"{_combinations(refused.count)} ({share:.1f} %)"


def _said(refused: Refused) -> str:
    return ", ".join((refused.example.title, *refused.example.words))


def _combinations(count: int) -> str:
    return "1 combination" if count == 1 else f"{count:,} combinations"
