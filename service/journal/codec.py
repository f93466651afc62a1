"""Event ↔ record. Old versions of a record are lifted here and nowhere else.

A record's kind is a name of ours, not that of a class: renaming a class costs nothing.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import asdict, replace
from typing import Any

from service.journal.journal import Damaged, Envelope, Record
from service.money.totals import Totals, rule_of, totals
from service.orders import events
from service.orders.events import Event

VERSION = 1


def _rung_in(body: dict[str, Any]) -> events.RungIn:
    lines = tuple(_rung_line(line) for line in body.pop("lines"))
    return events.RungIn(lines=lines, totals=_totals(body.pop("totals"), lines), **body)


def _totals(body: dict[str, Any], lines: Sequence[events.RungLine]) -> Totals:
    """The totals; records that do not say where tax was rounded tell it by their tax."""
    if "tax_rounded" in body:
        return Totals(**body)
    by_order = Totals(**body, tax_rounded="order")
    amounts = [line.unit * line.quantity for line in lines]
    if totals(amounts, rule_of(by_order), by_order.currency) == by_order:
        return by_order
    return replace(by_order, tax_rounded="line")


def _rung_line(body: dict[str, Any]) -> events.RungLine:
    work = tuple(events.Work(**each) for each in body.pop("work"))
    words, uses = tuple(body.pop("words")), tuple(body.pop("uses"))
    return events.RungLine(work=work, words=words, uses=uses, **body)


def _drink_changed(body: dict[str, Any]) -> events.DrinkChanged:
    return events.DrinkChanged(line=_rung_line(body.pop("line")), **body)


def _drink_remade(body: dict[str, Any]) -> events.DrinkRemade:
    line = body.pop("line")
    return events.DrinkRemade(line=None if line is None else _rung_line(line), **body)


def _steps_finished(body: dict[str, Any]) -> events.StepsFinished:
    return events.StepsFinished(steps=tuple(body.pop("steps")), **body)


def _steps_reopened(body: dict[str, Any]) -> events.StepsReopened:
    return events.StepsReopened(steps=tuple(body.pop("steps")), **body)


_READERS: dict[str, Callable[[dict[str, Any]], Event]] = {
    "book-opened": lambda body: events.BookOpened(**body),
    "sold-out": lambda body: events.SoldOut(**body),
    "back-on": lambda body: events.BackOn(**body),
    "rung-in": _rung_in,
    "step-started": lambda body: events.StepStarted(**body),
    "steps-finished": _steps_finished,
    "steps-reopened": _steps_reopened,
    "drink-bumped": lambda body: events.DrinkBumped(**body),
    "drink-recalled": lambda body: events.DrinkRecalled(**body),
    "drink-voided": lambda body: events.DrinkVoided(**body),
    "drink-changed": _drink_changed,
    "drink-remade": _drink_remade,
    "handed-off": lambda body: events.HandedOff(**body),
    "hand-off-taken-back": lambda body: events.HandOffTakenBack(**body),
}

_KINDS: dict[type[Event], str] = {
    events.BookOpened: "book-opened",
    events.SoldOut: "sold-out",
    events.BackOn: "back-on",
    events.RungIn: "rung-in",
    events.StepStarted: "step-started",
    events.StepsFinished: "steps-finished",
    events.StepsReopened: "steps-reopened",
    events.DrinkBumped: "drink-bumped",
    events.DrinkRecalled: "drink-recalled",
    events.DrinkVoided: "drink-voided",
    events.DrinkChanged: "drink-changed",
    events.DrinkRemade: "drink-remade",
    events.HandedOff: "handed-off",
    events.HandOffTakenBack: "hand-off-taken-back",
}


def encode(event: Event) -> Record:
    """The record of an event."""
    body = asdict(event)
    at = body.pop("at")
    text = json.dumps(body, ensure_ascii=False, separators=(",", ":"))
    return Record(_KINDS[type(event)], VERSION, at, text)


def decode(envelope: Envelope) -> Event:
    """The event of a record. Raises Damaged, naming the position, when it cannot be read."""
    record = envelope.record
    place = f"the journal's record {envelope.position}"
    if record.kind not in _READERS or record.version > VERSION:
        raise Damaged(
            f"{place} is {record.kind!r} version {record.version}, written by a newer Levelscoop; "
            f"this one reads up to version {VERSION} of {', '.join(_READERS)}"
        )
    try:
        return _READERS[record.kind]({"at": record.at, **json.loads(record.body)})
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise Damaged(f"{place} ({record.kind!r}) cannot be read: {error}") from error
