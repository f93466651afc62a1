"""Training scores, where the owner wants them kept: in ``scores.json``."""

from __future__ import annotations

import threading
from pathlib import Path

from service.host.kept import Kept
from service.learning.wire import PersonScore, Scores

MOST_PEOPLE = 200


class ScoreBook:
    """The scores of everybody; safe to use from several threads."""

    def __init__(self, folder: Path) -> None:
        self._kept = Kept(folder / "scores.json")
        self._lock = threading.RLock()

    def scores(self) -> Scores:
        """The scores, the best first; none while they are not kept."""
        kept = self._kept.read(None)
        if kept is None:
            return Scores(on=False, people=[])
        people = [PersonScore(**each) for each in kept]
        people.sort(key=lambda each: (-each.right / max(1, each.answered), -each.answered))
        return Scores(on=True, people=people)

    def keep_scores(self, on: bool) -> Scores:
        """Begin to keep scores, or stop and delete those kept."""
        with self._lock:
            if not on:
                self._kept.delete()
            elif not self.scores().on:
                self._kept.write([])
            return self.scores()

    def forget(self, person: str) -> bool:
        """Delete what is kept of one person; whether there was anything."""
        with self._lock:
            kept = self.scores()
            others = [each for each in kept.people if each.person != person]
            if len(others) == len(kept.people):
                return False
            self._kept.write([each.model_dump() for each in others])
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
            self._kept.write([each.model_dump() for each in latest])
            return now
