"""A rush never leaves this machine."""

from __future__ import annotations

import pytest

from service.rush.shop import NotLoopback, loopback_only


@pytest.mark.parametrize("url", ["http://127.0.0.1:8080", "http://127.9.9.9:1/", "http://[::1]:8080"])
def test_loopback_is_accepted(url: str) -> None:
    assert loopback_only(url) == url.rstrip("/")


@pytest.mark.parametrize(
    "url", ["http://10.0.0.7:8080", "http://0.0.0.0:8080", "http://192.0.2.1", "http://[2001:db8::1]:80"]
)
def test_any_other_address_is_refused(url: str) -> None:
    with pytest.raises(NotLoopback, match="this machine"):
        loopback_only(url)


@pytest.mark.parametrize("url", ["https://127.0.0.1:8080", "127.0.0.1:8080", "ftp://127.0.0.1", ""])
def test_what_is_no_http_address_is_refused_with_one_that_is(url: str) -> None:
    with pytest.raises(NotLoopback, match=r"http://127\.0\.0\.1:8080"):
        loopback_only(url)
