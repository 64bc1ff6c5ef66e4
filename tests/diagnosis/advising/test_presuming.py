from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case, full_kit
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model, load_model
from tests.diagnosis.conftest import CaseOf, Edit, Edited

ASKS = "    looks-at: output\n    outcomes:"


def presuming(line: str) -> Edit:
    """Return the edit that lets the sender's symptom presume something."""
    return ("blocks/sender.yaml", ASKS, ASKS.replace("    outcomes", f"    {line}\n    outcomes"))


def advised(model: SetModel, case: Case) -> set[str]:
    """Return the ids of the checks that are advised."""
    return {check.id for check in step(model, case).checks}


def test_what_makes_no_sense_is_not_advised(edited: Edited, case_of: CaseOf) -> None:
    """It is asked of a set that may well have a rail, and not of one that is dark and has none."""
    model = edited(presuming("presumes: {rail: [right, low]}"))
    assert "sender.weak" in advised(model, Case("beacon", full_kit(model)))
    dead = case_of(model, {"supply.dark": "yes", "supply.rail-volts": "0 V"})
    assert "sender.weak" not in advised(model, dead)
    assert "sender.power" in advised(model, dead)


def test_it_can_be_answered_all_the_same(edited: Edited, case_of: CaseOf) -> None:
    """Whoever knows the answer may give it, and it counts like any other."""
    dead = {"supply.dark": "yes", "supply.rail-volts": "0 V", "sender.weak": "nothing"}
    plain, wary = edited(), edited(presuming("presumes: {rail: [right, low]}"))
    found = [step(model, case_of(model, dead)).causes for model in (plain, wary)]
    assert found[0] == found[1]


def test_what_may_do_harm_waits_until_it_surely_does_none(edited: Edited, case_of: CaseOf) -> None:
    """A rail that is only likely right is not enough; once measured it is."""
    model = edited(presuming("safe-while: {rail: [right, low]}"))
    doubtful = case_of(model, {"supply.dark": "yes"})
    assert "sender.weak" not in advised(model, doubtful)
    measured = case_of(model, {"supply.dark": "yes", "supply.rail-volts": "12 V"})
    assert "sender.weak" in advised(model, measured)


def test_presumptions_are_stored(edited: Edited) -> None:
    """The browser leaves out the same checks; global names, in the order of the knowledge."""
    lines = "presumes: {rail: [right, low]}\n    safe-while: {drive: [right]}"
    model = edited(presuming(lines))
    check = load_model(dump_model(model)).checks["sender.weak"]
    assert check.presumes == (("supply.rail", ("right", "low")),)
    assert check.safe_while == (("sender.drive", ("right",)),)


def test_a_check_that_presumes_nothing_says_so(beacon: SetModel) -> None:
    """Most checks may always be made."""
    assert all(check.presumes == check.safe_while == () for check in beacon.checks.values())
