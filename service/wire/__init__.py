"""The wire: everything that crosses between the service and a display, and nothing else.

Commands go up over HTTP, changes come down over Socket.IO. The TypeScript types in
``display/src/wire.gen.ts`` and the OpenAPI document are both generated from these models.
Times are milliseconds since 1970 UTC on the service's clock; money is integer minor units.
"""

from __future__ import annotations

from service.wire.base import Id, Millis, Minor, Wire
from service.wire.menu import (
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
from service.wire.prices import Quote, Receipt, ReceiptLine, Totals
from service.wire.problem import FieldFault, Problem
from service.wire.queue import Change, HandedOff, QueueDrink, Snapshot, StepState, Ticket
from service.wire.times import (
    DrinkLife,
    DrinkTimes,
    HourTimes,
    Life,
    Mark,
    OrderedDrink,
    OrderRow,
    Orders,
    Span,
    Spread,
    StationTimes,
    Times,
)
from service.wire.up import (
    Done,
    DrinkIn,
    DrinksIn,
    FinishSteps,
    Follow,
    LineIn,
    RingIn,
    SoldOutIn,
    StartStep,
    ToppingIn,
    VoidIn,
    WorkIn,
)

__all__ = [
    "BookFault",
    "BookState",
    "Change",
    "Choice",
    "Done",
    "DrinkIn",
    "DrinkLife",
    "DrinkTimes",
    "DrinksIn",
    "Family",
    "FieldFault",
    "FinishSteps",
    "Floor",
    "Follow",
    "HandedOff",
    "HourTimes",
    "Id",
    "Life",
    "LineIn",
    "Mark",
    "Menu",
    "MenuDrink",
    "Millis",
    "Minor",
    "OrderRow",
    "OrderedDrink",
    "Orders",
    "Problem",
    "QueueDrink",
    "Quote",
    "Receipt",
    "ReceiptLine",
    "RingIn",
    "Shop",
    "Size",
    "Snapshot",
    "SoldOutIn",
    "Span",
    "Spread",
    "StartStep",
    "Station",
    "StationTimes",
    "StepState",
    "SugarLevel",
    "TaxRule",
    "Ticket",
    "Times",
    "ToppingIn",
    "Totals",
    "VoidIn",
    "Wire",
    "WorkIn",
]
