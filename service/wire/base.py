"""What every message of the wire is made of."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field


class Wire(BaseModel):
    """A message: frozen, and closed, so that a misspelt field is refused rather than ignored."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


class Asked(Wire):
    """A message that a display sends: a field with a default may be left out. All others come down whole."""


Id = Annotated[str, Field(min_length=1, max_length=80)]
Millis = Annotated[int, Field(ge=0)]
Minor = Annotated[int, Field(description="money in minor units of the shop's currency")]
