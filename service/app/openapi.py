"""The wire as JSON Schema, from which the display's types are generated, and the API as OpenAPI 3.1.

``python -m service.app.openapi`` prints it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaMode, models_json_schema

from service import wire as floor
from service.bench import wire as bench_wire
from service.books import wire as books_wire
from service.learning import wire as learning_wire
from service.money import wire as money_wire
from service.orders import wire as orders_wire
from service.times import wire as times_wire
from service.web.problems import MEDIA_TYPE, Kind
from service.web.routes import Operation
from service.wire import Asked, Problem, Wire

WIRES = (floor, books_wire, money_wire, orders_wire, times_wire, bench_wire, learning_wire)
"""What each subject has its displays told and asked, in the order of the document."""


class _PlainSchema(GenerateJsonSchema):
    """Without a title on every field: a generator of types would make a named type of each."""

    def field_title_should_be_set(self, schema: Any) -> bool:  # noqa: ANN401  (as inherited)
        return False

    def field_is_required(self, field: Any, total: bool) -> bool:  # noqa: ANN401  (as inherited)
        """What comes down is always whole: a field's default is sent like any other value."""
        return self.mode == "serialization" or super().field_is_required(field, total)

    def get_title_from_name(self, name: str) -> str:
        return name


def messages() -> list[type[Wire]]:
    """Every message of the wire, in the order of its modules."""
    named = {name: value for room in WIRES for name, value in vars(room).items()}
    found = (value for value in named.values() if isinstance(value, type))
    return [model for model in found if issubclass(model, Wire) and model not in (Wire, Asked)]


def definitions(ref_template: str) -> dict[str, Any]:
    """The JSON Schema of every message and of the dataclasses inside, by name."""
    wanted: list[tuple[type[BaseModel], JsonSchemaMode]] = [
        (model, "validation" if issubclass(model, Asked) else "serialization") for model in messages()
    ]
    _, schema = models_json_schema(wanted, ref_template=ref_template, schema_generator=_PlainSchema)
    found: dict[str, Any] = schema["$defs"]
    for definition in found.values():
        if definition.get("type") == "object":
            definition.setdefault("additionalProperties", False)
    return found


def wire_schema() -> dict[str, Any]:
    """One JSON Schema document whose ``$defs`` are all that crosses the wire."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Wire",
        "$defs": definitions("#/$defs/{model}"),
    }


def document(operations: Sequence[Operation], problems: Mapping[str, Kind]) -> dict[str, Any]:
    """The OpenAPI 3.1 document of these operations."""
    paths: dict[str, Any] = {}
    for operation in operations:
        path = re.sub(r"<(\w+)>", r"{\1}", operation.path)
        paths.setdefault(path, {})[operation.method.lower()] = _operation(operation, problems)
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "Levelscoop",
            "version": "1",
            "description": "Commands go up here; changes come down over Socket.IO (events follow and clock "
            "up, snapshot and change down, with the messages Follow, Snapshot and Change of this document). "
            "Times are milliseconds since 1970 UTC, money is minor units of the shop's currency. "
            "The owner's part (/api/owner, /cards) has no lock yet: it answers only on the machine that the "
            "service runs on, whatever HOST is, unless the service was started with OWNER_ANYWHERE=1.",
        },
        "servers": [{"url": "/"}],
        "paths": paths,
        "components": {"schemas": definitions("#/components/schemas/{model}")},
    }


def _operation(operation: Operation, problems: Mapping[str, Kind]) -> dict[str, Any]:
    found: dict[str, Any] = {
        "operationId": operation.name,
        "summary": operation.summary,
        "parameters": _parameters(operation),
        "responses": _responses(operation, problems),
    }
    if operation.takes is not None:
        content = {"application/json": {"schema": _reference(operation.takes)}}
        found["requestBody"] = {"required": True, "content": content}
    return found


def _parameters(operation: Operation) -> list[dict[str, Any]]:
    text = {"type": "string"}
    found: list[dict[str, Any]] = [
        {"name": name, "in": "path", "required": True, "schema": text}
        for name in re.findall(r"<(\w+)>", operation.path)
    ]
    found += [
        {"name": name, "in": "query", "required": False, "description": about, "schema": text}
        for name, about in operation.query.items()
    ]
    if operation.key != "none":
        about = "The same key with the same body has one effect and one answer, for seven days."
        schema = {"type": "string", "minLength": 1, "maxLength": 200}
        required = operation.key == "required"
        found.append(
            {
                "name": "Idempotency-Key",
                "in": "header",
                "required": required,
                "description": about,
                "schema": schema,
            }
        )
    return found


def _responses(operation: Operation, problems: Mapping[str, Kind]) -> dict[str, Any]:
    good: dict[str, Any] = {"description": "Done as asked"}
    if operation.gives is not None:
        good["content"] = {operation.media: {"schema": _reference(operation.gives)}}
    elif operation.media != "application/json":
        good["content"] = {operation.media: {"schema": {"type": "string", "format": "binary"}}}
    found: dict[str, Any] = {str(operation.status): good}
    by_status: dict[int, list[str]] = {}
    for code in operation.problems:
        by_status.setdefault(problems[code].status, []).append(code)
    for status, codes in sorted(by_status.items()):
        found[str(status)] = _problem("; ".join(f"{code}: {problems[code].about}" for code in codes))
    found["default"] = _problem("Any other problem")
    return found


def _problem(about: str) -> dict[str, Any]:
    return {"description": about, "content": {MEDIA_TYPE: {"schema": _reference(Problem)}}}


def _reference(model: type[Wire]) -> dict[str, str]:
    return {"$ref": f"#/components/schemas/{model.__name__}"}


if __name__ == "__main__":
    print(json.dumps(wire_schema(), indent=2, ensure_ascii=False))
