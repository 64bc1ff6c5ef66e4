import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.course import course
from engine.diagnosis.advising.steps import mendable
from engine.diagnosis.case import CANNOT_CHECK, Case, Repair, add_finding, full_kit, repaired
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


def test_a_repair_is_a_stage_of_its_own(model: SetModel) -> None:
    """What was known before it stays as it was; after it comes the step of the mended set."""
    case = Case(model.family.id, full_kit(model), ())
    for check, said in _answers(model):
        case = add_finding(case, read_answer(model, check, said))
    before = course(model, case)
    cause = mendable(step(model, case, 1).causes)[0].id
    mended = repaired(case, Repair(cause, "replaced"))
    again = add_finding(mended, read_answer(model, *_answers(model)[1]))
    stages = course(model, again)
    assert stages[: len(before)] == before
    after, last = stages[len(before) :]
    assert (after.finding, after.repair) == (None, Repair(cause, "replaced"))
    assert after.entropy_bits == pytest.approx(step(model, mended, 1).entropy_bits, abs=1e-9)
    assert (last.finding, last.repair) == (again.findings[0], None)
    assert last.probability == pytest.approx(mendable(step(model, again, 1).causes)[0].probability)
