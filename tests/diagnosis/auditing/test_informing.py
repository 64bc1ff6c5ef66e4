from types import SimpleNamespace
from typing import Any

import pytest

from engine.diagnosis.auditing.informing import (
    FLOOR_BITS,
    Silent,
    most_told,
    silent_checks,
    told_between,
)
from engine.diagnosis.auditing.single import audited
from engine.inference.gain import channel
from tests.diagnosis.auditing.bad_examples import SENDER, SILENT, more_checks
from tests.diagnosis.auditing.bad_examples import check as check_text
from tests.diagnosis.conftest import small_library


def check(*yes: float) -> Any:
    """Return what these functions read of a check: the chance of a yes in each state."""
    return SimpleNamespace(channel=channel([[p, 1.0 - p] for p in yes]))


@pytest.mark.parametrize(
    ("one", "other", "bits"),
    [(1.0, 0.0, 1.0), (0.5, 0.5, 0.0), (0.37, 0.63, 0.04933), (1.0, 0.5, 0.31128)],
)
def test_gain_between_two_states_at_even_odds(one: float, other: float, bits: float) -> None:
    """The entropy of the mixture less the mean entropy, by hand: 1 - h(0.37) = 0.04933 bits."""
    assert told_between(check(one, other), 0, 1) == pytest.approx(bits, abs=5e-6)


def test_one_state_tells_nothing_and_the_best_pair_counts() -> None:
    """Between equal states there is nothing to tell."""
    assert told_between(check(0.1, 0.9), 1, 1) == 0.0
    assert most_told(check(0.1, 0.1, 0.9), [0, 1]) == 0.0
    assert most_told(check(0.1, 0.1, 0.9), [0, 1, 2]) == told_between(check(0.1, 0.9), 0, 1)
    assert most_told(check(0.1, 0.9), [0]) == 0.0


def test_checks_that_tell_next_to_nothing_are_named() -> None:
    """With the states that single causes bring them; the shipped tiny ones all inform."""
    assert list(silent_checks(audited(small_library(), "beacon"))) == []
    (one,) = silent_checks(audited(small_library(SILENT), "beacon"))
    assert one == Silent("supply.smell", one.gain_bits, ("right", "low", "absent"))
    assert 0.0 < one.gain_bits < FLOOR_BITS


def test_a_check_of_a_state_that_no_cause_brings_is_silent() -> None:
    """However surely it would show the state: nothing brings it, so the check tells nothing."""
    sure = check_text("gone", "look", "output", "{right: 0.02, low: 0.02, absent: 0.97}")
    edits = (
        (SENDER, "short, makes: {output: absent}", "short, makes: {output: low}"),
        (SENDER, "then: absent", "then: low"),
        (SENDER, "      rail: same\n", "      rail: {low: low, absent: low}\n"),
        more_checks(SENDER, sure),
    )
    found = list(silent_checks(audited(small_library(*edits), "beacon")))
    assert found == [Silent("sender.gone", 0.0, ("right", "low"))]
