from collections.abc import Callable

import pytest

from engine.diagnosis.case import Case, full_kit
from engine.diagnosis.model import SetModel
from engine.setting_up.sheet import Step, steps


@pytest.fixture(scope="session")
def case(model: SetModel) -> Case:
    """Return the three-crystal set on a bench with every instrument."""
    return Case(model.family.id, full_kit(model))


@pytest.fixture(scope="session")
def step_of(model: SetModel, case: Case) -> Callable[[str], Step]:
    """Return what finds a step of the whole sheet by its adjustment."""
    sheet = {step.id: step for step in steps(model, case)}
    return sheet.__getitem__
