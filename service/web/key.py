"""The key of a request, by which the same request sent again is known."""

from __future__ import annotations

import hashlib
import uuid

from flask import request

from service.journal.journal import Key, Origin
from service.web.problems import ProblemFound, field_fault

KEY_LONGEST = 200


def request_key(required: bool) -> Key | None:
    """The request's idempotency key, with the fingerprint of what came with it. Raises ProblemFound."""
    text = request.headers.get("Idempotency-Key", "").strip()
    text = text[1:-1] if len(text) > 1 and text[0] == text[-1] == '"' else text
    if not text:
        if required:
            accepted = field_fault("Idempotency-Key", "", "a random text of your own, such as a UUID")
            raise ProblemFound("key-missing", "The header Idempotency-Key is missing.", [accepted])
        return None
    if len(text) > KEY_LONGEST or not (text.isascii() and text.isprintable()):
        accepted = field_fault("Idempotency-Key", text, f"1 to {KEY_LONGEST} visible ASCII characters")
        raise ProblemFound("key-unusable", "The header Idempotency-Key cannot be used.", [accepted])
    told = hashlib.sha256()
    for part in (request.method.encode(), request.path.encode(), request.get_data()):
        told.update(len(part).to_bytes(8, "big") + part)
    return Key(text, told.hexdigest())


def request_origin(key: Key | None) -> Origin:
    """By which request something is asked: its key, or else a name of its own that only the journal has."""
    return Origin(request=key.text if key is not None else uuid.uuid4().hex)
