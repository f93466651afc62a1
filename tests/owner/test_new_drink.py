"""A new drink from its first try to the register, and off the menu again, as the bench does it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.owner.bench import OwnersShop
from tests.proof.books import GOOD

NEW = "drinks/new_tea.toml"


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[OwnersShop]:
    found = OwnersShop(tmp_path)
    found.wait_proved(found.desk.fold.state.book or "")
    yield found
    found.close()


def edit(path: list[str | int], value: object, file: str = NEW) -> dict[str, object]:
    return {"file": file, "path": path, "value": value}


def drinks(shop: OwnersShop) -> list[str]:
    return [drink["id"] for drink in shop.get("/api/menu")["drinks"]]


def save(shop: OwnersShop, edits: list[dict[str, object]]) -> Any:  # noqa: ANN401
    base = shop.get("/api/owner/book")["version"]
    return shop.send("/api/owner/save", {"edits": edits, "note": "a new drink", "base_version": base})


def test_forms_show_a_file_as_edits_would_make_it_and_change_nothing(shop: OwnersShop) -> None:
    before = shop.get("/api/owner/book")
    edits = [edit([], GOOD), edit(["name"], 'New "Tea"'), edit(["steps"], [1, 0, 2, 3])]
    told = shop.send("/api/owner/forms", {"edits": edits})
    (made,) = told["files"]
    assert (made["file"], made["title"]) == (NEW, 'New "Tea"')
    assert "# the cold one" in made["text"], "the comment beside the name stays"
    first = next(table for table in made["tables"] if table["path"] == ["steps", 0])
    assert {entry["key"]: entry["value"] for entry in first["entries"]}["do"] == "pour"
    assert shop.get("/api/owner/book") == before
    refused = shop.send("/api/owner/forms", {"edits": [edit(["steps"], [7])]}, 422)
    assert refused["type"] == "/problems/book-refused"


def test_options_have_what_the_edits_put_in(shop: OwnersShop) -> None:
    put = edit(["oat"], {"name": "Oat foam"}, "pantry.toml")
    told = shop.send("/api/owner/forms", {"edits": [put]})
    pantry = next(source for source in told["sources"] if source["name"] == "pantry")
    assert {"value": "oat", "name": "Oat foam"} in pantry["options"]
    assert (pantry["file"], pantry["path"]) == ("pantry.toml", [])


def test_a_drink_that_the_register_does_not_have_is_tried_with_the_menu_that_has_it(shop: OwnersShop) -> None:
    edits = [edit([], GOOD), edit(["name"], "New Tea"), edit(["shots"], "0")]
    told = shop.send("/api/owner/try", {"edits": edits, "line": {"drink": "new_tea"}})
    assert told["faults"] == []
    assert (told["before"]["line"], told["before"]["build"]) == (None, None)
    assert told["after"]["build"]["line"]["drink"] == "new_tea"
    assert [(size["size"], size["after"]["refusal"]) for size in told["sizes"]] == [
        ("small", None),
        ("large", None),
    ]
    offered = next(drink for drink in told["menu"]["drinks"] if drink["id"] == "new_tea")
    assert (offered["name"], offered["shots"]) == ("New Tea", 0)
    assert drinks(shop) == ["iced"], "nothing of it is on the register"


def test_it_is_on_the_register_once_its_proof_holds_and_off_again_when_its_file_goes(
    shop: OwnersShop,
) -> None:
    saved = save(shop, [edit([], GOOD), edit(["name"], "New Tea")])
    assert (saved["state"], saved["changed"]) == ("proving", [NEW])
    assert shop.wait_proved(saved["version"])
    assert drinks(shop) == ["iced", "new_tea"]
    shop.send("/api/quote", {"drink": "new_tea"})
    gone = save(shop, [edit([], None)])
    assert gone["changed"] == [NEW]
    assert drinks(shop) == ["iced"]
    assert not (shop.folder / NEW).exists()
