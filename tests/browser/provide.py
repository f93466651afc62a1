"""Prints the path of a Chromium for the browser tests, fetching one first if there is none.

One on PATH; else Debian's, when this is root on a machine with apt; else the one that Playwright
fetches for itself. Progress goes to stderr, so that stdout holds the path alone.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")


def on_path() -> str | None:
    """The first browser of the Chromium family on PATH, or None."""
    return next((found for name in NAMES if (found := shutil.which(name))), None)


def from_apt() -> str | None:
    """Install Debian's chromium if this is root on a machine with apt; its path, or None."""
    if os.geteuid() != 0 or shutil.which("apt-get") is None:
        return None
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["apt-get", "update"], ["apt-get", "install", "-y", "chromium"]):
        print(f"browser: {' '.join(command)}", file=sys.stderr)
        if subprocess.run(command, env=quiet, stdout=sys.stderr, check=False).returncode != 0:
            return None
    return on_path()


def from_playwright() -> str | None:
    """Let Playwright fetch its own Chromium; its path, or None."""
    command = [sys.executable, "-m", "playwright", "install", "chromium-headless-shell", "chromium"]
    print(f"browser: {' '.join(command[1:])}", file=sys.stderr)
    if subprocess.run(command, stdout=sys.stderr, check=False).returncode != 0:
        return None
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        return playwright.chromium.executable_path


def find() -> str:
    """A browser's path: the one named, on PATH, from apt or Playwright's own; RuntimeError if none."""
    path = os.environ.get("LEVELSCOOP_BROWSER") or on_path() or from_apt() or from_playwright()
    if not path:
        raise RuntimeError(
            "No browser: install Chromium or Chrome so that it is on PATH, or set LEVELSCOOP_BROWSER."
        )
    return path


def main() -> int:
    """Print a browser's path; 1 and a plain sentence when none can be had."""
    try:
        print(find())
    except RuntimeError as error:
        print(error, file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
