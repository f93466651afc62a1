"""Training and recipe cards over HTTP."""

from __future__ import annotations

import secrets

from flask import Response, request

from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Refusal
from service.bench.desk import OwnerDesk
from service.bench.guard import owner_only
from service.host.aside import aside
from service.learning import training, wire
from service.learning.scores import ScoreBook
from service.orders.http.orders import open_book, whole_line
from service.web.body import request_message
from service.web.problems import ProblemFound, field_fault
from service.web.routes import Operation, Routes, answer_message
from service.web.text import NAME_LENGTH, clean

SEEDS = 2**31


def add_training(routes: Routes, owner: OwnerDesk, anywhere: bool) -> None:
    """The training routes, open to every station; its scores and settings are the owner's."""
    desk, guarded = owner.desk, owner_only(anywhere)
    book_of_scores = ScoreBook(owner.kept)

    @routes.add(
        Operation(
            "GET",
            "/api/training/drink",
            "trainingDrink",
            "A bent drink to build, its stations and amounts hidden",
            wire.TrainingDrink,
            query={"seed": f"a whole number from 0 to {SEEDS - 1}; left out: a random one"},
            problems=("no-book", "wrong-seed"),
        )
    )
    def drink() -> Response:
        scored = book_of_scores.scores().on
        return answer_message(training.training_drink(open_book(desk), _seed(), scored))

    @routes.add(
        Operation(
            "POST",
            "/api/training/check",
            "trainingCheck",
            "Is this step's station and amount right?",
            wire.Checked,
            wire.CheckIn,
            problems=("no-book", "line-refused", "unknown-step"),
        )
    )
    def check() -> Response:
        asked = request_message(wire.CheckIn)
        book = open_book(desk)
        line = whole_line(book, asked.line, "line")
        try:
            build = resolve(book, line)
        except Refusal as refusal:
            fault = field_fault(f"line.{refusal.field}", refusal.value, refusal.accepted or "another choice")
            raise ProblemFound("line-refused", refusal.message, [fault]) from refusal
        if asked.step > len(build.steps):
            fault = field_fault("step", asked.step, f"1 to {len(build.steps)}")
            raise ProblemFound("unknown-step", f"The drink has no step {asked.step}.", [fault])
        step = build.steps[asked.step - 1]
        told = training.check(book, build, step, asked.station, asked.count, None)
        person = clean(asked.person, NAME_LENGTH)
        score = book_of_scores.answered(person, told.right, desk.now())
        return answer_message(told.model_copy(update={"score": score}))

    @guarded
    def settings() -> Response:
        return answer_message(book_of_scores.keep_scores(request_message(wire.TrainingIn).scores))

    @guarded
    def forget() -> Response:
        person = request_message(wire.ForgetIn).person
        if not book_of_scores.forget(person):
            known = tuple(each.person for each in book_of_scores.scores().people)
            fault = field_fault("person", person, known or "nobody: no score is kept")
            raise ProblemFound("unknown-item", f"No score is kept of {fault.value!r}.", [fault])
        return answer_message(book_of_scores.scores())

    @guarded
    def scores() -> Response:
        return answer_message(book_of_scores.scores())

    routes.add(
        Operation(
            "PUT",
            "/api/owner/training",
            "ownerTraining",
            "Keep scores per person, or stop and delete them",
            wire.Scores,
            wire.TrainingIn,
            problems=("owner-elsewhere",),
        )
    )(settings)
    routes.add(
        Operation(
            "POST",
            "/api/owner/training/forget",
            "ownerTrainingForget",
            "Delete the score of one person",
            wire.Scores,
            wire.ForgetIn,
            problems=("owner-elsewhere", "unknown-item"),
        )
    )(forget)
    routes.add(
        Operation(
            "GET",
            "/api/training/scores",
            "trainingScores",
            "How each person has done, where that is kept",
            wire.Scores,
            problems=("owner-elsewhere",),
        )
    )(scores)


def _seed() -> int:
    text = request.args.get("seed", "")
    if not text:
        return secrets.randbelow(SEEDS)
    if not (text.isascii() and text.isdecimal() and len(text) <= 10 and int(text) < SEEDS):
        fault = field_fault("seed", text, f"a whole number from 0 to {SEEDS - 1}")
        raise ProblemFound("wrong-seed", f"{fault.value!r} is not a seed.", [fault])
    return int(text)


def add_cards(routes: Routes, owner: OwnerDesk, anywhere: bool) -> None:
    """What is printed of the book in force: recipe cards, and the allergens of its whole menu."""
    guarded = owner_only(anywhere)

    @guarded
    def card(drink: str) -> Response:
        book = open_book(owner.desk)
        if drink != "all" and drink not in book.drinks:
            fault = field_fault("drink", drink, tuple(book.drinks))
            raise ProblemFound("unknown-item", f"The book has no drink {drink!r}.", [fault])
        drinks = list(book.drinks) if drink == "all" else [drink]
        size = request.args.get("size") or None
        if size is not None:
            drinks = [each for each in drinks if size in book.drinks[each].sizes]
            if not drinks:
                offered = book.sizes if drink == "all" else book.drinks[drink].sizes
                fault = field_fault("size", size, ", ".join(offered))
                raise ProblemFound("unknown-item", f"There is no size {fault.value!r} here.", [fault])
        now = owner.desk.now()
        return _pdf(aside(lambda: _cards(book, drinks, now, size)), drink)

    @guarded
    def allergens() -> Response:
        book, now = open_book(owner.desk), owner.desk.now()
        return _pdf(aside(lambda: _allergen_sheet(book, now)), "allergens")

    routes.add(
        Operation(
            "GET",
            "/cards/allergens.pdf",
            "allergens",
            "The allergens of the whole menu, to print: drinks with each milk, toppings, milks, shots",
            problems=("owner-elsewhere", "no-book"),
            media="application/pdf",
        )
    )(allergens)
    routes.add(
        Operation(
            "GET",
            "/cards/<drink>.pdf",
            "card",
            "Recipe cards to print: a drink by its id, or all",
            query={"size": "only this size; left out: all sizes side by side"},
            problems=("owner-elsewhere", "unknown-item", "no-book"),
            media="application/pdf",
        )
    )(card)


# What draws on paper is a third of all that a start would import: it comes when a paper is asked for, and
# aside, so that no order waits for it either.


def _cards(book: Book, drinks: list[str], now: int, size: str | None) -> bytes:
    from service.learning.cards import cards

    return cards(book, drinks, now, size)


def _allergen_sheet(book: Book, now: int) -> bytes:
    from service.learning.allergen_sheet import allergen_sheet

    return allergen_sheet(book, now)


def _pdf(data: bytes, name: str) -> Response:
    shown = {"Content-Disposition": f'inline; filename="{name}.pdf"'}
    return Response(data, mimetype="application/pdf", headers=shown)
