"""What an order comes to, as displays are told it."""

from __future__ import annotations

from service.wire import Minor, Wire


class Totals(Wire):
    """What an order comes to. ``gross`` is what is paid; ``net + tax == gross`` always."""

    currency: str
    net: Minor
    tax: Minor
    gross: Minor
    tax_name: str
    tax_percent: str
    tax_included: bool
