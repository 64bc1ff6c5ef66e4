"""Instruments in somebody's own words."""

import pytest

from engine.diagnosis.messages.kit_words import AtHand, instruments_in
from engine.diagnosis.model import SetModel

SAID = {
    "two things": (
        "I have a multimeter and a dummy load.",
        {"multimeter": "multimeter", "dummy-load": "dummy load"},
        False,
    ),
    "another word for it": ("There is an SWR meter.", {"rf-power-meter": "SWR meter"}, False),
    "denied": ("I don't have a multimeter.", {}, False),
    "nothing at all": ("No instruments here, I am afraid.", {}, True),
    "nothing but": ("I haven't any test gear, only a screwdriver", {"tools": "screwdriver"}, False),
    "the needle of the set": ("There is no meter movement.", {}, False),
}


@pytest.mark.parametrize(("message", "has", "is_nothing"), SAID.values(), ids=SAID)
def test_instruments_are_heard(
    model: SetModel, message: str, has: dict[str, str], is_nothing: bool
) -> None:
    """With the very words; what is denied is not there."""
    assert instruments_in(model, message) == AtHand(has, is_nothing)
