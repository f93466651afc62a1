"""Ring-in to painted on the bar page, against a bare Socket.IO echo in the same page."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Page

from tests.bench.figures import Figure, figure
from tests.browser.pages import browser
from tests.running import RunningShop, free_port

ROUNDS = 120
CLIENT = (
    Path(__file__).parents[2] / "display" / "node_modules" / "socket.io-client" / "dist" / "socket.io.min.js"
)

RING_IN = """
async ({ body, key, name }) => {
  const begun = performance.now();
  const painted = new Promise((resolve) => {
    const observer = new MutationObserver(() => {
      if (!document.body.textContent.includes(name)) return;
      observer.disconnect();
      // The frame that shows the row is out when a message posted from within it comes round.
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => resolve(performance.now() - begun);
        port2.postMessage(null);
      });
    });
    observer.observe(document.body, { childList: true, subtree: true, characterData: true });
  });
  const headers = { "Content-Type": "application/json", "Idempotency-Key": key };
  const answer = await fetch("/api/orders", { method: "POST", headers, body });
  if (answer.status !== 201) throw new Error(await answer.text());
  return { id: (await answer.json()).id, ms: await painted };
}
"""

ECHO = """
async (message) => {
  const begun = performance.now();
  await window.echo.emitWithAck("echo", message);
  return performance.now() - begun;
}
"""


def figures() -> list[Figure]:
    """One figure: milliseconds from the fetch of a ring-in to the frame that shows its row."""
    ours: list[float] = []
    floor: list[float] = []
    with (
        tempfile.TemporaryDirectory() as folder,
        RunningShop(Path(folder) / "data") as shop,
        _echo_server() as port,
        browser() as chromium,
    ):
        page = chromium.new_page(viewport={"width": 1920, "height": 1080}, bypass_csp=True)
        page.goto(f"{shop.url}/bar")
        _connect_echo(page, port)
        drink = shop.get("/api/menu")["drinks"][0]["id"]
        for _ in range(ROUNDS):
            name = f"n{uuid.uuid4().hex[:8]}"
            body = json.dumps({"name": name, "drinks": [{"line": {"drink": drink}}]})
            rung = page.evaluate(RING_IN, {"body": body, "key": str(uuid.uuid4()), "name": name})
            ours.append(rung["ms"])
            change = json.dumps(shop.get("/api/queue"))
            floor.append(page.evaluate(ECHO, change))
            # The next ring-in meets an empty bar again.
            shop.post(f"/api/tickets/{rung['id']}/bump", {})
            shop.post(f"/api/tickets/{rung['id']}/hand-off", {})
    return [
        figure(
            "ring-in painted on the bar page", "ms", "a bare Socket.IO echo of the same message", ours, floor
        )
    ]


def _connect_echo(page: Page, port: int) -> None:
    page.add_script_tag(path=CLIENT)
    page.evaluate(
        """(url) => new Promise((resolve) => {
          window.echo = io(url, { transports: ["websocket"] });
          window.echo.on("connect", () => resolve(null));
        })""",
        f"http://127.0.0.1:{port}",
    )


@contextmanager
def _echo_server() -> Iterator[int]:
    port = free_port()
    command = [sys.executable, "-m", "tests.bench.echo", str(port)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None
            if server.stdout.readline().strip() != "listening":
                raise RuntimeError("the echo server did not start")
            yield port
        finally:
            server.terminate()
