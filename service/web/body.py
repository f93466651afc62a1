"""From the bytes of a request to a message of the wire, or a problem that names each wrong field."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any, TypeVar

from flask import request
from pydantic import ValidationError
from pydantic_core import ErrorDetails

from service.web.problems import VALUE_SHOWN, ProblemFound, field_fault
from service.wire import FieldFault, Wire

LARGEST = 64 * 1024
"""The largest body (bytes): an order of 100 lines with every modifier has a third of that."""

DEEPEST = 16
"""The deepest nesting: our messages have five levels."""

Message = TypeVar("Message", bound=Wire)

_BRACKETS = re.compile(rb'"(?:[^"\\]|\\.)*"?|[\[{]|[\]}]', re.DOTALL)


def read_message(data: bytes, model: type[Message]) -> Message:
    """The message in a body. Raises ProblemFound."""
    try:
        return model.model_validate(_parse(data), strict=True)
    except ValidationError as error:
        faults = [_fault(each, model) for each in error.errors(include_url=False)]
        named = "; ".join(f"{fault.field}: {fault.accepted}" for fault in faults[:3])
        raise ProblemFound("wrong-fields", f"Not accepted: {named}.", faults[:50]) from error


def _parse(data: bytes) -> object:
    if len(data) > LARGEST:
        fault = field_fault("body", f"{len(data)} bytes", f"at most {LARGEST} bytes")
        raise ProblemFound(
            "too-large", f"The body has {len(data)} bytes; at most {LARGEST} are taken.", [fault]
        )
    _check_depth(data)
    try:
        found: object = json.loads(data.decode("utf-8"), parse_constant=_refuse_constant)
        # A lone half of a surrogate pair can be escaped in JSON, but is no text.
        json.dumps(found, ensure_ascii=False).encode("utf-8")
    except UnicodeError as error:
        raise _unreadable(data, f"The body is not UTF-8 text: {error}.") from error
    except (ValueError, RecursionError) as error:
        raise _unreadable(data, f"The body is not JSON: {error}.") from error
    return found


def _unreadable(data: bytes, detail: str) -> ProblemFound:
    begins = data[: 2 * VALUE_SHOWN].decode("utf-8", "replace")
    accepted = "one JSON object (RFC 8259) in UTF-8, without NaN and Infinity"
    return ProblemFound("not-json", detail, [field_fault("body", begins, accepted)])


def _check_depth(data: bytes) -> None:
    depth = 0
    for found in _BRACKETS.finditer(data):
        sign = data[found.start()]
        if sign in b"[{":
            depth += 1
            if depth > DEEPEST:
                fault = field_fault("body", f"{depth} levels or more", f"at most {DEEPEST} levels")
                raise ProblemFound("too-deep", f"The body nests deeper than {DEEPEST} levels.", [fault])
        elif sign in b"]}":
            depth -= 1


def _refuse_constant(name: str) -> float:
    raise ValueError(f"{name} is not a number in JSON")


def _fault(error: ErrorDetails, model: type[Wire]) -> FieldFault:
    return field_fault(_path(error["loc"]) or "body", error["input"], _accepted(error, model))


def _path(location: tuple[int | str, ...]) -> str:
    path = ""
    for part in location:
        path += f"[{part}]" if isinstance(part, int) else f".{part}" if path else str(part)
    return path


_WORDS: Mapping[str, str] = {
    "missing": "a value, which is missing",
    "int_type": "a whole number",
    "bool_type": "true or false",
    "string_type": "a text",
    "list_type": "a list",
    "model_type": "an object",
    "dict_type": "an object",
    "greater_than_equal": "a number from {ge} up",
    "less_than_equal": "a number up to {le}",
    "string_too_short": "a text of {min_length} or more characters",
    "string_too_long": "a text of at most {max_length} characters",
    "too_short": "a list of {min_length} or more",
    "too_long": "a list of at most {max_length}",
    "int_parsing_size": "a smaller whole number",
}


def _accepted(error: ErrorDetails, model: type[Wire]) -> str:
    if error["type"] == "extra_forbidden":
        return f"no field of that name; there are {', '.join(_fields_at(error['loc'], model))}"
    context: Mapping[str, Any] = error.get("ctx", {})
    words = _WORDS.get(error["type"])
    return words.format(**context) if words else error["msg"]


def _fields_at(location: tuple[int | str, ...], model: type[Wire]) -> list[str]:
    """The fields that the object at a place may have."""
    here: Any = model
    for part in location[:-1]:
        if isinstance(part, str) and part in getattr(here, "model_fields", {}):
            here = _model_in(here.model_fields[part].annotation) or here
    return list(here.model_fields)


def _model_in(annotation: object) -> type[Wire] | None:
    """The message that a field's type is, or is a list of."""
    for each in (annotation, *getattr(annotation, "__args__", ())):
        if isinstance(each, type) and issubclass(each, Wire):
            return each
    return None


def request_message(model: type[Message]) -> Message:
    """The message in the request's body. Raises ProblemFound."""
    if request.mimetype != "application/json":
        fault = field_fault("Content-Type", request.mimetype, "application/json")
        raise ProblemFound(
            "wrong-media-type", f"The body came as {request.mimetype or 'nothing'!r}.", [fault]
        )
    return read_message(request.get_data(), model)
