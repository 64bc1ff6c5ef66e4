import pytest

from engine.diagnosis.making.showing import outcome_titles
from engine.diagnosis.model import SetModel
from engine.knowledge.schema import Check
from tests.diagnosis.conftest import Edited


def test_yes_and_no_are_the_outcomes_of_a_question(beacon: SetModel) -> None:
    """Other checks have their own, readings none."""
    assert beacon.checks["supply.dark"].outcomes == {"yes": "Yes", "no": "No"}
    assert list(beacon.checks["sender.weak"].outcomes) == ["loud", "faint", "nothing"]
    assert beacon.checks["sender.power"].outcomes == {}


def test_rows_of_yes_and_no_sum_to_one(beacon: SetModel) -> None:
    """In the order of the states."""
    right, low, absent = beacon.checks["supply.dark"].channel.rows
    assert right == pytest.approx((0.02, 0.98))
    assert low == pytest.approx((0.2, 0.8))
    assert absent == pytest.approx((0.97, 0.03))


def test_outcomes_share_what_is_right_and_what_is_wrong(edited: Edited) -> None:
    """Two outcomes that stand for one state share it; the wrong ones share the rest."""
    model = edited(
        ("blocks/sender.yaml", "faint: {title: Faint, means: [low]}",
         "faint: {title: Faint, means: [low]}\n      hum: {title: Hum, means: [low]}"),
    )  # fmt: skip
    right, low, _ = model.checks["sender.weak"].channel.rows
    assert right == pytest.approx((0.9, 0.1 / 3, 0.1 / 3, 0.1 / 3))
    assert low == pytest.approx((0.05, 0.45, 0.45, 0.05))


def test_an_instrument_widens_what_a_state_gives(beacon: SetModel) -> None:
    """Spread and error add as squares; percent are of the geometric mean of a range."""
    meter = beacon.checks["sender.power"].meter
    assert meter is not None
    right, low, absent = meter.spreads
    assert right.sd == pytest.approx((0.3**2 + (0.08 * 3.8 + 0.05) ** 2) ** 0.5)
    assert (low.low, low.high) == (0.2, 2.5)
    assert low.sd == pytest.approx(0.08 * (0.2 * 2.5) ** 0.5 + 0.05)
    assert absent.sd == pytest.approx(0.05)


def test_no_dial_is_read_finer_than_a_hundred_thousandth_of_the_span(edited: Edited) -> None:
    """However good the instrument is, a range has soft ends."""
    model = edited(("tables/instruments.yaml", "V: {percent: 1,", "V: {percent: 0.0001,"))
    meter = model.checks["supply.rail-volts"].meter
    assert meter is not None
    assert meter.spreads[1].sd == pytest.approx(0.0002)


def test_titles_of_outcomes_come_from_the_knowledge() -> None:
    """In the order in which they stand there."""
    check = Check.model_validate(
        {
            "kind": "look",
            "title": "Lamp",
            "asks": "How is the lamp?",
            "looks-at": "lamp",
            "source": "estimate",
            "minutes": 1,
            "right": "Bright.",
            "wrong": 0.1,
            "outcomes": {
                "lit": {"title": "Bright", "means": ["right"]},
                "out": {"title": "Dark", "means": ["dead"]},
            },
        }
    )
    assert outcome_titles(check) == {"lit": "Bright", "out": "Dark"}
