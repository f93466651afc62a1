"""What every request passes: foreign pages kept out, safe headers put on, errors told as problems."""

from __future__ import annotations

import logging
from collections.abc import Callable, Collection, Iterable
from ipaddress import ip_address
from typing import Any
from urllib.parse import urlsplit

from flask import Flask, Response, request
from werkzeug.exceptions import HTTPException

from recipes.reading.faults import BookRefused
from service.journal.journal import Damaged, KeyReused, Unavailable, Unsure
from service.journal.refusals import Refused
from service.web.body import LARGEST
from service.web.problems import MEDIA_TYPE, ProblemFound, field_fault, problem
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


def tell_http(error: HTTPException) -> Response:
    """The problem document of what Flask itself refuses."""
    status = error.code or 500
    code = _BY_STATUS.get(status, "bad-request" if status < 500 else "internal")
    response = tell(code, error.description or error.name, _fault_of(status))
    if error.get_response().headers.get("Allow"):
        response.headers["Allow"] = error.get_response().headers["Allow"]
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
        faults = [field_fault(error.field, error.value, error.accepted)] if error.field else []
        return tell(error.code, error.message, faults)

    @app.errorhandler(KeyReused)
    def reused(error: KeyReused) -> Response:
        detail = "The Idempotency-Key came before with another request; take a new one."
        key = request.headers.get("Idempotency-Key", "")
        accepted = "a key that was not used before, or the request that it was used for"
        return tell("key-reused", detail, [field_fault("Idempotency-Key", key, accepted)])

    @app.errorhandler(BookRefused)
    def book_refused(error: BookRefused) -> Response:
        faults = [
            field_fault(f"{each.file}:{each.line}: {each.key}", each.found, each.accepted)
            for each in error.faults[:50]
        ]
        return tell("book-refused", f"{error.faults[0]}", faults)

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
        return tell_http(error)

    @app.errorhandler(Exception)
    def unexpected(error: Exception) -> Response:
        LOG.error("a fault of ours", exc_info=error)
        return tell("internal", "The service met a fault; its log has the details.")


def _fault_of(status: int) -> list[FieldFault]:
    """Which part of the request was wrong, where the status alone tells it."""
    match status:
        case 404:
            return [field_fault("path", request.path, "an address that /api/openapi.json lists")]
        case 405:
            return [field_fault("method", request.method, "those that the header Allow names")]
        case 413:
            size = request.content_length
            return [field_fault("body", f"{size} bytes" if size else "more", f"at most {LARGEST} bytes")]
        case _:
            return []


class SameOrigin:
    """Around the whole service: what a page of another origin sends is refused.

    Commands over HTTP and every request to the socket, which CORS alone does not cover. A request without
    Origin does not come from a page of today's browsers.

    And whatever calls us by a name that is not ours: a site can have its own name answered with our address,
    and its page is then of the same origin as we are (DNS rebinding). Addresses and localhost are always
    ours, ``names`` (in lower case) are the others. A request without Host does not come from a browser.
    """

    def __init__(self, inner: Application, socket_path: str, names: Collection[str] = ()) -> None:
        self._inner = inner
        self._socket_path = socket_path
        self._names = frozenset(names)

    def __call__(self, environ: Environment, start_response: Callable[..., Any]) -> Iterable[bytes]:
        """Answer one request (WSGI)."""
        host = environ.get("HTTP_HOST")
        if host is not None and not self._is_ours(host):
            accepted = "an address of this machine, localhost, its own name, or one that HOSTS lists"
            detail = f"This service does not go by {host[:200]!r}. Start it with HOSTS set to that name."
            refusal = tell("foreign-host", detail, [field_fault("Host", host, accepted)])
            refusal.headers.extend(HEADERS)
            return refusal(environ, start_response)
        at_socket = environ.get("PATH_INFO", "").startswith(self._socket_path)
        watched = at_socket or environ.get("REQUEST_METHOD", "GET") not in SAFE_METHODS
        if watched and self._foreign(environ):
            origin = environ.get("HTTP_ORIGIN", "")
            fault = field_fault("Origin", origin, f"a page of this service, at {host}")
            response = tell("foreign-origin", f"A page from {origin[:200]!r} may not do this.", [fault])
            response.headers.extend(HEADERS)
            return response(environ, start_response)
        return self._inner(environ, start_response)

    def _is_ours(self, host: str) -> bool:
        try:
            name = urlsplit(f"//{host}").hostname or ""
        except ValueError:
            return False
        if name == "localhost" or name.rstrip(".") in self._names:
            return True
        try:
            ip_address(name)
        except ValueError:
            return False
        return True

    @staticmethod
    def _foreign(environ: Environment) -> bool:
        if environ.get("HTTP_SEC_FETCH_SITE") == "cross-site":
            return True
        origin = environ.get("HTTP_ORIGIN")
        if origin is None:
            return False
        try:
            parts = urlsplit(origin)
        except ValueError:
            return True
        host = environ.get("HTTP_HOST", "")
        return parts.scheme not in ("http", "https") or parts.netloc.lower() != host.lower()
