"""What the bench refuses, told as problems."""

from __future__ import annotations

from flask import Flask, Response

from service.bench.desk import BaseChanged
from service.bench.editing.edits import EditRefused
from service.bench.measuring import CannotMeasure
from service.web.guard import tell
from service.web.problems import field_fault


def guard_bench(app: Flask) -> None:
    """Put the bench's error answers on an app."""

    @app.errorhandler(BaseChanged)
    def base_changed(error: BaseChanged) -> Response:
        named = ", ".join(error.files) or "more than can be told"
        faults = [field_fault(file, "changed", "the edit made again on the new text") for file in error.files]
        return tell("book-changed", f"The book is at version {error.now} now; changed: {named}.", faults)

    @app.errorhandler(EditRefused)
    def edit_refused(error: EditRefused) -> Response:
        each = error.fault
        fault = field_fault(f"{each.file}:{each.line}: {each.key}", each.found, each.accepted)
        return tell("book-refused", str(each), [fault])

    @app.errorhandler(CannotMeasure)
    def cannot_measure(error: CannotMeasure) -> Response:
        return tell("cannot-measure", str(error), [field_fault(error.field, error.value, error.accepted)])
