"""Faults in a book: each a value with its place, all told at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One fault: ``file`` and ``line`` (from 1), the ``key`` at fault, what was found and is accepted."""

    file: str
    line: int
    key: str
    found: str
    accepted: str
    message: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.key}: {self.message}"


class BookRefused(Exception):
    """Raised when a book cannot be read; carries every fault found, in the order of files and lines."""

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(sorted(set(faults)))
        super().__init__(str(self))

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)
