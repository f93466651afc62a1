"""The owner's book over HTTP: save, publish, versions, roll back, and the proof."""

from __future__ import annotations

from flask import Response, request

from recipes.book import Book
from service.bench import wire
from service.bench.desk import OwnerDesk
from service.bench.guard import View, owner_only
from service.web.body import request_message
from service.web.problems import ProblemFound, field_fault
from service.web.routes import Operation, Routes, answer_message
from service.web.text import NOTE_LENGTH, clean
from service.wire import Wire

_OWN = ("owner-elsewhere",)
_WRITES = (*_OWN, "book-changed", "book-refused", "book-not-writable")


def add_versions(routes: Routes, owner: OwnerDesk, anywhere: bool) -> None:
    """What writes the book or brings one into force, and what tells of its versions and proofs."""
    guarded = owner_only(anywhere)

    def add(operation: Operation, view: View) -> None:
        routes.add(operation)(guarded(view))

    def save() -> Response:
        asked = request_message(wire.SaveIn)
        note = clean(asked.note, NOTE_LENGTH)
        try:
            saved = owner.save(asked.edits, note, asked.base_version, asked.anyway)
        except OSError as error:
            raise _not_writable(error) from error
        return answer_message(saved)

    def publish() -> Response:
        asked = request_message(wire.PublishIn)
        return answer_message(owner.publish(asked.version, clean(asked.note, NOTE_LENGTH)))

    def roll_back() -> Response:
        asked = request_message(wire.RollBackIn)
        try:
            saved = owner.roll_back(asked.version, clean(asked.note, NOTE_LENGTH))
        except LookupError as error:
            raise _no_such(asked.version) from error
        except OSError as error:
            raise _not_writable(error) from error
        return answer_message(saved)

    def versions() -> Response:
        return answer_message(wire.Versions(versions=owner.versions()))

    def proof() -> Response:
        book = _asked_book(owner, request.args.get("version") or None)
        return answer_message(owner.prover.status(book))

    def prove() -> Response:
        asked = request_message(wire.ProveIn)
        book = _asked_book(owner, asked.version)
        owner.prove(book)
        return answer_message(owner.prover.status(book))

    add(_writing("save", "ownerSave", "Save edits as a new version", wire.SaveIn), save)
    add(
        _writing("publish", "ownerPublish", "Open the folder's version by the owner's word", wire.PublishIn),
        publish,
    )
    add(
        _writing(
            "roll-back",
            "ownerRollBack",
            "Write an earlier version's files back",
            wire.RollBackIn,
            ("no-such-version",),
        ),
        roll_back,
    )
    add(
        Operation(
            "GET",
            "/api/owner/versions",
            "ownerVersions",
            "The book's versions, the latest first",
            wire.Versions,
            problems=_OWN,
        ),
        versions,
    )
    add(
        Operation(
            "GET",
            "/api/owner/proof",
            "ownerProof",
            "The proof of a version as far as it has come",
            wire.Proof,
            query={"version": "a version of the book; left out: the folder's"},
            problems=(*_OWN, "no-such-version"),
        ),
        proof,
    )
    add(
        Operation(
            "POST",
            "/api/owner/proof",
            "ownerProve",
            "Prove a version, or go on with it",
            wire.Proof,
            wire.ProveIn,
            problems=(*_OWN, "no-such-version"),
        ),
        prove,
    )


def _writing(
    verb: str, name: str, summary: str, takes: type[Wire], problems: tuple[str, ...] = ()
) -> Operation:
    return Operation(
        "POST", f"/api/owner/{verb}", name, summary, wire.Saved, takes, problems=(*_WRITES, *problems)
    )


def _asked_book(owner: OwnerDesk, version: str | None) -> Book:
    """The book asked for; the folder's, or while that is refused the one in force, when none was."""
    book = owner.book_of(version or owner.folder_version())
    if book is None and version is None:
        book = owner.desk.book()
    if book is None:
        raise _no_such(version or "")
    return book


def _no_such(version: str) -> ProblemFound:
    fault = field_fault("version", version, "a version of /api/owner/versions that is kept")
    return ProblemFound("no-such-version", f"There is no version {fault.value!r} that can be read.", [fault])


def _not_writable(error: OSError) -> ProblemFound:
    return ProblemFound(
        "book-not-writable", f"The book's folder cannot be written: {error.strerror or error}."
    )
