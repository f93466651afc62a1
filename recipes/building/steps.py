"""From what was made to the steps at the counter: order, wording, times and cautions."""

from __future__ import annotations

from dataclasses import dataclass, replace

from recipes.actions import ACTIONS, HEATING
from recipes.book import Book, RecipeStep
from recipes.building.drink import Dose, Made
from recipes.building.plan import Part
from recipes.building.toppings import Portion, Toppings
from recipes.measures import figure
from recipes.model import Amount, Duration, Step
from recipes.telling.cautions import HOT_STEP, SCALD_C


@dataclass(slots=True)
class _Draft:
    """A step before it has its number."""

    station: str
    action: str
    words: str
    short: str
    part: Part | None = None
    amount: Amount | None = None
    duration: Duration | None = None
    into: str = ""


def steps(book: Book, made: Made, toppings: Toppings, celsius: float) -> tuple[Step, ...]:
    """The steps in the order of the counter, numbered from 1: toppings first, sealing last.

    ``celsius`` is how warm the drink is handed over.
    """
    first = len(toppings.portions)
    hot = celsius > SCALD_C
    rest = made.shown.get((first, hot))
    if rest is None:
        drafts = _drink(book, made)
        rest = tuple(_numbered(number, draft, hot) for number, draft in enumerate(drafts, first + 1))
        made.shown[first, hot] = rest
    if not first:
        return rest
    if not toppings.shown:
        firsts = enumerate((_topping(book, portion) for portion in toppings.portions), 1)
        toppings.shown.append(tuple(_numbered(number, draft, False) for number, draft in firsts))
    return toppings.shown[0] + rest


def amount_words(amount: Amount) -> str:
    """An amount as it is said: "2 level scoops", "½ ladle", "120 ml"."""
    level = "level " if amount.kind == "scoop" else ""
    return f"{figure(amount.count)} {level}{amount.unit}"


def _drink(book: Book, made: Made) -> list[_Draft]:
    plan = made.plan
    amounts = dict(zip(map(id, plan.parts), made.doses, strict=True))
    top_up = _together(amounts, made.top_up)
    drafts: list[_Draft] = []
    stirs: list[_Draft] = []
    for step, part in plan.steps:
        dose = None if part is None else amounts[id(part)]
        found = _step(book, made, step, dose)
        # The shots come after the powder and any water that they leave to pour; then all of it is stirred.
        after_shots = step.role == "dissolve" and step.action == "stir" and part is None
        (stirs if after_shots and plan.shots is not None else drafts).extend(found)
    if plan.shots is not None:
        shot = _shots(book, amounts[id(plan.shots)], plan.line.shots, bool(stirs))
        moved = [replace(stir, station=book.shot.station) for stir in stirs]
        _insert(book, drafts, [shot, *moved], first=bool(stirs))
    if top_up is not None and plan.drink.top_up is not None:
        _insert(book, drafts, _top_up(plan.drink.top_up.station, top_up))
    return _into(book, made, drafts)


def _together(amounts: dict[int, Dose], top_up: Dose | None) -> Dose | None:
    """The top-up, poured with the same thing from the same jug where the recipe pours some anyway: its dose
    is added to that part's in ``amounts``, and nothing is left to top up with."""
    if top_up is None or len(top_up[1]) != 1:
        return top_up
    part, (more,) = top_up
    for place, (other, given) in amounts.items():
        same = other.ingredient.id == part.ingredient.id and other.temperature_c == part.temperature_c
        if same and len(given) == 1 and given[0].tool == more.tool and more.kind == "jug":
            amounts[place] = (other, (_sum(given[0], more),))
            return None
    return top_up


def _sum(one: Amount, other: Amount) -> Amount:
    """Two readings of one jug as one."""
    wanted = one.wanted_ml + other.wanted_ml
    volume = one.volume_ml + other.volume_ml
    return replace(
        one,
        count=one.count + other.count,
        volume_ml=round(volume, 4),
        mass_g=round(one.mass_g + other.mass_g, 4),
        wanted_ml=round(wanted, 4),
        error_pct=round(100 * (volume - wanted) / wanted, 4) + 0.0,
    )


def _into(book: Book, made: Made, drafts: list[_Draft]) -> list[_Draft]:
    """The drafts with the vessel named where the first of them goes in; what follows goes the same way."""
    vessel = made.plan.drink.vessel
    name = book.vessels[vessel].name if vessel is not None else "cup"
    for draft in drafts:
        if draft.part is not None:
            draft.into = name
            break
    return drafts


def _step(book: Book, made: Made, step: RecipeStep, dose: Dose | None) -> list[_Draft]:
    """The drafts of one step of the recipe: one, or one for each tool, or none for nothing."""
    action = ACTIONS[step.action]
    words = step.words or action.words
    if step.words is None and action.in_cup and made.plan.drink.vessel is None:
        words = action.in_cup
    elif step.words is None and action.warm_words and made.load.ice_g <= 0:
        words = action.warm_words
    if dose is None:
        short = step.short or action.short or step.action
        return [_Draft(step.station, step.action, words, short, duration=step.duration)]
    part, amounts = dose
    short = step.short if step.short and part.ingredient.id == step.ingredient else part.ingredient.short
    found = []
    for place, amount in enumerate(amounts):
        # What a finer tool adds is measured, whatever the recipe's own tool does.
        told = (
            words
            if amount.tool in (part.tool.id, part.jug.id if part.jug else "")
            else ACTIONS["measure"].words
        )
        filled = told.replace("{amount}", amount_words(amount)).replace("{what}", _called(part))
        filled = filled.replace("{celsius}", f"{part.temperature_c:.0f}")
        duration = step.duration if place == 0 else None
        if step.action == "pull" and amount.kind == "shot":
            filled, duration = _own_shots(book, made, amount, filled, duration)
        found.append(_Draft(step.station, step.action, filled, short, part, amount, duration))
    return found


def _own_shots(
    book: Book, made: Made, amount: Amount, words: str, duration: Duration | None
) -> tuple[str, Duration | None]:
    """The recipe's own shots with the extra ones: one amount, run one after another."""
    extra = 0 if made.plan.shots is not None else made.plan.line.shots
    words += ", pour them in" if amount.count > 1 else ", pour it in"
    if extra == 0:
        return words, duration
    each, own = book.shot.duration, duration or Duration(0.0, 0.0, False)
    return words, Duration(
        own.low_s + each.low_s * extra, own.high_s + each.high_s * extra, own.attended or each.attended
    )


def _called(part: Part) -> str:
    """An ingredient's name inside a sentence."""
    name = part.ingredient.name
    return name if name[:2].isupper() else name[0].lower() + name[1:]


def _topping(book: Book, portion: Portion) -> _Draft:
    part, amount = portion.part, portion.amount
    words = ACTIONS["ladle"].words.format(amount=amount_words(amount), what=_called(part))
    return _Draft(book.toppings_station, "ladle", words, part.ingredient.short, part, amount)


def _shots(book: Book, dose: Dose, shots: int, on_powder: bool) -> _Draft:
    part, (amount,) = dose
    where = " on the powder" if on_powder else " in"
    them = "them" if amount.count > 1 else "it"
    words = ACTIONS["pull"].words.format(amount=amount_words(amount), what=_called(part))
    each = book.shot.duration
    duration = Duration(each.low_s * shots, each.high_s * shots, each.attended)
    words = f"{words}, pour {them}{where}"
    return _Draft(book.shot.station, "pull", words, part.ingredient.short, part, amount, duration)


def _top_up(station: str, dose: Dose) -> list[_Draft]:
    part, amounts = dose
    return [
        _Draft(
            station,
            "pour",
            f"Top up with {amount_words(amount)} of {_called(part)}",
            part.ingredient.short,
            part,
            amount,
        )
        for amount in amounts
    ]


def _insert(book: Book, drafts: list[_Draft], new: list[_Draft], first: bool = False) -> None:
    """Put steps where their station comes in the counter's order: after what goes in there, before the
    stirring; or ``first`` of all that is done there, as a shot that is poured on the powder."""
    order = {station: place for place, station in enumerate(book.stations)}
    here = order[new[0].station]
    place = sum(order[draft.station] < here for draft in drafts)
    for later, draft in enumerate(drafts[place:], place + 1):
        if not first and order[draft.station] == here and draft.part is not None:
            place = later
    drafts[place:place] = new


def _numbered(number: int, draft: _Draft, hot_drink: bool) -> Step:
    hot_part = draft.part is not None and draft.part.temperature_c > SCALD_C
    pours_hot = draft.part is None and hot_drink and draft.action in ("seal", "lid", "whisk", "stir")
    return Step(
        number=number,
        station=draft.station,
        action=draft.action,
        text=_with_vessel(draft.words, draft.into),
        short=draft.short,
        ingredient=draft.part.ingredient.id if draft.part is not None else None,
        amount=draft.amount,
        duration=draft.duration,
        into=draft.into,
        celsius=draft.part.temperature_c if draft.part is not None and draft.action in HEATING else None,
        caution=HOT_STEP if hot_part or pours_hot else None,
    )


def _with_vessel(words: str, into: str) -> str:
    """A step's words with the vessel that it is the first to go into."""
    if not into or "into the" in words:
        return words
    for pouring in (", pour it in", ", pour them in"):
        if words.endswith(pouring):
            return f"{words}to the {into}"
    return f"{words} into the {into}"
