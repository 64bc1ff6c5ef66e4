from dataclasses import replace
from math import log2

import pytest

from engine.diagnosis.advising import confirming
from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.ending import (
    Help,
    about_leaders,
    is_worn_out,
    what_would_help,
)
from engine.diagnosis.case import Case, Kit, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from tests.diagnosis.conftest import CaseOf

DARK = {"supply.dark": "yes"}
EYES = Kit(frozenset(), "on")


def about(model: SetModel, case: Case, check: str, cause: str) -> float:
    """Return what a check with named outcomes tells about one cause, by entering each outcome."""

    def there(*findings: object) -> float:
        fine = calibrated(model, (*case.evidence(), *findings)).posterior(cause)[0]  # type: ignore[arg-type]
        return 1.0 - fine

    def doubt(p: float) -> float:
        return -sum(q * log2(q) for q in (p, 1.0 - p) if q > 0.0)

    before = calibrated(model, case.evidence())
    states = before.posterior(model.checks[check].looks_at)
    told = doubt(there())
    for column, outcome in enumerate(model.checks[check].outcomes):
        shows = sum(
            p * row[column] for p, row in zip(states, model.checks[check].channel.rows, strict=True)
        )
        told -= shows * doubt(there(read_answer(model, check, outcome)))
    return told


@pytest.mark.parametrize("check", ["sender.weak", "past.fell", "sender.transistor-junctions"])
def test_what_a_check_tells_about_a_leader_is_worked_out_the_long_way(
    beacon: SetModel, case_of: CaseOf, check: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The largest of the gains about single leading causes."""
    monkeypatch.setattr(confirming, "TELLS_BITS", 0.0)
    case = case_of(beacon, DARK)
    now = step(beacon, case)
    longest = max(about(beacon, case, check, cause.id) for cause in confirming.suspects(now.causes))
    assert about_leaders(beacon, case, now)[check] == pytest.approx(longest, abs=1e-9)


def test_it_is_not_the_end_while_a_check_tells_a_fair_amount(
    beacon: SetModel, case_of: CaseOf
) -> None:
    """With all instruments much can be told about a dark set."""
    case = case_of(beacon, DARK)
    assert not is_worn_out(beacon, case, step(beacon, case))


def test_it_is_the_end_when_only_the_past_can_be_asked_for(
    beacon: SetModel, case_of: CaseOf
) -> None:
    """Whether it fell tells next to nothing about the one cause that is left."""
    said = {**DARK, "supply.rail-volts": "12 V", "sender.weak": "loud", "sender.power": "3.8 W"}
    case = replace(case_of(beacon, said), kit=EYES)
    now = step(beacon, case)
    assert [check.id for check in now.checks] == ["past.fell"]
    assert is_worn_out(beacon, case, now)


def test_what_would_help_names_what_is_missing(beacon: SetModel, case_of: CaseOf) -> None:
    """Only checks the kit does not allow, each lack once, the most for the fewest things first."""
    helps = what_would_help(beacon, replace(case_of(beacon, DARK), kit=EYES))
    assert helps
    assert all(each.instruments or each.lid_off for each in helps)
    assert all(each.gain_bits >= confirming.TELLS_BITS for each in helps)
    assert [each.worth for each in helps] == sorted((e.worth for e in helps), reverse=True)
    assert len({(each.instruments, each.lid_off) for each in helps}) == len(helps)


def test_nothing_helps_who_has_everything(beacon: SetModel, case_of: CaseOf) -> None:
    """There is nothing to fetch."""
    assert what_would_help(beacon, case_of(beacon, DARK)) == ()
    assert case_of(beacon, DARK).kit == full_kit(beacon)


def test_two_things_to_fetch_halve_the_worth() -> None:
    """An instrument and the lid off are two."""
    assert Help(("multimeter",), True, 0.5).worth == pytest.approx(0.25)
