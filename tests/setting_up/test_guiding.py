"""Guided setting up: the next step, what must be done again, and what it tells of the set."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from engine.diagnosis.advising.advice import step as advise
from engine.diagnosis.case import Case, Finding, Repair
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading
from engine.setting_up.guiding import Progress, Visit, progress, with_evidence
from engine.setting_up.reach import Reason
from engine.setting_up.sheet import Step, steps
from engine.setting_up.verdict import Entry

StepOf = Callable[[str], Step]
RAIL = "regulators.rail-preset"
REFERENCE = "reference-oscillator.ref-trimmer-set"
LOOP = "loop-crystal-oscillator.loop-trimmer-set"
VCO = "vco.vco-core"
TRANSMIT = "transmit-crystal-oscillator.tx-trimmer"
HIGH, LOW = "power-setting.high-power-preset", "power-setting.low-power-preset"
CORES, INPUT = "receive-front-end.front-cores", "receive-front-end.input-coil"


def states(now: Progress) -> dict[str, str]:
    """Return where each step stands."""
    return {one.step.id: one.state for one in now.standings}


@pytest.fixture
def bench(case: Case) -> Case:
    """Return a bench with a counter good enough for a reference."""
    return replace(case, kit=replace(case.kit, counter_ppm=0.5))


def test_what_needed_no_turning_spares_what_hangs_on_it(model: SetModel, bench: Case) -> None:
    """After the rail was set, a loop crystal that stood leaves the transmit crystal alone."""
    sheet = steps(model, bench, [RAIL])
    visits = [
        Visit(RAIL, (Entry("7.2 V", "8.0 V"),)),
        Visit(REFERENCE, (Entry("10.24002 MHz"),)),
        Visit(LOOP, (Entry("15.99626 MHz"),)),
        Visit(VCO, (Entry("3.2 V"), Entry("2.0 V"))),
    ]
    now = progress(model, bench, sheet, visits)
    assert states(now) == {
        RAIL: "holds",
        REFERENCE: "holds",
        LOOP: "holds",
        VCO: "holds",
        TRANSMIT: "not-needed",
        HIGH: "to-do",
        LOW: "to-do",
    }
    assert now.next is not None
    assert now.next.step.id == HIGH
    turned = [*visits[:2], Visit(LOOP, (Entry("15.9970 MHz", "15.99626 MHz"),)), visits[3]]
    assert states(progress(model, bench, sheet, turned))[TRANSMIT] == "to-do"


def test_one_turned_out_of_order_is_followed_by_what_it_moves(model: SetModel, bench: Case) -> None:
    """The loop crystal is in the carrier: trimmed after the transmit crystal, that one is due."""
    sheet = steps(model, bench)
    visits = [
        Visit(TRANSMIT, (Entry("27.7925 MHz", "27.79125 MHz"),)),
        Visit(LOOP, (Entry("15.9970 MHz", "15.99626 MHz"),)),
    ]
    now = progress(model, bench, sheet, visits)
    standing = next(one for one in now.standings if one.step.id == TRANSMIT)
    assert (standing.state, standing.reason) == ("again", Reason("moved", (LOOP,)))
    again = [*visits, Visit(TRANSMIT, (Entry("27.7905 MHz", "27.79125 MHz"),))]
    assert states(progress(model, bench, sheet, again))[TRANSMIT] == "holds"


def test_one_set_before_what_it_is_looked_at_through(model: SetModel, bench: Case) -> None:
    """The tune voltage was set while the loop's mix was not: it is looked at once more."""
    visits = [
        Visit(VCO, (Entry("2.5 V", "3.3 V"), Entry("2.0 V"))),
        Visit("loop-mixer.loop-mix-coil", (Entry("1 Vpp; 2 Vpp", "1.5; 1.5"),)),
    ]
    now = progress(model, bench, steps(model, bench), visits)
    standing = next(one for one in now.standings if one.step.id == VCO)
    reason = Reason("looked-through", ("loop-mixer.loop-mix-coil",))
    assert (standing.state, standing.reason) == ("again", reason)


def test_a_pair_is_gone_round_until_neither_was_turned_since(model: SetModel, bench: Case) -> None:
    """Each that is turned makes the other due; one that stands when looked at ends it."""
    sheet = [one for one in steps(model, bench) if one.id in (CORES, INPUT)]
    tuned = (Entry("200 mV", "300 mV"), Entry("", "300 mV; 290 mV"))
    visits: list[Visit] = []
    due = []
    for entries in (tuned, (Entry("300 mV", "340 mV"),), tuned, (Entry("340 mV", "340 mV"),)):
        now = progress(model, bench, sheet, visits)
        assert now.next is not None
        due.append(now.next.step.id)
        visits.append(Visit(now.next.step.id, entries))
    assert due == [CORES, INPUT, CORES, INPUT]
    assert progress(model, bench, sheet, visits).next is None


def test_a_step_may_be_left_out(model: SetModel, bench: Case) -> None:
    """It stands as left out, and the next one comes."""
    now = progress(model, bench, steps(model, bench, [RAIL]), [Visit(RAIL)])
    assert states(now)[RAIL] == "left-out"
    assert now.next is not None
    assert now.next.step.id == REFERENCE


def test_what_is_not_on_the_sheet_is_refused(model: SetModel, bench: Case) -> None:
    """With what was likely meant."""
    with pytest.raises(UnknownReading) as caught:
        progress(model, bench, steps(model, bench, [RAIL]), [Visit("vco.vco-cor")])
    assert str(caught.value) == (
        "vco.vco-cor: found 'vco.vco-cor', expected a step of this sheet\n"
        "  Did you mean 'vco.vco-core'?"
    )


def test_readings_are_findings_of_the_case(model: SetModel, bench: Case, step_of: StepOf) -> None:
    """The one before is of the set as it was; then the adjustment is right, and the one after."""
    visit = Visit(REFERENCE, (Entry("+29 ppm", "+0.5 ppm"),))
    case = with_evidence(model, bench, step_of(REFERENCE), visit)
    check = "reference-oscillator.ref-error"
    assert case.past[0].findings == (Finding(check, None, 29.0, "+29 ppm"),)
    assert case.past[0].repair == Repair(REFERENCE, "adjusted", is_settled=True)
    assert case.findings == (Finding(check, None, 0.5, "+0.5 ppm"),)
    looked = with_evidence(model, bench, step_of(REFERENCE), Visit(REFERENCE, (Entry("+0.5 ppm"),)))
    assert (looked.past, len(looked.findings)) == ((), 1)


def test_one_that_will_not_come_right_points_to_a_fault(
    model: SetModel, bench: Case, step_of: StepOf
) -> None:
    """Trimmed as far as it goes and still 750 Hz high on the air, receive untouched.

    The trimmer leads before; after, it is as good as cleared and the transmit crystal leads.
    """
    before = Entry("27.79205 MHz")
    found = with_evidence(model, bench, step_of(TRANSMIT), Visit(TRANSMIT, (before,)))
    loop = with_evidence(model, found, step_of(LOOP), Visit(LOOP, (Entry("15.99626 MHz"),)))
    suspects = [cause.id for cause in advise(model, loop).causes[:3]]
    assert TRANSMIT in suspects
    visit = Visit(TRANSMIT, (Entry("27.79205 MHz", "27.7920 MHz"),), gave_up=True)
    case = with_evidence(model, loop, step_of(TRANSMIT), visit)
    causes = advise(model, case).causes
    chance = {cause.id: cause.probability for cause in causes}
    assert chance.get(TRANSMIT, 0.0) < 0.01
    assert causes[0].id.startswith("transmit-crystal-oscillator.")
    assert causes[0].kind == "fault"
    standing = progress(model, bench, steps(model, bench), [visit])
    assert [one.step.id for one in standing.stuck] == [TRANSMIT]
