"""The bench's book is told once, by shape, and short on the way."""

from __future__ import annotations

import gzip
import json
from pathlib import Path

from tests.owner.bench import OwnersShop


def test_a_long_answer_is_compressed_for_whoever_takes_it(tmp_path: Path) -> None:
    shop = OwnersShop(tmp_path)
    try:
        plain = shop.client.get("/api/owner/book")
        short = shop.client.get("/api/owner/book", headers={"Accept-Encoding": "br, gzip"})
        refused = shop.client.get("/api/owner/book", headers={"Accept-Encoding": "gzip;q=0"})
    finally:
        shop.close()
    assert "Content-Encoding" not in plain.headers
    assert "Content-Encoding" not in refused.headers
    assert short.headers["Content-Encoding"] == "gzip"
    assert "Accept-Encoding" in short.headers["Vary"]
    assert json.loads(gzip.decompress(short.data)) == plain.json
    assert int(short.headers["Content-Length"]) == len(short.data) < len(plain.data) / 4
