"""The built display, and what each kind of problem means: pages, not API."""

from __future__ import annotations

from pathlib import Path

from flask import Blueprint, Response, request, send_from_directory
from werkzeug.exceptions import NotFound

import service
from service.web.guard import tell_http
from service.web.problems import KINDS, ProblemFound, field_fault

DISPLAY = Path(service.__file__).parent.parent / "display" / "dist"

SCREENS = (
    "/",
    "/register",
    "/bar",
    "/station",
    "/station/<place>",
    "/hand-off",
    "/times",
    "/owner",
    "/owner/<place>",
    "/learn",
)

_NOT_BUILT = """<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Levelscoop</title>
<h1>The service runs, the screens are not built yet</h1>
<p>Run <code>make run</code>, which builds them, or <code>npm run build</code> in the folder
<code>display</code>, and load this page again.</p>
<p>The API is described at <a href="/api/openapi.json">/api/openapi.json</a>.</p>
</html>
"""


MACHINES = ("/api/", "/assets/", "/cards/", "/healthz", "/socket.io")
"""Where no person types an address: what is wrong there is told in JSON, whoever asks."""


def _for_people() -> bool:
    """Whether the request is for a page: a browser asks for HTML by name, a program does not."""
    return "text/html" in request.headers.get("Accept", "") and not request.path.startswith(MACHINES)


def pages(folder: Path = DISPLAY) -> Blueprint:
    """The screens from the folder they were built into."""
    blueprint = Blueprint("pages", __name__)

    def screen(place: str = "") -> Response:
        del place
        if not (folder / "index.html").is_file():
            return Response(_NOT_BUILT, 503, mimetype="text/html")
        page = send_from_directory(folder, "index.html")
        page.headers["Cache-Control"] = "no-cache"
        return page

    for path in SCREENS:
        blueprint.add_url_rule(path, "screen", screen, strict_slashes=False)

    @blueprint.app_errorhandler(NotFound)
    def missing(error: NotFound) -> Response:
        """To people a page that says so and shows the way; to programs a problem document."""
        if not _for_people():
            return tell_http(error)
        page = screen()
        page.status_code = 404 if page.status_code == 200 else page.status_code
        return page

    @blueprint.get("/assets/<path:name>")
    def asset(name: str) -> Response:
        # The name holds a hash of the content, so it may be kept for ever.
        found = send_from_directory(folder / "assets", name, max_age=365 * 24 * 3600)
        found.headers["Cache-Control"] = "public, max-age=31536000, immutable"
        return found

    @blueprint.get("/<name>")
    def beside(name: str) -> Response:
        """An icon or the like, which the display's build put beside its page."""
        return send_from_directory(folder, name, max_age=3600)

    @blueprint.get("/problems/<code>")
    def explain(code: str) -> Response:
        kind = KINDS.get(code)
        if kind is None and _for_people():
            raise NotFound
        if kind is None:
            fault = field_fault("path", request.path, f"/problems/ and one of {', '.join(KINDS)}")
            raise ProblemFound("not-found", f"There is no problem called {code!r}.", [fault])
        return Response(
            f"{kind.title} ({code}, status {kind.status})\n\n{kind.about}\n", mimetype="text/plain"
        )

    return blueprint
