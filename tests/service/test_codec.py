"""Events as they are written down: readable for ever, and refused when they are not ours."""

from __future__ import annotations

import json
from pathlib import Path
from typing import get_args

import pytest

from service.books import rung
from service.journal.codec import Codec
from service.journal.journal import Damaged, Envelope, Origin, Record
from service.orders import commands as ask
from service.orders import events
from service.orders.evolve import evolve_all
from service.orders.state import EMPTY
from service.orders.subject import KINDS
from tests.service.samples import NOON, Bar, a_line, ring

CODEC: Codec[events.Event] = Codec(KINDS)

ALL = Bar(
    ring(a_line(quantity=2)),
    ask.SellOut("milk", True),
    ask.SellOut("milk", False),
    ask.StartStep("1.1", 1),
    ask.FinishSteps("1.1", (1, 2)),
    ask.ReopenSteps("1.1", (2,)),
    ask.BumpDrink("1.1"),
    ask.RecallDrink("1.1"),
    ask.ChangeDrink("1.2", a_line("cocoa")),
    ask.BumpDrink("1.2"),
    ask.RemakeDrink("1.2", "spilled", None, {}),
    ask.BumpDrink("1.2"),
    ask.RemakeDrink("1.2", "changed mind", a_line("taro"), {}),
    ask.VoidDrink("1.2", "wrong"),
    ask.BumpDrink("1.1"),
    ask.HandOff("1"),
    ask.TakeBack("1"),
).events


def test_every_kind_of_event_is_among_the_samples() -> None:
    kinds = {kind for part in get_args(events.Event) for kind in get_args(part) or (part,)}
    flat = {kind for kind in kinds if isinstance(kind, type)}
    assert {type(event) for event in ALL} == flat
    assert len(flat) == 14


@pytest.mark.parametrize("event", ALL, ids=lambda event: type(event).__name__)
def test_an_event_survives_being_written(event: events.Event) -> None:
    assert CODEC.decode(Envelope(1, CODEC.encode(event))) == event


def test_a_record_of_the_first_version_is_still_read() -> None:
    """Written out by hand: this text may stand in a shop's journal, so it must stay readable."""
    body = (
        '{"order":"7","number":3,"day":"2026-03-02","name":"Ana","lines":[{"item":"taro",'
        '"item_name":"Taro","line":{"drink":"taro"},"book":"b","build":"x","title":"Large Taro",'
        '"words":["less ice"],"quantity":2,"unit":480,"note":"","uses":["milk"],"work":'
        '[{"station":"seal","label":"Seal","low_s":5,"high_s":5}]}],"totals":{"currency":"EUR",'
        '"net":873,"tax":87,"gross":960,"tax_name":"VAT","tax_percent":"10","tax_included":true}}'
    )
    event = CODEC.decode(Envelope(9, Record("rung-in", 1, NOON, body)))
    assert isinstance(event, events.RungIn)
    assert (event.at, event.order, event.lines[0].quantity, event.totals.tax) == (NOON, "7", 2, 87)
    assert event.lines[0].work == (rung.Work("seal", "Seal", 5, 5),)


def test_what_was_taken_back_is_read_as_it_was_written() -> None:
    """Written out by hand, as above."""
    event = CODEC.decode(Envelope(9, Record("hand-off-taken-back", 1, NOON, '{"order":"7"}')))
    assert event == events.HandOffTakenBack(NOON, "7")
    reopened = CODEC.decode(Envelope(9, Record("steps-reopened", 1, NOON, '{"drink":"7.2","steps":[3,4]}')))
    assert reopened == events.StepsReopened(NOON, "7.2", (3, 4))


def test_what_became_of_a_cup_is_read_as_it_was_written() -> None:
    """Written out by hand, as above."""
    line = (
        '{"item":"cocoa","item_name":"Cocoa","line":{"drink":"cocoa"},"book":"b1","build":"c4","title":'
        '"Large Cocoa","words":["half sugar"],"quantity":1,"unit":520,"note":"no lid","uses":["milk"],"work":'
        '[{"station":"seal","label":"Seal","low_s":5,"high_s":5}]}'
    )
    cocoa = rung.RungLine(
        item="cocoa",
        item_name="Cocoa",
        line={"drink": "cocoa"},
        book="b1",
        build="c4",
        title="Large Cocoa",
        words=("half sugar",),
        quantity=1,
        unit=520,
        note="no lid",
        uses=("milk",),
        work=(rung.Work("seal", "Seal", 5, 5),),
    )

    def read(kind: str, body: str) -> events.Event:
        return CODEC.decode(Envelope(9, Record(kind, 1, NOON, body)))

    changed = read("drink-changed", f'{{"drink":"7.2","line":{line}}}')
    assert changed == events.DrinkChanged(NOON, "7.2", cocoa)
    again = read("drink-remade", '{"drink":"7.2","reason":"spilled","line":null}')
    assert again == events.DrinkRemade(NOON, "7.2", "spilled", None)
    other = read("drink-remade", f'{{"drink":"7.2","reason":"changed mind","line":{line}}}')
    assert other == events.DrinkRemade(NOON, "7.2", "changed mind", cocoa)


def test_a_book_opened_before_there_was_a_last_touch_is_bumped_by_hand() -> None:
    """Written out by hand, as above."""
    old = '{"version":"b","time_zone":"UTC","day_starts_min":240,"anyway":false}'
    event = CODEC.decode(Envelope(9, Record("book-opened", 1, NOON, old)))
    assert event == events.BookOpened(NOON, "b", "UTC", 240, anyway=False, last_touch=False)
    new = f'{old[:-1]},"last_touch":true}}'
    event = CODEC.decode(Envelope(9, Record("book-opened", 1, NOON, new)))
    assert event == events.BookOpened(NOON, "b", "UTC", 240, last_touch=True)


@pytest.mark.parametrize(("tax", "rounded"), [(105, "order"), (104, "line")])
def test_an_old_record_tells_by_its_tax_where_it_was_rounded(tax: int, rounded: str) -> None:
    """5.20 and 6.30 with 10 % inside: 1.05 by invoice, 0.47 + 0.57 by line (GST Act 1999, s 9-90)."""
    lines: list[dict[str, object]] = [
        {"item": "i", "item_name": "I", "line": {}, "book": "b", "build": "x", "title": "I", "words": []}
        | {"quantity": 1, "unit": unit, "note": "", "uses": [], "work": []}
        for unit in (520, 630)
    ]
    charged = {"currency": "AUD", "net": 1150 - tax, "tax": tax, "gross": 1150}
    charged |= {"tax_name": "GST", "tax_percent": "10", "tax_included": True}
    body = {"order": "7", "number": 3, "day": "2026-03-02", "name": "", "lines": lines, "totals": charged}
    event = CODEC.decode(Envelope(9, Record("rung-in", 1, NOON, json.dumps(body))))
    assert isinstance(event, events.RungIn)
    assert (event.totals.tax_rounded, event.totals.tax) == (rounded, tax)


@pytest.mark.parametrize(
    "record",
    [
        Record("poured-out", 1, NOON, "{}"),
        Record("drink-bumped", 2, NOON, '{"drink":"1.1"}'),
        Record("drink-bumped", 1, NOON, '{"drink":'),
        Record("drink-bumped", 1, NOON, '{"cup":"1.1"}'),
        Record("drink-bumped", 1, NOON, "[]"),
        Record("rung-in", 1, NOON, '{"order":"1"}'),
    ],
)
def test_what_cannot_be_read_is_damage_and_named_by_its_place(record: Record) -> None:
    with pytest.raises(Damaged, match="record 41"):
        CODEC.decode(Envelope(41, record))


def test_a_record_names_no_class_of_ours() -> None:
    names = {name for name in vars(events) if name[0].isupper()}
    for event in ALL:
        record = CODEC.encode(event)
        assert record.kind not in names
        assert isinstance(json.loads(record.body), dict)


JOURNAL = Path(__file__).parent / "data" / "journal.jsonl"
"""A journal as it is written today, typed by hand: a shop's may be just this, so it must stay readable."""


def as_written() -> list[Envelope]:
    found = []
    for n, text in enumerate(JOURNAL.read_text("utf-8").splitlines(), start=1):
        told = json.loads(text)
        origin = Origin(told["who"], told["device"], told["request"])
        found.append(Envelope(n, Record(told["kind"], told["version"], told["at"], told["body"], origin)))
    return found


def test_a_journal_as_it_is_written_today_stays_readable() -> None:
    """Two cups rung in: one is bumped, recalled and bumped again, one changed, remade and struck off; the
    order is handed off and taken back."""
    events = [CODEC.decode(envelope) for envelope in as_written()]
    assert {type(event) for event in events} == {kind.event for kind in KINDS}
    state = evolve_all(EMPTY, events)
    (ticket,) = state.tickets.values()
    assert (ticket.name, ticket.number, ticket.totals.gross) == ("Zoë", 1, 1040)
    assert [(drink.id, drink.state) for drink in ticket.drinks] == [("1.1", "made"), ("1.2", "void")]
    cocoa, seal = ticket.drinks[0].rung.work
    assert (cocoa.vessel, cocoa.ingredient, cocoa.grams, cocoa.attended_s) == ("shaker", "cocoa", 21.5, None)
    assert seal == rung.Work("seal", "Seal", 5.0, 8.5, (5.0, 8.5), (0.0, 0.0))
    assert ticket.drinks[0].rung.cost == 61.25
    assert state.position == 16


def test_what_is_written_today_is_what_is_in_that_journal() -> None:
    """To the letter; a kind whose records change gets another version, and another row there."""
    for envelope in as_written():
        record = envelope.record
        assert CODEC.encode(CODEC.decode(envelope), record.origin) == record


def test_text_where_a_number_belongs_and_what_is_unknown_is_damage() -> None:
    """Whatever is wrong is seen when it is read, with the place in the record, and never later."""
    wrong = {
        "step: Input should be a valid integer": Record(
            "step-started", 1, NOON, '{"drink":"1.1","step":"2"}'
        ),
        "drink: Input should be a valid string": Record("drink-bumped", 1, NOON, '{"drink":11}'),
        "cup: Unexpected keyword": Record("drink-bumped", 1, NOON, '{"drink":"1.1","cup":"x"}'),
    }
    for words, record in wrong.items():
        with pytest.raises(Damaged, match=f"record 41.*{words}"):
            CODEC.decode(Envelope(41, record))
