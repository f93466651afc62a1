"""What the service's tests share: a till on a journal in memory, and a server on a unix socket."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.host.redis_child import RedisChild
from tests.service.samples import OPEN
from tests.service.tills import Flaky, Till, answer


@pytest.fixture(scope="session")
def redis_socket(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The socket of a real redis-server that writes every append to disk, as in the shop."""
    folder = tmp_path_factory.mktemp("redis")
    child = RedisChild(folder)
    child.start()
    yield child.socket
    child.stop()
    shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture
def journal() -> Flaky:
    """A journal in memory that can be made to fail."""
    return Flaky()


@pytest.fixture
def till(journal: Flaky) -> Till:
    """A till on that journal, with a book open."""
    found = Till(journal)
    found.handler.handle(OPEN, answer)
    return found
