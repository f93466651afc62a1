"""Who may import whom, as a table. The arrows of the design, held by reading every file's imports."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

import recipes
import service

ROOT = Path(service.__file__).parent.parent
SEAM = tuple(
    f"service.{name}" for name in ("journal", "codec", "fold", "handle", "follow", "history", "recent")
)

ALLOWED: dict[str, tuple[str, ...]] = {
    # Inside the core there is nothing but the core and the language.
    "service/core": ("service.core",),
    # The seam knows the core and itself; no storage, no web.
    "service/journal/journal.py": (),
    "service/journal/codec.py": ("service.core", "service.journal.journal"),
    "service/journal/fold.py": ("service.core", *SEAM),
    "service/journal/handler.py": ("service.core", *SEAM),
    "service/journal/follower.py": ("service.core", *SEAM),
    "service/times/history.py": ("service.core", *SEAM),
    "service/orders/recent.py": ("service.core", *SEAM),
    # The wire shows builds as they are.
    "service/wire": ("pydantic", "recipes.model", "service.wire"),
}


def imports_of(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative imports hide where the arrow goes"
            found.add(node.module or "")
    return found


def outside(names: set[str], allowed: tuple[str, ...]) -> set[str]:
    def inside(name: str) -> bool:
        if name.partition(".")[0] in sys.stdlib_module_names:
            return True
        return any(name == each or name.startswith(f"{each}.") for each in allowed)

    return {name for name in names if not inside(name)}


def files_under(part: str) -> list[Path]:
    place = ROOT / part
    return sorted(place.rglob("*.py")) if place.is_dir() else [place]


@pytest.mark.parametrize("part", ALLOWED)
def test_a_part_imports_only_what_it_may(part: str) -> None:
    files = files_under(part)
    assert files, f"{part} has no file: the table is out of date"
    found = {str(path): outside(imports_of(path), ALLOWED[part]) for path in files}
    assert {path: names for path, names in found.items() if names} == {}


def test_the_core_has_files_to_check() -> None:
    assert len(files_under("service/core")) >= 10


@pytest.mark.parametrize(
    "module", ["time", "random", "os", "threading", "socket", "pathlib", "uuid", "secrets"]
)
def test_the_core_has_no_clock_chance_environment_thread_or_file(module: str) -> None:
    users = [str(path) for path in files_under("service/core") if module in imports_of(path)]
    assert users == []


def test_recipes_know_nothing_of_the_service() -> None:
    files = sorted(Path(recipes.__file__).parent.rglob("*.py"))
    assert len(files) >= 5
    assert {str(path) for path in files if any(n.startswith("service") for n in imports_of(path))} == set()


def test_only_the_assembly_and_the_commands_import_the_edges() -> None:
    edges = ROOT / "service" / "edges"
    files = [path for path in (ROOT / "service").rglob("*.py") if edges not in path.parents]
    assert len(files) >= 15
    users = {
        str(path.relative_to(ROOT))
        for path in files
        if any(name.startswith("service.edges") for name in imports_of(path))
    }
    assert {
        user for user in users if not user.startswith(("service/app/assemble.py", "service/cli/"))
    } == set()


def test_an_import_that_is_not_allowed_is_seen(tmp_path: Path) -> None:
    """The check itself can fail."""
    wrong = tmp_path / "wrong.py"
    wrong.write_text("from service.app.api import make_app\nimport redis\nimport json\n", encoding="utf-8")
    assert outside(imports_of(wrong), ("service.core",)) == {"service.app.api", "redis"}
