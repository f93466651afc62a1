"""What the bench remembers beside the book: versions with their notes, and training scores.

Small JSON files in the data folder's ``owner``, each replaced as a whole.
"""

from __future__ import annotations

import json
import os
import threading
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, Literal

from service.learning.wire import PersonScore, Scores

MOST_VERSIONS = 500
"""How many versions are remembered; an owner who saves daily has more than a year of them."""

MOST_PEOPLE = 200


@dataclass(frozen=True, slots=True)
class VersionRecord:
    """One version: its note, when and how it came (ms since 1970 UTC), and which files it changed."""

    version: str
    note: str
    at: int
    by: Literal["bench", "folder", "roll-back"]
    changed: tuple[str, ...]
    anyway: bool = False


class OwnerRecords:
    """The files in one folder, made when first written; safe to use from several threads."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lock = threading.RLock()

    def versions(self) -> list[VersionRecord]:
        """Every version, the latest last."""
        told = self._read("versions.json", [])
        return [VersionRecord(**{**each, "changed": tuple(each["changed"])}) for each in told]

    def add(self, record: VersionRecord) -> None:
        """Note what became of the book: one more row, or another note for the version that stands last.

        A version that comes back (rolled back to) is told again, and its earlier row stays.
        """
        with self._lock:
            told = self.versions()
            if told and told[-1].version == record.version:
                told.pop()
            self._write("versions.json", [asdict(each) for each in [*told, record][-MOST_VERSIONS:]])

    def opened_anyway(self, version: str) -> None:
        """Note that a version, as it came last, was opened by the owner's word."""
        with self._lock:
            told = self.versions()
            last = max((n for n, each in enumerate(told) if each.version == version), default=None)
            if last is not None:
                told[last] = replace(told[last], anyway=True)
                self._write("versions.json", [asdict(each) for each in told])

    def scores(self) -> Scores:
        """The scores, the best first; none while they are not kept."""
        kept = self._read("scores.json", None)
        if kept is None:
            return Scores(on=False, people=[])
        people = [PersonScore(**each) for each in kept]
        people.sort(key=lambda each: (-each.right / max(1, each.answered), -each.answered))
        return Scores(on=True, people=people)

    def keep_scores(self, on: bool) -> Scores:
        """Begin to keep scores, or stop and delete those kept."""
        with self._lock:
            if not on:
                (self._folder / "scores.json").unlink(missing_ok=True)
            elif not self.scores().on:
                self._write("scores.json", [])
            return self.scores()

    def forget(self, person: str) -> bool:
        """Delete what is kept of one person; whether there was anything."""
        with self._lock:
            kept = self.scores()
            others = [each for each in kept.people if each.person != person]
            if len(others) == len(kept.people):
                return False
            self._write("scores.json", [each.model_dump() for each in others])
            return True

    def answered(self, person: str, right: bool, at: int) -> PersonScore | None:
        """Count one answer of a person; None while scores are not kept."""
        with self._lock:
            kept = self.scores()
            if not kept.on or not person:
                return None
            people = {each.person: each for each in kept.people}
            before = people.get(person, PersonScore(person=person, right=0, answered=0, last_at=at))
            now = PersonScore(
                person=person, right=before.right + right, answered=before.answered + 1, last_at=at
            )
            people[person] = now
            latest = sorted(people.values(), key=lambda each: each.last_at)[-MOST_PEOPLE:]
            self._write("scores.json", [each.model_dump() for each in latest])
            return now

    def _read(self, name: str, default: Any) -> Any:  # noqa: ANN401  (JSON)
        try:
            return json.loads((self._folder / name).read_text("utf-8"))
        except FileNotFoundError:
            return default

    def _write(self, name: str, data: object) -> None:
        self._folder.mkdir(parents=True, exist_ok=True)
        beside = self._folder / f".{name}.new"
        with beside.open("w", encoding="utf-8") as file:
            json.dump(data, file, ensure_ascii=False, indent=1)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(self._folder / name)
