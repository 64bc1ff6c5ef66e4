from collections import defaultdict
from collections.abc import Iterator, Mapping
from math import log2, log10

import pytest

from engine.diagnosis.advising.explaining import explanations, why
from engine.diagnosis.case import Case
from engine.diagnosis.evidence import calibrated, likelihood
from engine.diagnosis.model import SetModel
from engine.inference.cut_sets import evaluate, is_basic
from engine.inference.network import Network
from tests.diagnosis.conftest import CaseOf

SAID = {
    "supply.dark": "no",
    "sender.weak": "nothing",
    "past.fell": "cannot check",
    "sender.power": "0.03 W",
    "supply.rail-volts": "12.9 V",
}
ALL = 5000  # more than there are ways in which the causes of the tiny set can be


def decibans(p: float) -> float:
    """Return 10 log10 of the odds."""
    return 10.0 * log10(p / (1.0 - p))


def there(model: SetModel, case: Case, cause: str) -> float:
    """Return P(the cause is there | the findings)."""
    return 1.0 - calibrated(model, case.evidence()).posterior(cause)[0]


@pytest.mark.parametrize("cause", ["sender.preset", "supply.flat-battery", "past.drop"])
def test_weights_add_up_exactly(cause: str, beacon: SetModel, case_of: CaseOf) -> None:
    """From the prior, over every finding in its order, to the posterior."""
    case = case_of(beacon, SAID)
    reasons = why(beacon, case, cause)
    total = reasons.prior_decibans + sum(weight for _, weight in reasons.findings)
    assert total == pytest.approx(reasons.posterior_decibans, abs=1e-9)
    assert tuple(finding for finding, _ in reasons.findings) == case.evidence()
    assert reasons.prior_decibans == pytest.approx(decibans(beacon.causes[cause].prior), abs=1e-9)
    now = decibans(there(beacon, case, cause))
    assert reasons.posterior_decibans == pytest.approx(now, abs=1e-6)


def test_a_finding_weighs_what_it_changed(beacon: SetModel, case_of: CaseOf) -> None:
    """The odds after it, against those before it."""
    names = [name for name in SAID if name != "past.fell"]
    reasons = why(beacon, case_of(beacon, SAID), "sender.preset")
    for number, (finding, weight) in enumerate(reasons.findings):
        before, after = (
            there(
                beacon, case_of(beacon, {name: SAID[name] for name in names[:n]}), "sender.preset"
            )
            for n in (number, number + 1)
        )
        assert finding.check == names[number]
        assert weight == pytest.approx(decibans(after) - decibans(before), abs=1e-6)


def test_what_speaks_for_a_cause_has_a_plus(beacon: SetModel, case_of: CaseOf) -> None:
    """No power with a right rail: for the preset, against the battery."""
    case = case_of(beacon, SAID)
    preset = {f.check: w for f, w in why(beacon, case, "sender.preset").findings}
    battery = {f.check: w for f, w in why(beacon, case, "supply.flat-battery").findings}
    assert preset["sender.weak"] > 0.0
    assert battery["supply.rail-volts"] < -10.0


def test_explanations_are_all_there_is(beacon: SetModel, case_of: CaseOf) -> None:
    """Asked for all of them, their chances sum to 1, falling, and none comes twice."""
    found = explanations(beacon, case_of(beacon, SAID), ALL)
    assert sum(one.probability for one in found) == pytest.approx(1.0, abs=1e-9)
    chances = [one.probability for one in found]
    assert chances == sorted(chances, reverse=True)
    assert len({one.causes for one in found}) == len(found) < ALL


def test_explanations_agree_with_the_posteriors(beacon: SetModel, case_of: CaseOf) -> None:
    """A cause, and each way of it, is as likely as all explanations with it in them."""
    case = case_of(beacon, SAID)
    total: dict[tuple[str, str], float] = defaultdict(float)
    for one in explanations(beacon, case, ALL):
        for cause, way in one.causes:
            total[cause, way] += one.probability
    for name, cause in beacon.causes.items():
        posterior = calibrated(beacon, case.evidence()).posterior(name)[1:]
        assert [total[name, way] for way in cause.ways] == pytest.approx(posterior, abs=1e-9)


def test_the_best_few_are_the_head_of_all(beacon: SetModel, case_of: CaseOf) -> None:
    """Looking no farther than asked changes nothing."""
    case = case_of(beacon, SAID)
    assert explanations(beacon, case, 4) == explanations(beacon, case, ALL)[:4]


def test_two_faults_can_explain_together(beacon: SetModel, case_of: CaseOf) -> None:
    """Low volts and no power at all: a weak battery, and something in the sender beside it."""
    said = {
        "supply.rail-volts": "9 V",
        "supply.dark": "no",
        "sender.power": "0.03 W",
        "sender.weak": "nothing",
    }
    best, *_ = explanations(beacon, case_of(beacon, said), 1)
    assert best.causes == (("supply.flat-battery", "weak"), ("sender.preset", "present"))


def test_explanations_of_the_whole_set_are_right_one_by_one(
    model: SetModel, net: Network, case_of: CaseOf
) -> None:
    """Each is the product of all priors in that state and the likelihoods, over P(findings)."""
    said = {"on-off-switch.signs-of-life": "no", "supply-input.fuse-look": "no"}
    case = case_of(model, said)
    total = calibrated(model, case.findings).log2_evidence
    for one in explanations(model, case, 12):
        truth = evaluate(net, happened(net, one.causes))
        log2_p = sum(log2(p) for p in basic_chances(net, truth))
        for finding in case.findings:
            looks_at = model.checks[finding.check].looks_at
            log2_p += log2(likelihood(model, finding)[truth[looks_at]])
        assert one.probability == pytest.approx(2.0 ** (log2_p - total), rel=1e-9), one.causes


def happened(net: Network, causes: tuple[tuple[str, str], ...]) -> dict[str, str]:
    """Return the state of every root; an event is a state of the past that its gate reads."""
    events = {}
    for cause, way in causes:
        node = net.nodes[cause]
        root, state = (cause, way) if is_basic(node) else (node.parents[0], cause.split(".")[1])
        events[root] = state
    return events


def basic_chances(net: Network, truth: Mapping[str, int]) -> Iterator[float]:
    """Yield P(state of a cause | states of its parents) for all causes of a set."""
    for name, node in net.nodes.items():
        if is_basic(node):
            yield node.table[(*(truth[parent] for parent in node.parents), truth[name])]
