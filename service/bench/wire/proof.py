"""The proof of a book."""

from __future__ import annotations

from typing import Literal

from recipes.proof.model import Advice, DrinkProof, HandProof, Reason
from service.bench.wire.base import Version
from service.wire import Asked, Wire


class HeatColumn(Wire):
    """One column of the heat map: a modifier's value."""

    modifier: str
    value: str
    name: str


class Proof(Wire):
    """GET /api/owner/proof, and what ``levelscoop prove --json`` prints.

    ``state``: "none" not begun, "running", "stopped" with ``done`` of ``total`` combinations looked at,
    "holds", "fails". ``drinks`` are those proved so far, ``reasons`` why combinations of theirs are refused.
    ``hand`` is what all their builds ask of hands.
    ``columns`` are those of the heat map; a drink's row holds a cell for each column that it has.
    """

    version: str
    state: Literal["none", "running", "stopped", "holds", "fails"]
    done: int
    total: int
    seconds: float
    tolerance_pct: float
    combinations: int
    built: int
    refused: int
    flagged: int
    violated: int
    mean_pct: float
    worst_pct: float
    hand: HandProof
    columns: list[HeatColumn]
    drinks: list[DrinkProof]
    reasons: list[Reason]
    advice: list[Advice]


class ProveIn(Asked):
    """POST /api/owner/proof: prove this version, or go on with its proof; left out: the folder's."""

    version: Version | None = None
