"""The stories of orders: every order's own events, for the day's review and the life of a ticket.

The latest business days are held in memory and need no journal; older ones are read from the stretch of
it in which the day lies.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable

from service.journal.fold import BATCH
from service.journal.journal import Journal
from service.orders.events import BackOn, BookOpened, OrderEvent, RungIn, SoldOut, order_of
from service.orders.state import DaySpan, State
from service.orders.subject import OrdersFold, OrdersMoved
from service.times.record import OrderRecord, record

DAYS_HELD = 2
"""How many business days are held: today's, and the one before for whoever reviews it in the morning."""

Story = tuple[OrderEvent, ...]


class History:
    """Listens to a fold from its first event on; asked by day or by order."""

    def __init__(self, fold: OrdersFold, journal: Journal) -> None:
        self._fold = fold
        self._journal = journal
        self._stories: dict[str, list[OrderEvent]] = {}
        self._days: dict[str, list[str]] = {}
        self._records: dict[str, tuple[int, OrderRecord]] = {}
        # Where the fold began in the middle: the state there, and what came since, until the past is read.
        self._began: State | None = None
        self._since: list[OrderEvent] = []
        fold.listen(self._moved, self._begin_at)

    def day(self, day: str) -> list[OrderRecord]:
        """The records of a business day's orders, in the order rung in. May raise Unavailable."""
        self.load()
        with self._fold.turn:
            state = self._fold.state
            if day in self._days:
                return [self._record(order) for order in self._days[day]]
        span = state.days.get(day)
        return [] if span is None else [record(each) for each in self._read(day, span, state).values()]

    def story(self, order: str) -> Story | None:
        """All events of an order so far; None if there never was one. May raise Unavailable."""
        self.load()
        with self._fold.turn:
            state = self._fold.state
            if order in self._stories:
                return tuple(self._stories[order])
        day = _day_of(order, state)
        return None if day is None else self._read(day, state.days[day], state).get(order)

    def load(self) -> None:
        """Read what is held of the past where the fold began in the middle, if that was not done before.

        May raise Unavailable: who asks next tries again.
        """
        began = self._began
        if began is None:
            return
        held = {ticket.day for ticket in began.tickets.values()} | set(sorted(began.days)[-DAYS_HELD:])
        past: list[OrderEvent] = []
        position = min((began.days[day].first for day in held), default=began.position + 1) - 1
        while position < began.position:
            batch = self._journal.read(position, min(BATCH, began.position - position))
            if not batch:
                break
            position = batch[-1].position
            events = (self._fold.codec.decode(envelope) for envelope in batch)
            past += [event for event in events if not isinstance(event, BookOpened | SoldOut | BackOn)]
        with self._fold.turn:
            if self._began is not None:
                self._began = None
                since, self._since = self._since, []
                for event in (*past, *since):
                    self._take(event, held)

    def _begin_at(self, state: State) -> None:
        self._began, self._since = state, []

    def _take(self, event: OrderEvent, held: Collection[str] = ()) -> None:
        """Tell an event to its story. With days that are ``held``, orders of others before are left out."""
        order = order_of(event) or ""
        if isinstance(event, RungIn):
            if held and event.day < max(held) and event.day not in held:
                return
            self._stories[order] = []
            self._days.setdefault(event.day, []).append(order)
        elif held and order not in self._stories:
            return
        self._stories[order].append(event)

    def _moved(self, moved: OrdersMoved) -> None:
        events = [event for event in moved.events if not isinstance(event, BookOpened | SoldOut | BackOn)]
        if self._began is not None:
            self._since += events
            return
        for event in events:
            self._take(event)
        if len(self._days) > DAYS_HELD:
            self._forget(moved.after)

    def _forget(self, state: State) -> None:
        """Let go of the days too old to hold, but for those that still have a ticket open."""
        still_open = {ticket.day for ticket in state.tickets.values()}
        for day in sorted(self._days)[:-DAYS_HELD]:
            if day not in still_open:
                for order in self._days.pop(day):
                    del self._stories[order]
                    self._records.pop(order, None)

    def _record(self, order: str) -> OrderRecord:
        story = self._stories[order]
        length, known = self._records.get(order, (0, None))
        if known is None or length != len(story):
            known = record(story)
            self._records[order] = (len(story), known)
        return known

    def _read(self, day: str, span: DaySpan, state: State) -> dict[str, Story]:
        """The stories of a day that has gone from memory: all its tickets are closed by then."""
        stories: dict[str, list[OrderEvent]] = {}
        position = span.first - 1
        while position < span.last:
            batch = self._journal.read(position, min(BATCH, span.last - position))
            if not batch:
                break
            position = batch[-1].position
            _sort_in(stories, (self._fold.codec.decode(envelope) for envelope in batch), day)
        return {order: tuple(story) for order, story in stories.items()}


def _sort_in(stories: dict[str, list[OrderEvent]], events: Iterable[object], day: str) -> None:
    for event in events:
        if isinstance(event, RungIn):
            if event.day == day:
                stories[event.order] = [event]
        elif isinstance(event, OrderEvent):
            order = order_of(event)
            if order in stories:
                stories[order].append(event)


def _day_of(order: str, state: State) -> str | None:
    """The business day of an order: ids count on through the days, which tells where it must be."""
    if not (order.isascii() and order.isdecimal() and len(order) <= 12):
        return None
    number = int(order)
    if number < 1 or str(number) != order:
        return None
    for day in sorted(state.days):
        if number <= state.days[day].orders:
            return day
        number -= state.days[day].orders
    return None
