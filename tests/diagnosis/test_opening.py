import pytest

from engine.diagnosis.case import Kit
from engine.diagnosis.model import SetModel
from engine.diagnosis.opening import case_file, open_case
from engine.errors import CaseError
from engine.knowledge.casefile import read_case
from tests.diagnosis.conftest import CaseOf

SAID = {
    "supply.dark": "no",
    "sender.power": "400 mW",
    "past.fell": "cannot-check",
    "sender.weak": "Nothing at all",
}


def test_a_case_is_saved_and_opened(beacon: SetModel, case_of: CaseOf) -> None:
    """Kit, findings, their order, and what was said."""
    case = case_of(beacon, SAID, Kit(frozenset({"multimeter", "dummy-load"}), "on"))
    document, source = read_case("saved.yaml", case_file(case))
    assert open_case(beacon, document, source) == case


PROBLEMS = """\
bad.yaml:3: kit.instruments.0: found 'multimetre', expected an instrument
  Did you mean 'multimeter'?
bad.yaml:5: findings.0.answer: found 'perhaps', expected one of yes, no, or cannot-check
  Known: cannot-check, no, yes.
bad.yaml:6: findings.1.check: found 'sender.powr', expected a check of this family
  Did you mean 'sender.power'?
bad.yaml:7: findings.2.answer: found 'VA' is no unit that is known here, expected a reading in W
  Write a number in W, or with its own unit.
bad.yaml:7: findings.2.check: found 'sender.power' again, expected each check once
  Keep the finding that holds.
bad.yaml:8: findings.3.answer: found 99 W, expected 0 to 10 W
  Did you mean 9.9 W? If not, look again at range, unit and decimal point; \
what is right: 3.5 to 4 W.
bad.yaml:8: findings.3.check: found 'sender.power' again, expected each check once
  Keep the finding that holds."""


@pytest.mark.parametrize(
    "text",
    [
        "{format: 1, family: beacon, findings: [{check: supply.dark, answer: yes}]}",
        '{"format": 1, "family": "beacon", "findings": [{"check": "supply.dark", "answer": true}]}',
        "format: 1\nfamily: beacon\nfindings:\n  - {check: supply.dark, answer: 'yes', note: x}\n",
    ],
    ids=["yaml", "json", "with a note"],
)
def test_yes_may_be_written_in_several_ways(text: str, beacon: SetModel) -> None:
    """JSON's true is a yes; a kit that is not named is everything, lid off."""
    case = open_case(beacon, *read_case("case", text))
    assert [finding.outcome for finding in case.findings] == ["yes"]
    assert case.kit == Kit(frozenset(beacon.instruments), "off")


def test_a_bare_number_is_in_the_unit_of_the_check(beacon: SetModel) -> None:
    """As one types it."""
    text = "{format: 1, family: beacon, findings: [{check: sender.power, answer: 0.9}]}"
    (finding,) = open_case(beacon, *read_case("case", text)).findings
    assert finding.value == 0.9


def test_all_problems_are_told_at_once(beacon: SetModel) -> None:
    """Each with its line, and in the order of the file."""
    text = """\
format: 1
family: beacon
kit: {instruments: [multimetre], lid: off}
findings:
  - {check: supply.dark, answer: perhaps}
  - {check: sender.powr, answer: 1 W}
  - {check: sender.power, answer: 4 VA}
  - {check: sender.power, answer: 99 W}
"""
    with pytest.raises(CaseError) as caught:
        open_case(beacon, *read_case("bad.yaml", text))
    assert str(caught.value) == PROBLEMS
