"""recipes/ stays pure: it imports the standard library, pydantic and itself; one module opens files."""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import recipes

HOUSE = Path(recipes.__file__).parent
ALLOWED = {"recipes", "pydantic", "tomllib"}
IMPURE = {
    "random",
    "time",
    "datetime",
    "socket",
    "threading",
    "subprocess",
    "asyncio",
    "secrets",
    "uuid",
    "logging",
}
OPENS_FILES = {"reader.py"}


def modules() -> list[Path]:
    """Every module of the house."""
    return sorted(HOUSE.rglob("*.py"))


def imported(path: Path) -> Iterator[str]:
    """The top names of everything that a module imports, at any depth of it."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name.split(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield (node.module or "").split(".")[0]


def test_the_house_is_not_empty() -> None:
    assert len(modules()) > 20


def test_only_the_standard_library_pydantic_and_itself_are_imported() -> None:
    wrong = {
        f"{path.relative_to(HOUSE)}: {name}"
        for path in modules()
        for name in imported(path)
        if name not in ALLOWED and name not in sys.stdlib_module_names
    }
    assert not wrong


def test_nothing_imported_knows_time_chance_or_the_net() -> None:
    wrong = {
        f"{path.relative_to(HOUSE)}: {name}"
        for path in modules()
        for name in imported(path)
        if name in IMPURE
    }
    assert not wrong


def test_only_the_reader_touches_files() -> None:
    touching = {path.name for path in modules() if {"os", "pathlib", "io", "shutil"} & set(imported(path))}
    assert touching == OPENS_FILES
    for path in modules():
        calls = {
            node.func.id
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
        }
        assert not calls & {"open", "print", "input", "eval", "exec"}, path
