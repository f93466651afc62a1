"""Commands of the bar over HTTP: a request becomes a command, its events an answer."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from flask import Response

from service.orders import commands as ask
from service.orders import wire
from service.orders.commands import Command, DrinkCommand
from service.orders.desk import Desk
from service.orders.events import Event
from service.web.body import request_message
from service.web.key import request_key, request_origin
from service.web.problems import ProblemFound, field_fault
from service.web.routes import Operation, Routes, answer
from service.web.text import NOTE_LENGTH, clean
from service.wire import Wire


def done(events: Sequence[Event], position: int) -> str:
    """The answer to every command but a ring-in."""
    return wire.Done(position=position, changed=bool(events)).model_dump_json()


def add_commands(routes: Routes, desk: Desk) -> None:
    """The commands on drinks, tickets and what is sold out."""

    def carry_out(command: Command) -> Response:
        key = request_key(required=False)
        return answer(desk.handler.handle(command, done, key, request_origin(key)).answer)

    _add_drinks(routes, carry_out)
    _add_several(routes, carry_out)
    _add_tickets(routes, carry_out)

    @routes.add(
        Operation(
            "POST",
            "/api/sold-out",
            "sellOut",
            "Say that an ingredient, topping, milk or drink ran out, or is back",
            wire.Done,
            wire.SoldOutIn,
            key="optional",
            problems=("unknown-item",),
        )
    )
    def sell_out() -> Response:
        told = request_message(wire.SoldOutIn)
        book = desk.book()
        known = {*book.drinks, *book.toppings, *book.milks, *book.pantry} if book else set()
        if told.item not in known | desk.fold.state.sold_out:
            fault = field_fault(
                "item", told.item, "an id of a drink, topping, milk or ingredient in the book"
            )
            raise ProblemFound("unknown-item", f"The book has no {told.item!r}.", [fault])
        return carry_out(ask.SellOut(told.item, told.sold_out))


CarryOut = Callable[[Command], Response]

AT_A_DRINK = ("unknown-drink", "unknown-ticket", "ticket-void", "ticket-closed")


def _drink_operation(
    verb: str, summary: str, takes: type[Wire] | None, problems: tuple[str, ...]
) -> Operation:
    return Operation(
        "POST",
        f"/api/drinks/<drink>/{verb}",
        f"{verb}Drink",
        summary,
        wire.Done,
        takes,
        key="optional",
        problems=(*AT_A_DRINK, *problems),
    )


def _add_drinks(routes: Routes, carry_out: CarryOut) -> None:
    @routes.add(
        _drink_operation("start", "Start the timer of a step", wire.StartStep, ("unknown-step", "drink-void"))
    )
    def start(drink: str) -> Response:
        return carry_out(ask.StartStep(drink, request_message(wire.StartStep).step))

    @routes.add(
        _drink_operation("finish", "Mark steps done", wire.FinishSteps, ("unknown-step", "drink-void"))
    )
    def finish(drink: str) -> Response:
        return carry_out(ask.FinishSteps(drink, tuple(request_message(wire.FinishSteps).steps)))

    @routes.add(_drink_operation("bump", "Mark a drink made", None, ("drink-void",)))
    def bump(drink: str) -> Response:
        return carry_out(ask.BumpDrink(drink))

    @routes.add(
        _drink_operation("recall", "Bring a made drink back to the bar", None, ("drink-void", "handed-off"))
    )
    def recall(drink: str) -> Response:
        return carry_out(ask.RecallDrink(drink))

    @routes.add(_drink_operation("void", "Strike a drink off", wire.VoidIn, ("handed-off", "reason-missing")))
    def void(drink: str) -> Response:
        return carry_out(ask.VoidDrink(drink, _reason()))


def _several_operation(verb: str, summary: str, takes: type[Wire], *problems: str) -> Operation:
    return Operation(
        "POST",
        f"/api/drinks/{verb}",
        f"{verb}Drinks",
        summary,
        wire.Done,
        takes,
        key="optional",
        problems=(*AT_A_DRINK, "drink-void", *problems),
    )


def _add_several(routes: Routes, carry_out: CarryOut) -> None:
    @routes.add(
        _several_operation(
            "work",
            "Reopen or finish steps of alike drinks, then start one",
            wire.WorkIn,
            "unknown-step",
            "drink-made",
            "handed-off",
        )
    )
    def work() -> Response:
        asked = request_message(wire.WorkIn)
        _check_work(asked)
        parts: list[DrinkCommand] = []
        for drink in asked.drinks:
            if asked.reopen:
                parts.append(ask.ReopenSteps(drink, tuple(asked.reopen)))
            if asked.finish:
                parts.append(ask.FinishSteps(drink, tuple(asked.finish)))
            if asked.start is not None:
                parts.append(ask.StartStep(drink, asked.start))
        return carry_out(ask.Together(tuple(parts)))

    @routes.add(_several_operation("bump", "Mark several drinks made", wire.DrinksIn))
    def bump() -> Response:
        asked = request_message(wire.DrinksIn)
        return carry_out(ask.Together(tuple(ask.BumpDrink(drink) for drink in asked.drinks)))

    @routes.add(
        _several_operation("recall", "Bring several drinks back to the bar", wire.DrinksIn, "handed-off")
    )
    def recall() -> Response:
        asked = request_message(wire.DrinksIn)
        return carry_out(ask.Together(tuple(ask.RecallDrink(drink) for drink in asked.drinks)))


def _check_work(asked: wire.WorkIn) -> None:
    """Refuse what asks for nothing, and what would not come to the same when it is sent again."""
    begun = {*asked.finish, *([] if asked.start is None else [asked.start])}
    if not (asked.reopen or begun):
        fault = field_fault("finish", [], "steps to finish, or to reopen, or one to start")
    elif both := begun.intersection(asked.reopen):
        fault = field_fault("reopen", sorted(both), "steps that are not finished or started with it")
    else:
        return
    raise ProblemFound("wrong-fields", f"Not accepted: {fault.field}: {fault.accepted}.", [fault])


def _ticket_operation(
    verb: str, name: str, summary: str, takes: type[Wire] | None, problems: tuple[str, ...]
) -> Operation:
    return Operation(
        "POST",
        f"/api/tickets/<ticket>/{verb}",
        name,
        summary,
        wire.Done,
        takes,
        key="optional",
        problems=("unknown-ticket", "ticket-closed", *problems),
    )


def _add_tickets(routes: Routes, carry_out: CarryOut) -> None:
    @routes.add(
        _ticket_operation("bump", "bumpTicket", "Mark all drinks of a ticket made", None, ("ticket-void",))
    )
    def bump(ticket: str) -> Response:
        return carry_out(ask.BumpTicket(ticket))

    @routes.add(
        _ticket_operation(
            "recall",
            "recallTicket",
            "Bring all made drinks of a ticket back to the bar",
            None,
            ("handed-off", "ticket-void"),
        )
    )
    def recall(ticket: str) -> Response:
        return carry_out(ask.RecallTicket(ticket))

    @routes.add(
        _ticket_operation(
            "void", "voidTicket", "Strike a ticket off", wire.VoidIn, ("handed-off", "reason-missing")
        )
    )
    def void(ticket: str) -> Response:
        return carry_out(ask.VoidTicket(ticket, _reason()))

    @routes.add(
        _ticket_operation(
            "hand-off", "handOffTicket", "Give a ready ticket out", None, ("not-ready", "ticket-void")
        )
    )
    def hand_off(ticket: str) -> Response:
        return carry_out(ask.HandOff(ticket))

    @routes.add(
        _ticket_operation(
            "take-back",
            "takeBackHandOff",
            "Take back a hand-off of today: the ticket stands ready again",
            None,
            ("ticket-void",),
        )
    )
    def take_back(ticket: str) -> Response:
        return carry_out(ask.TakeBack(ticket))


def _reason() -> str:
    return clean(request_message(wire.VoidIn).reason, NOTE_LENGTH)
