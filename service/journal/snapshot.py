"""The fold written down now and then, so that a start reads what came since and not a year.

A snapshot is a short cut and never the truth, which is the journal: one that is damaged, of other code, of
another journal or further on than the journal is thrown away with a line in the log, and all is read.

The file is one line of JSON that tells what it belongs to, then the state as JSON; it is replaced as a whole.
"""

from __future__ import annotations

import hashlib
import json
import logging
import os
from collections.abc import Iterable
from functools import cached_property
from pathlib import Path
from typing import Generic

from pydantic import TypeAdapter, ValidationError

from service.journal.journal import Envelope, Journal
from service.journal.kinds import S

LOG = logging.getLogger("levelscoop")

SPACING = 1_000
"""How many records come between two snapshots: about what a start reads in a tenth of a second."""


class Unfit(Exception):
    """A snapshot that is not used, and why."""


class Snapshots(Generic[S]):
    """The latest snapshot of one store, at ``place``; ``position`` is how far it goes, 0 where there is none.

    ``code`` is the version of what makes the state.
    """

    def __init__(self, place: Path, state: type[S], code: str) -> None:
        self._place, self._state, self._code = place, state, code
        self.position = 0

    @cached_property
    def _states(self) -> TypeAdapter[S]:
        return TypeAdapter(self._state)

    def load(self, journal: Journal) -> S | None:
        """The state that was kept, if there is one and it is this journal's. May raise Unavailable."""
        try:
            head, body = self._read()
            self._check(head, body, journal)
            kept = self._states.validate_json(body, strict=True)
        except FileNotFoundError:
            return None
        except (OSError, Unfit, ValidationError) as fault:
            said = fault.title if isinstance(fault, ValidationError) else str(fault)
            LOG.warning(
                "the snapshot %s is not used, the journal is read from its start: %s", self._place, said
            )
            return None
        self.position = kept.position
        return kept

    def keep(self, state: S, store: str, record: Envelope) -> None:
        """Keep a state instead of the one before, with the record of the store that it ends with.

        May raise OSError.
        """
        body = self._states.dump_json(state, warnings="none")
        told = {
            "store": store,
            "position": state.position,
            "record": _print_of([record]),
            "code": self._code,
            "sha256": hashlib.sha256(body).hexdigest(),
        }
        self._place.parent.mkdir(parents=True, exist_ok=True)
        beside = self._place.with_suffix(".new")
        with beside.open("wb") as file:
            file.write(json.dumps(told).encode() + b"\n" + body)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(self._place)
        self.position = state.position

    def _read(self) -> tuple[dict[str, object], bytes]:
        first, _, body = self._place.read_bytes().partition(b"\n")
        try:
            head = json.loads(first)
        except ValueError as error:
            raise Unfit(f"its first line cannot be read ({error})") from error
        if not isinstance(head, dict):
            raise Unfit("its first line tells nothing")
        return head, body

    def _check(self, head: dict[str, object], body: bytes, journal: Journal) -> None:
        if head.get("code") != self._code:
            raise Unfit("another version of Levelscoop made it")
        if head.get("sha256") != hashlib.sha256(body).hexdigest():
            raise Unfit("it is damaged")
        position = head.get("position")
        if head.get("store") != journal.store() or not isinstance(position, int):
            raise Unfit("it is of another journal")
        if head.get("record") != _print_of(journal.read(position - 1, 1)):
            raise Unfit(f"the journal's record {position} is not the one that it ends with")


def _print_of(found: Iterable[Envelope]) -> str:
    """What tells a record from every other at its place; empty where there is none."""
    told = [(each.position, each.record.kind, each.record.at, each.record.body) for each in found]
    return hashlib.sha256(repr(told).encode()).hexdigest() if told else ""


def code_of(folder: Path) -> str:
    """The version of the code in a folder: any change of it, and a snapshot is made anew."""
    told = hashlib.sha256()
    for file in sorted(folder.rglob("*.py")):
        told.update(file.relative_to(folder).as_posix().encode() + b"\0" + file.read_bytes())
    return told.hexdigest()[:16]
