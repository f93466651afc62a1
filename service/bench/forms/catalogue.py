"""Every key that a book's files may have, as the owner is told of it: its kind, what it is for, its options.

What is accepted in the end is for ``recipes.reading.reader`` to say; this makes a form of it. A key that is
not here still gets a field, by the kind of its value."""

from __future__ import annotations

from collections.abc import Mapping

from service.bench.forms.shapes import Field, Path, Pattern, Shape
from service.bench.forms.shapes_drink import DRINK
from service.bench.forms.shapes_shared import EXTRAS, PANTRY, SHOP
from service.bench.wire import FieldShape, TableShape

DRINKS = "drinks/"
STEPS = ("steps", "*")

FILES: Mapping[str, Mapping[Pattern, Shape]] = {
    "shop.toml": SHOP,
    "pantry.toml": PANTRY,
    "extras.toml": EXTRAS,
}


def shapes(file: str) -> Mapping[Pattern, Shape]:
    """The shapes of a file's tables."""
    return FILES.get(file, DRINK)


def shape_of(file: str, path: Path) -> Shape | None:
    """The shape of the table at a path, if it is known."""
    for pattern, shape in shapes(file).items():
        if len(pattern) == len(path) and all(
            want in ("*", part) for want, part in zip(pattern, path, strict=True)
        ):
            return shape
    return None


def field_of(file: str, path: Path) -> Field | None:
    """The field at the path of a key, if it is known."""
    shape = shape_of(file, path[:-1])
    if shape is None:
        return None
    return shape.fields.get(str(path[-1]), shape.others)


def tables_in(file: str, path: Path) -> Mapping[str, Shape]:
    """The tables by key that can stand right inside the one at a path, left out or not."""
    return {
        pattern[-1]: shape
        for pattern, shape in shapes(file).items()
        if len(pattern) == len(path) + 1
        and pattern[-1] != "*"
        and all(want in ("*", part) for want, part in zip(pattern, path, strict=False))
    }


def shape_name(file: str, path: Path) -> str:
    """The name of the shape of the table at a path; empty for one that is not known."""
    shape = shape_of(file, path)
    return next((_named(file, pattern) for pattern, one in shapes(file).items() if one is shape), "")


def told() -> list[TableShape]:
    """Every shape, as the owner's screens are told of it."""
    return [
        _told(file, pattern, shape) for file in (*FILES, DRINKS) for pattern, shape in shapes(file).items()
    ]


def _named(file: str, pattern: Pattern) -> str:
    return f"{file if file in FILES else DRINKS}:{'.'.join(pattern)}"


def _told(file: str, pattern: Pattern, shape: Shape) -> TableShape:
    many = pattern[-1:] == ("*",)
    return TableShape(
        name=_named(file, pattern),
        help=shape.help,
        fields=[_field(key, field) for key, field in shape.fields.items()],
        more=_field("", shape.others) if shape.others is not None else None,
        keys=shape.keys,
        one=shape.one,
        file=file,
        path=list(pattern[:-1] if many else pattern),
        ordered=pattern == STEPS,
        optional=shape.optional,
    )


def _field(key: str, field: Field) -> FieldShape:
    return FieldShape(
        key=key,
        kind=field.kind,
        help=field.help,
        accepted=_accepted(field),
        source=field.source,
        needed=field.needed,
    )


def _accepted(field: Field) -> str:
    """What a field takes, in words."""
    words = {
        "text": "a line of text",
        "quantity": "a number with its unit",
        "number": "a whole number",
        "price": "a price such as 4.20",
        "choice": "one of these",
        "list": "any of these",
        "yes/no": "yes or no",
    }[field.kind]
    return f"{words}, such as {field.example}" if field.example else words
