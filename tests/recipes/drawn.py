"""Lines at random, as hypothesis draws them: any that the register of a book lets be rung in."""

from __future__ import annotations

from hypothesis import strategies as st

from recipes.asking.lines import complete
from recipes.book import Book
from recipes.model import Line, ToppingChoice


@st.composite
def lines_of(draw: st.DrawFn, book: Book) -> Line:
    """Any line of the book."""
    drink = book.drinks[draw(st.sampled_from(sorted(book.drinks)))]
    toppings = draw(
        st.lists(
            st.builds(ToppingChoice, st.sampled_from(drink.toppings), st.booleans()),
            max_size=book.toppings_max,
            unique_by=lambda choice: choice.topping,
        )
    )
    return complete(
        book,
        drink.id,
        size=draw(st.sampled_from(drink.sizes)),
        sugar=draw(st.sampled_from(drink.sugars)),
        ice=draw(st.sampled_from(drink.ices)),
        shots=draw(st.integers(0, drink.shots)),
        toppings=toppings,
        milk=draw(st.sampled_from([None, *drink.milks])),
        without=draw(st.lists(st.sampled_from(drink.without), unique=True)) if drink.without else (),
    )
