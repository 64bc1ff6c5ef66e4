"""Questions chosen as a set, against all pairs worked out one by one."""

from itertools import combinations
from math import exp

import pytest

from engine.diagnosis.advising.advice import advised_checks
from engine.diagnosis.case import Case, Finding, Kit, add_finding
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.messages.asking_back import NEARLY, Questions, asking_back, columns_of
from engine.diagnosis.messages.owners_checks import ENOUGH_IN_WRITING, for_the_owner, is_safe_to_ask
from engine.diagnosis.model import SetModel
from engine.diagnosis.repairing.present import present
from engine.inference.gain import information_gain
from tests.diagnosis.conftest import CaseOf, Edited

EYES_AND_EARS = Kit(frozenset(), "on")
AGAIN = """  weak-again:
    kind: question
    title: A second voice says so
    asks: Does another neighbour hear you weakly?
    looks-at: output
    outcomes:
      loud: {title: As loud as ever, means: [right]}
      faint: {title: Faint, means: [low]}
      nothing: {title: Nothing at all, means: [absent]}
    wrong: 0.12
    right: Others hear you clearly.
    minutes: 2
    source: common practice
  power:
"""


@pytest.fixture(scope="module")
def complaint(model: SetModel) -> Case:
    """Return a stranger's case: nobody hears the set, no instrument, lid on."""
    case = Case(model.family.id, EYES_AND_EARS)
    return add_finding(case, read_answer(model, "operating.no-trace-at-others", "yes"))


def gains(model: SetModel, case: Case) -> dict[str, float]:
    """Return what each check tells on its own after the findings of a case."""
    advised = advised_checks(present(model, case), case, calibrated(model, case.evidence()))
    return {each.id: each.gain_bits for each in advised}


def after_each_answer(model: SetModel, case: Case, check: str) -> list[tuple[float, Case]]:
    """Return each named answer to a check: how likely it is, and the case with it entered."""
    states = calibrated(model, case.evidence()).posterior(model.checks[check].looks_at)
    rows = model.checks[check].channel.rows
    return [
        (
            sum(p * row[column] for p, row in zip(states, rows, strict=True)),
            add_finding(case, Finding(check, outcome, None, outcome)),
        )
        for column, outcome in enumerate(model.checks[check].outcomes)
    ]


def all_pairs(model: SetModel, case: Case, names: list[str]) -> dict[tuple[str, str], float]:
    """Return what every pair tells: I(a) + sum over answers of P(answer) I(b | answer)."""
    alone, told = gains(model, case), {}
    for one in names:
        answers = [
            (chance, gains_anyhow(model, then, names))
            for chance, then in after_each_answer(model, case, one)
        ]
        for other in names:
            if other != one:
                told[one, other] = alone[one] + sum(p * then[other] for p, then in answers)
    return told


def gains_anyhow(model: SetModel, case: Case, names: list[str]) -> dict[str, float]:
    """Return the gains of `names` even where the answers so far make them senseless."""
    found = calibrated(model, case.evidence())
    checks = [model.checks[name] for name in names]
    return {c.id: information_gain(found.posterior(c.looks_at), c.channel) for c in checks}


def test_a_pair_is_as_good_as_promised_against_all_pairs(model: SetModel, complaint: Case) -> None:
    """Never below 1 - e^-0.8 of the best pair; here it has over nine tenths of it."""
    open_ = for_the_owner(
        present(model, complaint), complaint, calibrated(model, complaint.evidence()), frozenset()
    )
    alone = gains(model, complaint)
    names = sorted((c.id for c in open_ if c.outcomes), key=lambda name: -alone[name])[:24]
    told = all_pairs(model, complaint, names)
    best = max(told.values())
    found = asking_back(model, complaint, most=2)
    first, second = found.checks
    assert found.bits == pytest.approx(told[first, second], abs=1e-3)  # states below 1e-4 left out
    assert found.bits >= (1 - exp(-NEARLY)) * best
    assert found.bits >= 0.9 * best
    for one, other in combinations(names, 2):
        assert told[one, other] == pytest.approx(told[other, one], abs=1e-9)


def test_a_second_question_about_the_same_thing_is_not_asked(
    edited: Edited, case_of: CaseOf
) -> None:
    """The copy tells second most on its own, but less beside the first than something else."""
    model = edited(("blocks/sender.yaml", "  power:\n", AGAIN))
    case = case_of(model, {}, EYES_AND_EARS)
    alone = gains(model, case)
    ranked = sorted(alone, key=lambda name: -alone[name])
    assert ranked[:2] == ["sender.weak", "sender.weak-again"]
    assert asking_back(model, case, most=2).checks == ("sender.weak", "past.fell")


def test_what_is_left_out_is_replaced(model: SetModel, complaint: Case) -> None:
    """A question the help desk does not want gives way to another."""
    found = asking_back(model, complaint)
    other = asking_back(model, complaint, left_out=found.checks[:1])
    assert len(found.checks) == len(other.checks) == 3
    assert found.checks[0] not in other.checks


def test_with_nothing_to_ask_there_is_no_question(edited: Edited, case_of: CaseOf) -> None:
    """Every check that the owner can make was made."""
    said = {"sender.weak": "faint", "supply.dark": "no", "past.fell": "no"}
    model = edited()
    assert asking_back(model, case_of(model, said, EYES_AND_EARS)) == Questions((), ())


def test_cells_of_a_reading_that_speak_alike_are_one(model: SetModel) -> None:
    """What they tell together is what they tell apart, to a thousandth of a bit."""
    check = model.checks["supply.supply-volts"]
    merged = columns_of(check)
    assert len(merged) < len(check.channel.rows[0])
    for row, whole in zip(zip(*merged, strict=True), check.channel.rows, strict=True):
        assert sum(row) == pytest.approx(sum(whole), abs=1e-9)


def test_only_safe_checks_are_asked_for(model: SetModel) -> None:
    """Keying has its load or the usual aerial; ladders, batteries and the inside are left out."""
    asked = [check for check in model.checks.values() if is_safe_to_ask(check)]
    for check in asked:
        if check.mode == "transmit":
            assert "load-or-aerial" in check.cautions or "dummy-load" in check.needs, check.id
        assert not {"aerial-work", "battery", "mains-supply"} & set(check.cautions), check.id
    assert not is_safe_to_ask(model.checks["operating.swr-reads-high"])  # has to do with an aerial


def test_the_cautions_named_are_those_of_the_knowledge(model: SetModel) -> None:
    """A caution that is renamed there has to be renamed here."""
    assert set(model.cautions) >= ENOUGH_IN_WRITING | {"dummy-load-first"}
