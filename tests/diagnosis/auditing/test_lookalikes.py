import pytest

from engine.diagnosis.auditing.lookalikes import OfOneWay, ways_of
from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import calibrated
from engine.diagnosis.model import SetModel
from engine.inference.gain import entropy
from engine.inference.propagation import calibrate
from tests.diagnosis.auditing.bad_examples import ONE_CAUSE, TWINS
from tests.diagnosis.conftest import Edited, small_library


def way(model: SetModel, cause: str, name: str) -> OfOneWay:
    """Return what follows from one way of a cause of the tiny set."""
    return next(one for one in ways_of(small_library(), model, cause) if one.way == name)


def test_a_way_harms_all_that_is_fed_by_it(beacon: SetModel) -> None:
    """A weak battery: the rail, with it the drive, with both the output, in this order."""
    weak = way(beacon, "supply.flat-battery", "weak")
    assert weak.harms == (
        ("supply.rail", "low"),
        ("sender.drive", "low"),
        ("sender.output", "low"),
    )
    assert weak.prior == pytest.approx(0.014)


def test_symptoms_rise_as_the_network_says(beacon: SetModel) -> None:
    """Chances with and without the way are posteriors of what the symptom looks at."""
    weak = way(beacon, "supply.flat-battery", "weak")
    assert [(one.symptom, one.outcome) for one in weak.symptoms] == [
        ("sender.weak", "faint"),
        ("supply.dark", "yes"),
    ]
    there = calibrate(beacon.tree, {"supply.flat-battery": [0.0, 1.0, 0.0]})
    dark, yes = weak.symptoms[1], (0.02, 0.2, 0.97)
    for chance, known in ((dark.after, there), (dark.before, calibrated(beacon, ()))):
        states = known.posterior("supply.rail")
        assert chance == pytest.approx(sum(p * q for p, q in zip(states, yes, strict=True)))


def test_the_owner_tells_what_such_a_set_shows(beacon: SetModel) -> None:
    """Every symptom counts, also those in order; rivals and chances are those of such a case."""
    weak = way(beacon, "supply.flat-battery", "weak")
    assert [(f.check, f.outcome) for f in weak.alike.told] == [("sender.weak", "faint")]
    case = Case("beacon", full_kit(beacon))
    for check, answer in (("sender.weak", "faint"), ("supply.dark", "no")):
        case = add_finding(case, read_answer(beacon, check, answer))
    known = calibrated(beacon, case.evidence())
    assert weak.alike.chance == pytest.approx(known.posterior("supply.flat-battery")[1])
    assert weak.alike.rivals[0][0] == "sender.output-transistor"
    for name, chance in weak.alike.rivals:
        assert chance == pytest.approx(1.0 - known.posterior(name)[0])
    chances = [chance for _, chance in weak.alike.rivals]
    assert chances == sorted(chances, reverse=True)


def test_checks_tell_at_even_odds_between_a_way_and_all_else(beacon: SetModel) -> None:
    """The gain of the junctions by hand: outcomes under the way, and under all else."""
    shorted = way(beacon, "sender.output-transistor", "shorted")
    told = dict(shorted.alike.telling)
    case = Case("beacon", full_kit(beacon))
    for check, answer in (("sender.weak", "nothing"), ("supply.dark", "no")):
        case = add_finding(case, read_answer(beacon, check, answer))
    fine, short, opened = calibrated(beacon, case.evidence()).posterior("sender.output-transistor")
    yes_else = (0.95 * fine + 0.05 * opened) / (fine + opened)
    middle = (0.05 + yes_else) / 2
    expected = (
        entropy([middle, 1 - middle])
        - (entropy([0.05, 0.95]) + entropy([yes_else, 1 - yes_else])) / 2
    )
    assert told["sender.transistor-junctions"] == pytest.approx(expected)
    assert list(told) == sorted(told, key=lambda name: -told[name])
    assert shorted.alike.chance == pytest.approx(short)


def test_twins_are_rivals_and_no_check_tells_between_them(edited: Edited) -> None:
    """What tells one twin from all else tells it as little from the other as chance has it."""
    library, model = small_library(TWINS), edited(TWINS)
    (one,) = ways_of(library, model, "sender.bias-part")
    (other,) = ways_of(library, model, "sender.bias-wire")
    assert one.alike.chance == pytest.approx(other.alike.chance)
    assert dict(one.alike.rivals)["sender.bias-wire"] == pytest.approx(one.alike.chance)
    assert dict(one.alike.telling) == pytest.approx(dict(other.alike.telling))


def test_an_event_is_told_by_what_is_asked_about_it(beacon: SetModel) -> None:
    """A drop shows in no symptom for certain; the question about it tells most."""
    (dropped,) = ways_of(small_library(), beacon, "past.drop")
    assert dropped.harms == (("past.past", "drop"),)
    assert dropped.alike.told == ()
    assert dropped.alike.telling[0][0] == "past.fell"


def test_a_cause_that_its_owner_names_needs_no_check(edited: Edited) -> None:
    """A symptom that this cause shows for certain, and nothing else ever: all has been said."""
    file, old, new = ONE_CAUSE
    sure = (file, old, new.replace("{fine: 0.02, present: 0.9}", "{fine: 0, present: 1}"))
    (one,) = ways_of(small_library(sure), edited(sure), "sender.preset")
    assert one.alike.chance == 1.0
    assert one.alike.telling == ()
