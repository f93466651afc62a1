"""Routes of the API, declared once: what Flask serves is what the OpenAPI document says."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from flask import Blueprint, Response

from service.wire import Wire

View = Callable[..., Response]


@dataclass(frozen=True, slots=True)
class Operation:
    """One method of one path (in Flask's writing, as ``/api/drinks/<drink>/start``).

    ``query`` names the parameters after the "?" with their meaning. ``problems`` are the codes that are
    particular to it; those that any request may meet are not listed. ``media`` is what it answers with.
    """

    method: Literal["GET", "POST", "PUT"]
    path: str
    name: str
    summary: str
    gives: type[Wire] | None = None
    takes: type[Wire] | None = None
    status: int = 200
    key: Literal["required", "optional", "none"] = "none"
    query: Mapping[str, str] = field(default_factory=dict)
    problems: tuple[str, ...] = ()
    media: str = "application/json"


class Routes:
    """A blueprint that remembers its operations."""

    def __init__(self) -> None:
        self.blueprint = Blueprint("api", __name__)
        self.operations: list[Operation] = []

    def add(self, operation: Operation) -> Callable[[View], View]:
        """Serve an operation with the decorated function."""

        def keep(view: View) -> View:
            self.operations.append(operation)
            self.blueprint.add_url_rule(
                operation.path, operation.name, view, methods=[operation.method], strict_slashes=False
            )
            return view

        return keep


def answer(text: str, status: int = 200) -> Response:
    """A JSON answer from its text; never kept by anything on the way, since it is true for a moment."""
    return Response(text, status, {"Cache-Control": "no-store"}, mimetype="application/json")


def answer_message(message: Wire, status: int = 200) -> Response:
    """A JSON answer from a message."""
    return answer(message.model_dump_json(), status)
