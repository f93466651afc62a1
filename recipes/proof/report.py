"""A proof on a terminal, for a person: a table of the drinks, worst cases, a small heat map, advice."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from recipes.proof.hand_tally import merged_hands
from recipes.proof.model import Advice, Case, DrinkProof, HandProof
from recipes.proof.reasons import reasons

WIDTH = 100
"""The widest line."""

SHADES = " ░▒▓█"
"""A heat map's marks; the figures beside them say the same."""

MAPPED = ("size", "sugar", "ice", "shots")
"""The modifiers of the small heat map."""


def render(proofs: Sequence[DrinkProof], advice: Sequence[Advice], tolerance_pct: float, verdict: str) -> str:
    """The whole report, ending in its verdict."""
    parts = [
        _table(proofs),
        _by_hand(proofs),
        _violations(proofs),
        _reasons(proofs),
        _worst(proofs),
        _heat(proofs, tolerance_pct),
        _advice(advice),
    ]
    return "\n".join(line.rstrip() for part in parts for line in part) + f"\n{verdict}\n"


def _table(proofs: Sequence[DrinkProof]) -> Iterator[str]:
    head = (
        f"{'Drink':<30}{'Combinations':>13}{'Built':>10}{'Refused':>9}{'Flagged':>9}{'Mean':>8}{'Worst':>8}"
    )
    yield f"{head}{'Broken':>9}"
    yield "─" * WIDTH
    for proof in proofs:
        yield (
            f"{proof.name[:29]:<30}{proof.combinations:>13,}{proof.built:>10,}{proof.refused:>9,}"
            f"{proof.flagged:>9,}{proof.mean_pct:>6.1f} %{proof.worst_pct:>6.0f} %{proof.violated:>9,}"
        )
    built = sum(proof.built for proof in proofs)
    mean = sum(proof.mean_pct * proof.built for proof in proofs) / built if built else 0.0
    worst = max((proof.worst_pct for proof in proofs), default=0.0)
    yield "─" * WIDTH
    yield (
        f"{'All':<30}{sum(p.combinations for p in proofs):>13,}{built:>10,}"
        f"{sum(p.refused for p in proofs):>9,}{sum(p.flagged for p in proofs):>9,}{mean:>6.1f} %"
        f"{worst:>6.0f} %{sum(p.violated for p in proofs):>9,}"
    )


def _by_hand(proofs: Sequence[DrinkProof]) -> Iterator[str]:
    """What the builds ask of hands, and how far off that leaves their parts."""
    if not any(proof.built for proof in proofs):
        return
    yield from ("", "By hand (parts: how far off all but the sweetener is; sweetener: worst, in steps)")
    yield (
        f"{'Drink':<30}{'Fussy':>10}{'':>8}{'Measuring':>12}{'Parts, median':>15}{'95 % within':>13}"
        f"{'Sweetener':>12}"
    )
    yield "─" * WIDTH
    for proof in proofs:
        yield _hand_row(proof.name, proof.hand)
    whole = merged_hands([proof.hand for proof in proofs])
    yield "─" * WIDTH
    yield _hand_row("All", whole)
    for each in whole.fuss:
        yield from _wrapped(f"{each.kind}: {each.count:,}; for one, {each.what} ({each.example})", "· ")


def _hand_row(name: str, hand: HandProof) -> str:
    share = 100 * hand.fussy / hand.built if hand.built else 0.0
    sweetest = f"{hand.sweetest.steps:.2f}" if hand.sweetest is not None else "·"
    return (
        f"{name[:29]:<30}{hand.fussy:>10,}{share:>6.1f} %{hand.seconds:>10.1f} s{hand.median_pct:>13.1f} %"
        f"{hand.p95_pct:>11.1f} %{sweetest:>12}"
    )


def _violations(proofs: Sequence[DrinkProof]) -> Iterator[str]:
    found = [(proof, violation) for proof in proofs for violation in proof.violations]
    if found:
        yield from ("", "What breaks the proof")
    for proof, violation in found:
        said = f"{violation.kind}: {violation.message} ({_said(violation.example)}; {violation.count:,} so)"
        yield from _wrapped(f"{proof.name}: {said}", "✗ ")


def _reasons(proofs: Sequence[DrinkProof]) -> Iterator[str]:
    found = reasons(proofs)
    if found:
        yield from ("", "Refused, by reason")
    for reason in found:
        most = ", ".join(f"{each.name} {each.count:,}" for each in reason.drinks[:3])
        head = f"{reason.title}: {reason.count:,} ({reason.share_pct:.1f} %), most in {most}."
        yield from _wrapped(f"{head} {reason.meaning} {reason.cure}", "· ")


def _worst(proofs: Sequence[DrinkProof]) -> Iterator[str]:
    cases = sorted((case for proof in proofs for case in proof.worst), key=lambda case: -case.error_pct)
    if cases:
        yield from ("", "Furthest from their recipes")
    for case in cases[:10]:
        off = ", ".join(f"{error.label} {error.error_pct:+.0f} %" for error in case.errors[:3])
        yield from _wrapped(f"{_said(case)}: {off}{'' if case.flagged else ' (not flagged)'}", "· ")


def _said(case: Case) -> str:
    return ", ".join((case.title, *case.words))


def _heat(proofs: Sequence[DrinkProof], tolerance_pct: float) -> Iterator[str]:
    """Mean error in per cent by drink and modifier, darker for more of the tolerance."""
    order = dict.fromkeys(
        (cell.modifier, cell.value) for kind in MAPPED for proof in proofs for cell in proof.heat
        if cell.modifier == kind
    )  # fmt: skip
    if not order:
        return
    full = f"{SHADES[4]} from the tolerance ({tolerance_pct:g} %) up"
    yield from ("", f"Mean error in per cent, drink by modifier; {full}")
    yield f"{'':<22}" + "".join(f"{value[:5]:>6}" for _, value in order)
    for proof in proofs:
        cells = {(cell.modifier, cell.value): cell for cell in proof.heat}
        row = ""
        for key in order:
            cell = cells.get(key)
            if cell is None or not cell.built:
                row += f"{'·':>6}"
            else:
                shade = SHADES[min(4, int(4 * cell.mean_pct / tolerance_pct))]
                row += f"{cell.mean_pct:>5.1f}{shade}"
        yield f"{proof.name[:21]:<22}{row}"


def _advice(advice: Sequence[Advice]) -> Iterator[str]:
    if advice:
        yield from ("", "What would help most")
    for each in advice[:12]:
        yield from _wrapped(each.text, "→ ")
    if len(advice) > 12:
        yield f"  and {len(advice) - 12} more (see --json)"
    yield ""


def _wrapped(text: str, mark: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=mark, subsequent_indent=" " * len(mark))
