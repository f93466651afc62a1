"""The journal on a Redis Stream, one per store, and the store's books beside it.

All keys of a store share a hash tag (``ls:{store}:…``), so that they lie on one slot of a Redis Cluster.
Entry ids are ``n-0`` with n = 1, 2, 3, … without gap: the id is the position.
"""

from __future__ import annotations

import hashlib
import uuid
from collections.abc import Sequence
from pathlib import Path
from typing import Any, cast

from redis import Redis
from redis.backoff import NoBackoff
from redis.exceptions import ConnectionError as CutOff
from redis.exceptions import RedisError, ResponseError
from redis.exceptions import TimeoutError as TimedOut
from redis.retry import Retry

from service.journal.journal import (
    KEY_LIFE_S,
    Conflict,
    Damaged,
    Envelope,
    Key,
    KeyReused,
    Origin,
    Record,
    Unavailable,
    Unsure,
)

ANSWER_S = 0.9
"""How long Redis may take to answer (s). A command makes at most three calls, and gives up within 3 s."""

_SCRIPT = (Path(__file__).parent / "append.lua").read_text(encoding="utf-8")


def client(url: str | None = None, socket: Path | None = None, extra_s: float = 0.0) -> Redis:
    """A client that never repeats a command by itself, since that could append twice.

    Exactly one of ``url`` and ``socket`` is given; ``extra_s`` is added to the time allowed, for
    blocking reads. Nothing is connected yet.
    """
    options: dict[str, Any] = {
        "socket_timeout": ANSWER_S + extra_s,
        "socket_connect_timeout": ANSWER_S,
        "retry": Retry(NoBackoff(), 0),
        "decode_responses": True,
        "encoding_errors": "strict",
    }
    if url is not None:
        return Redis.from_url(url, **options)
    return Redis(unix_socket_path=str(socket), **options)


class RedisJournal:
    """A store's journal. ``commands`` and ``blocking`` are two clients of the same server.

    ``blocking`` is only used by ``wait``, so that no command queues behind a blocking read.
    """

    def __init__(self, commands: Redis, blocking: Redis, store: str) -> None:
        self._redis = commands
        self._blocking = blocking
        self._stream = f"ls:{{{store}}}:journal"
        self._prefix = f"ls:{{{store}}}"
        self._append = commands.register_script(_SCRIPT)

    def store(self) -> str:
        """See Journal."""
        place = f"{self._prefix}:store"
        with _asking():
            # Written once only: a server that is full can still be asked which it is.
            if not self._redis.exists(place):
                self._redis.set(place, uuid.uuid4().hex, nx=True)
            return cast(str, self._redis.get(place))

    def append(
        self, expected: int, records: Sequence[Record], key: Key | None = None, answer: str = ""
    ) -> str | None:
        """See Journal."""
        arguments: list[str | int] = [expected, key.fingerprint if key else "", KEY_LIFE_S, answer]
        for record in records:
            by = record.origin
            arguments += [record.kind, record.version, record.at, by.who, by.device, by.request, record.body]
        try:
            said = self._append([self._stream, self._place(key)], arguments)
        except TimedOut as error:
            raise Unsure(f"Redis did not answer within {ANSWER_S} s") from error
        except ResponseError as error:
            raise Unavailable(f"Redis refused to write: {error}") from error
        except CutOff as error:
            raise Unsure(f"Redis was cut off: {error}") from error
        except RedisError as error:
            raise Unsure(str(error)) from error
        match said:
            case ["appended", _]:
                return None
            case ["answered", earlier]:
                return str(earlier)
            case ["reused"]:
                raise KeyReused("the key was used for another request")
            case ["conflict", position]:
                raise Conflict(expected, int(position))
            case _:
                raise Damaged(f"the append script answered {said!r}")

    def end(self) -> int:
        """See Journal."""
        with _asking():
            found = cast(list[Any], self._redis.xrevrange(self._stream, "+", "-", 1))
        return _envelope(found[0]).position if found else 0

    def answered(self, key: Key) -> str | None:
        """See Journal."""
        with _asking():
            kept = cast(list[Any], self._redis.hmget(self._place(key), ["fingerprint", "answer"]))
        if kept[0] is None:
            return None
        if kept[0] != key.fingerprint:
            raise KeyReused("the key was used for another request")
        return str(kept[1])

    def read(self, after: int, limit: int) -> list[Envelope]:
        """See Journal."""
        with _asking():
            found = cast(list[Any], self._redis.xrange(self._stream, f"{after + 1}-0", "+", limit))
        return [_envelope(entry) for entry in found]

    def wait(self, after: int, seconds: float) -> list[Envelope]:
        """See Journal."""
        with _asking():
            found = cast(
                list[Any],
                self._blocking.xread({self._stream: f"{after}-0"}, block=max(1, round(seconds * 1000))),
            )
        return [_envelope(entry) for _, entries in found for entry in entries]

    def keep(self, version: str, files: dict[str, str]) -> None:
        """See BookStore."""
        with _asking():
            self._redis.hset(f"{self._prefix}:book:{version}", mapping=cast(dict[Any, Any], files))

    def files(self, version: str) -> dict[str, str] | None:
        """See BookStore."""
        with _asking():
            found = cast(dict[str, str], self._redis.hgetall(f"{self._prefix}:book:{version}"))
        return found or None

    def _place(self, key: Key | None) -> str:
        """Where a key is kept: hashed, so that whatever a client sends is short and harmless there."""
        text = "" if key is None else hashlib.sha256(key.text.encode()).hexdigest()
        return f"{self._prefix}:key:{text}"


class _asking:
    """Turns whatever Redis may raise on a question into Unavailable: a question changes nothing."""

    def __enter__(self) -> None:
        return None

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> None:
        if isinstance(error, RedisError | OSError):
            raise Unavailable(f"Redis does not answer: {error}") from error


def _envelope(entry: tuple[str, dict[str, str]]) -> Envelope:
    id, fields = entry
    position, _, rest = id.partition("-")
    try:
        if rest != "0":
            raise ValueError("the id is not of the form n-0")
        # Records of before there were names have none of the three.
        origin = Origin(fields.get("who", ""), fields.get("device", ""), fields.get("request", ""))
        record = Record(fields["kind"], int(fields["version"]), int(fields["at"]), fields["body"], origin)
        return Envelope(int(position), record)
    except (KeyError, ValueError) as error:
        raise Damaged(f"the journal's entry {id} cannot be read: {error}") from error
