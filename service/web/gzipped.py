"""Long answers made short for the way: gzip, for whoever takes it."""

from __future__ import annotations

import gzip

from flask import Response, request

LEAST_BYTES = 8_192
"""Below this the work is worth more than the bytes."""


def squeezed(response: Response) -> Response:
    """The answer, compressed if it is long and the asker takes gzip."""
    if response.content_length is None or response.content_length < LEAST_BYTES:
        return response
    response.vary.add("Accept-Encoding")
    if request.accept_encodings.quality("gzip") > 0:
        response.set_data(gzip.compress(response.get_data(), compresslevel=5, mtime=0))
        response.content_encoding = "gzip"
    return response
