"""What hands do at the bar: the verbs a recipe may use, and how each is worded.

``{amount}`` and ``{what}`` are filled in; a cell of the bar sheet shows ``short`` for work that has no
ingredient of its own. ``{celsius}`` is how warm a step makes what it heats.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Action:
    """A verb of the bar. ``words`` is the whole instruction; ``short`` is set for work without ingredient,
    ``warm_words`` where it reads differently without ice, ``in_cup`` where the drink is built in its cup."""

    id: str
    words: str
    short: str | None = None
    warm_words: str | None = None
    in_cup: str | None = None


_ALL = (
    Action("scoop", "Scoop {amount} of {what}"),
    Action("pump", "Pump {amount} of {what}"),
    Action("measure", "Measure {amount} of {what}"),
    Action("pour", "Pour {amount} of {what}"),
    Action("steam", "Steam {amount} of {what} to {celsius} °C, pour it in"),
    Action("heat", "Heat {amount} of {what} to {celsius} °C, pour it in"),
    Action("pull", "Pull {amount} of {what}"),
    Action("ice", "Add {amount} of {what}"),
    Action("ladle", "Put {amount} of {what} into the cup"),
    Action("stir", "Stir until no clump is left", "Stir"),
    Action("whisk", "Whisk until it froths", "Whisk"),
    Action(
        "shake", "Shake in the machine until the outside is covered in condensation", "Shake",
        warm_words="Shake in the machine until it is mixed",
    ),
    Action("seal", "Pour into the cup, dry the rim, seal", "Seal", in_cup="Dry the rim, seal"),
    Action(
        "lid", "Pour into the cup, dry the rim, press the lid on all round", "Lid",
        in_cup="Dry the rim, press the lid on all round",
    ),
)  # fmt: skip

ACTIONS: Mapping[str, Action] = {action.id: action for action in _ALL}
"""Every action by id."""

WITH_INGREDIENT = tuple(action.id for action in _ALL if action.short is None)
"""Actions that put something in."""

WORK = tuple(action.id for action in _ALL if action.short is not None)
"""Actions that are work on what is there already."""

HEATING = ("steam", "heat")
"""Actions that make what they put in as warm as the pantry says (``hot``)."""

STEAMING = ("steam",)
"""Those that do it with steam, which stays in the drink as water."""
