"""What displays are told of the book, and a line of it as they ask for one."""

from __future__ import annotations

from service.books.wire.build import Build, Facts
from service.books.wire.line import LineIn, ToppingIn
from service.books.wire.menu import (
    BookFault,
    BookState,
    Choice,
    Family,
    Floor,
    Menu,
    MenuDrink,
    Shop,
    Size,
    Station,
    SugarLevel,
    TaxRule,
)

__all__ = [
    "BookFault",
    "BookState",
    "Build",
    "Choice",
    "Facts",
    "Family",
    "Floor",
    "LineIn",
    "Menu",
    "MenuDrink",
    "Shop",
    "Size",
    "Station",
    "SugarLevel",
    "TaxRule",
    "ToppingIn",
]
