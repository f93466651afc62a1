"""A small thing kept in a file of the data folder: JSON, replaced as a whole, whole after a crash."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any


class Kept:
    """One file, made when it is first written."""

    def __init__(self, place: Path) -> None:
        self._place = place

    def read(self, default: Any) -> Any:  # noqa: ANN401  (JSON)
        """What is kept; ``default`` where nothing is."""
        try:
            return json.loads(self._place.read_text("utf-8"))
        except FileNotFoundError:
            return default

    def write(self, data: object) -> None:
        """Keep this instead."""
        self._place.parent.mkdir(parents=True, exist_ok=True)
        beside = self._place.with_name(f".{self._place.name}.new")
        with beside.open("w", encoding="utf-8") as file:
            json.dump(data, file, ensure_ascii=False, indent=1)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(self._place)

    def delete(self) -> None:
        """Keep nothing."""
        self._place.unlink(missing_ok=True)
