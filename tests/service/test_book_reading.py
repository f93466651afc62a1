"""Books that are slow, or that the reader cannot deal with: told as faults, and the shop goes on."""

from __future__ import annotations

import itertools
import os
import shutil
import signal
import subprocess
import threading
from collections.abc import Mapping
from functools import partial
from pathlib import Path

import pytest

from recipes.book import Book
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.reader import parse_book, version
from service.bench.forms.forms import forms
from service.books.folder import PLAN
from service.books.reading import Reader
from service.books.shelf import BookShelf, BookWatch
from service.host.apart import Apart, Ended, TooLong, WorkFailed
from service.host.settings import DEMO_BOOK
from service.journal.memory import MemoryJournal
from tests.service.child import ORDER, Service, until
from tests.service.shop import DRINK


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO_BOOK, tmp_path / "book"))


@pytest.fixture(scope="module")
def texts() -> Mapping[str, str]:
    return {str(path.relative_to(DEMO_BOOK)): path.read_text("utf-8") for path in DEMO_BOOK.rglob("*.toml")}


def raising(monkeypatch: pytest.MonkeyPatch, where: str, error: BaseException) -> None:
    def fail(*_: object) -> None:
        raise error

    monkeypatch.setattr(where, fail)


def refused(reader: Reader, texts: Mapping[str, str]) -> Fault:
    with pytest.raises(BookRefused) as found:
        reader.files(texts)
    (fault,) = found.value.faults
    return fault


# --- whatever the reader raises -------------------------------------------------------------------


def test_what_a_parser_raises_is_a_fault_with_file_and_line(
    monkeypatch: pytest.MonkeyPatch, texts: Mapping[str, str]
) -> None:
    """A number that the reader's own arithmetic cannot hold, in the third line of a drink's file."""

    class NoNumber(str):
        def __new__(cls, text: str) -> NoNumber:
            raise ArithmeticError("too great") if text == "4.2" else ValueError

    monkeypatch.setattr("recipes.reading.reader.figure", NoNumber)
    fault = refused(Reader(), {**texts, f"drinks/{DRINK}.toml": "a = 1\nb = 2\nx = 4.2\n", "shop.toml": ""})
    assert (fault.file, fault.line) == (f"drinks/{DRINK}.toml", 3)
    assert "ArithmeticError: too great" in fault.message


def test_what_a_check_raises_is_a_fault_of_the_file_it_was_at(
    monkeypatch: pytest.MonkeyPatch, texts: Mapping[str, str]
) -> None:
    def check_drink(drink: object) -> None:
        raise ZeroDivisionError("division by zero")

    def check(book: Book, pages: object) -> None:
        check_drink(book.drinks[DRINK])

    monkeypatch.setattr("recipes.reading.reader.check", check)
    assert refused(Reader(), texts).file == f"drinks/{DRINK}.toml"
    raising(monkeypatch, "recipes.reading.reader.read_pantry", KeyError("gone"))
    # Nothing in the frames of that one tells a file: then the fault is the book's.
    assert "KeyError: 'gone'" in refused(Reader(), texts).message


def test_a_number_beyond_all_sense_is_a_fault_in_a_running_shop(folder: Path, tmp_path: Path) -> None:
    """Of 1e99999999999999999999 not even the decimal arithmetic knows what to make."""
    drink = folder / "drinks" / f"{DRINK}.toml"
    good = drink.read_text("utf-8")
    with Service(tmp_path / "data", BOOK=str(folder)) as service:
        before = service.get("/api/book")["version"]
        drink.write_text(good + "\nx = 1e99999999999999999999\n", "utf-8")
        until(lambda: bool(service.get("/api/book")["faults"]), "the fault is told")
        fault = service.get("/api/book")["faults"][0]
        assert (fault["file"], fault["line"]) == (f"drinks/{DRINK}.toml", good.count("\n") + 2)
        assert service.get("/api/book")["version"] == before
        assert service.call("GET", "/api/owner/book")[1]["faults"][0]["file"] == f"drinks/{DRINK}.toml"
        service.stop()
        # At a start an earlier book is known: no traceback, and orders can be rung in.
        service.start()
        until(lambda: bool(service.get("/api/book")["faults"]), "the fault is told")
        assert service.ring_in("1")["number"] == 1
        drink.write_text(good, "utf-8")
        until(lambda: not service.get("/api/book")["faults"], "the good book is seen")
        assert service.get("/api/book")["version"] == before
        assert "Traceback" not in service.said()


@pytest.mark.parametrize("text", ["x = 1e99999999999999999999\n", ".".join("a" * 1200) + " = 1\n"])
def test_a_text_that_no_parser_takes_is_shown_to_the_owner_as_text(text: str) -> None:
    (file,) = forms({"shop.toml": text}).files
    assert (file.text, file.tables) == (text, [])


def test_the_plan_of_a_save_that_is_none_is_told_and_changes_nothing(folder: Path, tmp_path: Path) -> None:
    (folder / PLAN).write_text('["no plan"', "utf-8")
    with Service(tmp_path / "data", BOOK=str(folder)) as service:
        assert "is not the plan of a save" in service.said()
        version_now = service.get("/api/owner/book")["version"]
        body = {
            "edits": [
                {"file": f"drinks/{DRINK}.toml", "path": ["name"], "value": "Taro"},
            ],
            "note": "",
            "base_version": version_now,
            "anyway": False,
        }
        status, answer = service.call("POST", "/api/owner/save", body)
        assert (status, answer["type"]) == (503, "/problems/book-not-writable"), answer
        assert PLAN in answer["detail"]
        assert service.get("/api/owner/book")["version"] == version_now
        assert "Traceback" not in service.said()


@pytest.mark.parametrize("error", [RuntimeError("once"), OSError("once"), RecursionError("once")])
def test_the_watch_outlives_whatever_is_raised(folder: Path, error: Exception) -> None:
    calls: list[int] = []
    again = threading.Event()

    def on_change() -> bool:
        calls.append(1)
        if len(calls) == 1:
            raise error
        again.set()
        return True

    watch = BookWatch(BookShelf(folder, MemoryJournal()), on_change, every_s=0.01)
    watch.start(unread=True)
    assert again.wait(10)
    watch.stop()


# --- the limit ------------------------------------------------------------------------------------


def test_a_book_that_takes_too_much_work_is_refused_with_a_sentence(texts: Mapping[str, str]) -> None:
    apart = Apart(preload="service.books.reading")
    try:
        # Any book takes more than a thousandth of a second; the clock of the processor is no finer.
        fault = refused(Reader(apart, limit_s=0.001), texts)
        assert "takes more than 0.001 s of work to read and check, and was given up" in fault.message
        assert Reader(apart).files(texts).version == version(texts)
    finally:
        apart.close()


def endless() -> None:
    while True:
        pass


def asleep() -> None:
    signal.pause()


def failing() -> None:
    raise LookupError("nothing there")


def leaving() -> None:
    os._exit(3)


def own_pid() -> int:
    return os.getpid()


def test_work_apart_ends_at_its_limit_and_says_what_became_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    apart = Apart(preload="service.books.reading")
    try:
        first = apart.do(own_pid, limit_s=5)
        assert first != os.getpid()
        assert apart.do(own_pid, limit_s=5) == first, "the process stays for the next job"
        with pytest.raises(TooLong):
            apart.do(endless, limit_s=0.05)
        assert apart.do(own_pid, limit_s=5) == first, "it ended the job by itself"
        # What does no work does not reach its limit: the clock ends it.
        monkeypatch.setattr("service.host.apart.START_S", 0.0)
        with pytest.raises(TooLong):
            apart.do(asleep, limit_s=0.01)
        monkeypatch.undo()
        for work, why in ((failing, "LookupError: nothing there"), (leaving, "ended")):
            with pytest.raises(WorkFailed, match=why):
                apart.do(work, limit_s=5)
        os.kill(apart.do(own_pid, limit_s=5), signal.SIGKILL)
        assert apart.do(own_pid, limit_s=5), "one that has left is replaced"
    finally:
        apart.close()
    with pytest.raises(Ended):
        apart.do(own_pid, limit_s=5)


def test_closing_ends_what_is_at_work() -> None:
    apart = Apart(preload="service.books.reading")
    ended = threading.Event()

    def work() -> None:
        with pytest.raises(Ended):
            apart.do(asleep, limit_s=1000)
        ended.set()

    thread = threading.Thread(target=work)
    thread.start()
    until(lambda: bool(apart._busy), "it is at work")
    apart.close()
    assert ended.wait(30)
    thread.join()


def test_a_refused_book_of_the_store_is_read_once(
    monkeypatch: pytest.MonkeyPatch, texts: Mapping[str, str], folder: Path
) -> None:
    reads: list[int] = []

    class Slow(Reader):
        def files(self, files: Mapping[str, str]) -> Book:
            reads.append(1)
            raise BookRefused([])

    journal = MemoryJournal()
    journal.keep("old", dict(texts))
    shelf = BookShelf(folder, journal, Slow())
    assert shelf.book("old") is None
    assert shelf.book("old") is None
    assert len(reads) == 1
    assert shelf.book("nowhere") is None


def test_both_ways_of_reading_give_the_same_book(texts: Mapping[str, str], folder: Path) -> None:
    apart = Apart(preload="service.books.reading")
    try:
        assert Reader(apart).files(texts) == Reader().folder(folder) == parse_book(texts)
        (folder / "shop.toml").write_text("", "utf-8")
        with pytest.raises(BookRefused) as here:
            Reader().folder(folder)
        with pytest.raises(BookRefused) as there:
            Reader(apart).folder(folder)
        assert here.value.faults == there.value.faults
    finally:
        apart.close()


# --- the shop meanwhile ---------------------------------------------------------------------------


def readers(service: Service) -> list[int]:
    """The processes in which the service reads books."""
    asked = ["ps", "-o", "pid=,args=", "--ppid", str(service.process.pid)]
    told = subprocess.run(asked, capture_output=True, text=True, check=False).stdout
    return [int(line.split()[0]) for line in told.splitlines() if "service.host.apart" in line]


def test_the_shop_goes_on_while_a_book_is_being_read(folder: Path, tmp_path: Path) -> None:
    """The process that reads is paused, so the book takes for as long as we like."""
    drink = folder / "drinks" / f"{DRINK}.toml"
    good = drink.read_text("utf-8")

    def told(service: Service, key: str) -> bool:
        return any(key in fault["key"] for fault in service.get("/api/book")["faults"])

    with Service(tmp_path / "data", BOOK=str(folder)) as service:
        for n in itertools.count(1):
            for each in readers(service):
                os.kill(each, signal.SIGKILL)
            until(lambda: not readers(service), "nobody reads")
            drink.write_text(f"{good}\nspoons{n} = 3\n", "utf-8")
            until(lambda: bool(readers(service)), "the changed book is being read")
            (reader,) = readers(service)
            os.kill(reader, signal.SIGSTOP)
            assert service.call("GET", "/healthz")[0] == 200
            assert service.call("POST", "/api/orders", ORDER, str(n))[0] == 201
            in_the_middle = not told(service, f"spoons{n}")
            os.kill(reader, signal.SIGCONT)
            until(partial(told, service, f"spoons{n}"), "it is read in the end")
            if in_the_middle:
                break
        assert service.get("/healthz") == {"status": "ok"}
