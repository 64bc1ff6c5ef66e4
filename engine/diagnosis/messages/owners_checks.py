"""Which checks a stranger may be asked to make: an owner at home, known by a message only."""

from engine.diagnosis.advising.presuming import proposable
from engine.diagnosis.case import Case
from engine.diagnosis.model import CheckText
from engine.diagnosis.repairing.present import Present
from engine.inference.past import noisy_gain
from engine.inference.propagation import Calibration

LONGEST_MIN = 15.0  # nobody does more for one question
MOST_CAUTIONS = 3
# Cautions that a few written words are enough for. Ladders, vehicle batteries, mains and work
# inside a set are left to somebody who stands beside it.
ENOUGH_IN_WRITING = frozenset(
    {
        "brief-keying",
        "cells",
        "discharge",
        "floating-chassis",
        "load-or-aerial",
        "loud-noise",
        "polarity-and-fuse",
        "probe-slip",
        "whip-and-eyes",
    }
)
KEYED = "transmit"
LOAD, LOAD_OR_AERIAL = "dummy-load", "load-or-aerial"


def for_the_owner(
    now: Present, case: Case, calibration: Calibration, left_out: frozenset[str]
) -> list[CheckText]:
    """Return the checks still to be made that the owner's kit allows and that are safe to ask for.

    Frequencies, and what comes and goes, are left out: what they tell beside other answers is not
    worked out exactly.
    """
    model, made = now.model, now.made | left_out
    open_ = (
        check
        for check in model.checks.values()
        if check.id not in made and case.kit.allows(check) and is_safe_to_ask(check)
    )
    exact = (each for each in open_ if noisy_gain(calibration, each.looks_at) is None)
    return proposable(model, calibration, exact)


def is_safe_to_ask(check: CheckText) -> bool:
    """Say whether a check is short and safe enough to be asked for in writing.

    The button is pressed only into a load, or into the usual aerial with the words about it.
    """
    if check.at is not None or check.minutes > LONGEST_MIN or len(check.cautions) > MOST_CAUTIONS:
        return False
    if check.mode == KEYED and LOAD not in check.needs and LOAD_OR_AERIAL not in check.cautions:
        return False
    said = {"dummy-load-first"} if LOAD in check.needs else set()
    return set(check.cautions) <= ENOUGH_IN_WRITING | said
