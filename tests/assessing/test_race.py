"""Other libraries and ours: the same outputs, and a library that fails takes nothing with it."""

import os
import time
from typing import Any

import pytest

from engine.assessing.other_libraries import WAYS
from engine.assessing.race import family_job, race, size_job
from engine.diagnosis.making.building import build_network
from engine.diagnosis.model import SetModel
from engine.knowledge.library import Library


@pytest.mark.parametrize("way", WAYS)
def test_a_library_finds_the_same(way: str) -> None:
    """All posteriors and gains after a finding changed are ours, by each of its ways."""
    outcome = race(size_job(24), WAYS[way])
    assert outcome.trouble == ""
    assert outcome.apart <= 1e-12
    assert min(outcome.theirs_ms, outcome.ours_ms) > 0.0


def test_a_kind_of_set_is_asked_for_every_cause_and_check(
    beacon: SetModel, library: Library
) -> None:
    """Its first symptoms are held, and no check that looks at the tables is left out."""
    job = family_job(beacon, build_network(library.of("beacon"), library.families["beacon"]))
    assert set(job.causes) == set(beacon.causes)
    assert len(job.looks) == len(beacon.checks)
    assert job.changing not in job.held


def test_no_two_findings_are_alike() -> None:
    """So that no answer kept from before serves again."""
    rows = list(map(tuple, size_job(24).rows()))
    assert len(set(rows)) == len(rows)


@pytest.mark.parametrize(
    ("ready", "given", "limit_s", "told"),
    [
        (os._exit, 3, 60.0, "ended its process, exit code 3"),
        (int, "x", 60.0, "ValueError: invalid literal for int() with base 10: 'x'"),
        (bytes, 2**62, 60.0, "more than 6 GB of memory"),
        (time.sleep, 60, 1.0, "not done in 1 s"),
    ],
)
def test_what_went_wrong_is_told(ready: Any, given: Any, limit_s: float, told: str) -> None:
    """A library may end its process, raise, need too much or take too long."""
    assert race(given, ready, limit_s).trouble == told
