"""The command line as a whole, whatever the subcommand."""

from __future__ import annotations

import os
import subprocess
import sys


def test_a_reader_that_has_seen_enough_ends_a_command_without_a_word() -> None:
    """``levelscoop build … | head -1`` closes the pipe while there is more to print."""
    read, write = os.pipe()
    os.close(read)
    command = [sys.executable, "-m", "service.cli.main", "build", "large taro milk tea"]
    try:
        ended = subprocess.run(command, stdout=write, stderr=subprocess.PIPE, timeout=60, check=False)
    finally:
        os.close(write)
    assert (ended.returncode, ended.stderr) == (141, b"")
