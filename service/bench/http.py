"""The owner's bench over HTTP: forms, trials, a change of brand, weighing."""

from __future__ import annotations

from flask import Response

from recipes.book import Book
from recipes.reading.faults import BookRefused
from recipes.reading.reader import parse_book
from service.bench import brands, measuring, movers, proposing, trial, wire
from service.bench.desk import OwnerDesk
from service.bench.editing.edits import apply
from service.bench.forms.forms import forms
from service.bench.guard import View, owner_only
from service.books.menu import menu
from service.host.aside import aside
from service.web.body import request_message
from service.web.gzipped import squeezed
from service.web.problems import ProblemFound
from service.web.routes import Operation, Routes, answer_message


def add_bench(routes: Routes, owner: OwnerDesk, anywhere: bool) -> None:
    """What looks at the book and tries things out; nothing here changes anything."""
    guarded = owner_only(anywhere)

    def add(operation: Operation, view: View) -> None:
        routes.add(operation)(guarded(view))

    def book() -> Response:
        return squeezed(answer_message(owner.workbook()))

    def formed() -> Response:
        asked = request_message(wire.FormsIn)
        texts = owner.texts()
        named = {edit.file for edit in asked.edits}
        return squeezed(answer_message(aside(lambda: forms(apply(texts, asked.edits), named))))

    def try_out() -> Response:
        asked = request_message(wire.TryIn)
        texts = owner.texts()
        before = _before(owner)

        after, faults = owner.edited(texts, asked.edits)
        if after is None:
            return answer_message(trial.refused(faults))

        def work() -> wire.Trial:
            told = trial.trial(before, after, asked.line)
            return told.model_copy(update={"menu": menu(after.version, after, [], None)})

        return answer_message(aside(work))

    def brand() -> Response:
        asked = request_message(wire.BrandIn)
        texts = owner.texts()
        before = owner.folder_book()
        weighing, density, edits = aside(lambda: brands.brand(before, asked))
        after, faults = owner.edited(texts, edits)

        def work() -> wire.Brand:
            return wire.Brand(
                weighing=weighing,
                density_before=before.pantry[asked.ingredient].density,
                density_after=density,
                edits=edits,
                faults=faults,
                energy="" if after is None else brands.energy_words(after, asked.ingredient, asked.label),
                movers=movers.movers(before, after) if after is not None else [],
            )

        return answer_message(aside(work))

    def propose() -> Response:
        asked = request_message(wire.ProposeIn)
        texts = owner.texts()

        def work() -> wire.Proposed:
            after, faults = trial.edited_book(texts, asked.edits)
            rows = [] if after is None else proposing.proposed(after, asked.drinks, asked.anew)
            return wire.Proposed(rows=rows, faults=faults)

        return squeezed(answer_message(aside(work)))

    def trade_off() -> Response:
        asked = request_message(wire.TradeOffIn)
        texts = owner.texts()
        book = aside(lambda: parse_book(apply(texts, asked.edits)))
        return answer_message(owner.trade_off.start(book))

    def traded() -> Response:
        return answer_message(owner.trade_off.status())

    def weigh() -> Response:
        asked = request_message(wire.WeighIn)
        return answer_message(measuring.weighed(owner.folder_book(), asked))

    def chill() -> Response:
        asked = request_message(wire.ChillIn)
        return answer_message(measuring.chilled(owner.folder_book(), asked))

    add(
        Operation("GET", "/api/owner/book", "ownerBook", "The book as forms", wire.Workbook, problems=_OWN),
        book,
    )
    add(
        Operation(
            "POST",
            "/api/owner/forms",
            "ownerForms",
            "The files that edits name as forms, with the edits made",
            wire.Forms,
            wire.FormsIn,
            problems=(*_OWN, "book-refused"),
        ),
        formed,
    )
    add(
        Operation(
            "POST",
            "/api/owner/try",
            "ownerTry",
            "What edits would do to one line and to the whole book",
            wire.Trial,
            wire.TryIn,
            problems=_OWN,
        ),
        try_out,
    )
    add(
        Operation(
            "POST",
            "/api/owner/propose",
            "ownerPropose",
            "What a hand would measure at the sizes that are not written",
            wire.Proposed,
            wire.ProposeIn,
            problems=_OWN,
        ),
        propose,
    )
    add(
        Operation(
            "POST",
            "/api/owner/trade-off",
            "ownerTradeOff",
            "Reckon taste against hands over the whole menu",
            wire.TradeOff,
            wire.TradeOffIn,
            problems=(*_OWN, "book-refused"),
        ),
        trade_off,
    )
    add(
        Operation(
            "GET",
            "/api/owner/trade-off",
            "ownerTradedOff",
            "Taste against hands as far as it is reckoned",
            wire.TradeOff,
            problems=_OWN,
        ),
        traded,
    )
    add(
        Operation(
            "POST",
            "/api/owner/brand",
            "ownerBrand",
            "The edits that a change of brand makes, and the recipes that move",
            wire.Brand,
            wire.BrandIn,
            problems=(*_OWN, "cannot-measure", "book-refused"),
        ),
        brand,
    )
    add(
        Operation(
            "POST",
            "/api/owner/weigh",
            "ownerWeigh",
            "Judge repeated weighings of a measure",
            wire.Weighed,
            wire.WeighIn,
            problems=(*_OWN, "cannot-measure", "book-refused"),
        ),
        weigh,
    )
    add(
        Operation(
            "POST",
            "/api/owner/chill",
            "ownerChill",
            "Judge how far a station gets with chilling",
            wire.Chilled,
            wire.ChillIn,
            problems=(*_OWN, "cannot-measure", "book-refused"),
        ),
        chill,
    )


_OWN = ("owner-elsewhere",)


def _before(owner: OwnerDesk) -> Book:
    """What a trial compares with: the folder's book, or, while that is refused, the one in force."""
    try:
        return owner.folder_book()
    except BookRefused as refused:
        in_force = owner.desk.book()
        if in_force is None:
            raise ProblemFound("no-book", f"There is no book to compare with: {refused.faults[0]}") from None
        return in_force
