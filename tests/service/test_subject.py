"""The journal, its fold and its handler know no subject: here they serve one that they never saw."""

from __future__ import annotations

from dataclasses import dataclass, replace

import pytest

from service.journal.fold import Fold
from service.journal.handler import Handler
from service.journal.journal import Damaged, Origin
from service.journal.kinds import Kind, Recorded, Subject
from service.journal.memory import MemoryJournal


@dataclass(frozen=True, slots=True)
class Poured(Recorded):
    """So much was poured from the keg."""

    ml: int


@dataclass(frozen=True, slots=True)
class Keg:
    position: int = 0
    left_ml: int = 1000


@dataclass(frozen=True, slots=True)
class Pour:
    ml: int


def evolve(keg: Keg, event: Poured) -> Keg:
    return replace(keg, position=keg.position + 1, left_ml=keg.left_ml - event.ml)


def decide(keg: Keg, command: Pour, now: int) -> tuple[Poured, ...]:
    return (Poured(now, min(command.ml, keg.left_ml)),) if keg.left_ml else ()


def in_millilitres(body: dict[str, int]) -> dict[str, int]:
    return {"ml": 10 * body["cl"]}


KEG: Subject[Keg, Poured, Pour] = Subject((Kind("poured", Poured, (in_millilitres,)),), Keg(), evolve, decide)


def test_a_new_kind_of_event_needs_nothing_but_its_subject() -> None:
    journal, damage = MemoryJournal(), list[Damaged]()
    fold = Fold(KEG)
    handler = Handler(journal, KEG, fold, lambda: 7, damage.append)
    by = Origin("ana", "bar", "r1")
    for ml in (300, 900, 5):
        handler.handle(Pour(ml), lambda events, position: str(position), origin=by)
    assert (fold.state, damage) == (Keg(2, 0), [])
    (first, second) = (envelope.record for envelope in journal.read(0, 10))
    assert (first.kind, first.version, first.at, first.body) == ("poured", 2, 7, '{"ml":300}')
    assert (second.body, second.origin) == ('{"ml":700}', by)
    again = Fold(KEG)
    again.replay(journal)
    assert again.state == fold.state


def test_an_older_version_is_lifted_step_by_step() -> None:
    journal = MemoryJournal()
    fold = Fold(KEG)
    journal.append(0, [replace(fold.codec.encode(Poured(7, 1)), version=1, body='{"cl":25}')])
    fold.replay(journal)
    assert fold.state.left_ml == 750


def test_what_another_subject_wrote_is_damage_here() -> None:
    journal = MemoryJournal()
    fold = Fold(KEG)
    journal.append(0, [replace(fold.codec.encode(Poured(7, 1)), kind="rung-in")])
    with pytest.raises(Damaged, match="record 1 is 'rung-in'"):
        fold.replay(journal)
