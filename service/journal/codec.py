"""Event ↔ record, by the kinds that the subjects bring. Old versions of a record are lifted here alone."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any, Generic

from pydantic import TypeAdapter, ValidationError

from service.journal.journal import NOBODY, Damaged, Envelope, Origin, Record
from service.journal.kinds import E, Kind


class Codec(Generic[E]):
    """Writes and reads the events of some kinds. Their readers are made when the first record asks."""

    def __init__(self, kinds: Iterable[Kind[Any]]) -> None:
        self._by_name = {kind.name: kind for kind in kinds}
        self._by_event = {kind.event: kind for kind in self._by_name.values()}
        self._readers: dict[str, TypeAdapter[E]] = {}

    def encode(self, event: E, origin: Origin = NOBODY) -> Record:
        """The record of an event."""
        kind = self._by_event[type(event)]
        body = self._reader(kind).dump_json(event, exclude={"at"}, warnings="none").decode()
        return Record(kind.name, kind.version, event.at, body, origin)

    def decode(self, envelope: Envelope) -> E:
        """The event of a record. Raises Damaged, naming the position, when it cannot be read."""
        record = envelope.record
        place = f"the journal's record {envelope.position}"
        kind = self._by_name.get(record.kind)
        if kind is None:
            raise Damaged(
                f"{place} is {record.kind!r}, written by a newer Levelscoop; this one reads "
                f"{', '.join(self._by_name)}"
            )
        if not 1 <= record.version <= kind.version:
            raise Damaged(
                f"{place} is {record.kind!r} version {record.version}, written by a newer Levelscoop; "
                f"this one reads up to version {kind.version}"
            )
        try:
            body = record.body if record.version == kind.version else _lifted(kind, record)
            if not body.startswith("{"):
                raise ValueError("it is no object")
            dated = f'{{"at":{record.at}{"" if body == "{}" else ","}{body[1:]}'
            return self._reader(kind).validate_json(dated)
        except ValidationError as error:
            found = error.errors(include_url=False, include_context=False)[0]
            where = ".".join(str(part) for part in found["loc"])
            raise Damaged(f"{place} ({record.kind!r}) cannot be read: {where}: {found['msg']}") from error
        except (ValueError, TypeError, KeyError, AttributeError) as error:
            raise Damaged(f"{place} ({record.kind!r}) cannot be read: {error}") from error

    def _reader(self, kind: Kind[Any]) -> TypeAdapter[E]:
        known = self._readers.get(kind.name)
        if known is None:
            known = self._readers[kind.name] = TypeAdapter(kind.event)
        return known


def _lifted(kind: Kind[Any], record: Record) -> str:
    body = json.loads(record.body)
    if not isinstance(body, dict):
        raise ValueError("it is no object")
    for lift in kind.lifts[record.version - 1 :]:
        body = lift(body)
    return json.dumps(body, ensure_ascii=False)
