"""A whole book's proof from its drinks' proofs, as a message of the wire."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from recipes.book import Book
from recipes.proof.advice import advice
from recipes.proof.hand_tally import merged_hands
from recipes.proof.heat import columns
from recipes.proof.model import DrinkProof
from recipes.proof.reasons import reasons
from service.bench import wire

State = Literal["none", "running", "stopped", "holds", "fails"]


def holds(proofs: Sequence[DrinkProof]) -> bool:
    """Whether drinks that were all proved hold: not one combination breaks the proof, and some are built."""
    return all(proof.violated == 0 and proof.built > 0 for proof in proofs)


def proof_message(
    book: Book, proofs: Sequence[DrinkProof], state: State, done: int, total: int, seconds: float
) -> wire.Proof:
    """The proof as far as it has come; drinks in the order of the menu."""
    order = {id: place for place, id in enumerate(book.drinks)}
    told = sorted(proofs, key=lambda proof: order[proof.drink])
    built = sum(proof.built for proof in told)
    seen = {(cell.modifier, cell.value) for proof in told for cell in proof.heat}
    return wire.Proof(
        version=book.version,
        state=state,
        done=done,
        total=total,
        seconds=round(seconds, 3),
        tolerance_pct=book.tolerance_pct,
        combinations=sum(proof.combinations for proof in told),
        built=built,
        refused=sum(proof.refused for proof in told),
        flagged=sum(proof.flagged for proof in told),
        violated=sum(proof.violated for proof in told),
        mean_pct=round(sum(proof.mean_pct * proof.built for proof in told) / built, 4) if built else 0.0,
        worst_pct=max((proof.worst_pct for proof in told), default=0.0),
        hand=merged_hands([proof.hand for proof in told]),
        columns=[
            wire.HeatColumn(modifier=modifier, value=value, name=name)
            for modifier, value, name in columns(book)
            if (modifier, value) in seen
        ],
        drinks=told,
        reasons=reasons(told),
        advice=advice(book, told),
    )
