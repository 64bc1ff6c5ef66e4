from engine.diagnosis.case import Case, Finding, Kit, add_finding, full_kit, withdraw
from engine.diagnosis.entry import read_answer
from engine.diagnosis.model import SetModel

EMPTY = Case("beacon", Kit(frozenset(), "on"))
DARK = Finding("supply.dark", "yes", None, "yes")
VOLTS = Finding("supply.rail-volts", None, 13.1, "13.1 V")
LOW_VOLTS = Finding("supply.rail-volts", None, 9.5, "9.5 V")
SKIPPED = Finding("sender.power", "cannot-check", None, "cannot-check")


def test_findings_keep_the_order_in_which_they_were_made() -> None:
    """The earlier case stays as it was."""
    first = add_finding(EMPTY, DARK)
    second = add_finding(first, VOLTS)
    assert second.findings == (DARK, VOLTS)
    assert first.findings == (DARK,)
    assert EMPTY.findings == ()


def test_a_second_answer_takes_the_place_of_the_first() -> None:
    """Each check counts once, where it was first made."""
    case = add_finding(add_finding(EMPTY, VOLTS), DARK)
    assert add_finding(case, LOW_VOLTS).findings == (LOW_VOLTS, DARK)


def test_a_finding_can_be_withdrawn() -> None:
    """Only that one goes; withdrawing what is not there changes nothing."""
    case = add_finding(add_finding(EMPTY, DARK), VOLTS)
    assert withdraw(case, "supply.dark").findings == (VOLTS,)
    assert withdraw(case, "sender.power") == case


def test_equal_cases_are_equal_whatever_way_they_came_about() -> None:
    """A case is a value: undoing leads back to it."""
    case = add_finding(EMPTY, DARK)
    assert withdraw(add_finding(case, VOLTS), "supply.rail-volts") == case
    assert hash(withdraw(add_finding(case, VOLTS), "supply.rail-volts")) == hash(case)


def test_cannot_check_is_kept_but_is_no_evidence() -> None:
    """It only keeps the check from being asked again."""
    case = add_finding(add_finding(EMPTY, SKIPPED), DARK)
    assert case.findings == (SKIPPED, DARK)
    assert case.evidence() == (DARK,)


def test_a_kit_allows_what_its_instruments_and_lid_allow(beacon: SetModel) -> None:
    """Every instrument is needed; a check with the lid off needs it off."""

    def allowed(*instruments: str, lid: str) -> set[str]:
        kit = Kit(frozenset(instruments), lid)
        return {name for name, check in beacon.checks.items() if kit.allows(check)}

    by_hand = {"past.fell", "supply.dark", "sender.weak"}
    assert allowed(lid="on") == by_hand
    assert allowed("multimeter", lid="on") == by_hand
    assert allowed("multimeter", lid="off") == by_hand | {
        "supply.rail-volts",
        "sender.transistor-junctions",
    }
    assert allowed("power-meter", lid="off") == by_hand
    assert allowed("power-meter", "dummy-load", lid="on") == by_hand | {"sender.power"}


def test_the_full_kit_allows_everything(beacon: SetModel) -> None:
    """Every instrument, and the lid off."""
    assert all(full_kit(beacon).allows(check) for check in beacon.checks.values())


def test_what_was_typed_is_kept(beacon: SetModel) -> None:
    """A saved case shows a reading as it was said."""
    finding = read_answer(beacon, "supply.rail-volts", " 12,9 V ")
    assert (finding.value, finding.said) == (12.9, "12,9 V")
