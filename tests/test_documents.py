"""What the documents say is there, is there; and what is there, the documents tell."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from typing import get_args

import pytest

from recipes.asking.spoken import read_line
from recipes.building.resolve import resolve
from recipes.reading.reader import read_book
from service.cli.books import DEMO
from service.cli.build_card import render
from service.cli.main import SUBCOMMANDS, parser
from service.journal.refusals import Code
from service.orders.events import Event

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
SETTINGS = (ROOT / "service" / "host" / "settings.py").read_text(encoding="utf-8")
MAKEFILE = (ROOT / "Makefile").read_text(encoding="utf-8")


def section(title: str) -> str:
    """A section of DEVELOPERS.md."""
    found = re.search(rf"^## {title}$(.*?)(?=^## |\Z)", DEVELOPERS, re.M | re.S)
    assert found, f"no section {title!r}"
    return found[1]


def test_every_event_is_described() -> None:
    kinds = [kind.__name__ for kind in get_args(Event)]
    assert len(kinds) > 5
    told = section("Orders and the journal")
    assert [kind for kind in kinds if f"`{kind}`" not in told] == []


def test_every_refusal_is_described() -> None:
    told = section("Orders and the journal")
    assert [code.value for code in Code if f"`{code.value}`" not in told] == []


def test_every_setting_is_described_and_no_other() -> None:
    read = set(re.findall(r'given\.get\("([A-Z_]+)"', SETTINGS))
    assert len(read) > 5
    assert set(re.findall(r"`([A-Z_]{4,})`", section("Settings"))) == read


def test_every_make_target_told_exists_and_every_one_is_told() -> None:
    targets = {name for line in re.findall(r"^\.PHONY: (.*)$", MAKEFILE, re.M) for name in line.split()}
    told = set(re.findall(r"`make (\w+)`", DEVELOPERS + README)) | set(
        re.findall(r"^make (\w+)", README, re.M)
    )
    assert told <= targets
    assert targets - told <= {"unit", "clean"}


def test_every_subcommand_is_in_the_readme_and_answers_for_help(capsys: pytest.CaptureFixture[str]) -> None:
    names = [module.__name__.rpartition(".")[2] for module in SUBCOMMANDS]
    assert [name for name in names if f"`levelscoop {name}" not in README] == []
    for name in names:
        with pytest.raises(SystemExit) as ended:
            parser().parse_args([name, "--help"])
        assert ended.value.code == 0
    capsys.readouterr()


def test_files_and_folders_named_exist() -> None:
    named = set(re.findall(r"\]\(([^)#][^)]*)\)", README + DEVELOPERS))
    named |= set(re.findall(r"`((?:recipes|service|display|tests)/[\w./-]+)`", README + DEVELOPERS))
    assert len(named) > 10
    made = {"tests/bench/out"}
    assert sorted(name for name in named - made if not (ROOT / name).exists()) == []


def test_every_line_shown_can_be_built() -> None:
    lines = [line for line in re.findall(r'levelscoop build "(.*?)"', README + DEVELOPERS) if line != "…"]
    assert len(lines) >= 2
    book = read_book(DEMO)
    for line in lines:
        assert "Taro Milk Tea" in render(resolve(book, read_line(book, line)))


def test_the_readmes_step_stands_in_the_demo_book() -> None:
    snippet = re.search(r"```toml\n(.*?)```", README, re.S)
    assert snippet
    keys = [line.split("#")[0].strip() for line in snippet[1].splitlines()]
    text = (DEMO / "drinks" / "taro_milk_tea.toml").read_text(encoding="utf-8")
    assert "\n".join(keys) in text


def test_the_program_starts_by_name() -> None:
    command = [sys.executable, "-m", "service.cli.main", "check"]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=ROOT)
    assert done.returncode == 0
    assert "20 drinks" in done.stdout
