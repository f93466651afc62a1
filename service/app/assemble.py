"""Assembles the service from its settings, and serves until told to stop. Nothing connects on import."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Callable, Collection
from contextlib import ExitStack, suppress
from pathlib import Path
from time import monotonic

from flask import Flask

import service
from service.app.api import make_app
from service.bench.desk import OwnerDesk
from service.books.reading import Reader
from service.books.shelf import BookShelf, BookWatch
from service.host.apart import Apart
from service.host.aside import aside
from service.host.clock import doubt, now_ms
from service.host.data_folder import DataFolder, FolderHeld, FolderUnusable
from service.host.greeting import greeting
from service.host.log import LOG, set_up
from service.host.redis_child import RedisChild, RedisFailed
from service.host.settings import Settings
from service.journal.follower import BLOCK_S
from service.journal.journal import Damaged, JournalError, Unavailable
from service.journal.keeper import Keeper
from service.journal.redis import RedisJournal, client
from service.journal.snapshot import Snapshots, code_of
from service.orders.desk import Desk, make_desk
from service.orders.live import PATH, Sockets
from service.orders.log import log_moved
from service.orders.state import State
from service.times.history import History
from service.web import pages
from service.web.guard import SameOrigin
from service.web.listener import CannotListen, address_of, listen, own_names
from service.web.websocket import Handler

CONNECT_S = 20.0
"""How long to wait at the start for a Redis that is not ours (s)."""

CLOSE_S = 1.0
"""How long requests may take to end once we are told to stop (s)."""

CALM_S = 10.0
"""How long after the start a proof of the book begins (s): the shop comes first."""


class CannotStart(Exception):
    """There is nothing to serve, for the reason given."""


def web(
    desk: Desk,
    async_mode: str,
    display: Path = pages.DISPLAY,
    owner: OwnerDesk | None = None,
    owner_anywhere: bool = False,
    names: Collection[str] = (),
) -> tuple[Flask, Sockets]:
    """HTTP and sockets of a desk as one application (call the Flask app), with the owner's part if given.

    ``names`` are those by which this machine is called, beside its addresses and localhost.
    """
    app = make_app(desk, display, owner, owner_anywhere)
    sockets = Sockets(app, desk, async_mode)
    app.wsgi_app = SameOrigin(app.wsgi_app, PATH, names)  # type: ignore[method-assign]
    return app, sockets


def serve(settings: Settings) -> int:
    """Serve until SIGINT or SIGTERM; the exit code: 0 when stopped so, 1 when it could not start or go on.

    The process must have been made cooperative before (``gevent.monkey.patch_all()``).
    """
    set_up()
    try:
        with ExitStack() as stack:
            return _serve(settings, stack)
    except (
        CannotListen,
        CannotStart,
        FolderHeld,
        FolderUnusable,
        RedisFailed,
        Damaged,
        Unavailable,
    ) as refusal:
        print(refusal, file=sys.stderr)
        return 1


def _serve(settings: Settings, stack: ExitStack) -> int:
    from gevent import signal_handler
    from gevent.event import Event
    from gevent.pywsgi import WSGIServer

    stop = Event()
    ending: list[Damaged] = []

    def on_damage(damage: Damaged) -> None:
        LOG.error("%s", damage)
        ending.append(damage)
        stop.set()

    for sign in (signal.SIGINT, signal.SIGTERM):
        signal_handler(sign, stop.set)

    listener = stack.enter_context(listen(settings.host, settings.port))
    apart = Apart(preload="service.books.reading")
    stack.callback(apart.close)
    apart.warm()
    address = address_of(listener)
    journal = _journal(settings, address, stack)
    desk = make_desk(journal, BookShelf(settings.book, journal, Reader(apart)), now_ms, on_damage)
    owner = OwnerDesk(desk, settings.book, settings.store_dir, CALM_S)
    stack.callback(owner.close)
    names = own_names(settings.host, settings.hosts)
    app, _ = web(desk, "gevent", owner=owner, owner_anywhere=settings.owner_anywhere, names=names)
    watch = BookWatch(desk.shelf, owner.folder_changed)
    snapshots = Snapshots(settings.store_dir / "snapshot.json", State, code_of(Path(service.__file__).parent))
    unread = open_at_once(desk, owner, snapshots)
    keeper = Keeper(snapshots, desk.fold, desk.journal, aside)
    keeper.start()
    stack.callback(keeper.close)
    desk.fold.listen(log_moved)

    desk.follower.start()
    stack.callback(desk.follower.stop)
    watch.start(unread)
    stack.callback(watch.stop)
    stack.callback(apart.close)  # before the watch is waited for: it may be in the middle of a book
    server = WSGIServer(listener, app, log=None, error_log=LOG, handler_class=Handler)
    server.start()
    stack.callback(server.stop, timeout=CLOSE_S)
    threading.Thread(target=_load, args=(app.extensions["history"],), name="past", daemon=True).start()
    print(*greeting(address, listener.getsockname()[0], settings), sep="\n", flush=True)
    stop.wait()
    return 1 if ending else 0


def _load(history: History) -> None:
    """Have the latest days at hand before anybody asks; whoever asks meanwhile is told what is wrong."""
    with suppress(JournalError):
        history.load()


def _journal(settings: Settings, address: str, stack: ExitStack) -> RedisJournal:
    """The journal, on a Redis of our own or the one that the settings name."""
    place: Path | None = None
    # Also with a Redis of others: what the owner keeps and the snapshot stand in the folder.
    stack.enter_context(DataFolder(settings.data_dir, address))
    if settings.redis_url is None:
        child = RedisChild(settings.data_dir)
        stack.callback(child.stop)
        child.start()
        place = child.socket
    commands = client(settings.redis_url, place)
    blocking = client(settings.redis_url, place, extra_s=BLOCK_S)
    stack.callback(commands.close)
    stack.callback(blocking.close)
    return RedisJournal(commands, blocking, settings.store)


def open_at_once(desk: Desk, owner: OwnerDesk, snapshots: Snapshots[State] | None = None) -> bool:
    """Open a desk with the book that was in force last; whether the folder is still to be read.

    A folder that takes long to read, or cannot be read, so keeps nobody waiting. Without such a book the
    folder's is read first. Raises as open_desk does.
    """
    unread = False

    def open_folder() -> bool:
        nonlocal unread
        unread = desk.book() is not None
        return unread or owner.open_folder()

    open_desk(desk, open_folder, snapshots)
    return unread


def open_desk(
    desk: Desk,
    open_folder: Callable[[], bool] | None = None,
    snapshots: Snapshots[State] | None = None,
) -> None:
    """Bring a desk to where orders can be rung in: journal read to its end, a book open.

    ``open_folder`` brings the folder's book into force as far as it may, and tells whether it can be read.
    A book folder that is refused is no hindrance as long as an earlier book was good. Raises
    CannotStart, Unavailable, Damaged.
    """
    _patiently(lambda: _read_journal(desk, snapshots))
    opened = (open_folder or desk.open_folder)()
    if not opened:
        for fault in desk.shelf.faults:
            LOG.error("%s", fault)
        if desk.book() is None:
            raise CannotStart("The book is refused, and there is no earlier one to go on with.")
        LOG.error("The book in the folder is refused; the last good one goes on serving.")
    if (wrong := doubt(desk.fold.state.last_at, desk.now())) is not None:
        LOG.warning("%s", wrong)
    lines = [drink.rung for ticket in desk.fold.state.tickets.values() for drink in ticket.drinks]
    _patiently(lambda: desk.builds.fetch_books(lines))
    for line in lines:
        desk.builds.of(line)


def _read_journal(desk: Desk, snapshots: Snapshots[State] | None) -> None:
    if snapshots is not None and desk.fold.state.position == 0:
        kept = snapshots.load(desk.journal)
        if kept is not None:
            desk.fold.resume(kept)
    desk.fold.replay(desk.journal)


def reopen(desk: Desk) -> bool:
    """Bring a changed book folder into force, or tell its faults; False when to be tried again."""
    try:
        if not desk.open_folder():
            for fault in desk.shelf.faults:
                LOG.error("%s", fault)
            LOG.error("The book is refused; the last good one goes on serving.")
    except Unavailable as error:
        LOG.warning("the changed book waits: %s", error)
        return False
    return True


def _patiently(act: Callable[[], None]) -> None:
    """Do what needs the journal, and wait for it to come up if it does not answer yet."""
    from gevent import sleep

    deadline = monotonic() + CONNECT_S
    while True:
        try:
            act()
        except Unavailable:
            if monotonic() > deadline:
                raise
            sleep(0.1)
        else:
            return
