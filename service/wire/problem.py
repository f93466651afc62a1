"""How a request is refused."""

from __future__ import annotations

from service.wire.base import Wire


class FieldFault(Wire):
    """One field that was wrong: which, what it held, what is accepted."""

    field: str
    value: str
    accepted: str


class Problem(Wire):
    """An RFC 9457 problem document (application/problem+json)."""

    type: str
    title: str
    status: int
    detail: str
    errors: list[FieldFault] = []  # noqa: RUF012  (pydantic copies it)
