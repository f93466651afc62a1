"""Taste against hands beside the service: told while it runs and at its end, anew for another book."""

from __future__ import annotations

from pathlib import Path

from recipes.tuning.trade_off import PATIENCES
from service.bench.trade_off import TradeOffDesk
from tests.owner.bench import OwnersShop
from tests.proof.books import GOOD, bar, iced

LIMIT_S = 60.0
LINES = 30


def test_every_patience_is_reckoned_and_told_in_order() -> None:
    desk, book = TradeOffDesk(LINES), bar(iced=GOOD)
    assert desk.status().state == "none"
    begun = desk.start(book)
    assert (begun.state, begun.lines, begun.total) == ("running", LINES, LINES * len(PATIENCES))
    assert desk.wait(LIMIT_S)
    told = desk.status()
    assert (told.state, told.version, told.done) == ("done", book.version, told.total)
    assert [point.patience for point in told.points] == list(PATIENCES)
    assert all(point.built + point.refused == LINES for point in told.points)
    assert desk.start(book) == told, "known: nothing is begun"


def test_another_book_takes_its_place_and_a_stop_ends_it() -> None:
    desk = TradeOffDesk(LINES)
    desk.start(bar(iced=GOOD))
    other = bar(iced=iced(syrup="21 ml"))
    try:
        assert desk.start(other).version == other.version
        desk.stop()
        assert desk.status().state == "none"
    finally:
        desk.stop()


def test_it_is_asked_for_with_the_edits_made(tmp_path: Path) -> None:
    shop = OwnersShop(tmp_path)
    shop.owner.trade_off = TradeOffDesk(LINES)
    try:
        edits = [{"file": "shop.toml", "path": ["hands", "patience"], "value": "5 s"}]
        begun = shop.send("/api/owner/trade-off", {"edits": edits})
        assert begun["patience"] == 5
        assert shop.owner.trade_off.wait(LIMIT_S)
        told = shop.get("/api/owner/trade-off")
        assert told["state"] == "done"
        assert [point["patience"] for point in told["points"]] == sorted([*PATIENCES, 5])
    finally:
        shop.close()


def test_proposals_are_asked_for_with_the_edits_made(tmp_path: Path) -> None:
    """The large line is twice the small one's: three strokes of 7 ml are six."""
    shop = OwnersShop(tmp_path)
    try:
        edits = [{"file": "drinks/iced.toml", "path": ["steps", 0, "amount", "small"], "value": "21 ml"}]
        told = shop.send("/api/owner/propose", {"edits": edits, "drinks": ["iced"]})
        assert told["faults"] == []
        rows = [
            (row["step"], row["size"], row["best"]["text"], row["best"]["error_pct"]) for row in told["rows"]
        ]
        assert rows == [(0, "large", "6 strokes", 0), (1, "large", "240 ml", 0), (2, "large", "6 cubes", 0)]
        wrong = [{"file": "drinks/iced.toml", "path": ["steps", 0, "amount", "large"], "value": "much"}]
        refused = shop.send("/api/owner/propose", {"edits": wrong})
        assert [fault["key"] for fault in refused["faults"]] == ["steps.1.amount.large"]
        assert refused["rows"] == []
    finally:
        shop.close()
