"""Settings: what the environment may say, and plain words for what it may not."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.host.settings import DEMO_BOOK, SettingRefused, from_environment


def test_with_nothing_said_it_serves_the_demo_on_loopback() -> None:
    found = from_environment({})
    assert (found.host, found.port, found.redis_url, found.store) == ("127.0.0.1", 8080, None, "main")
    assert found.book == DEMO_BOOK
    assert found.data_dir == Path("data").absolute()


def test_an_empty_variable_is_one_not_set() -> None:
    assert from_environment({"PORT": "", "REDIS_URL": " "}).port == 8080


def test_names_of_the_machine_are_a_list() -> None:
    assert from_environment({"HOSTS": " Shop.lan, bar.example ,"}).hosts == ("shop.lan", "bar.example")


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("PORT", "http"),
        ("PORT", "65536"),
        ("PORT", "-1"),
        ("PORT", "80.5"),
        ("PORT", "٨٠"),
        ("REDIS_URL", "localhost:6379"),
        ("REDIS_URL", "http://localhost"),
        ("BOOK", "/nowhere/at/all"),
        ("STORE", "Main"),
        ("STORE", "a}b"),
        ("STORE", "x" * 41),
        ("HOSTS", "shop.lan:8080"),
        ("HOSTS", "shop.lan bar.lan"),
        ("HOSTS", "*"),
    ],
)
def test_a_value_that_cannot_be_used_is_refused_by_name(name: str, value: str) -> None:
    with pytest.raises(SettingRefused, match=name) as refused:
        from_environment({name: value})
    assert repr(value) in str(refused.value)
    assert "accepted" in str(refused.value)


def test_a_store_that_is_not_the_usual_one_keeps_its_files_apart(tmp_path: Path) -> None:
    usual = from_environment({"DATA_DIR": str(tmp_path)})
    other = from_environment({"DATA_DIR": str(tmp_path), "STORE": "kiosk"})
    assert (usual.store_dir, other.store_dir) == (tmp_path, tmp_path / "kiosk")
