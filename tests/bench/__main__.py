"""``make bench``: every figure as a line (name, ours, floor, ratio), and all of them as JSON.

A figure is a ratio to a floor taken in the same run, because machines differ and drift.
"""

from __future__ import annotations

import json
import platform
import sys
from pathlib import Path

from tests.bench import by_hand, painting, proving, resolving, ringing, searching, starting

OUT = Path(__file__).parent / "out" / "figures.json"


def main() -> int:
    """Run all benchmarks; the JSON's path on the last line."""
    found = []
    for module in (resolving, searching, by_hand, proving, ringing, painting, starting):
        print(f"… {(module.__doc__ or '').splitlines()[0]}", file=sys.stderr, flush=True)
        for figure in module.figures():
            print(figure, flush=True)
            found.append(figure.as_json())
    OUT.parent.mkdir(exist_ok=True)
    machine = {
        "python": platform.python_version(),
        "machine": platform.machine(),
        "system": platform.system(),
    }
    OUT.write_text(json.dumps({"machine": machine, "figures": found}, indent=2, ensure_ascii=False) + "\n")
    print(f"written to {OUT.relative_to(Path.cwd())}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
