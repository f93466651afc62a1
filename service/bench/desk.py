"""The owner's desk: the book's folder, its versions and proofs, and what of it comes into force when.

What is written to the folder, by the bench or by hand, is a draft until its proof holds. Then it opens. A
draft whose proof fails opens by the owner's word alone. Only a store that never had a book opens one at
once: a shop without a book serves nobody, and the register refuses what the proof objects to.
"""

from __future__ import annotations

import threading
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Literal

from recipes.book import Book
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.reader import version
from service.bench import wire
from service.bench.editing.edits import apply, changed
from service.bench.forms.catalogue import told as shapes_told
from service.bench.forms.forms import forms
from service.bench.history import VersionRecord, Versions
from service.bench.proving.prover import Prover
from service.bench.trade_off import TradeOffDesk
from service.bench.trial import edited_book, told
from service.books.folder import PlanDamaged, read_texts, recover, write_texts
from service.books.wire import BookFault
from service.host.aside import aside
from service.host.log import LOG
from service.journal.journal import Unavailable
from service.orders.desk import Desk, opening

NEEDS_WORD = "The proof of book %s does not hold: see why, or open it by your word, at /owner/proof"

Standing = Literal["open", "proving", "draft"]


def _applied(texts: Mapping[str, str], edits: Sequence[wire.Edit]) -> Mapping[str, str]:
    """The texts after these edits. Each takes about 30 ms, and there may be hundreds."""
    return aside(lambda: apply(texts, edits))


class BaseChanged(Exception):
    """The book's folder is no longer what an edit was based on; ``files`` are those that differ."""

    def __init__(self, now: str, files: Sequence[str]) -> None:
        super().__init__(f"the book is at version {now} now")
        self.now, self.files = now, files


class OwnerDesk:
    """One store's owner's desk. ``folder`` is the book's, ``data`` the service's data folder.

    A proof that the start finds wanting waits ``calm_s``, so that the shop is up first.
    """

    def __init__(self, desk: Desk, folder: Path, data: Path, calm_s: float = 0.0) -> None:
        self.desk = desk
        self.folder = folder
        self.kept = data / "owner"
        self.history = Versions(self.kept)
        self.prover = Prover(self.kept / "proofs")
        self.trade_off = TradeOffDesk()
        self._lock = threading.RLock()
        self._reading = threading.RLock()
        self._read: tuple[str, Book | BookRefused] | None = None
        self._waiting: threading.Timer | None = None
        self._calm_s = calm_s
        self._met = False
        self._forms = ("", wire.Forms(files=[], sources=[]))
        desk.builds.hold_to_proof(self.doubted)

    # --- what stands in the folder -------------------------------------------------------------

    def texts(self) -> dict[str, str]:
        """The folder's files as they are."""
        with self._lock:
            return read_texts(self.folder)

    def folder_version(self) -> str:
        """The version that the folder's files make."""
        return version(self.texts())

    def book_of(self, wanted: str) -> Book | None:
        """A book by its version: the folder's, or an earlier one. May raise Unavailable."""
        if self.folder_version() == wanted:
            try:
                return self.folder_book()
            except BookRefused:
                return None
        return self.desk.shelf.book(wanted)

    def folder_book(self) -> Book:
        """The folder's book. Raises BookRefused."""
        return self._parse(self.texts())

    def _parse(self, texts: Mapping[str, str]) -> Book:
        """The book in these texts, read once however often it is asked for. Raises BookRefused."""
        wanted = version(texts)
        with self._reading:
            if self._read is None or self._read[0] != wanted:
                try:
                    self._read = wanted, self.desk.shelf.reader.files(texts)
                except BookRefused as refused:
                    self._read = wanted, refused
            found = self._read[1]
        if isinstance(found, BookRefused):
            raise BookRefused(found.faults)
        return found

    def edited(
        self, texts: Mapping[str, str], edits: Sequence[wire.Edit]
    ) -> tuple[Book | None, list[BookFault]]:
        """The book that these edits would make of these texts, or its faults."""
        return edited_book(texts, edits, _applied, self.desk.shelf.reader.files)

    def workbook(self) -> wire.Workbook:
        """The folder's book as forms. May raise Unavailable."""
        texts = self.texts()
        here = version(texts)
        faults: Sequence[Fault] = ()
        holds = None
        try:
            holds = self.prover.holds(self.folder_book())
        except BookRefused as refused:
            faults = refused.faults
        if self._forms[0] != here:
            self._forms = (here, aside(lambda: forms(texts)))
        record = self._latest(here)
        return wire.Workbook(
            version=here,
            open=self.desk.fold.state.book or "",
            note=record.note if record else "",
            at=record.at if record else None,
            holds=holds,
            files=self._forms[1].files,
            sources=self._forms[1].sources,
            shapes=shapes_told(),
            faults=[told(fault) for fault in faults],
        )

    # --- saving --------------------------------------------------------------------------------

    def save(self, edits: Sequence[wire.Edit], note: str, base: str, anyway: bool) -> wire.Saved:
        """Write edits to the folder as a new version.

        Raises BaseChanged, EditRefused, BookRefused, OSError, Unavailable.
        """
        with self._lock:
            texts = self.texts()
            if version(texts) != base:
                raise BaseChanged(version(texts), self._differs(base, texts))
            return self._write(texts, _applied(texts, edits), note, "bench", anyway)

    def roll_back(self, to: str, note: str) -> wire.Saved:
        """Write an earlier version's files back. Raises LookupError, BookRefused, OSError, Unavailable."""
        files = self.desk.shelf.files(to)
        if files is None:
            raise LookupError(to)
        with self._lock:
            return self._write(self.texts(), files, note or f"Back to version {to}", "roll-back", False)

    def publish(self, wanted: str, note: str) -> wire.Saved:
        """Open the folder's version by the owner's word. Raises BaseChanged, BookRefused."""
        with self._lock:
            texts = self.texts()
            if version(texts) != wanted:
                raise BaseChanged(version(texts), self._differs(wanted, texts))
            book = self._parse(texts)
            if note:
                self._record(book.version, note, "bench", ())
            return self._saved(book, (), anyway=True)

    def _write(
        self,
        before: Mapping[str, str],
        after: Mapping[str, str],
        note: str,
        by: Literal["bench", "roll-back"],
        anyway: bool,
    ) -> wire.Saved:
        book = self._parse(after)
        files = changed(before, after)
        self.desk.shelf.keep(book)
        if files:
            self._record(book.version, note, by, files)
            write_texts(self.folder, {name: after.get(name) for name in files})
        return self._saved(book, files, anyway)

    def _saved(self, book: Book, files: Sequence[str], anyway: bool) -> wire.Saved:
        return wire.Saved(version=book.version, state=self.consider(book, anyway), changed=list(files))

    def _record(
        self, of: str, note: str, by: Literal["bench", "folder", "roll-back"], files: Sequence[str]
    ) -> None:
        known = self._latest(of)
        told = files or (known.changed if known else ())
        self.history.add(VersionRecord(of, note, self.desk.now(), by, tuple(told)))

    def _latest(self, of: str) -> VersionRecord | None:
        """The last that is noted of a version, which may have come more than once."""
        return next((each for each in reversed(self.history.all()) if each.version == of), None)

    def _differs(self, base: str, texts: Mapping[str, str]) -> list[str]:
        """Which files differ from those of a version, as far as that is still known."""
        files = self.desk.shelf.files(base)
        return [] if files is None else changed(files, texts)

    # --- what comes into force -----------------------------------------------------------------

    def open_folder(self) -> bool:
        """At the start: the folder's book comes into force if it may; whether it can be read.

        An interrupted save is carried out first. May raise Unavailable.
        """
        with self._lock:
            try:
                recover(self.folder)
            except OSError as error:
                LOG.error("An interrupted save of the book cannot be carried out: %s", error)
            book = self.desk.shelf.read_folder()
            if book is None:
                return False
            self._note(book)
            self.consider(book, after_s=self._calm_s)
            self._met = True
            return True

    def _note(self, book: Book) -> None:
        """Remember a version that was written to the folder by hand."""
        noted = self.history.all()
        if not noted or noted[-1].version != book.version:
            changes = self._differs(self.desk.fold.state.book or "", book.files)
            self._record(book.version, "", "folder", changes)

    def folder_changed(self) -> bool:
        """Look at the folder after somebody wrote there; False when to be tried again."""
        try:
            with self._lock:
                try:
                    recover(self.folder)
                except PlanDamaged as damaged:
                    LOG.error("%s", damaged)
            # Not under the lock: reading may take its time, and the owner's pages go on meanwhile.
            book = self.desk.shelf.read_folder()
            if book is None:
                for fault in self.desk.shelf.faults:
                    LOG.error("%s", fault)
                LOG.error("The book is refused; the last good one goes on serving.")
                return True
            if self.folder_version() != book.version:
                return False  # It was written to while it was read.
            self._note(book)
            self.consider(book, after_s=0.0 if self._met else self._calm_s)
            self._met = True
        except (Unavailable, OSError) as error:
            LOG.warning("the changed book waits: %s", error)
            return False
        return True

    def consider(self, book: Book, anyway: bool = False, after_s: float = 0.0) -> Standing:
        """Open a book of the folder if it may, else see to its proof, begun ``after_s`` from now.

        May raise Unavailable.
        """
        state = self.desk.fold.state
        if state.book == book.version and (state.anyway or not anyway):
            if self.prover.holds(book) is None:
                self._begin_proof(book, after_s)
            return "open"
        holds = self.prover.holds(book)
        if holds or anyway or self.desk.book() is None:
            self._open(book, anyway and not holds)
            if holds is None:
                self._begin_proof(book, after_s)
            return "open"
        if holds is None:
            LOG.info("Book %s waits for its proof and opens when that holds: see /owner/proof", book.version)
            self._begin_proof(book, after_s)
            return "proving"
        LOG.warning(NEEDS_WORD, book.version)
        return "draft"

    def _open(self, book: Book, anyway: bool) -> None:
        self.desk.shelf.keep(book)
        self.desk.handler.handle(opening(book, anyway), lambda events, position: "")
        if anyway:
            self.history.opened_anyway(book.version)

    def _begin_proof(self, book: Book, after_s: float) -> None:
        if after_s <= 0:
            self.prover.start(book, self.proved)
            return
        self._waiting = threading.Timer(after_s, self._begin_if_still, (book,))
        self._waiting.daemon = True
        self._waiting.start()

    def _begin_if_still(self, book: Book) -> None:
        """Begin a proof that waited, unless the folder has another version by now."""
        if self.folder_version() == book.version:
            self.prover.start(book, self.proved)

    def close(self) -> None:
        """End the proof at work; what is done of it stays. Taste against hands is begun anew when asked."""
        self.trade_off.stop()
        if self._waiting is not None:
            self._waiting.cancel()
        self.prover.stop()

    def prove(self, book: Book) -> None:
        """Prove a version, or go on with it; it opens if it holds and is the folder's."""
        self.prover.start(book, self.proved)

    def proved(self, book: Book, holds: bool) -> None:
        """A proof is complete: a book that holds opens if it is still the folder's."""
        if holds:
            LOG.info("The proof of book %s holds", book.version)
        else:
            LOG.warning(NEEDS_WORD, book.version)
        if not holds or self.desk.fold.state.book == book.version:
            return
        with self._lock:
            if version(self.texts()) == book.version:
                self._open(book, anyway=False)

    def doubted(self, book: Book) -> bool:
        """Whether a book's proof is not known to hold: then each line is held to it by itself."""
        return self.prover.holds(book) is not True

    def versions(self) -> list[wire.BookVersion]:
        """Every time that a version came, the latest first. May raise Unavailable.

        Only where it came last can a version stand as open or as a draft.
        """
        here, in_force = version(self.texts()), self.desk.fold.state.book
        found: list[wire.BookVersion] = []
        for record in reversed(self.history.all()):
            again = any(each.version == record.version for each in found)
            book = self.book_of(record.version)
            holds = self.prover.holds(book) if book is not None else None
            standing: Literal["open", "proving", "draft", "earlier"] = "earlier"
            if again:
                pass
            elif record.version == in_force:
                standing = "open"
            elif record.version == here:
                standing = "proving" if holds is None else "draft"
            found.append(
                wire.BookVersion(
                    version=record.version,
                    note=record.note,
                    at=record.at,
                    by=record.by,
                    state=standing,
                    holds=holds,
                    anyway=record.anyway,
                    kept=book is not None,
                    changed=list(record.changed),
                )
            )
        return found
