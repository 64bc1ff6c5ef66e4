from math import log2

import pytest

from engine.diagnosis.advising.advice import DOUBT_BITS, step
from engine.diagnosis.advising.conflict import conflict_bits, doubts, smallest_clash
from engine.diagnosis.case import Finding
from engine.diagnosis.evidence import calibrated, likelihoods
from engine.diagnosis.making.building import build_network
from engine.diagnosis.model import SetModel
from tests import oracles
from tests.diagnosis.conftest import NEVER_WRONG, CaseOf, small_library

AGREE = {"supply.dark": "yes", "sender.weak": "nothing", "supply.rail-volts": "0.1 V"}
DISAGREE = {"supply.dark": "yes", "sender.weak": "loud", "supply.rail-volts": "13.1 V"}


def log2_p(model: SetModel, findings: tuple[Finding, ...]) -> float:
    """Return log2 P(findings)."""
    return calibrated(model, findings).log2_evidence


def test_findings_of_one_fault_support_each_other(beacon: SetModel, case_of: CaseOf) -> None:
    """Together they are far likelier than by chance: the figure is negative."""
    assert conflict_bits(beacon, case_of(beacon, AGREE).findings) < -5.0


def test_findings_that_contradict_each_other_conflict(beacon: SetModel, case_of: CaseOf) -> None:
    """Together they are less likely than by chance: the figure is positive."""
    assert conflict_bits(beacon, case_of(beacon, DISAGREE).findings) > 0.5


@pytest.mark.parametrize("said", [AGREE, DISAGREE], ids=["agree", "disagree"])
def test_the_figure_is_that_of_its_definition(
    said: dict[str, str], beacon: SetModel, case_of: CaseOf
) -> None:
    """Log2 of the product of P(finding), over P(all findings)."""
    findings = case_of(beacon, said).findings
    alone = sum(log2_p(beacon, (finding,)) for finding in findings)
    expected = alone - log2_p(beacon, findings)
    assert conflict_bits(beacon, findings) == pytest.approx(expected, abs=1e-9)


def test_one_finding_cannot_conflict(beacon: SetModel, case_of: CaseOf) -> None:
    """Nor can none."""
    findings = case_of(beacon, {"supply.dark": "yes"}).findings
    assert conflict_bits(beacon, findings) == pytest.approx(0.0, abs=1e-9)
    assert conflict_bits(beacon, ()) == 0.0


@pytest.mark.parametrize("said", [AGREE, DISAGREE], ids=["agree", "disagree"])
def test_a_doubt_is_how_much_less_likely_the_others_make_a_finding(
    said: dict[str, str], beacon: SetModel, case_of: CaseOf
) -> None:
    """Log2 of P(finding) over P(finding | all others), each worked out by itself."""
    findings = case_of(beacon, said).findings
    for finding, bits in doubts(beacon, findings):
        others = tuple(other for other in findings if other != finding)
        given_others = log2_p(beacon, findings) - log2_p(beacon, others)
        expected = log2_p(beacon, (finding,)) - given_others
        assert bits == pytest.approx(expected, abs=1e-9), finding.check


def test_a_doubt_about_a_finding_that_is_never_wrong(certain: SetModel, case_of: CaseOf) -> None:
    """Where a likelihood is 0 the short cut has no answer, and the long way is taken."""
    findings = case_of(certain, {"supply.dark": "yes", "supply.rail-volts": "13.1 V"}).findings
    rows = dict(doubts(certain, findings))
    for finding in findings:
        others = tuple(other for other in findings if other != finding)
        given_others = log2_p(certain, findings) - log2_p(certain, others)
        expected = log2_p(certain, (finding,)) - given_others
        assert rows[finding] == pytest.approx(expected, abs=1e-9), finding.check


def test_the_odd_one_out_is_doubted_most(beacon: SetModel, case_of: CaseOf) -> None:
    """Three findings say that all is well, one that the rail is absent."""
    case = case_of(
        beacon,
        {
            "sender.weak": "loud",
            "sender.power": "3.8 W",
            "supply.rail-volts": "0.1 V",
            "supply.dark": "no",
        },
    )
    (finding, bits), *rest = doubts(beacon, case.findings)
    assert finding.check == "supply.rail-volts"
    assert bits > DOUBT_BITS
    assert all(bits >= other for _, other in rest)
    assert step(beacon, case).doubts[0] == (finding, bits)


def test_supporting_findings_raise_no_doubt(beacon: SetModel, case_of: CaseOf) -> None:
    """Nothing stands in the step."""
    assert step(beacon, case_of(beacon, AGREE)).doubts == ()


def test_the_smallest_set_that_clashes_is_named(certain: SetModel, case_of: CaseOf) -> None:
    """Of five findings two rule each other out; the three in between are none of it."""
    case = case_of(
        certain,
        {
            "past.fell": "yes",
            "supply.dark": "yes",
            "supply.rail-volts": "0.2 V",
            "sender.transistor-junctions": "no",
            "sender.weak": "loud",
        },
    )
    assert not calibrated(certain, case.findings).is_possible
    clash = smallest_clash(certain, case.findings)
    assert [finding.check for finding in clash] == ["supply.dark", "sender.weak"]


def test_what_is_possible_has_no_clash(certain: SetModel, case_of: CaseOf) -> None:
    """However unlikely it is: as unlikely as the enumeration of every world says."""
    findings = case_of(certain, {"supply.dark": "yes", "supply.rail-volts": "13 V"}).findings
    assert smallest_clash(certain, findings) == ()
    library = small_library(*NEVER_WRONG)
    net = build_network(library, library.families["beacon"])
    rows = oracles.joint(net, likelihoods(certain, findings))
    assert log2_p(certain, findings) == pytest.approx(log2(oracles.p_evidence(rows)), abs=1e-9)
