"""The frequency plan that a set model carries to where it is used."""

from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model, load_model


def test_a_family_carries_its_plan(model: SetModel) -> None:
    """The oscillators know the network's names for their frequencies, and these exist."""
    assert model.plan is not None
    assert model.plan.id == model.family.plan == "three-crystal-mixing"
    signals = {name: each.signal for name, each in model.plan.oscillators.items()}
    assert signals == {
        "reference": "reference-oscillator.ref-frequency",
        "loop": "loop-crystal-oscillator.loop-lo-frequency",
        "offset": "transmit-crystal-oscillator.tx-xo-frequency",
    }
    assert set(signals.values()) <= set(model.signals)


def test_the_plan_comes_back_exact(model: SetModel) -> None:
    """What the browser loads is the same plan."""
    assert load_model(dump_model(model)).plan == model.plan


def test_a_family_may_have_no_plan(beacon: SetModel) -> None:
    """Nothing is made up for it."""
    assert beacon.plan is None
    assert load_model(dump_model(beacon)).plan is None
