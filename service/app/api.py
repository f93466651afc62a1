"""The HTTP side as one Flask app: API, pages, guard."""

from __future__ import annotations

import json
from pathlib import Path

from flask import Flask, Response

from service.app.openapi import document
from service.bench.desk import OwnerDesk
from service.bench.http import add_bench
from service.bench.http_book import add_versions
from service.bench.problems import guard_bench
from service.learning.http import add_cards, add_training
from service.orders.desk import Desk
from service.orders.http.commands import add_commands
from service.orders.http.cups import add_cups
from service.orders.http.orders import add_orders
from service.orders.http.reads import add_reads
from service.times.history import History
from service.times.http import add_times
from service.web import pages
from service.web.guard import guard
from service.web.problems import KINDS
from service.web.routes import Operation, Routes, answer


def make_app(
    desk: Desk,
    display: Path = pages.DISPLAY,
    owner: OwnerDesk | None = None,
    owner_anywhere: bool = False,
) -> Flask:
    """The app that answers for a desk. Nothing is connected or started."""
    app = Flask("levelscoop", static_folder=None)
    routes = Routes()
    add_reads(routes, desk)
    # It hears of every event from the first on, so it is there before the journal is read.
    history = History(desk.fold, desk.journal)
    add_times(routes, desk, history)
    add_orders(routes, desk)
    add_commands(routes, desk)
    add_cups(routes, desk)
    if owner is not None:
        add_bench(routes, owner, owner_anywhere)
        add_versions(routes, owner, owner_anywhere)
        add_training(routes, owner, owner_anywhere)
        add_cards(routes, owner, owner_anywhere)

    @routes.add(Operation("GET", "/api/openapi.json", "openapi", "This document"))
    def openapi() -> Response:
        return answer(text)

    text = json.dumps(document(routes.operations, KINDS), ensure_ascii=False)
    app.register_blueprint(routes.blueprint)
    app.register_blueprint(pages.pages(display))
    guard(app)
    guard_bench(app)
    app.extensions["history"] = history
    return app
