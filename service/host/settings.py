"""Settings: the environment, read once into one frozen value."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

import recipes

DEMO_BOOK = Path(recipes.__file__).parent / "books" / "tideglass"
STORE = "main"
"""The store of a shop that has one."""

REDIS_SCHEMES = ("redis", "rediss", "unix")


class SettingRefused(SystemExit):
    """A setting cannot be used. Left uncaught it ends the program with its message and exit code 1."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Where and for whom to serve. ``redis_url`` None means a private Redis in ``data_dir``.

    ``owner_anywhere`` opens the owner's pages beyond this machine, though they have no lock. ``hosts`` are
    names by which others call this machine, in lower case.
    """

    host: str
    port: int
    data_dir: Path
    redis_url: str | None
    book: Path
    store: str
    owner_anywhere: bool = False
    hosts: tuple[str, ...] = ()

    @property
    def store_dir(self) -> Path:
        """Where a store's own files are kept, beside the journal: the data folder, or a folder in it for a
        store that is not the usual one."""
        return self.data_dir if self.store == STORE else self.data_dir / self.store


def from_environment(environment: Mapping[str, str] | None = None) -> Settings:
    """The settings that the environment makes; raises SettingRefused naming the variable."""
    source = os.environ if environment is None else environment
    given = {name: text for name, text in source.items() if text.strip()}
    return Settings(
        host=given.get("HOST", "127.0.0.1"),
        port=_port(given.get("PORT", "8080")),
        data_dir=Path(given.get("DATA_DIR", "data")).absolute(),
        redis_url=_redis_url(given.get("REDIS_URL")),
        book=_folder(Path(given.get("BOOK", DEMO_BOOK))),
        store=_store(given.get("STORE", STORE)),
        owner_anywhere=_switch("OWNER_ANYWHERE", given.get("OWNER_ANYWHERE", "0")),
        hosts=_hosts(given.get("HOSTS", "")),
    )


def _port(text: str) -> int:
    if not (text.isascii() and text.isdecimal() and 0 <= int(text) <= 65535):
        raise SettingRefused(f"PORT is {text!r}: accepted is a whole number from 1 to 65535 (0: any free)")
    return int(text)


def _redis_url(text: str | None) -> str | None:
    if text is None:
        return None
    if urlsplit(text).scheme not in REDIS_SCHEMES:
        raise SettingRefused(
            f"REDIS_URL is {text!r}: accepted is redis://host:port/0, rediss://… or unix:///path"
        )
    return text


def _folder(path: Path) -> Path:
    if not path.is_dir():
        raise SettingRefused(f"BOOK is {str(path)!r}: accepted is the folder of a book")
    return path.absolute()


def _switch(name: str, text: str) -> bool:
    if text not in ("0", "1"):
        raise SettingRefused(f"{name} is {text!r}: accepted is 1 (on) or 0 (off)")
    return text == "1"


def _hosts(text: str) -> tuple[str, ...]:
    names = [each.strip().lower() for each in text.split(",") if each.strip()]
    for name in names:
        if not re.fullmatch(r"[a-z0-9_]([a-z0-9_.-]{0,250}[a-z0-9_])?", name):
            raise SettingRefused(
                f"HOSTS is {text!r}: accepted are names of this machine with commas between, "
                "as shop.lan, bar.example (no port, no address)"
            )
    return tuple(names)


def _store(text: str) -> str:
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,39}", text):
        raise SettingRefused(f"STORE is {text!r}: accepted are 1 to 40 of a to z, 0 to 9 and -")
    return text
