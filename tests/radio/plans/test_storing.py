import json
from dataclasses import replace

import pytest

from engine.radio.plans.plan import Plan
from engine.radio.plans.storing import loaded, plain


@pytest.mark.parametrize("name", ["P1", "P2", "P3", "P4", "P5", "P6", "P7"])
def test_a_plan_comes_back_as_it_was(name: str, plans: dict[str, Plan]) -> None:
    """Exact, thirds of a crystal included."""
    assert loaded(json.loads(json.dumps(plain(plans[name])))) == plans[name]


def test_what_is_missing_stays_missing(plans: dict[str, Plan]) -> None:
    """A plan without lines and reach comes back without them."""
    bare = replace(plans["P5"], lines=None, vco_reach_hz=None)
    assert loaded(json.loads(json.dumps(plain(bare)))) == bare
