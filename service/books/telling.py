"""A build put into the words of the wire."""

from __future__ import annotations

from recipes import model
from service.books import wire


def build(told: model.Build) -> wire.Build:
    """A build as every display may have it: what it costs and earns stays behind."""
    return wire.Build(
        id=told.id,
        book=told.book,
        line=told.line,
        title=told.title,
        words=told.words,
        steps=told.steps,
        fill=told.fill,
        facts=_facts(told.balance),
        allergens=told.allergens,
        cautions=told.cautions,
        notes=told.notes,
        uses=told.uses,
    )


def _facts(balance: model.Balance) -> wire.Facts | None:
    if balance.liquid_g <= 0:
        return None  # a stand-in: its book is gone
    return wire.Facts(
        temperature_c=balance.temperature_c,
        sugars_g=balance.sugars_g,
        added_sugars_g=balance.added_sugars_g,
        brix=balance.brix,
        caffeine_mg=balance.caffeine_mg,
        energy_kj=balance.energy_kj,
        energy_kcal=balance.energy_kcal,
    )
