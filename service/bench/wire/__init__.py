"""The owner's part of the wire: the bench, the proof, versions and measuring.

The same rules as in ``service.wire``. An amount of money with a fraction of a minor unit (what a drink's
ingredients cost) is a float in minor units. Routes under /api/owner and /cards answer only on this machine
(loopback) unless OWNER_ANYWHERE=1: they have no lock of their own yet.
"""

from __future__ import annotations

from service.bench.wire.base import MOST_EDITS, Grams, Note, Order, Scalar, Share, Version
from service.bench.wire.book import (
    BookFile,
    Edit,
    Entry,
    FieldShape,
    Forms,
    FormsIn,
    FormTable,
    Option,
    OptionSource,
    TableShape,
    Workbook,
)
from service.bench.wire.measuring import (
    Brand,
    BrandIn,
    BrandLabel,
    Celsius,
    Chilled,
    ChillIn,
    ChillReading,
    Weighed,
    WeighIn,
)
from service.bench.wire.proof import HeatColumn, Proof, ProveIn
from service.bench.wire.proposing import CellAmount, OfferedAmount, Proposed, ProposedAmount, ProposeIn
from service.bench.wire.trade_off import TradeOff, TradeOffIn, TradePoint
from service.bench.wire.trying import (
    ComponentChange,
    DoseChange,
    Money,
    Mover,
    Outcome,
    SizeOutcome,
    Trial,
    TryIn,
)
from service.bench.wire.versions import BookVersion, PublishIn, RollBackIn, Saved, SaveIn, Versions

__all__ = [
    "MOST_EDITS",
    "BookFile",
    "BookVersion",
    "Brand",
    "BrandIn",
    "BrandLabel",
    "CellAmount",
    "Celsius",
    "ChillIn",
    "ChillReading",
    "Chilled",
    "ComponentChange",
    "DoseChange",
    "Edit",
    "Entry",
    "FieldShape",
    "FormTable",
    "Forms",
    "FormsIn",
    "Grams",
    "HeatColumn",
    "Money",
    "Mover",
    "Note",
    "OfferedAmount",
    "Option",
    "OptionSource",
    "Order",
    "Outcome",
    "Proof",
    "ProposeIn",
    "Proposed",
    "ProposedAmount",
    "ProveIn",
    "PublishIn",
    "RollBackIn",
    "SaveIn",
    "Saved",
    "Scalar",
    "Share",
    "SizeOutcome",
    "TableShape",
    "TradeOff",
    "TradeOffIn",
    "TradePoint",
    "Trial",
    "TryIn",
    "Version",
    "Versions",
    "WeighIn",
    "Weighed",
    "Workbook",
]
