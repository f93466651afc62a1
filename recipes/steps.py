"""From what was made to the steps at the counter: order, wording, times and cautions."""

from __future__ import annotations

from dataclasses import dataclass, replace

from recipes.actions import ACTIONS
from recipes.book import Book, RecipeStep
from recipes.cautions import HOT_STEP, SCALD_C
from recipes.fit import Made
from recipes.measures import figure
from recipes.model import Amount, Duration, Step
from recipes.modifiers import Part, Target


@dataclass(frozen=True, slots=True)
class _Draft:
    """A step before it has its number."""

    station: str
    action: str
    words: str
    short: str
    part: Part | None = None
    amount: Amount | None = None
    duration: Duration | None = None


def steps(book: Book, target: Target, made: Made) -> tuple[Step, ...]:
    """The steps in the order of the counter, numbered from 1: toppings first, sealing last."""
    amounts = iter(made.amounts)
    drafts = [_topping(book, part, next(amounts)) for _, part, _ in target.toppings]
    stirs: list[_Draft] = []
    for step, part in target.plan:
        amount = next(amounts) if part is not None else None
        if amount is not None and amount.count == 0:
            continue
        draft = _draft(step, part, amount, made.load.ice_g > 0)
        stands_in = step.role == "dissolve" and target.shots is not None
        (stirs if stands_in else drafts).append(draft)
    if target.shots is not None:
        shot = _shots(book, target.shots, next(amounts), target.line.shots, bool(stirs))
        moved = [replace(stir, station=book.shot.station) for stir in stirs]
        _insert(book, drafts, [shot, *moved])
    if made.top_up is not None and target.drink.top_up is not None:
        _insert(book, drafts, [_top_up(target.drink.top_up.station, *made.top_up)])
    hot = made.settled.temperature_c > SCALD_C
    return tuple(_numbered(number, draft, hot) for number, draft in enumerate(drafts, 1))


def amount_words(amount: Amount) -> str:
    """An amount as it is said: "2 level scoops", "½ ladle", "120 ml"."""
    level = "level " if amount.kind == "scoop" else ""
    return f"{figure(amount.count)} {level}{amount.unit}"


def _draft(step: RecipeStep, part: Part | None, amount: Amount | None, iced: bool) -> _Draft:
    action = ACTIONS[step.action]
    words = step.words or (action.words if iced else action.warm_words or action.words)
    if part is None or amount is None:
        return _Draft(
            step.station,
            step.action,
            words,
            step.short or action.short or step.action,
            duration=step.duration,
        )
    filled = words.replace("{amount}", amount_words(amount)).replace("{what}", _called(part))
    short = step.short if step.short and part.ingredient.id == step.ingredient else part.ingredient.short
    return _Draft(step.station, step.action, filled, short, part, amount, step.duration)


def _called(part: Part) -> str:
    """An ingredient's name inside a sentence."""
    name = part.ingredient.name
    return name if name[:2].isupper() else name[0].lower() + name[1:]


def _topping(book: Book, part: Part, amount: Amount) -> _Draft:
    words = ACTIONS["ladle"].words.format(amount=amount_words(amount), what=_called(part))
    return _Draft(book.toppings_station, "ladle", words, part.ingredient.short, part, amount)


def _shots(book: Book, part: Part, amount: Amount, shots: int, on_powder: bool) -> _Draft:
    where = ", pour it on the powder" if on_powder else ", pour it in"
    extra = f"{figure(amount.count)} extra {amount.unit}"
    words = ACTIONS["pull"].words.format(amount=extra, what=_called(part)) + where
    each = book.shot.duration
    duration = Duration(each.low_s * shots, each.high_s * shots, each.attended)
    return _Draft(book.shot.station, "pull", words, part.ingredient.short, part, amount, duration)


def _top_up(station: str, part: Part, amount: Amount) -> _Draft:
    words = f"Top up with {amount_words(amount)} of {_called(part)}"
    return _Draft(station, "pour", words, part.ingredient.short, part, amount)


def _insert(book: Book, drafts: list[_Draft], new: list[_Draft]) -> None:
    """Put steps where their station comes in the counter's order: after what goes in, before the stirring."""
    order = {station: place for place, station in enumerate(book.stations)}
    here = order[new[0].station]
    place = sum(order[draft.station] < here for draft in drafts)
    for later, draft in enumerate(drafts[place:], place + 1):
        if order[draft.station] == here and draft.part is not None:
            place = later
    drafts[place:place] = new


def _numbered(number: int, draft: _Draft, hot_drink: bool) -> Step:
    hot_part = draft.part is not None and draft.part.temperature_c > SCALD_C
    pours_hot = draft.part is None and hot_drink and draft.action in ("seal", "lid", "whisk", "stir")
    return Step(
        number=number,
        station=draft.station,
        action=draft.action,
        text=draft.words,
        short=draft.short,
        ingredient=draft.part.ingredient.id if draft.part is not None else None,
        amount=draft.amount,
        duration=draft.duration,
        caution=HOT_STEP if hot_part or pours_hot else None,
    )
