"""Orders of setting up, for every family."""

from collections.abc import Callable

import pytest

from engine.diagnosis.model import SetModel
from engine.diagnosis.settings import SettingUpText
from engine.setting_up.ordering import set_up_order
from tests.conftest import FAMILIES

EARLIER = (("supply", "oscillators"), ("oscillators", "receive"), ("oscillators", "transmit"))


def text_of(model: SetModel) -> SettingUpText:
    """Return how a set is set up."""
    assert model.setting_up is not None
    return model.setting_up


@pytest.mark.parametrize("family", FAMILIES)
def test_everything_comes_after_what_it_hangs_on(
    family: str, model_of: Callable[[str], SetModel]
) -> None:
    """Each adjustment once, those before it earlier, those it is set in turn with beside it."""
    text = text_of(model_of(family))
    groups = set_up_order(text)
    order = [name for group in groups for name in group.names]
    assert sorted(order) == sorted(text.settings)
    home = {name: group for group in groups for name in group.names}
    late = [
        (one, name)
        for name in order
        for one in text.settings[name].first
        if order.index(one) > order.index(name) and home[one] != home[name]
    ]
    assert late == []
    apart = [(one, other) for one, other, _ in text.pairs if home[one] != home[other]]
    assert apart == []


@pytest.mark.parametrize("family", FAMILIES)
def test_supply_then_oscillators_then_what_they_drive(
    family: str, model_of: Callable[[str], SetModel]
) -> None:
    """Common practice, in every set: rails first, crystals before IF and transmit chain."""
    text = text_of(model_of(family))
    chapters = [text.settings[g.names[0]].chapter for g in set_up_order(text)]
    mixed = [
        pair
        for pair in EARLIER
        if pair[0] in chapters and pair[1] in chapters
        if len(chapters) - chapters[::-1].index(pair[0]) > chapters.index(pair[1])
    ]
    assert mixed == []
