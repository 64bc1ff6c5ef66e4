import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.in_block import checks_in, signals_in
from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel

BLOCKS = ("supply", "vco", "operating")


@pytest.fixture(scope="module")
def case(model: SetModel) -> Case:
    """Return a case with a symptom, as the first set has it."""
    case = Case(model.family.id, full_kit(model), ())
    return add_finding(case, read_answer(model, "operating.no-trace-at-others", "yes"))


@pytest.mark.parametrize("block", BLOCKS)
def test_checks_of_a_block_are_those_of_the_step(model: SetModel, case: Case, block: str) -> None:
    """The same checks with the same gains as in the whole step, none of another block."""
    whole = [each for each in step(model, case).checks if each.id.startswith(f"{block}.")]
    inside = checks_in(model, case, block)
    assert [each.id for each in inside] == [each.id for each in whole]
    assert [each.gain_bits for each in inside] == pytest.approx([c.gain_bits for c in whole])


def test_beliefs_are_the_posteriors_of_the_signals(model: SetModel, case: Case) -> None:
    """Each signal has the posterior of its states, the one least likely right first."""
    known = calibrated(model, case.evidence())
    rows = signals_in(model, case, "driver")
    assert rows
    for row in rows:
        assert [p for _, p in row.states] == known.posterior(row.signal)
    assert [row.right for row in rows] == sorted(row.right for row in rows)
