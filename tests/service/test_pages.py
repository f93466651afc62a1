"""Addresses that people type: every screen has a page, and a mistyped one gets a page too, not JSON."""

from __future__ import annotations

from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.web.guard import guard
from service.web.pages import pages
from service.web.problems import MEDIA_TYPE

# What browsers send for an address that was typed (as of HTML's navigation requests).
BROWSER = {"Accept": "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"}


@pytest.fixture
def client(tmp_path: Path) -> FlaskClient:
    (tmp_path / "assets").mkdir()
    (tmp_path / "index.html").write_text("<title>the screens</title>", encoding="utf-8")
    app = Flask("pages", static_folder=None)
    app.register_blueprint(pages(tmp_path))
    guard(app)
    return app.test_client()


@pytest.mark.parametrize(
    "path", ["/", "/register", "/bar", "/bar/", "/station", "/station/tea", "/hand-off?board", "/owner/proof"]
)
def test_every_screen_has_a_page(client: FlaskClient, path: str) -> None:
    found = client.get(path, headers=BROWSER, buffered=True)
    assert (found.status_code, found.mimetype) == (200, "text/html")
    assert "the screens" in found.text


@pytest.mark.parametrize(
    "path", ["/regsiter", "/bar/2", "/station/tea/now", "/problems/nothing-like-it", "/%E0%A4%A"]
)
def test_a_mistyped_address_gets_a_page_in_a_browser(client: FlaskClient, path: str) -> None:
    found = client.get(path, headers=BROWSER, buffered=True)
    assert (found.status_code, found.mimetype) == (404, "text/html")
    assert "the screens" in found.text
    assert found.headers["Cache-Control"] == "no-cache"
    assert "Content-Security-Policy" in found.headers


@pytest.mark.parametrize(
    ("path", "accept"),
    [
        ("/regsiter", "application/json"),
        ("/regsiter", "*/*"),
        ("/api/odrers", BROWSER["Accept"]),
        ("/assets/gone.js", BROWSER["Accept"]),
        ("/favicon.ico", "image/avif,image/webp,*/*;q=0.8"),
    ],
)
def test_programs_are_told_in_json(client: FlaskClient, path: str, accept: str) -> None:
    found = client.get(path, headers={"Accept": accept}, buffered=True)
    assert (found.status_code, found.mimetype) == (404, MEDIA_TYPE)
    assert found.json is not None
    assert found.json["errors"][0]["field"] == "path"


def test_what_exists_but_takes_another_method_is_told_so(client: FlaskClient) -> None:
    assert client.post("/register", headers=BROWSER).status_code == 405


def test_without_the_built_screens_a_page_says_how_to_build_them(tmp_path: Path) -> None:
    app = Flask("pages", static_folder=None)
    app.register_blueprint(pages(tmp_path))
    guard(app)
    found = app.test_client().get("/anything", headers=BROWSER, buffered=True)
    assert (found.status_code, found.mimetype) == (503, "text/html")
    assert "make run" in found.text
