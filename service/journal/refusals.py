"""Every reason the bar has to say no, each with a code, plain words and what would be accepted."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Code(StrEnum):
    """The reasons, as they travel in a problem document's ``type``."""

    NO_BOOK = "no-book"
    EMPTY_ORDER = "empty-order"
    TOO_MANY_CUPS = "too-many-cups"
    SOLD_OUT = "sold-out"
    UNKNOWN_TICKET = "unknown-ticket"
    UNKNOWN_DRINK = "unknown-drink"
    UNKNOWN_STEP = "unknown-step"
    HANDED_OFF = "handed-off"
    TICKET_VOID = "ticket-void"
    DRINK_VOID = "drink-void"
    DRINK_MADE = "drink-made"
    DRINK_BEGUN = "drink-begun"
    TICKET_CLOSED = "ticket-closed"
    NOT_READY = "not-ready"
    REASON_MISSING = "reason-missing"


@dataclass
class Refused(Exception):
    """Raised by decide: ``field`` and ``value`` say what was asked, ``accepted`` what would do."""

    code: Code
    message: str
    field: str
    value: str
    accepted: tuple[str, ...] = ()

    def __str__(self) -> str:
        return self.message
