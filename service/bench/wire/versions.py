"""Saving, publishing, and the versions of a book."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from service.bench.wire.base import MOST_EDITS, Note, Version
from service.bench.wire.book import Edit
from service.wire import Asked, Millis, Wire


class SaveIn(Asked):
    """POST /api/owner/save. ``base_version`` is the Workbook's; ``anyway`` is the owner's explicit word."""

    edits: Annotated[list[Edit], Field(max_length=MOST_EDITS)]
    note: Note
    base_version: Version
    anyway: bool = False


class PublishIn(Asked):
    """POST /api/owner/publish: open the version in the folder by the owner's word though its proof fails."""

    version: Version
    note: Note = ""


class RollBackIn(Asked):
    """POST /api/owner/roll-back: write the files of an earlier version back, as a new version."""

    version: Version
    note: Note = ""


class Saved(Wire):
    """The answer to a save or roll-back. ``state``: "open" already in force; "proving" will be when its
    proof passes; "draft" has a proof that fails."""

    version: str
    state: Literal["open", "proving", "draft"]
    changed: list[str]


class BookVersion(Wire):
    """One version of the book. ``anyway``: opened by the owner's word though its proof failed or was not
    done; ``kept`` tells whether its files are still there to roll back to."""

    version: str
    note: str
    at: Millis
    by: Literal["bench", "folder", "roll-back"]
    state: Literal["open", "proving", "draft", "earlier"]
    holds: bool | None
    anyway: bool
    kept: bool
    changed: list[str]


class Versions(Wire):
    """GET /api/owner/versions, the latest first."""

    versions: list[BookVersion]
