"""Troubles that come and go: one noisy-or over all causes that may."""

import pytest

from engine.diagnosis.advising.advice import step
from engine.diagnosis.advising.explaining import explanations
from engine.diagnosis.advising.foresight import what_if
from engine.diagnosis.case import Case, Repair, add_finding, full_kit, repaired
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.making.compiling import compile_family
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present
from engine.diagnosis.storage import dump_model, load_model
from engine.errors import KnowledgeError
from engine.inference.past import branches_of
from engine.knowledge.library import load, read_texts
from tests.diagnosis.conftest import SMALL

TABLE = """\
occasions:
  knocked: {title: Changes with a knock, otherwise: 0.02, source: estimate}
checks:
  knock:
    kind: symptom
    title: Comes and goes with a knock
    asks: Does it?
    looks-at: knocked
    yes: {steady: 0, changes: 1}
    right: It does not.
    minutes: 1
    source: estimate
"""
JOINT = "    modes:\n      dry:"


def _texts() -> dict[str, str]:
    """Return the small knowledge base with joints that change with a knock."""
    texts = read_texts(SMALL)
    parts = texts["tables/parts.yaml"]
    assert parts.count(JOINT) == 1
    joint = parts.replace(JOINT, f"    comes-and-goes: {{knocked: 0.7}}\n{JOINT}")
    return texts | {"tables/parts.yaml": joint, "tables/coming-and-going.yaml": TABLE}


@pytest.fixture(scope="module")
def beacon() -> SetModel:
    """Return the small set, by way of what is stored."""
    return load_model(dump_model(compile_family(load(_texts()), "beacon")))


def _case(model: SetModel, *said: tuple[str, str]) -> Case:
    case = Case(model.family.id, full_kit(model))
    for check, answer in said:
        case = add_finding(case, read_answer(model, check, answer))
    return case


@pytest.mark.parametrize("answer", ["yes", "no"])
def test_a_joint_by_bayes(beacon: SetModel, answer: str) -> None:
    """P(joint | changes) by hand: seen with 1 - 0.98 x 0.3 when there, 0.02 when not."""
    prior = 1.0 - calibrated(beacon, ()).posterior("supply.fuse-joint")[0]
    there, not_there = 1.0 - 0.98 * 0.3, 0.02
    if answer == "no":
        there, not_there = 1.0 - there, 1.0 - not_there
    expected = prior * there / (prior * there + (1.0 - prior) * not_there)
    case = _case(beacon, ("set.knock", answer))
    found = {each.id: each.probability for each in step(beacon, case).causes}
    assert found["supply.fuse-joint"] == pytest.approx(expected, abs=1e-12)


def test_all_fine_and_stories_know_of_it(beacon: SetModel) -> None:
    """With nothing wrong it is told in two of a hundred; the best story is then the joint."""
    case = _case(beacon, ("set.knock", "yes"), ("supply.dark", "yes"))
    before = calibrated(beacon, ()).log2_evidence
    told = calibrated(beacon, case.findings).log2_evidence
    fine = beacon.p_all_fine * 0.02 * 0.02 / 2.0 ** (told - before)
    assert step(beacon, case).p_all_fine == pytest.approx(fine)
    story = explanations(beacon, case, 1)[0].causes
    assert ("supply.fuse-joint", "present") in story  # with the drop that cracked it


def test_it_is_advised_and_foreseen_like_any_check(beacon: SetModel) -> None:
    """It has a gain, and what each answer would do adds up."""
    case = _case(beacon, ("supply.dark", "yes"))
    advised = {each.id: each.gain_bits for each in step(beacon, case).checks}
    assert 0.0 < advised["set.knock"] < 1.0
    effects = {each.outcome: each.probability for each in what_if(beacon, case, "set.knock")}
    assert sum(effects.values()) == pytest.approx(1.0)
    seen = (
        2.0
        ** calibrated(
            beacon, _case(beacon, ("supply.dark", "yes"), ("set.knock", "yes")).findings
        ).log2_evidence
    )
    without = 2.0 ** calibrated(beacon, case.findings).log2_evidence
    assert effects["yes"] == pytest.approx(seen / without)


def test_a_knock_that_does_nothing_any_more_was_the_joint(beacon: SetModel) -> None:
    """Told again after the joint was made, it cannot have been fine; nor is that undone later."""
    case = repaired(_case(beacon, ("set.knock", "yes")), Repair("supply.fuse-joint", "replaced"))
    case = add_finding(case, read_answer(beacon, "set.knock", "no"))
    now = repaired(case, Repair("sender.preset", "adjusted"))
    for each in (case, now):
        branches = branches_of(present(beacon, each).model.tree)
        calibration = calibrated(present(beacon, each).model, present(beacon, each).findings)
        assert calibration.is_possible
        assert calibration.posterior("supply.fuse-joint") == pytest.approx([1.0, 0.0], abs=1e-12)
        assert all(branch.was[0] == 1 for branch in branches) == (each is now)


def test_what_the_table_does_not_know_is_told() -> None:
    """Occasions of parts and causes are held to the table, and its checks are never wrong."""
    texts = _texts()
    texts["tables/parts.yaml"] = texts["tables/parts.yaml"].replace("{knocked:", "{knoked:")
    texts["blocks/supply.yaml"] = texts["blocks/supply.yaml"].replace(
        "    act: Charge it.", "    act: Charge it.\n    comes-and-goes: {cold: 0.5}"
    )
    texts["tables/coming-and-going.yaml"] = TABLE.replace("steady: 0,", "steady: 0.1,")
    with pytest.raises(KnowledgeError) as caught:
        load(texts)
    assert str(caught.value) == MESSAGE


MESSAGE = """\
blocks/supply.yaml:18: causes.flat-battery.comes-and-goes.cold: found 'cold', expected an occasion \
of tables/coming-and-going.yaml
  Known: knocked.
tables/coming-and-going.yaml:9: checks.knock.yes: found else, expected {steady: 0, changes: 1}
  Put what is uncertain into 'otherwise' and the chances of the causes.
tables/parts.yaml:15: classes.joint.comes-and-goes.knoked: found 'knoked', expected an occasion \
of tables/coming-and-going.yaml
  Did you mean 'knocked'?"""
