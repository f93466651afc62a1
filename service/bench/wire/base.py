"""What the owner's messages share: texts, amounts and their bounds."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

Version = Annotated[str, Field(min_length=1, max_length=64, description="a book's content address")]
Note = Annotated[str, Field(max_length=500)]
Scalar = str | bool | list[str]
Order = Annotated[list[int | dict[str, Scalar]], Field(max_length=100)]
Grams = Annotated[float, Field(gt=0, le=10_000, allow_inf_nan=False)]
MOST_EDITS = 600
Share = Annotated[float, Field(ge=0, le=100, allow_inf_nan=False, description="g in 100 g")]
