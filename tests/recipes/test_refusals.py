"""Every reason for which a line is refused, each provoked, and each saying what would be accepted or done."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import get_args

import pytest

from recipes.asking.lines import complete
from recipes.asking.spoken import read_line
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Line, Refusal, RefusalCode, ToppingChoice
from recipes.proof import prove as proving
from recipes.proof.prove import prove_drink
from recipes.proof.verdict import refuse_unproved
from tests.proof.books import GOOD, LADLED, WARMER
from tests.proof.books import bar as proof_bar

TARO = "taro_milk_tea"


def line(**chosen: object) -> Callable[[Book], object]:
    return lambda demo: complete(demo, **{"drink": TARO, **chosen})  # type: ignore[arg-type]


def said(text: str) -> Callable[[Book], object]:
    return lambda demo: read_line(demo, text)


def built(**chosen: object) -> Callable[[Book], object]:
    return lambda demo: resolve(demo, line(**chosen)(demo))  # type: ignore[arg-type]


def toppings(*names: str) -> tuple[ToppingChoice, ...]:
    return tuple(ToppingChoice(name) for name in names)


def whole_only(demo: Book) -> object:
    pearls = replace(demo.toppings["pearls"], half_price=None)
    book = replace(demo, toppings={**demo.toppings, "pearls": pearls})
    return complete(book, TARO, toppings=[ToppingChoice("pearls", half=True)])


def too_coarse(demo: Book) -> object:
    book = proof_bar(iced=LADLED)
    return resolve(book, complete(book, "iced", size="small"))


def not_proved(demo: Book) -> None:
    book = proof_bar(iced=WARMER)
    refuse_unproved(book, resolve(book, complete(book, "iced", ice="regular")))


PROVOKED: dict[RefusalCode, Callable[[Book], object]] = {
    "unknown drink": line(drink="soup"),
    "unknown size": line(size="bucket"),
    "size not offered": line(drink="ginger_lemon_tea", size="large"),
    "unknown sugar": line(sugar=33),
    "sugar not offered": line(drink="brown_sugar_milk", sugar=0),
    "unknown ice": line(ice="snow"),
    "ice not offered": line(drink="ginger_lemon_tea", ice="regular"),
    "too many shots": line(shots=9),
    "unknown topping": line(toppings=toppings("gravel")),
    "topping not offered": line(drink="ginger_lemon_tea", toppings=toppings("aloe")),
    "topping twice": line(toppings=toppings("pearls", "pearls")),
    "too many toppings": line(toppings=toppings("pearls", "popping", "pudding", "red_beans")),
    "no half portion": whole_only,
    "topping not for hot": built(ice="hot", toppings=toppings("pudding")),
    "unknown milk": line(milk="goat"),
    "milk not offered": line(drink="lemon_black_tea", milk="oat"),
    "cannot leave out": line(without=("taro_powder",)),
    "nothing to leave out": line(without=("matcha_powder",)),
    "too full": built(size="small", shots=2, toppings=toppings("pearls", "popping", "pudding")),
    "too coarse": too_coarse,
    "not understood": said("large taro with gravel"),
    "said twice": said("large small taro"),
    "too long": said("taro " * 500),
    "no drink": said("large"),
    "not proved": not_proved,
}


@pytest.mark.parametrize("code", [code for code in get_args(RefusalCode) if code != "no build"])
def test_every_reason_is_met_and_names_field_value_and_cure(demo: Book, code: RefusalCode) -> None:
    with pytest.raises(Refusal) as met:
        PROVOKED[code](demo)
    assert met.value.code == code
    assert met.value.field
    assert met.value.message


def test_a_fault_of_the_resolver_is_told_by_the_proof_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """No register ever says it: what a proof finds no build for is a fault of ours."""

    def broken(book: Book, line: Line, ways_out: bool = True) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr(proving, "resolved", broken)
    assert {refused.code for refused in prove_drink(proof_bar(iced=GOOD), "iced").refusals} == {"no build"}
