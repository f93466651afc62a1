"""What every request passes: foreign pages kept out, safe headers put on, errors told as problems."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable
from typing import Any
from urllib.parse import urlsplit

from flask import Flask, Response
from werkzeug.exceptions import HTTPException

from recipes.faults import BookRefused
from service.core.refusals import Refused
from service.edges.body import LARGEST
from service.edges.owner_desk import BaseChanged
from service.edges.problems import MEDIA_TYPE, ProblemFound, field_fault, problem
from service.journal import Damaged, KeyReused, Unavailable, Unsure
from service.owner.edits import EditRefused
from service.owner.measuring import CannotMeasure
from service.wire import FieldFault

LOG = logging.getLogger("levelscoop")

HEADERS = {
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data:; object-src 'none'; "
    "base-uri 'none'; form-action 'self'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}

SAFE_METHODS = ("GET", "HEAD", "OPTIONS")

_BY_STATUS = {404: "not-found", 405: "method-not-allowed", 413: "too-large", 415: "wrong-media-type"}

Environment = dict[str, Any]
Application = Callable[[Environment, Callable[..., Any]], Iterable[bytes]]


def tell(code: str, detail: str, errors: Iterable[FieldFault] = ()) -> Response:
    """A problem document as an answer."""
    told = problem(code, detail, list(errors))
    response = Response(told.model_dump_json(), told.status, mimetype=MEDIA_TYPE)
    response.headers["Cache-Control"] = "no-store"
    if told.status == 503:
        response.headers["Retry-After"] = "1"
    return response


def guard(app: Flask) -> None:
    """Put headers and error answers on an app."""
    app.config["MAX_CONTENT_LENGTH"] = LARGEST

    @app.after_request
    def put_headers(response: Response) -> Response:
        for name, value in HEADERS.items():
            response.headers.setdefault(name, value)
        return response

    @app.errorhandler(ProblemFound)
    def found(error: ProblemFound) -> Response:
        return tell(error.code, error.detail, error.errors)

    @app.errorhandler(Refused)
    def refused(error: Refused) -> Response:
        accepted = error.accepted or ("another choice",)
        faults = [field_fault(error.field, error.value, accepted)] if error.field else []
        return tell(error.code, error.message, faults)

    @app.errorhandler(KeyReused)
    def reused(error: KeyReused) -> Response:
        return tell("key-reused", "The Idempotency-Key came before with another request; take a new one.")

    @app.errorhandler(BaseChanged)
    def base_changed(error: BaseChanged) -> Response:
        named = ", ".join(error.files) or "more than can be told"
        faults = [field_fault(file, "changed", "the edit made again on the new text") for file in error.files]
        return tell("book-changed", f"The book is at version {error.now} now; changed: {named}.", faults)

    @app.errorhandler(BookRefused)
    def book_refused(error: BookRefused) -> Response:
        faults = [
            field_fault(f"{each.file}:{each.line}: {each.key}", each.found, each.accepted)
            for each in error.faults[:50]
        ]
        return tell("book-refused", f"{error.faults[0]}", faults)

    @app.errorhandler(EditRefused)
    def edit_refused(error: EditRefused) -> Response:
        each = error.fault
        fault = field_fault(f"{each.file}:{each.line}: {each.key}", each.found, each.accepted)
        return tell("book-refused", str(each), [fault])

    @app.errorhandler(CannotMeasure)
    def cannot_measure(error: CannotMeasure) -> Response:
        return tell("cannot-measure", str(error), [field_fault(error.field, error.value, error.accepted)])

    @app.errorhandler(Unavailable)
    def unavailable(error: Unavailable) -> Response:
        LOG.warning("refused: %s", error)
        if isinstance(error, Unsure):
            detail = (
                "The journal did not answer in time. Send the same again with the same key: that is safe."
            )
            return tell("journal-unsure", detail)
        return tell("journal-away", "The journal does not answer; nothing was recorded. Send it again.")

    @app.errorhandler(Damaged)
    def damaged(error: Damaged) -> Response:
        LOG.error("%s", error)
        return tell("journal-damaged", str(error))

    @app.errorhandler(HTTPException)
    def http(error: HTTPException) -> Response:
        status = error.code or 500
        code = _BY_STATUS.get(status, "bad-request" if status < 500 else "internal")
        response = tell(code, error.description or error.name)
        if error.get_response().headers.get("Allow"):
            response.headers["Allow"] = error.get_response().headers["Allow"]
        return response

    @app.errorhandler(Exception)
    def unexpected(error: Exception) -> Response:
        LOG.error("a fault of ours", exc_info=error)
        return tell("internal", "The service met a fault; its log has the details.")


class SameOrigin:
    """Around the whole service: what a page of another origin sends is refused.

    Commands over HTTP and every request to the socket, which CORS alone does not cover. A request without
    Origin does not come from a page of today's browsers.
    """

    def __init__(self, inner: Application, socket_path: str) -> None:
        self._inner = inner
        self._socket_path = socket_path

    def __call__(self, environ: Environment, start_response: Callable[..., Any]) -> Iterable[bytes]:
        """Answer one request (WSGI)."""
        at_socket = environ.get("PATH_INFO", "").startswith(self._socket_path)
        watched = at_socket or environ.get("REQUEST_METHOD", "GET") not in SAFE_METHODS
        if watched and self._foreign(environ):
            origin = environ.get("HTTP_ORIGIN", "")
            response = tell("foreign-origin", f"A page from {origin[:200]!r} may not do this.")
            response.headers.extend(HEADERS)
            return response(environ, start_response)
        return self._inner(environ, start_response)

    @staticmethod
    def _foreign(environ: Environment) -> bool:
        if environ.get("HTTP_SEC_FETCH_SITE") == "cross-site":
            return True
        origin = environ.get("HTTP_ORIGIN")
        if origin is None:
            return False
        parts = urlsplit(origin)
        host = environ.get("HTTP_HOST", "")
        return parts.scheme not in ("http", "https") or parts.netloc.lower() != host.lower()
