"""A server for the service's tests, on a unix socket, and stopped after."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.edges.redis_child import RedisChild


@pytest.fixture(scope="session")
def redis_socket(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The socket of a real redis-server that writes every append to disk, as in the shop."""
    folder = tmp_path_factory.mktemp("redis")
    child = RedisChild(folder)
    child.start()
    yield child.socket
    child.stop()
    shutil.rmtree(folder, ignore_errors=True)
