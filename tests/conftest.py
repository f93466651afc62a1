"""How property tests draw: the same each time, or anew where somebody explores (make explore)."""

from __future__ import annotations

import os

from hypothesis import settings

# No deadlines: how long a machine takes for an example is no property of ours.
settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("explore", derandomize=False, deadline=None, max_examples=1000, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))
