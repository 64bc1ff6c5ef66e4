from itertools import product
from math import log2, pi, prod

import pytest

from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated, likelihood, likelihoods
from engine.diagnosis.model import SetModel
from tests.diagnosis.conftest import CaseOf

DIM = {"supply.dark": "yes", "supply.rail-volts": "9 V"}


@pytest.mark.parametrize(
    ("check", "text", "expected"),
    [
        ("supply.dark", "yes", [0.02, 0.2, 0.97]),
        ("supply.dark", "no", [0.98, 0.8, 0.03]),
        ("sender.weak", "faint", [0.05, 0.9, 0.05]),  # 0.1 wrong, shared by two outcomes
        ("sender.transistor-junctions", "yes", [0.95, 0.05, 0.05]),
    ],
)
def test_an_outcome_is_as_likely_as_the_knowledge_says(
    check: str, text: str, expected: list[float], beacon: SetModel
) -> None:
    """In each state of what the check looks at."""
    vector = likelihood(beacon, read_answer(beacon, check, text))
    assert vector == pytest.approx(expected, rel=1e-12)


def test_a_reading_has_the_density_of_its_meter(beacon: SetModel) -> None:
    """Blurred by spread and instrument, cut to the span, with a share of slips."""
    vector = likelihood(beacon, read_answer(beacon, "supply.rail-volts", "13 V"))
    sd = (0.4**2 + 0.13**2) ** 0.5  # the spread, and 1 % of 13 V
    assert vector[0] == pytest.approx(0.98 / (sd * (2 * pi) ** 0.5) + 0.001)
    assert vector[2] == pytest.approx(0.001)  # a slip: 0.02 over 20 V


def test_findings_on_one_signal_multiply(beacon: SetModel, case_of: CaseOf) -> None:
    """They are independent once its state is known."""
    case = case_of(beacon, {**DIM, "past.fell": "no"})
    together = likelihoods(beacon, case.findings)
    dark, volts, fell = (likelihood(beacon, finding) for finding in case.findings)
    assert set(together) == {"supply.rail", "past.drop"}
    assert together["supply.rail"] == [a * b for a, b in zip(dark, volts, strict=True)]
    assert together["past.drop"] == fell


def test_what_cannot_be_checked_says_nothing(beacon: SetModel, case_of: CaseOf) -> None:
    """The posteriors are the priors."""
    case = case_of(beacon, {"supply.dark": "cannot check"})
    assert likelihoods(beacon, case.findings) == {}
    rested = calibrated(beacon, case.findings).posterior("supply.flat-battery")
    assert rested == calibrated(beacon, ()).posterior("supply.flat-battery")


def test_the_posterior_is_that_of_a_sum_over_everything(beacon: SetModel, case_of: CaseOf) -> None:
    """Here over all combinations of the causes of the rail, whose worst decides."""
    case = case_of(beacon, DIM)
    dark, volts = (likelihood(beacon, finding) for finding in case.findings)
    at_rest = calibrated(beacon, ())
    names = ("supply.flat-battery", "supply.fuse-joint", "supply.unlisted-rail")
    chances = [at_rest.posterior(name) for name in names]
    makes = ((0, 1, 2), (0, 2), (0, 1, 2))  # the state of the rail that each state makes
    total, battery = 0.0, [0.0, 0.0, 0.0]
    for states in product(*(range(len(chance)) for chance in chances)):
        rail = max(made[state] for made, state in zip(makes, states, strict=True))
        p = prod(chance[state] for chance, state in zip(chances, states, strict=True))
        p *= dark[rail] * volts[rail]
        total += p
        battery[states[0]] += p
    found = calibrated(beacon, case.findings)
    assert found.log2_evidence == pytest.approx(log2(total), abs=1e-9)
    expected = [p / total for p in battery]
    assert found.posterior(names[0]) == pytest.approx(expected, abs=1e-12)
