import pytest

from engine.diagnosis.advising import advice, confirming
from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.steps import Verdict, proposed
from engine.diagnosis.case import Kit
from engine.diagnosis.model import SetModel
from tests.diagnosis.advising.test_ending import about
from tests.diagnosis.conftest import CaseOf

TOLD = {"sender.weak": "nothing", "supply.dark": "no", "sender.power": "20 mW"}
PRESET = "sender.preset"
JUNCTIONS = "sender.transistor-junctions"


@pytest.fixture
def nearly(beacon: SetModel, case_of: CaseOf, monkeypatch: pytest.MonkeyPatch) -> float:
    """Return how likely the leading cause is, with the bounds laid around that."""
    lead = step(beacon, case_of(beacon, TOLD)).causes[0]
    assert lead.id == PRESET
    monkeypatch.setattr(advice, "NEARLY_SURE", lead.probability - 0.01)
    monkeypatch.setattr(advice, "SURE", lead.probability + 0.01)
    return lead.probability


@pytest.fixture
def leading(beacon: SetModel, case_of: CaseOf, monkeypatch: pytest.MonkeyPatch) -> float:
    """Return how likely the leading cause is, which is a little too little to be nearly sure."""
    lead = step(beacon, case_of(beacon, TOLD)).causes[0]
    monkeypatch.setattr(advice, "NEARLY_SURE", lead.probability + 0.01)
    return lead.probability


@pytest.mark.usefixtures("nearly")
def test_what_is_nearly_sure_is_confirmed_first(beacon: SetModel, case_of: CaseOf) -> None:
    """The verdict names the cause, and the check that tells most about it alone comes first."""
    case = case_of(beacon, TOLD)
    now = step(beacon, case)
    assert now.verdict == Verdict("confirm", (PRESET,))
    assert now.confirming[0] == JUNCTIONS
    assert [check.id for check in proposed(now)][: len(now.confirming)] == list(now.confirming)
    told = {check: about(beacon, case, check, PRESET) for check in (JUNCTIONS, "past.fell")}
    assert told[JUNCTIONS] > 0.05
    assert (told["past.fell"] > 0.05) == ("past.fell" in now.confirming)


@pytest.mark.usefixtures("nearly")
def test_few_checks_looked_at_confirm_the_same(beacon: SetModel, case_of: CaseOf) -> None:
    """A check about the leading cause is not lost because others tell more about everything."""
    case = case_of(beacon, TOLD)
    assert step(beacon, case, 1).confirming == step(beacon, case).confirming


@pytest.mark.usefixtures("nearly")
def test_with_nothing_to_confirm_it_by_it_is_acted_on(beacon: SetModel, case_of: CaseOf) -> None:
    """With bare eyes and the lid on there is no such check."""
    now = step(beacon, case_of(beacon, TOLD, Kit(frozenset(), "on")))
    assert (now.verdict, now.confirming) == (Verdict("act", (PRESET,)), ())


def test_what_is_sure_needs_no_more(
    beacon: SetModel, case_of: CaseOf, monkeypatch: pytest.MonkeyPatch
) -> None:
    """From a chance of SURE on it is acted on, whatever could still be checked."""
    monkeypatch.setattr(advice, "NEARLY_SURE", 0.1)
    monkeypatch.setattr(advice, "SURE", 0.2)
    now = step(beacon, case_of(beacon, TOLD))
    assert now.verdict.kind == "act"
    assert now.confirming == ()


def test_what_leads_is_asked_about_before_anything_else(
    beacon: SetModel, case_of: CaseOf, leading: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Long before it is nearly sure; the verdict stays to measure."""
    case = case_of(beacon, TOLD)
    monkeypatch.setattr(advice, "SURE", leading + 0.02)
    monkeypatch.setattr(advice, "LEADS", leading - 0.01)
    now = step(beacon, case)
    assert (now.verdict.kind, now.confirming[0]) == ("measure", JUNCTIONS)
    monkeypatch.setattr(advice, "LEADS", leading + 0.005)
    assert step(beacon, case).confirming == ()


def test_measuring_ends_where_nothing_is_told_about_any_suspect(
    beacon: SetModel, case_of: CaseOf, leading: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A check that still tells of everything at large does not keep it going."""
    case = case_of(beacon, TOLD)
    monkeypatch.setattr(confirming, "TELLS_BITS", 2.0)
    now = step(beacon, case)
    assert now.checks[0].gain_bits > advice.WORTH_BITS
    assert now.verdict == Verdict("no-check-left", (PRESET,))
    monkeypatch.setattr(advice, "STANDS_OUT", leading + 0.005)
    assert step(beacon, case).verdict.kind == "measure"
