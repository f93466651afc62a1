"""The wire as JSON Schema, from which the display's types are generated.

``python -m service.edges.openapi`` prints it.
"""

from __future__ import annotations

import json
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaMode, models_json_schema

from service import wire

UP = (
    wire.LineIn,
    wire.ToppingIn,
    wire.DrinkIn,
    wire.RingIn,
    wire.StartStep,
    wire.FinishSteps,
    wire.VoidIn,
    wire.SoldOutIn,
    wire.Follow,
)
"""What a display sends: a field with a default may be left out. All other messages come down."""


class _PlainSchema(GenerateJsonSchema):
    """Without a title on every field: a generator of types would make a named type of each."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False

    def field_is_required(self, field: Any, total: bool) -> bool:
        """What comes down is always whole: a field's default is sent like any other value."""
        return self.mode == "serialization" or super().field_is_required(field, total)

    def get_title_from_name(self, name: str) -> str:
        return name


def messages() -> list[type[wire.Wire]]:
    """Every message of the wire, in the order of its module."""
    found = (value for value in vars(wire).values() if isinstance(value, type))
    return [model for model in found if issubclass(model, wire.Wire) and model is not wire.Wire]


def definitions(ref_template: str) -> dict[str, Any]:
    """The JSON Schema of every message and of the dataclasses inside, by name."""
    wanted: list[tuple[type[BaseModel], JsonSchemaMode]] = [
        (model, "validation" if model in UP else "serialization") for model in messages()
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


if __name__ == "__main__":
    print(json.dumps(wire_schema(), indent=2, ensure_ascii=False))
