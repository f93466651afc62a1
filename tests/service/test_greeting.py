"""What the start says: a newcomer finds every page, and knows where the data goes."""

from __future__ import annotations

from service.host.greeting import greeting
from service.host.settings import from_environment
from service.web.pages import SCREENS

HERE = "http://127.0.0.1:8080"
LAN = "http://192.168.1.5:8080"


def said(address: str, host: str, **environment: str) -> list[str]:
    return greeting(address, host, from_environment({"DATA_DIR": "/srv/data", **environment}))


def test_on_this_machine_it_names_every_page_and_how_to_let_others_in() -> None:
    lines = said(HERE, "127.0.0.1")
    assert lines[0] == "start     http://127.0.0.1:8080/"
    told = {line.split()[1].removeprefix(HERE) for line in lines if HERE in line}
    assert told == {"/", "/register", "/bar", "/hand-off", "/times", "/learn", "/owner"}
    assert told <= set(SCREENS)
    assert "HOST=0.0.0.0" in lines[-3]
    assert lines[-2] == "Everything is kept in /srv/data (DATA_DIR)."
    assert lines[-1] == "Orders can be rung in. Stop with Ctrl-C."


def test_on_the_network_the_owner_is_told_where_his_pages_open() -> None:
    lines = said(LAN, "0.0.0.0")
    assert "register  http://192.168.1.5:8080/register" in lines
    assert "owner     http://localhost:8080/owner (on this machine only)" in lines
    assert not any("HOST=0.0.0.0" in line for line in lines)
    assert "owner     http://192.168.1.5:8080/owner" in said(LAN, "0.0.0.0", OWNER_ANYWHERE="1")
    assert "owner     opens on this machine only, which takes HOST=0.0.0.0" in said(LAN, "192.168.1.5")


def test_with_a_server_elsewhere_only_what_the_folder_keeps_is_claimed() -> None:
    lines = said(HERE, "127.0.0.1", REDIS_URL="redis://:secret@far/0")
    assert lines[-2] == "Versions and proofs are kept in /srv/data (DATA_DIR)."
    assert "secret" not in "".join(lines)
