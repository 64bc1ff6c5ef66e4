import pytest

from engine.diagnosis.advising import advice
from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.effort import effort, least_share
from engine.diagnosis.advising.steps import WORTH_ASKING, WORTH_DOING, proposed
from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel
from tests.diagnosis.conftest import CaseOf, Edit, Edited

BENCH = "tables/instruments.yaml"
READY: tuple[Edit, ...] = (
    (BENCH, "instruments:\n", "each-check-min: 5\nlid-off-min: 4\ninstruments:\n"),
    (BENCH, "    title: Multimeter\n", "    title: Multimeter\n    ready-min: 1\n"),
    (BENCH, "    title: Power meter\n", "    title: Power meter\n    ready-min: 2\n"),
    (BENCH, "    title: Dummy load\n", "    title: Dummy load\n    ready-min: 3\n"),
)

TOLD = {"sender.weak": "nothing", "supply.dark": "no", "sender.power": "20 mW"}


@pytest.fixture(scope="module")
def handled(edited: Edited) -> SetModel:
    """Return the tiny set with minutes for getting ready."""
    return edited(*READY)


@pytest.mark.parametrize(
    ("said", "check", "minutes"),
    [
        ({}, "sender.power", 5 + 2 + 3 + 3),
        ({}, "sender.transistor-junctions", 5 + 4 + 1 + 6),
        ({}, "past.fell", 1),
        ({"supply.rail-volts": "13.6"}, "past.fell", 5 + 1),
        ({"supply.rail-volts": "13.6"}, "sender.transistor-junctions", 5 + 6),
        ({"supply.rail-volts": "cannot-check"}, "sender.transistor-junctions", 5 + 4 + 1 + 6),
        ({"sender.weak": "faint"}, "sender.transistor-junctions", 5 + 4 + 1 + 6),
    ],
)
def test_what_is_ready_is_not_counted_again(
    handled: SetModel, case_of: CaseOf, said: dict[str, str], check: str, minutes: float
) -> None:
    """The check's own minutes, those of every check at the bench, and what is not ready yet."""
    assert effort(handled, case_of(handled, said))(handled.checks[check]) == minutes


def test_an_advised_check_says_its_effort(handled: SetModel, case_of: CaseOf) -> None:
    """And its gain a minute is of effort, not of the check's own minutes."""
    checks = step(handled, case_of(handled, {"sender.weak": "faint"})).checks
    (power,) = [check for check in checks if check.id == "sender.power"]
    assert (power.minutes, power.effort_min) == (3, 13)
    assert power.bits_per_min == power.gain_bits / 13


def test_of_checks_that_tell_about_as_much_the_easiest_comes_first(
    handled: SetModel, case_of: CaseOf, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While nothing leads: the rail's volts tell a little less, and take less than half as long."""
    monkeypatch.setattr(advice, "LEADS", 1.0)
    now = step(handled, case_of(handled, TOLD))
    gains = [check.id for check in now.checks]
    assert gains.index("sender.transistor-junctions") < gains.index("supply.rail-volts")
    order = [check.id for check in proposed(now)]
    assert order.index("supply.rail-volts") < order.index("sender.transistor-junctions")


def test_a_check_that_tells_little_does_not_come_first_for_being_easy(
    handled: SetModel, case_of: CaseOf
) -> None:
    """Below a share of the best gain the rest follow by gain, however quick they are."""
    now = step(handled, case_of(handled, {"sender.weak": "faint"}))
    most = now.checks[0].gain_bits
    easy = [check.gain_bits >= WORTH_DOING * most for check in proposed(now)]
    assert easy == sorted(easy, reverse=True)
    rest = [check.gain_bits for check in proposed(now) if check.gain_bits < WORTH_DOING * most]
    assert len(rest) >= 2
    assert rest == sorted(rest, reverse=True)


def test_the_best_proposal_is_the_same_when_few_are_looked_at(
    handled: SetModel, case_of: CaseOf
) -> None:
    """Leaving out what cannot be among the best leaves the proposal as it is."""
    for said in ({}, {"sender.weak": "faint"}, {"supply.dark": "yes"}):
        case = case_of(handled, said, full_kit(handled))
        assert proposed(step(handled, case, 1))[0] == proposed(step(handled, case))[0]


@pytest.mark.parametrize(
    ("said", "share"),
    [
        ({}, WORTH_ASKING),
        ({"sender.weak": "faint"}, WORTH_ASKING),
        ({"sender.power": "cannot-check"}, WORTH_ASKING),
        ({"sender.power": "20 mW"}, WORTH_DOING),
    ],
)
def test_once_something_was_measured_a_question_must_tell_as_much_as_a_check(
    handled: SetModel, case_of: CaseOf, said: dict[str, str], share: float
) -> None:
    """Before, half of the best is enough for a question: it may spare the bench."""
    told = least_share(handled, case_of(handled, said))
    assert told(handled.checks["past.fell"]) == share
    assert told(handled.checks["sender.transistor-junctions"]) == WORTH_DOING


def test_a_set_that_hears_nobody_is_asked_about_its_squelch_first(model: SetModel) -> None:
    """A question that tells half as much as the best measurement comes before the bench."""
    heard = read_answer(model, "operating.hears-nobody", "yes")
    now = step(model, add_finding(Case(model.family.id, full_kit(model)), heard))
    order = [check.id for check in proposed(now)]
    assert order[0] == "operating.silent-with-squelch-open"
    assert "aerial-switching.power-at-socket" in order[1:5]
