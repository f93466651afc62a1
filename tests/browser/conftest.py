"""A shop and a browser for the tests of the screens."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.pages import browser as launched
from tests.running import RunningShop

expect.set_options(timeout=10_000)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    with launched() as browser:
        yield browser


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[RunningShop]:
    with RunningShop(tmp_path / "data") as running:
        yield running


@pytest.fixture
def complaints() -> Iterator[list[str]]:
    """What the pages' consoles complained of; a test that leaves any fails."""
    heard: list[str] = []
    yield heard
    assert heard == []


@pytest.fixture
def listen(complaints: list[str]) -> Callable[[Page], Page]:
    """Have a page's errors noted."""

    def attach(page: Page) -> Page:
        page.on(
            "console", lambda message: complaints.append(message.text) if message.type == "error" else None
        )
        page.on("pageerror", lambda error: complaints.append(str(error)))
        return page

    return attach
