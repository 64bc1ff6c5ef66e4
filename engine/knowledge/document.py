"""What the models of all knowledge files share."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field
from pydantic_core import PydanticCustomError

Id = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$")]
GlobalId = Annotated[str, Field(pattern=r"^[a-z0-9-]+\.[a-z0-9-]+$")]  # block.name
Text = Annotated[str, Field(min_length=3)]
Share = Annotated[float, Field(gt=0, le=1)]
Chance = Annotated[float, Field(ge=0, le=1)]


def kebab(name: str) -> str:
    """Return the key an author writes for a field: `looks_at` is written `looks-at`."""
    return name.replace("_", "-")


class Document(BaseModel):
    """Common settings: frozen, unknown keys refused, keys in kebab-case."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        alias_generator=kebab,
        populate_by_name=False,
        allow_inf_nan=False,
    )


def refusal(found: str, expected: str, remedy: str) -> PydanticCustomError:
    """Return the error a validator raises, in words for an author."""
    facts = {"found": found, "expected": expected, "remedy": remedy}
    return PydanticCustomError("rule", "found {found}, expected {expected}", facts)
