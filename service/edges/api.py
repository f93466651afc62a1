"""The HTTP side as one Flask app: API, pages, guard."""

from __future__ import annotations

import json
from pathlib import Path

from flask import Flask, Response

from service.edges import pages
from service.edges.desk import Desk
from service.edges.guard import guard
from service.edges.http_commands import add_commands
from service.edges.http_cups import add_cups
from service.edges.http_orders import add_orders
from service.edges.http_owner import add_bench
from service.edges.http_owner_book import add_versions
from service.edges.http_reads import add_reads
from service.edges.http_training import add_cards, add_training
from service.edges.openapi import document
from service.edges.owner_desk import OwnerDesk
from service.edges.problems import KINDS
from service.edges.routes import Operation, Routes, answer


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
    return app
