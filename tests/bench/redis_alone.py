"""A Redis of the benchmark's own, set up as the shop's, so that the shop and the floor share one."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from redis import Redis

from service.host.redis_child import find_server


@contextmanager
def redis_alone(folder: Path) -> Iterator[str]:
    """A private redis-server with AOF always on a unix socket; its URL. Stopped at the end."""
    socket = folder / "bench.sock"
    command = [str(find_server()), "--port", "0", "--unixsocket", str(socket), "--dir", str(folder)]
    command += ["--appendonly", "yes", "--appendfsync", "always", "--save", ""]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server:
        try:
            assert server.stdout is not None
            if not any("ready to accept connections" in line.lower() for line in server.stdout):
                raise RuntimeError("the benchmark's redis-server did not start")
            yield f"unix://{socket}"
        finally:
            Redis(unix_socket_path=str(socket)).shutdown(nosave=True)
