"""A line of the menu as somebody asks for it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from service.wire import Asked, Id


class ToppingIn(Asked):
    """A topping of a line as rung in."""

    topping: Id
    half: bool = False


class LineIn(Asked):
    """A line as rung in. A choice left out takes the drink's own default from the book."""

    drink: Id
    size: Id | None = None
    sugar: Annotated[int, Field(ge=0, le=1000)] | None = None
    ice: Id | None = None
    shots: Annotated[int, Field(ge=0, le=20)] = 0
    toppings: Annotated[list[ToppingIn], Field(max_length=20)] = []  # noqa: RUF012  (pydantic copies it)
    milk: Id | None = None
    without: Annotated[list[Id], Field(max_length=20)] = []  # noqa: RUF012  (pydantic copies it)
