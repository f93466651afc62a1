"""The browser that the tests drive, and the size at which each screen is used."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TypedDict

from playwright.sync_api import Browser, sync_playwright


class Viewport(TypedDict):
    """A viewport in CSS pixels."""

    width: int
    height: int


REGISTER: Viewport = {"width": 1280, "height": 800}
WALL: Viewport = {"width": 1920, "height": 1080}
PHONE: Viewport = {"width": 390, "height": 844}

QUIET = [
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@contextmanager
def browser() -> Iterator[Browser]:
    """A headless Chromium: the one that LEVELSCOOP_BROWSER names, else as provide finds it."""
    from tests.browser.provide import find

    # Chromium's own sandbox cannot be made by root, as which containers and CI often run.
    arguments = QUIET + (["--no-sandbox"] if os.geteuid() == 0 else [])
    with sync_playwright() as playwright:
        playwright.selectors.set_test_id_attribute("data-test")
        launched = playwright.chromium.launch(executable_path=find(), args=arguments)
        try:
            yield launched
        finally:
            launched.close()
