"""``make explore``: every property test with fresh seeds, round after round, until one fails.

``python -m tests.explore ROUNDS [SEED [pytest's own options]]``. The seed of each round is printed before it;
given again with one round, it draws the same examples.
"""

from __future__ import annotations

import os
import secrets
import subprocess
import sys
from collections.abc import Sequence

MOST = 2**32


def command(seed: int, more: Sequence[str] = ()) -> list[str]:
    """What runs one round. Hypothesis marks its own tests, so that a new one needs no mark of ours."""
    return [
        sys.executable,
        "-m",
        "pytest",
        "-q",
        "-x",
        "-m",
        "hypothesis",
        f"--hypothesis-seed={seed}",
        *more,
    ]


def main(rounds: int, seed: int | None, more: Sequence[str] = ()) -> int:
    """Run the rounds; 0 if all held, else the exit code of the first that did not."""
    first = secrets.randbelow(MOST) if seed is None else seed
    environment = {**os.environ, "HYPOTHESIS_PROFILE": "explore"}
    for number in range(rounds):
        now = (first + number) % MOST
        print(f"round {number + 1} of {rounds}, seed {now}", flush=True)
        code = subprocess.run(command(now, more), env=environment, check=False).returncode
        if code:
            drawn = f" EXAMPLES={os.environ['EXAMPLES']}" if os.environ.get("EXAMPLES") else ""
            print(
                f"The same again: make explore N=1 SEED={now}{drawn}. A counterexample becomes an @example."
            )
            return code
    return 0


if __name__ == "__main__":
    asked = sys.argv[1:]
    sys.exit(main(int(asked[0]), int(asked[1]) if len(asked) > 1 and asked[1] else None, asked[2:]))
