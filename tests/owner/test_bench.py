"""The owner's bench as its pages use it: save, prove, open, refuse, roll back; on this machine only."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from service.journal.codec import Codec
from service.orders.events import BookOpened, Event
from service.orders.subject import KINDS
from tests.owner.bench import OwnersShop
from tests.proof.books import COMBINATIONS, GOOD, WARMER, files

AMOUNT: list[str | int] = ["steps", 1, "amount"]
WARM = {"edits": [{"file": "drinks/iced.toml", "path": [], "value": WARMER}], "note": "warm"}

CODEC: Codec[Event] = Codec(KINDS)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[OwnersShop]:
    found = OwnersShop(tmp_path)
    found.wait_proved(found.desk.fold.state.book or "")
    yield found
    found.close()


def version(shop: OwnersShop) -> str:
    return str(shop.get("/api/owner/book")["version"])


def opened(shop: OwnersShop) -> list[BookOpened]:
    events = [CODEC.decode(each) for each in shop.journal.read(0, 1000)]
    return [event for event in events if isinstance(event, BookOpened)]


def test_the_first_book_opens_at_once_and_is_proved(shop: OwnersShop) -> None:
    book = shop.get("/api/owner/book")
    assert (book["version"], book["holds"]) == (book["open"], True)
    proof = shop.get("/api/owner/proof")
    assert (proof["state"], proof["combinations"], proof["violated"]) == ("holds", COMBINATIONS, 0)
    assert shop.get("/api/owner/versions")["versions"][0]["by"] == "folder"


def test_a_save_is_proved_and_then_opens(shop: OwnersShop) -> None:
    before = version(shop)
    saved = shop.save("130 ml", AMOUNT)
    assert (saved["state"], saved["changed"]) == ("proving", ["drinks/iced.toml"])
    assert shop.get("/api/book")["version"] == before, "not before its proof"
    assert shop.wait_proved(saved["version"])
    assert shop.get("/api/book")["version"] == saved["version"]
    text = (shop.folder / "drinks" / "iced.toml").read_text()
    assert text == GOOD.replace("120 ml", "130 ml")
    latest = shop.get("/api/owner/versions")["versions"][0]
    assert (latest["note"], latest["by"], latest["state"]) == ("for the test", "bench", "open")


def test_a_new_price_needs_no_new_proof(shop: OwnersShop) -> None:
    assert shop.save("3.60", ["prices", "small"])["state"] == "open"
    quote = shop.send("/api/quote", {"drink": "iced"})
    assert quote["price"] == 360


def test_how_the_floor_works_needs_no_new_proof_and_is_followed_at_once(shop: OwnersShop) -> None:
    told = shop.get("/api/menu")["floor"]
    assert told == {"soon_s": 300, "late_s": 480, "bump": "by hand", "board_keeps_s": 600}
    edits = [
        {"file": "shop.toml", "path": ["floor", key], "value": value}
        for key, value in (("late", "7 min"), ("bump", "last touch"), ("board_keeps", "5 min"))
    ]
    body = {"edits": edits, "note": "rush", "base_version": version(shop)}
    saved = shop.send("/api/owner/save", body)
    assert saved["state"] == "open"
    told = shop.get("/api/menu")["floor"]
    assert told == {"soon_s": 300, "late_s": 420, "bump": "last touch", "board_keeps_s": 300}
    assert opened(shop)[-1].last_touch


def test_a_book_that_fails_stays_a_draft_until_the_owners_word(shop: OwnersShop) -> None:
    before = version(shop)
    saved = shop.send("/api/owner/save", {**WARM, "base_version": before})
    assert not shop.wait_proved(saved["version"])
    assert shop.get("/api/book")["version"] == before
    assert shop.get("/api/owner/versions")["versions"][0]["state"] == "draft"
    assert shop.get("/api/owner/proof")["state"] == "fails"
    told = shop.send("/api/owner/publish", {"version": saved["version"], "note": "I know"})
    assert told["state"] == "open"
    assert [event.anyway for event in opened(shop)] == [False, True]
    assert shop.get("/api/owner/versions")["versions"][0]["anyway"]


def test_the_register_then_refuses_what_the_proof_objects_to(shop: OwnersShop) -> None:
    saved = shop.send("/api/owner/save", {**WARM, "base_version": version(shop), "anyway": True})
    assert saved["state"] == "open"
    refused = shop.send("/api/quote", {"drink": "iced", "ice": "regular"}, 422)
    assert refused["errors"][0]["field"] == "ice"
    assert "proof" in refused["detail"]
    shop.send("/api/quote", {"drink": "iced", "ice": "none"})
    order = {"drinks": [{"line": {"drink": "iced", "ice": "regular"}}]}
    assert shop.send("/api/orders", order, 422)["errors"][0]["field"] == "drinks[0].line.ice"
    assert not shop.wait_proved(saved["version"])
    shop.send("/api/quote", {"drink": "iced", "ice": "regular"}, 422)


def test_a_failing_draft_in_the_folder_does_not_open_at_the_next_start(tmp_path: Path) -> None:
    first = OwnersShop(tmp_path)
    good = version(first)
    assert first.wait_proved(good)
    first.close()
    (first.folder / "drinks" / "iced.toml").write_text(WARMER)
    again = OwnersShop(tmp_path, first.journal)
    try:
        assert again.get("/api/book")["version"] == good
        assert not again.wait_proved(version(again))
        assert again.get("/api/book")["version"] == good
        again.send("/api/quote", {"drink": "iced", "ice": "regular"})
    finally:
        again.close()


def test_a_hand_written_change_opens_when_its_proof_holds(shop: OwnersShop) -> None:
    (shop.folder / "drinks" / "iced.toml").write_text(GOOD.replace("120 ml", "125 ml"))
    assert shop.owner.folder_changed()
    assert shop.wait_proved(version(shop))
    assert shop.get("/api/book")["version"] == version(shop)


def test_a_file_as_editors_of_other_systems_write_it_is_the_same_book(shop: OwnersShop) -> None:
    """With a mark at its front and two characters at the end of each line, as the reader takes it too."""
    before = version(shop)
    text = "\ufeff" + GOOD.replace("\n", "\r\n")
    (shop.folder / "drinks" / "iced.toml").write_text(text, "utf-8", newline="")
    assert shop.owner.folder_changed(), "it is dealt with, and not looked at again and again"
    assert version(shop) == before == shop.get("/api/book")["version"]


def test_an_edit_of_another_version_is_a_conflict_that_names_the_files(shop: OwnersShop) -> None:
    old = version(shop)
    shop.save("3.60", ["prices", "small"])
    found = shop.save("3.70", ["prices", "small"], 409, base_version=old)
    assert found["type"] == "/problems/book-changed"
    assert [each["field"] for each in found["errors"]] == ["drinks/iced.toml"]
    assert "3.60" in (shop.folder / "drinks" / "iced.toml").read_text()


def test_an_edit_that_the_book_refuses_writes_nothing(shop: OwnersShop) -> None:
    before = version(shop)
    found = shop.save("-3 ml", AMOUNT, 422)
    assert found["errors"][0]["field"].startswith("drinks/iced.toml:")
    assert version(shop) == before


@pytest.mark.parametrize("file", ["../x.toml", "/etc/x.toml", "drinks/../../x.toml", "notes.txt"])
def test_no_save_leads_out_of_the_folder(shop: OwnersShop, file: str) -> None:
    edit = {"file": file, "path": [], "value": "x = 1"}
    body = {"edits": [edit], "note": "", "base_version": version(shop)}
    shop.send("/api/owner/save", body, 422)
    assert {path.name for path in shop.folder.parent.iterdir()} <= {"book", "data"}


def test_rolling_back_writes_the_earlier_files_as_they_were(shop: OwnersShop) -> None:
    first = version(shop)
    second = shop.save("3.60", ["prices", "small"])["version"]
    back = shop.send("/api/owner/roll-back", {"version": first, "note": "too dear"})
    assert (back["version"], back["state"]) == (first, "open")
    assert (shop.folder / "drinks" / "iced.toml").read_text() == files(iced=GOOD)["drinks/iced.toml"]
    latest, earlier, begun = shop.get("/api/owner/versions")["versions"]
    assert (latest["version"], latest["by"], latest["note"]) == (first, "roll-back", "too dear")
    assert (begun["version"], begun["by"]) == (first, "folder"), (
        "what was rolled back to has its own row still"
    )
    assert [each["state"] for each in (latest, earlier, begun)] == ["open", "earlier", "earlier"]
    assert (earlier["version"], earlier["state"]) == (second, "earlier")
    shop.send("/api/owner/roll-back", {"version": "0" * 16}, 404)


def test_a_proof_is_asked_for_and_told(shop: OwnersShop) -> None:
    assert shop.send("/api/owner/proof", {})["state"] == "holds"
    assert shop.get(f"/api/owner/proof?version={version(shop)}")["state"] == "holds"
    shop.get("/api/owner/proof?version=none", 404)


def test_a_folder_that_cannot_be_read_shows_its_faults(shop: OwnersShop) -> None:
    (shop.folder / "drinks" / "iced.toml").write_text("name = ")
    told = shop.get("/api/owner/book")
    assert told["faults"][0]["file"] == "drinks/iced.toml"
    body = {"edits": [{"file": "drinks/iced.toml", "path": [], "value": GOOD}], "note": "mended"}
    saved = shop.send("/api/owner/save", {**body, "base_version": told["version"]})
    assert saved["state"] == "open"


def test_a_trial_and_a_weighing_change_nothing(shop: OwnersShop) -> None:
    before = version(shop)
    edit = {"file": "drinks/iced.toml", "path": AMOUNT, "value": "100 ml"}
    told = shop.send("/api/owner/try", {"edits": [edit], "line": {"drink": "iced"}})
    assert (told["faults"], [each["drink"] for each in told["movers"]]) == ([], ["iced"])
    readings = {"what": "stroke", "readings_g": [9.1] * 5, "ingredient": "syrup", "tool": "pump"}
    assert shop.send("/api/owner/weigh", readings)["edits"][0]["value"] == "7 ml"
    shop.send("/api/owner/weigh", {**readings, "tool": "jug"}, 422)
    shaken = {"liquid_g": 250, "liquid_c": 25, "ice_g": 200, "ice_c": 0, "end_c": 10.8}
    chilled = shop.send("/api/owner/chill", {"station": "bar", "readings": [shaken] * 5})
    assert chilled["edits"][0]["value"] == "50 %"
    impossible = {"station": "bar", "readings": [shaken, {**shaken, "end_c": 40}]}
    refused = shop.send("/api/owner/chill", impossible, 422)
    assert refused["errors"][0]["field"] == "readings[1]"
    brand = {"ingredient": "syrup", "tool": "pump", "unit_g": 9.8, "label": {"sugars_g": 62, "dry_g": 62}}
    assert shop.send("/api/owner/brand", brand)["movers"][0]["drink"] == "iced"
    assert version(shop) == before


PLACES = [
    "/api/owner/book", "/api/owner/versions", "/api/owner/proof", "/api/training/scores", "/cards/all.pdf",
    "/cards/allergens.pdf",
]  # fmt: skip


@pytest.mark.parametrize("path", PLACES)
def test_from_elsewhere_the_owners_part_is_refused(shop: OwnersShop, path: str) -> None:
    for address in ("192.168.1.20", "10.0.0.1", "2001:db8::1", ""):
        found = shop.client.get(path, environ_overrides={"REMOTE_ADDR": address})
        assert found.status_code == 403, (path, address)
        assert found.json is not None
        assert found.json["type"] == "/problems/owner-elsewhere"
    assert shop.client.get(path, headers={"Host": "rebound.example"}).status_code == 403
    for address in ("127.0.0.1", "::1", "::ffff:127.0.0.1"):
        assert shop.client.get(path, environ_overrides={"REMOTE_ADDR": address}).status_code == 200


def test_every_owners_operation_is_guarded(shop: OwnersShop) -> None:
    document = shop.get("/api/openapi.json")
    for path, methods in document["paths"].items():
        if path.startswith(("/api/owner", "/cards")):
            for method in methods:
                found = shop.client.open(
                    path.replace("{drink}", "all"),
                    method=method.upper(),
                    environ_overrides={"REMOTE_ADDR": "10.0.0.1"},
                )
                assert found.status_code == 403, (method, path)
    assert "OWNER_ANYWHERE" in document["info"]["description"]


def test_training_is_open_to_every_station_and_keeps_scores_only_when_told(shop: OwnersShop) -> None:
    far = {"REMOTE_ADDR": "192.168.1.20"}
    drink = shop.client.get("/api/training/drink?seed=5", environ_overrides=far).json
    assert drink is not None
    assert (drink["seed"], drink["scores"]) == (5, False)
    choice = next(step for step in drink["steps"] if step["asks"] == "amount")
    line = {key: value for key, value in drink["line"].items() if value is not None}
    answer = {"line": line, "step": choice["number"], "station": "bar", "count": 1.0, "person": "Rui"}
    assert shop.send("/api/training/check", answer)["score"] is None
    assert shop.get("/api/training/scores") == {"on": False, "people": []}
    shop.send("/api/owner/training", {"scores": True}, method="PUT")
    told = shop.send("/api/training/check", answer)
    assert (told["score"]["person"], told["score"]["answered"]) == ("Rui", 1)
    right = shop.send("/api/training/check", {**answer, "station": told["station"], "count": told["count"]})
    assert right["right"]
    assert (right["score"]["right"], right["score"]["answered"]) == (1 + told["right"], 2)
    assert [each["person"] for each in shop.get("/api/training/scores")["people"]] == ["Rui"]
    shop.send("/api/owner/training", {"scores": False}, method="PUT")
    shop.send("/api/owner/training", {"scores": True}, method="PUT")
    assert shop.get("/api/training/scores") == {"on": True, "people": []}, "turned off is deleted"
    shop.send("/api/training/check", {**answer, "step": 99}, 422)
    shop.get("/api/training/drink?seed=-1", 422)


def test_the_score_of_one_person_can_be_deleted_and_nothing_is_kept_unasked(shop: OwnersShop) -> None:
    drink = shop.get("/api/training/drink?seed=5")
    line = {key: value for key, value in drink["line"].items() if value is not None}
    answer = {"line": line, "step": 1, "station": "bar", "person": "Rui"}
    kept = shop.folder.parent / "data" / "owner" / "scores.json"
    shop.send("/api/training/check", answer)
    assert not kept.exists(), "nothing is stored while it is off"
    shop.send("/api/owner/training", {"scores": True}, method="PUT")
    for person in ("Rui", "Ana"):
        shop.send("/api/training/check", {**answer, "person": person})
    left = shop.send("/api/owner/training/forget", {"person": "Rui"})
    assert [each["person"] for each in left["people"]] == ["Ana"]
    assert "Rui" not in kept.read_text("utf-8")
    refused = shop.send("/api/owner/training/forget", {"person": "Rui"}, 404)
    assert refused["errors"][0]["field"] == "person"
    assert "Ana" in refused["errors"][0]["accepted"]
    shop.send("/api/owner/training", {"scores": False}, method="PUT")
    assert not kept.exists(), "turned off, the file is gone"


def test_cards_come_as_pdf(shop: OwnersShop) -> None:
    for path in ("/cards/iced.pdf?size=large", "/cards/allergens.pdf"):
        found = shop.client.get(path)
        assert (found.status_code, found.mimetype) == (200, "application/pdf")
        assert found.data.startswith(b"%PDF-")
    assert shop.client.get("/cards/nobody.pdf").status_code == 404
    assert shop.client.get("/cards/iced.pdf?size=huge").status_code == 404
