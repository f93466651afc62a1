"""How property tests draw: the same each time, or anew where somebody explores (make explore)."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

# How long a machine takes for an example is no property of ours.
UNTIMED = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("steady", UNTIMED, derandomize=True)
EXAMPLES = int(os.environ.get("EXAMPLES") or 1000)
settings.register_profile("explore", UNTIMED, derandomize=False, max_examples=EXAMPLES, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))
