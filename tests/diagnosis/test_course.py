import pytest

from engine.diagnosis.advice import step
from engine.diagnosis.case import CANNOT_CHECK, Case, add_finding, full_kit
from engine.diagnosis.course import course
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel


def _answers(model: SetModel) -> list[tuple[str, str]]:
    """Return answers to a symptom and to two readings of the set, right as they should be."""
    readings = [c for c in model.checks.values() if c.meter is not None and c.at is None][:2]
    symptom = model.symptoms[0]
    told = [(each.id, f"{each.meter.spreads[0].low:g}") for each in readings if each.meter]
    return [(symptom, next(iter(model.checks[symptom].outcomes))), *told]


def test_each_stage_is_the_step_of_the_case_so_far(model: SetModel) -> None:
    """After every finding, doubt and leading cause are those of the step of that shorter case."""
    case = Case(model.family.id, full_kit(model), ())
    shorter = [case]
    for check, said in _answers(model):
        case = add_finding(case, read_answer(model, check, said))
        shorter.append(case)
    stages = course(model, case)
    assert [each.finding for each in stages] == [None, *case.findings]
    for stage, so_far in zip(stages, shorter, strict=True):
        now = step(model, so_far, 1)
        leading = next(each for each in now.causes if each.kind != "event")
        assert stage.entropy_bits == pytest.approx(now.entropy_bits, abs=1e-9)
        assert (stage.cause, stage.probability) == (leading.id, leading.probability)


def test_what_could_not_be_checked_is_no_stage(model: SetModel) -> None:
    """A check that could not be made tells nothing, so it has no place in the course."""
    case = Case(model.family.id, full_kit(model), ())
    case = add_finding(case, read_answer(model, model.symptoms[0], CANNOT_CHECK))
    assert [each.finding for each in course(model, case)] == [None]
