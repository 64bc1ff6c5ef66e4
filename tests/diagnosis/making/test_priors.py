from math import exp

import pytest

from engine.diagnosis.making.priors import priors_of_ways, row_after
from engine.knowledge.schema import Cause, Parts

# Ground mobile rates (per 1e6 h) and mode shares of the hand-worked example; the mode `other`
# stands for the rest of the shares.
RATES = {"electrolytic": 0.58, "preset": 0.75, "crystal": 0.32, "small-bipolar": 0.0017}
MODES = {
    "electrolytic": {"open": 0.35, "short": 0.53, "low-value": 0.02, "other": 0.10},
    "preset": {"erratic": 0.40, "other": 0.60},
    "crystal": {"any": 1.0},
    "small-bipolar": {"any": 1.0},
}
# Printed there to four digits: the share of each part, and of some modes, in all four parts.
PARTS = {"electrolytic": 0.3512, "preset": 0.4541, "crystal": 0.1937, "small-bipolar": 0.0010}
SOME_MODES = {
    ("electrolytic", "open"): 0.1229,
    ("electrolytic", "short"): 0.1861,
    ("electrolytic", "low-value"): 0.0070,
    ("preset", "erratic"): 0.1816,
}


def parts(service_h: float, old_set: float = 1.0) -> Parts:
    """Return the table of the example."""
    return Parts.model_validate(
        {
            "service-h": service_h,
            "service-h-source": "estimate",
            "classes": {
                name: {
                    "title": f"A part: {name}",
                    "rate-per-1e6-h": rate,
                    "source": "estimate",
                    "old-set": old_set,
                    "modes": {
                        mode: {"share": share, "source": "estimate"}
                        for mode, share in MODES[name].items()
                    },
                }
                for name, rate in RATES.items()
            },
        }
    )


def cause(**fields: object) -> Cause:
    """Return a cause with as little else as it may have."""
    return Cause.model_validate(
        {"title": "Failed", "kind": "fault", "source": "estimate", "act": "Replace it.", **fields}
    )


def in_each_mode(part: str) -> Cause:
    """Return a cause with a way for every mode of a part."""
    ways = {mode: {"title": f"Failed: {mode}", "mode": mode} for mode in MODES[part]}
    return cause(part=part, ways=ways)


@pytest.mark.parametrize("service_h", [1.0, 10.0])
def test_shares_are_those_of_the_hand_worked_example(service_h: float) -> None:
    """As long as failures are rare, a prior is rate times mode share over the sum of rates."""
    priors = {name: priors_of_ways(in_each_mode(name), parts(service_h)) for name in RATES}
    total = sum(sum(ways.values()) for ways in priors.values())
    shares = {name: sum(ways.values()) / total for name, ways in priors.items()}
    assert shares == pytest.approx(PARTS, abs=6e-5)  # printed to four digits
    modes = {(part, mode): priors[part][mode] / total for part, mode in SOME_MODES}
    assert modes == pytest.approx(SOME_MODES, abs=6e-5)


def test_rate_hours_age_count_and_share_multiply() -> None:
    """The chance of at least one such failure: 1 - exp(-rate x hours x old set x count x share)."""
    ways = priors_of_ways(cause(part="preset", mode="erratic", count=3), parts(20000.0, 2.5))
    assert ways == {"present": pytest.approx(1 - exp(-0.75e-6 * 20000 * 2.5 * 3 * 0.4), rel=1e-12)}


def test_a_stated_prior_is_shared_among_the_ways() -> None:
    """No part class is asked."""
    ways = {"too-high": {"title": "High", "share": 0.7}, "too-low": {"title": "Low", "share": 0.3}}
    found = priors_of_ways(cause(prior=0.01, ways=ways), parts(1.0))
    assert found == {"too-high": pytest.approx(0.007), "too-low": pytest.approx(0.003)}


def test_a_stated_prior_without_ways_is_that_of_being_there() -> None:
    """The one way is called `present`."""
    assert priors_of_ways(cause(prior=0.02), parts(1.0)) == {"present": 0.02}


@pytest.mark.parametrize("harm", [0.0, 0.3, 1.0])
def test_an_event_gives_one_more_chance(harm: float) -> None:
    """P(fine) is that of escaping both; the ways keep their proportion."""
    fine, *ways = row_after({"open": 0.02, "short": 0.06}, harm)
    assert fine == pytest.approx((1 - 0.08) * (1 - harm))
    assert fine + sum(ways) == pytest.approx(1.0)
    assert ways[1] == pytest.approx(3 * ways[0])


def test_modes_that_show_alike_are_one_way() -> None:
    """Open or low in value, as the example has it: the shares 0.35 and 0.02 add up."""
    ways = {"dried": {"title": "Dried out", "mode": ["open", "low-value"]}}
    table = parts(1000.0)
    found = priors_of_ways(cause(part="electrolytic", ways=ways), table)
    assert found == {"dried": pytest.approx(1.0 - exp(-0.58e-6 * 1000.0 * 0.37))}
