"""What reading a frequency tells about one cause, against entering every reading there may be."""

from math import log2

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.confirming import told_about
from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel

TX_TRIMMER = "transmit-crystal-oscillator.tx-trimmer"
LOOP_TRIMMER = "loop-crystal-oscillator.loop-trimmer-set"
PLACES = 60


def doubt(p: float) -> float:
    """Return the bits that are not known of something as likely as `p`."""
    return -sum(q * log2(q) for q in (p, 1.0 - p) if q > 0.0)


def searched(model: SetModel, case: Case, check: str, cause: str, reach: float) -> float:
    """Return I(reading; cause) by entering readings up to `reach`, closer together near nothing."""
    before = calibrated(model, case.evidence())
    total = left = 0.0
    for number in range(PLACES):
        place = 2.0 * (number + 0.5) / PLACES - 1.0
        said = f"{reach * place * abs(place):+.5f} {model.checks[check].unit}"
        after = calibrated(model, (*case.evidence(), read_answer(model, check, said)))
        weight = 2.0 ** (after.log2_evidence - before.log2_evidence) * abs(place)
        total += weight
        left += weight * doubt(1.0 - after.posterior(cause)[0])
    return doubt(1.0 - before.posterior(cause)[0]) - left / total


@pytest.mark.parametrize("cause", [TX_TRIMMER, LOOP_TRIMMER])
@pytest.mark.parametrize(
    ("check", "reach"),
    [
        ("transmit-crystal-oscillator.tx-oscillator-offset", 4.0),
        ("loop-crystal-oscillator.loop-lo-error", 150.0),
    ],
)
def test_a_reading_tells_about_one_cause_what_all_readings_do_together(
    model: SetModel, cause: str, check: str, reach: float
) -> None:
    """By the chain rule from gains: a carrier 0.8 kHz high, and either oscillator may be off."""
    case = Case(model.family.id, full_kit(model))
    case = add_finding(case, read_answer(model, "operating.transmit-error@20", "+0.8 kHz"))
    now = step(model, case)
    (lead,) = [each for each in now.causes if each.id == cause]
    calibration = calibrated(model, case.evidence())
    told = {
        each.id: bits
        for each, bits in told_about(model, case.evidence(), calibration, lead, now.checks)
    }
    assert told[check] > 0.3
    assert told[check] == pytest.approx(searched(model, case, check, cause, reach), abs=0.02)


def test_a_reading_says_nothing_about_a_cause_that_moves_no_frequency(model: SetModel) -> None:
    """Whether the squelch is shut is no nearer for a reading of an oscillator."""
    case = Case(model.family.id, full_kit(model))
    case = add_finding(case, read_answer(model, "operating.transmit-error@20", "+0.8 kHz"))
    now = step(model, case)
    (lead,) = [each for each in now.causes if each.id == "controls.squelch-shut"]
    calibration = calibrated(model, case.evidence())
    rows = told_about(model, case.evidence(), calibration, lead, now.checks)
    read = [bits for each, bits in rows if model.checks[each.id].at is not None]
    assert len(read) >= 3
    assert set(read) == {0.0}
