from random import Random

import pytest

from engine.assessing.optimal import Courses, first_of, most_told
from engine.diagnosis.model import SetModel


@pytest.fixture(scope="module")
def courses(beacon: SetModel) -> Courses:
    """Return every course of the tiny set."""
    return Courses(beacon, tuple(beacon.checks.values()))


def test_no_way_of_choosing_beats_the_least(courses: Courses) -> None:
    """What tells most needs no fewer checks than the best of all ways, nor any fixed order."""
    least = courses.least_checks()
    assert least > 1.0
    assert courses.checks_of(most_told) >= least - 1e-12
    for seed in range(12):
        order = Random(seed).sample(list(courses.model.checks), len(courses.model.checks))
        assert courses.checks_of(first_of(order)) >= least - 1e-12


def test_what_tells_most_is_near_the_least_on_the_tiny_set(courses: Courses) -> None:
    """Greedy by gain expects at most a tenth more checks than the optimum."""
    assert courses.checks_of(most_told) <= 1.1 * courses.least_checks()


def test_with_one_check_there_is_nothing_to_choose(beacon: SetModel) -> None:
    """One check that tells something is made, and then the course is over."""
    check = beacon.checks["supply.rail-volts"]
    assert Courses(beacon, (check,)).least_checks() == pytest.approx(1.0, abs=1e-12)
