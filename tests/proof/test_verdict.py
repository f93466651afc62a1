"""What a register is told of a combination that fails: what is wrong with it, and what nearby would do."""

from __future__ import annotations

import pytest

from recipes.asking.lines import complete
from recipes.building.resolve import resolve
from recipes.model import Refusal
from recipes.proof.verdict import refuse_unproved
from tests.proof.books import GOOD, WARMER, bar


def test_what_fails_is_refused_with_the_choices_that_stand() -> None:
    """Without ice this tea is cold, with ice it is hot: only without it does the drink stand."""
    book = bar(iced=WARMER)
    with pytest.raises(Refusal) as refused:
        refuse_unproved(book, resolve(book, complete(book, "iced", ice="regular")))
    assert (refused.value.code, refused.value.field, refused.value.value) == ("not proved", "ice", "regular")
    assert refused.value.accepted == ("no ice",)
    assert "°C with more ice" in refused.value.message
    assert refused.value.message.endswith("What would do: no ice.")
    for offered in refused.value.accepted:
        ice = next(ice for ice in book.ices.values() if ice.name == offered)
        refuse_unproved(book, resolve(book, complete(book, "iced", ice=ice.id)))


def test_what_holds_passes() -> None:
    book = bar(iced=GOOD)
    refuse_unproved(book, resolve(book, complete(book, "iced", ice="regular")))
