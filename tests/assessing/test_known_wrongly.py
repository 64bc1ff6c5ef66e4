import pytest

from engine.assessing.known_wrongly import FARTHEST_OFF, errs_more, known
from engine.diagnosis.model import SetModel
from engine.inference.noisy_or import NoisyTree
from engine.inference.propagation import calibrate
from engine.knowledge.library import Library


def test_priors_are_off_by_three_at_most_and_the_tables_follow(
    beacon: SetModel, library: Library
) -> None:
    """Every cause has a prior of its own, and the tree gives the very same; the set keeps its."""
    wrong = known(beacon, library, "priors", 1)
    assert wrong.truth is beacon
    tree = wrong.tool.tree
    tables = calibrate(tree.inner if isinstance(tree, NoisyTree) else tree, {})
    moved = []
    for cause in wrong.tool.causes.values():
        if cause.kind != "event":
            moved.append(cause.prior / beacon.causes[cause.id].prior)
            assert sum(tables.posterior(cause.id)[1:]) == pytest.approx(cause.prior, rel=1e-9)
    assert all(1.0 / FARTHEST_OFF <= factor <= FARTHEST_OFF for factor in moved)
    assert max(moved) / min(moved) > 1.5


def test_answers_err_twice_as_often_as_the_tool_believes(
    beacon: SetModel, library: Library
) -> None:
    """What is likeliest stays so; numbers are misread twice as often."""
    wrong = known(beacon, library, "errors", 1)
    assert wrong.tool is beacon
    before, after = (m.checks["supply.dark"].channel.rows for m in (beacon, wrong.truth))
    assert before[0] == pytest.approx((0.02, 0.98))
    assert after[0] == pytest.approx((0.04, 0.96))
    meters = [m.checks["supply.rail-volts"].meter for m in (beacon, wrong.truth)]
    assert meters[1].slip == pytest.approx(2.0 * meters[0].slip)


@pytest.mark.parametrize(
    ("row", "more"),
    [
        ((1.0, 0.0), [1.0, 0.0]),
        ((0.7, 0.3), [0.5, 0.5]),
        ((0.4, 0.3, 0.3), [0.4, 0.3, 0.3]),
    ],
    ids=["never wrong", "no more than a half", "already more than a half"],
)
def test_errors_stay_possible(row: tuple[float, ...], more: list[float]) -> None:
    """A row keeps its sum, and no check is turned round."""
    assert errs_more(row) == pytest.approx(more)


def test_missing_links_are_missing_in_the_tool_alone(beacon: SetModel, library: Library) -> None:
    """With the seed of this test a link is gone: some cause no longer moves what it did."""
    found = [known(beacon, library, "links", seed) for seed in range(12)]
    assert all(wrong.truth is beacon for wrong in found)
    assert all(wrong.tool.checks.keys() == beacon.checks.keys() for wrong in found)
    assert len({wrong.tool.version for wrong in found}) > 1
    again = known(beacon, library, "links", 3)
    assert again.tool.version == found[3].tool.version
