"""Who may import whom, as tables: every file of the service has its row, and its imports are held to it.

Two tables. ``KINDS`` tells by a file's name whether it is pure, an edge (what adapts HTTP, sockets, a file, a
process, a clock) or shared (one value that threads share behind a lock); pure files import neither the
outside nor an edge. ``ARROWS`` tells which room may import which.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from fnmatch import fnmatch
from pathlib import Path

import pytest

import recipes
import service

ROOT = Path(service.__file__).parent.parent

KINDS: tuple[tuple[str, str], ...] = (
    # The first row that fits counts.
    ("service/web/text.py", "pure"),
    ("service/app/*", "edge"),
    ("service/cli/*", "edge"),
    ("service/rush/*", "edge"),
    ("service/host/*", "edge"),
    ("service/web/*", "edge"),
    ("service/wire/*", "pure"),
    # Asking and telling.
    ("service/*/http.py", "edge"),
    ("service/*/http_*.py", "edge"),
    ("service/*/http/*", "edge"),
    ("service/*/live.py", "edge"),
    ("service/*/guard.py", "edge"),
    ("service/*/problems.py", "edge"),
    ("service/*/log.py", "edge"),
    # All that a subject's routes need, in one value.
    ("service/*/desk.py", "edge"),
    # Stores, and what several threads share.
    ("service/journal/memory.py", "edge"),
    ("service/journal/redis.py", "edge"),
    ("service/journal/fold.py", "shared"),
    ("service/journal/handler.py", "shared"),
    ("service/journal/follower.py", "edge"),
    ("service/journal/snapshot.py", "edge"),
    ("service/journal/keeper.py", "edge"),
    ("service/books/builds.py", "shared"),
    # Folders, files and processes.
    ("service/books/shelf.py", "edge"),
    ("service/books/folder.py", "edge"),
    ("service/books/reading.py", "edge"),
    ("service/bench/proving/prover.py", "edge"),
    ("service/bench/proving/proving.py", "edge"),
    ("service/bench/trade_off.py", "edge"),
    ("service/bench/history.py", "edge"),
    ("service/learning/scores.py", "edge"),
    # Everything else in a subject decides and words, and touches nothing.
    ("service/__init__.py", "pure"),
    ("service/journal/*", "pure"),
    ("service/calendar/*", "pure"),
    ("service/money/*", "pure"),
    ("service/books/*", "pure"),
    ("service/orders/*", "pure"),
    ("service/times/*", "pure"),
    ("service/bench/*", "pure"),
    ("service/learning/*", "pure"),
)

OUTSIDE = frozenset(
    [
        "asyncio",
        "ctypes",
        "flask",
        "flask_socketio",
        "gevent",
        "logging",
        "multiprocessing",
        "os",
        "pathlib",
        "random",
        "redis",
        "secrets",
        "select",
        "signal",
        "socket",
        "subprocess",
        "sys",
        "tempfile",
        "threading",
        "time",
        "uuid",
    ]
)
"""What knows a clock, chance, the environment, threads, files or the net."""

SEEDED = {"service/learning/training.py": {"random"}}
"""Pure files that may draw: from a seed that they are given."""

ARROWS: dict[str, tuple[str, ...]] = {
    "host": (),
    "wire": (),
    "calendar": (),
    "money": ("wire",),
    "journal": (),
    "web": ("journal", "wire"),
    "books": ("host", "journal", "money", "wire"),
    "orders": ("books", "calendar", "host", "journal", "money", "web", "wire"),
    "times": ("books", "calendar", "journal", "money", "orders", "web", "wire"),
    "bench": ("books", "host", "journal", "orders", "web", "wire"),
    "learning": ("bench", "books", "host", "orders", "web", "wire"),
    "rush": ("books", "orders", "wire"),
    "app": ("bench", "books", "host", "journal", "learning", "money", "orders", "times", "web", "wire"),
    "cli": ("app", "bench", "host", "learning", "orders", "rush", "wire"),
}

MOST_FILES = 15
"""A folder with more files than this wants rooms."""


def imports_of(path: Path) -> set[str]:
    """Every module that a file imports; ``from package import module`` counts as the module."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative imports hide where the arrow goes"
            module = node.module or ""
            found |= {f"{module}.{name.name}" if is_module(f"{module}.{name.name}") else module
                      for name in node.names}  # fmt: skip
    return found


def is_module(name: str) -> bool:
    place = ROOT.joinpath(*name.split("."))
    return place.with_suffix(".py").is_file() or (place / "__init__.py").is_file()


def file_of(module: str) -> str:
    """The file of one of our modules, from the root."""
    place = ROOT.joinpath(*module.split("."))
    file = place.with_suffix(".py") if place.with_suffix(".py").is_file() else place / "__init__.py"
    return str(file.relative_to(ROOT))


def kind_of(file: str) -> str | None:
    return next((kind for pattern, kind in KINDS if fnmatch(file, pattern)), None)


def room_of(name: str) -> str:
    return name.replace("/", ".").split(".")[1]


FILES = sorted(str(path.relative_to(ROOT)) for path in (ROOT / "service").rglob("*.py"))


def test_every_file_has_a_row() -> None:
    assert len(FILES) > 100
    assert [file for file in FILES if kind_of(file) is None] == []
    rooms = {room_of(file) for file in FILES} - {"__init__"}
    assert rooms == set(ARROWS)


def test_every_row_has_a_file() -> None:
    empty = {pattern for pattern, _ in KINDS if not any(fnmatch(file, pattern) for file in FILES)}
    assert empty == set()


def impure(file: str, names: set[str]) -> set[str]:
    """What a pure file must not import: the outside, or an edge."""
    allowed = SEEDED.get(file, set())
    outside = {name for name in names if name.partition(".")[0] in OUTSIDE and name not in allowed}
    ours = {name for name in names if name.startswith("service.")}
    return outside | {name for name in ours if kind_of(file_of(name)) == "edge"}


def test_pure_files_touch_nothing() -> None:
    pure = [file for file in FILES if kind_of(file) == "pure"]
    assert len(pure) > 60
    found = {file: impure(file, imports_of(ROOT / file)) for file in pure}
    assert {file: names for file, names in found.items() if names} == {}


def test_arrows_between_rooms_run_one_way() -> None:
    up: dict[tuple[str, str], set[str]] = {}
    for file in FILES:
        room = room_of(file)
        for name in imports_of(ROOT / file):
            if not name.startswith("service."):
                continue
            other = room_of(name)
            if other not in (room, *ARROWS[room]):
                up.setdefault((room, other), set()).add(Path(file).name)
    assert up == {}


def test_the_table_of_arrows_has_no_circle() -> None:
    order: list[str] = []
    while len(order) < len(ARROWS):
        ready = [room for room in ARROWS if room not in order and set(ARROWS[room]) <= set(order)]
        assert ready, f"in a circle: {set(ARROWS) - set(order)}"
        order += ready


def test_only_the_assembly_and_the_commands_import_another_rooms_edges() -> None:
    """But for the floors, and what is still to be cut."""
    desks = {"service/orders/desk.py", "service/bench/desk.py", "service/books/builds.py"}
    floors = {"host", "journal", "web"}
    users: dict[str, set[str]] = {}
    for file in FILES:
        if room_of(file) in ("app", "cli"):
            continue
        for name in imports_of(ROOT / file):
            if not name.startswith("service.") or room_of(name) in (room_of(file), *floors):
                continue
            target = file_of(name)
            if kind_of(target) == "edge" and target not in desks:
                users.setdefault(file, set()).add(target)
    assert users == {
        # The desks hold all that routes need; training asks for whole lines as a ring-in does. To be cut.
        "service/orders/desk.py": {"service/books/shelf.py"},
        "service/bench/desk.py": {"service/books/folder.py"},
        "service/learning/http.py": {"service/bench/guard.py", "service/orders/http/orders.py"},
    }


def test_a_folder_has_no_more_files_than_can_be_looked_through() -> None:
    folders: dict[str, int] = {}
    for file in FILES:
        if not file.endswith("__init__.py"):
            folders[str(Path(file).parent)] = folders.get(str(Path(file).parent), 0) + 1
    assert {folder: count for folder, count in folders.items() if count > MOST_FILES} == {}


def test_a_start_does_not_load_what_draws_on_paper() -> None:
    """The PDF library is a third of the imports, and most days nobody prints."""
    asked = "import sys, service.app.assemble; print(sorted({'fpdf', 'PIL', 'numpy'} & set(sys.modules)))"
    told = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, cwd=ROOT, check=True)
    assert told.stdout.strip() == "[]"


def test_recipes_know_nothing_of_the_service() -> None:
    files = sorted(Path(recipes.__file__).parent.rglob("*.py"))
    assert len(files) >= 5
    assert {str(path) for path in files if any(n.startswith("service") for n in imports_of(path))} == set()


@pytest.mark.parametrize("name", ["os", "redis", "service.journal.redis", "service.web.guard"])
def test_an_import_that_is_not_allowed_is_seen(name: str) -> None:
    """The check itself can fail."""
    assert impure("service/orders/decide.py", {"json", "service.orders.state", name}) == {name}


def test_imports_are_seen_in_both_forms(tmp_path: Path) -> None:
    file = tmp_path / "some.py"
    file.write_text(
        "import redis\nfrom service.journal import redis as store\nfrom service.wire import Menu\n"
    )
    assert imports_of(file) == {"redis", "service.journal.redis", "service.wire"}


def test_only_python_and_ours_is_asked_about() -> None:
    """Names in the table of the outside that no interpreter knows would hide a slip of the pen."""
    libraries = {"flask", "flask_socketio", "gevent", "redis"}
    assert {name for name in OUTSIDE if name not in sys.stdlib_module_names} == libraries


def test_a_rush_knows_a_shop_by_its_messages_alone() -> None:
    """It is a customer and a pair of hands like any other: over HTTP and the socket, from anywhere."""
    met = {
        name
        for file in FILES
        if file.startswith("service/rush/")
        for name in imports_of(ROOT / file)
        if name.startswith("service.") and not name.startswith("service.rush")
    }
    assert met
    assert {name for name in met if "wire" not in name.split(".")} == set()
