"""The life of orders, played at random against a small model of what a person would expect."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import Bundle, RuleBasedStateMachine, consumes, initialize, invariant, rule

from service.journal.codec import Codec
from service.journal.journal import Envelope
from service.journal.refusals import Code, Refused
from service.orders import commands as ask
from service.orders.commands import DrinkCommand, OrderLine, TicketCommand
from service.orders.events import Event
from service.orders.evolve import evolve_all
from service.orders.state import EMPTY, Ticket
from service.orders.subject import KINDS
from service.orders.views import gone_of, open_of, ticket_state, touched
from service.times.life import spans
from service.times.record import OrderRecord, record
from tests.service.samples import WORK, Bar, a_line, ring

CODEC: Codec[Event] = Codec(KINDS)

LINES = (a_line(), a_line("cocoa", work=WORK[:2]), a_line("mocha", unit=610, work=WORK + WORK[:1]))
"""What a cup may become: one as it was rung in, one with fewer steps, one with more."""

STEPS = st.integers(0, len(WORK) + 1)


class OrderLife(RuleBasedStateMachine):
    """``model`` maps order → drink → "open", "made" or "void"; ``over`` orders that left → how.

    ``handed`` maps orders handed off to the business day that it was then, and to their drinks.
    """

    def __init__(self) -> None:
        super().__init__()
        self.bar = Bar()
        self.model: dict[str, dict[str, str]] = {}
        self.over: dict[str, str] = {}
        self.handed: dict[str, tuple[str | None, dict[str, str]]] = {}
        self.days: dict[str, str | None] = {}

    drinks = Bundle("drinks")
    orders = Bundle("orders")

    @initialize(target=orders)
    def begin(self) -> str:
        return "99"

    @rule(target=orders, cups=st.integers(1, 3), later=st.integers(-60_000, 3_600_000))
    def ring_in(self, cups: int, later: int) -> str:
        (event,) = self.bar.tell(ring(a_line(quantity=cups)), later)
        order = str(len(self.model) + len(self.over) + 1)
        assert getattr(event, "order", None) == order
        self.model[order] = {f"{order}.{n}": "open" for n in range(1, cups + 1)}
        self.days[order] = self.bar.state.day
        return order

    @rule(target=drinks, order=orders, n=st.integers(0, 4))
    def point(self, order: str, n: int) -> str:
        return f"{order}.{n}"

    def steps_of(self, drink: str) -> int:
        """How many steps a cup has, which a change or a remake may have made more or fewer."""
        drinks = self.bar.state.tickets[drink.rpartition(".")[0]].drinks
        return next(len(cup.steps) for cup in drinks if cup.id == drink)

    def ask_drink(self, command: DrinkCommand) -> bool:
        """Tell the bar; whether it was taken, checked against the model."""
        order = command.drink.rpartition(".")[0]
        try:
            self.bar.tell(command, later=1000)
        except Refused as refused:
            known = self.model.get(order, {}).get(command.drink)
            self.check_reason(refused.code, order, known)
            return False
        return order in self.model

    def check_reason(self, code: Code, order: str, drink: str | None) -> None:
        """A drink's command is refused only for what the model knows to be so."""
        if code is Code.UNKNOWN_TICKET:
            assert order not in self.model
            assert order not in self.over
        elif code is Code.UNKNOWN_DRINK:
            assert drink is None
        elif code is Code.DRINK_VOID:
            assert drink == "void"
        elif code is Code.TICKET_VOID:
            assert self.over[order] == "void"
        elif code is Code.HANDED_OFF:
            assert self.over[order] == "handed off"
        elif code is Code.DRINK_BEGUN:
            assert drink in ("open", "made")
        else:
            assert code in (Code.UNKNOWN_STEP, Code.TICKET_CLOSED) or (
                code is Code.DRINK_MADE and drink == "made"
            )

    @rule(drink=drinks, step=STEPS)
    def start(self, drink: str, step: int) -> None:
        if self.ask_drink(ask.StartStep(drink, step)):
            assert 1 <= step <= self.steps_of(drink)

    @rule(drink=drinks, steps=st.lists(STEPS, min_size=1, max_size=4))
    def finish(self, drink: str, steps: list[int]) -> None:
        if self.ask_drink(ask.FinishSteps(drink, tuple(steps))):
            assert all(1 <= step <= self.steps_of(drink) for step in steps)

    @rule(drink=drinks, steps=st.lists(STEPS, min_size=1, max_size=4))
    def reopen(self, drink: str, steps: list[int]) -> None:
        if self.ask_drink(ask.ReopenSteps(drink, tuple(steps))):
            assert self.model[drink.partition(".")[0]][drink] == "open"

    @rule(drink=drinks)
    def bump(self, drink: str) -> None:
        if self.ask_drink(ask.BumpDrink(drink)):
            self.model[drink.partition(".")[0]][drink] = "made"

    @rule(drink=drinks)
    def recall(self, drink: str) -> None:
        if self.ask_drink(ask.RecallDrink(drink)):
            self.model[drink.partition(".")[0]][drink] = "open"

    def begun(self, drink: str) -> bool:
        """Whether the bar has a hand at it: what a change goes by."""
        ticket = self.bar.state.tickets.get(drink.rpartition(".")[0])
        return ticket is not None and any(
            each.id == drink and any(step.state != "todo" for step in each.steps) for each in ticket.drinks
        )

    @rule(drink=drinks, line=st.sampled_from(LINES))
    def change(self, drink: str, line: OrderLine) -> None:
        begun, before = self.begun(drink), len(self.bar.events)
        if self.ask_drink(ask.ChangeDrink(drink, line)):
            assert not begun or len(self.bar.events) == before

    @rule(drink=drinks, line=st.sampled_from((None, *LINES)))
    def remake(self, drink: str, line: OrderLine | None) -> None:
        if self.ask_drink(ask.RemakeDrink(drink, "spilled", line, {})):
            self.model[drink.partition(".")[0]][drink] = "open"
            assert not self.begun(drink)

    @rule(drink=drinks)
    def void(self, drink: str) -> None:
        if self.ask_drink(ask.VoidDrink(drink, "dropped")):
            self.set_void(drink.partition(".")[0], [drink])

    def set_void(self, order: str, drinks: list[str]) -> None:
        for drink in drinks:
            self.model[order][drink] = "void"
        if set(self.model[order].values()) == {"void"}:
            del self.model[order]
            self.over[order] = "void"

    def ask_ticket(self, command: TicketCommand) -> bool:
        try:
            self.bar.tell(command, later=1000)
        except Refused as refused:
            if refused.code is Code.NOT_READY:
                assert "open" in self.model[command.order].values()
            else:
                assert command.order not in self.model
            return False
        return command.order in self.model

    def turn(self, order: str, before: str, after: str) -> None:
        self.model[order] = {d: after if s == before else s for d, s in self.model[order].items()}

    @rule(order=orders)
    def bump_ticket(self, order: str) -> None:
        if self.ask_ticket(ask.BumpTicket(order)):
            self.turn(order, "open", "made")

    @rule(order=orders)
    def recall_ticket(self, order: str) -> None:
        if self.ask_ticket(ask.RecallTicket(order)):
            self.turn(order, "made", "open")

    @rule(order=consumes(orders))
    def void_ticket(self, order: str) -> None:
        if self.ask_ticket(ask.VoidTicket(order, "left")):
            self.set_void(order, list(self.model[order]))

    @rule(order=orders)
    def hand_off(self, order: str) -> None:
        if self.ask_ticket(ask.HandOff(order)):
            assert "open" not in self.model[order].values()
            self.handed[order] = (self.bar.state.day, self.model.pop(order))
            self.over[order] = "handed off"

    @rule(order=orders)
    def take_back(self, order: str) -> None:
        was = self.over.get(order)
        try:
            events = self.bar.tell(ask.TakeBack(order), later=1000)
        except Refused as refused:
            self.check_closed(refused.code, order)
            return
        if was is None:
            assert events == ()
        else:
            del self.over[order]
            self.model[order] = self.handed.pop(order)[1]

    def check_closed(self, code: Code, order: str) -> None:
        """A hand-off is kept only while the day of the ticket is the day."""
        assert order not in self.model
        if self.over.get(order) == "handed off":
            assert code is Code.TICKET_CLOSED
            day, _ = self.handed[order]
            assert day != self.bar.state.day or self.days[order] != day

    @rule(first=drinks, second=drinks)
    def bump_together(self, first: str, second: str) -> None:
        try:
            self.bar.tell(ask.Together((ask.BumpDrink(first), ask.BumpDrink(second))), later=1000)
        except Refused:
            return
        for drink in (first, second):
            order = drink.partition(".")[0]
            if order in self.model:
                self.model[order][drink] = "made"

    @invariant()
    def the_queue_is_as_the_model_says(self) -> None:
        told = {
            order: {
                drink.id: drink.state if drink.state in ("made", "void") else "open"
                for drink in ticket.drinks
            }
            for order, ticket in self.bar.state.tickets.items()
        }
        assert told == self.model

    @invariant()
    def times_never_run_backwards(self) -> None:
        times = [event.at for event in self.bar.events]
        assert times == sorted(times)

    @invariant()
    def a_drink_that_is_made_has_no_step_open(self) -> None:
        for ticket in self.bar.state.tickets.values():
            for drink in ticket.drinks:
                if drink.state == "made":
                    assert {step.state for step in drink.steps} == {"done"}
                if ticket_state(ticket) == "ready":
                    assert drink.state in ("made", "void")

    def teardown(self) -> None:
        """What was written down can be read again, and any cut of it resumes to the same queue."""
        written = [Envelope(n, CODEC.encode(event)) for n, event in enumerate(self.bar.events, start=1)]
        read = [CODEC.decode(envelope) for envelope in written]
        assert read == self.bar.events
        assert evolve_all(EMPTY, read) == self.bar.state
        cut = len(read) // 2
        held = dict(evolve_all(EMPTY, read[:cut]).tickets)
        what = touched(read[cut:])
        held |= {ticket.id: ticket for ticket in open_of(self.bar.state, what)}
        for gone in gone_of(self.bar.state, what):
            held.pop(gone, None)
        assert held == self.bar.state.tickets
        assert list(self.bar.state.tickets) == sorted(self.bar.state.tickets, key=int)
        self.check_lives()

    def check_lives(self) -> None:
        stories: dict[str, list[object]] = {}
        for event in self.bar.events:
            order = getattr(event, "order", None) or getattr(event, "drink", "").rpartition(".")[0]
            if order:
                stories.setdefault(order, []).append(event)
        for order, story in stories.items():
            told = record(story)  # type: ignore[arg-type]
            expected = self.over.get(order)
            assert (told.state == expected) if expected else told.state in ("waiting", "making", "ready")
            if order in self.bar.state.tickets:
                self.check_steps(told, self.bar.state.tickets[order])
            for drink in told.drinks:
                found = spans(told, drink)
                assert all(one.end == two.start for one, two in pairwise(found))
                if found:
                    assert found[0].start == told.rung_at

    def check_steps(self, told: OrderRecord, ticket: Ticket) -> None:
        """The review knows of every cup on the bar the steps that are done and those that run."""
        for kept, drink in zip(told.drinks, ticket.drinks, strict=True):
            if drink.state != "void":
                steps = list(enumerate(drink.steps, start=1))
                assert kept.done == {n for n, step in steps if step.state == "done"}
                running = sorted(run.step for run in kept.runs if run.end is None)
                assert running == [n for n, step in steps if step.state == "running"]
        assert told.state == ticket_state(ticket)


TestOrderLife = OrderLife.TestCase
TestOrderLife.settings = settings(max_examples=60, stateful_step_count=40, deadline=None)


def test_a_cup_remade_as_one_with_more_steps_takes_the_last_of_them() -> None:
    """Found by drawing: the seventh step is one of the mocha's that the first cup had not."""
    life = OrderLife()
    life.ring_in(1, 0)
    life.remake("1.1", LINES[2])
    life.finish("1.1", [len(WORK) + 1])
    assert life.bar.state.tickets["1"].drinks[0].steps[-1].state == "done"
    life.teardown()
