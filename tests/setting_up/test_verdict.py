"""Whether what was set holds, as far as the instruments can tell."""

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest

from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.errors import UnknownReading
from engine.setting_up.sheet import Step
from engine.setting_up.verdict import Entry, verdict
from engine.setting_up.words import held_words

StepOf = Callable[[str], Step]
RAIL = "regulators.rail-preset"
SYMMETRY = "deviation-limiter.limiter-symmetry"
REFERENCE = "reference-oscillator.ref-trimmer-set"
POWER = "power-setting.high-power-preset"
DRIVER = "driver.driver-core"
FILTER = "low-pass-filter.filter-coils-bent"
MIXER = "second-mixer.second-coil"
SWITCH = "channel-switch.switch-one-step-out"
METER = "meter.receive-preset"
GOOD = (("rf-power-meter", "1 %"), ("frequency-counter", "1 ppm"))


@pytest.mark.parametrize(
    ("adjustment", "entries", "expected"),
    [
        (RAIL, [("7.2 V", "8.05 V")], "holds"),
        (RAIL, [("7.2 V", "")], "off"),
        (RAIL, [("7.2 V", "8.3")], "off"),
        (RAIL, [], "missing"),
        (REFERENCE, [("10.24030 MHz", "10.24001 MHz")], "holds"),
        (REFERENCE, [("+29 ppm", "+9 ppm")], "off"),
        (POWER, [("3.0 W", "3.85 W"), ("", "3.8; 3.7")], "holds"),
        (POWER, [("3.0 W", "3.99 W"), ("", "3.8; 3.7")], "cannot-tell"),
        (POWER, [("3.0 W", "4.2 W"), ("", "3.8; 3.7")], "over"),
        (POWER, [("3.0 W", "3.2 W"), ("", "3.8; 3.7")], "off"),
        (POWER, [("3.0 W", "3.85 W"), ("", "3.8 / 2.9")], "off"),
        (POWER, [("3.0 W", "3.85 W")], "missing"),
        (DRIVER, [("3.0 W", "3.1 W"), ("", "3.0; 3.1")], "holds"),
        (DRIVER, [("3.0 W", "2.9 W"), ("", "3.0; 3.1")], "off"),
        (FILTER, [("-60 dB", "-64 dB")], "holds"),
        (FILTER, [("-60 dB", "-55 dB")], "off"),
        (MIXER, [("200 mV", "0.31 V")], "holds"),
        (MIXER, [("200 mV", "310 mV")], "holds"),
        (MIXER, [("200 mV", "")], "missing"),
        (SWITCH, [("no", "yes")], "holds"),
        (SWITCH, [("no", "")], "off"),
        (METER, [("", "yes")], "holds"),
        (METER, [("", "not sure")], "cannot-tell"),
        (METER, [("no", "")], "off"),
    ],
)
def test_what_readings_say(
    adjustment: str,
    entries: Sequence[tuple[str, str]],
    expected: str,
    model: SetModel,
    case: Case,
    step_of: StepOf,
) -> None:
    """Numbers to their ends and limits, best places to the reading before, readings alike."""
    typed = [Entry(*each) for each in entries]
    kit = replace(case.kit, accuracies=GOOD)
    assert verdict(model, kit, step_of(adjustment), typed).verdict == expected


def test_an_instrument_coarser_than_the_tolerance_cannot_tell(
    model: SetModel, case: Case, step_of: StepOf
) -> None:
    """A usual counter is good to 6 ppm, the reference is wanted to 5; one of 2 ppm tells.

    A tolerance of 2 ppm is a standard deviation of 0.6 times that.
    """
    entries, step = [Entry("10.24030 MHz", "10.24001 MHz")], step_of(REFERENCE)
    usual = verdict(model, case.kit, step, entries)
    assert usual.verdict == "cannot-tell"
    assert held_words(usual.rows[0]) == (
        "before 10.24030 MHz -> 10.24001 MHz: cannot tell; this instrument is good to ±6.00 ppm, "
        "±4.88 ppm would tell"
    )
    better = verdict(model, replace(case.kit, counter_ppm=2.0), step, entries)
    assert better.verdict == "holds"
    assert better.rows[0].guard == pytest.approx(2.0 * 0.6 * 2.0)


def test_far_off_is_told_by_any_instrument(model: SetModel, case: Case, step_of: StepOf) -> None:
    """An error larger than the instrument's own by more than the tolerance needs no better one."""
    far = verdict(model, case.kit, step_of(REFERENCE), [Entry("10.24030 MHz")])
    assert far.verdict == "off"
    assert held_words(far.rows[0]) == (
        "before 10.24030 MHz: OFF: turn it further; wanted -4.88 to 4.88 ppm"
    )


def test_an_outcome_is_told_by_its_title(model: SetModel, case: Case, step_of: StepOf) -> None:
    """Not by the id that it is kept under."""
    entries = [Entry("lopsided", "even")]
    (held,) = verdict(model, case.kit, step_of(SYMMETRY), entries).rows
    assert held_words(held) == (
        "before Halves of different height or width -> Both halves cut and rounded alike: holds"
    )


def test_a_limit_that_is_passed_is_named(model: SetModel, case: Case, step_of: StepOf) -> None:
    """With its figure, so that it is turned back far enough."""
    kit = replace(case.kit, accuracies=GOOD)
    over = verdict(model, kit, step_of(POWER), [Entry("", "4.2 W")])
    assert held_words(over.rows[0]) == "4.2 W: OVER THE LIMIT: turn it back; the limit is 4 W"


@pytest.mark.parametrize(
    ("adjustment", "entries", "message"),
    [
        (
            RAIL,
            [("eight", "")],
            "regulators.rail-preset: found 'eight' does not begin with a number, expected a "
            "reading in V\n  Write a number in V, or with its own unit.",
        ),
        (
            POWER,
            [("3 W", "3.8 W"), ("", "3.8")],
            "power-setting.high-power-preset: found '3.8', expected two readings or more, with "
            "';' between them\n  Write one for each of: channels 1 and 40; such as '3.1; 3.3'.",
        ),
        (
            METER,
            [("", "S8")],
            "meter.receive-preset: found 'S8', expected yes or no\n"
            "  Answer whether it holds: The needle stands on S9.",
        ),
        (
            MIXER,
            [("200 mV", "3 dB")],
            "second-mixer.second-coil: found '200 mV' before and '3 dB' after, expected both in "
            "one unit\n  Read both with the same instrument, on the same range.",
        ),
    ],
    ids=["no number", "one reading", "neither yes nor no", "two units"],
)
def test_what_is_no_reading_is_refused(
    adjustment: str,
    entries: Sequence[tuple[str, str]],
    message: str,
    model: SetModel,
    case: Case,
    step_of: StepOf,
) -> None:
    """With what was found, what was expected and what to do."""
    with pytest.raises(UnknownReading) as caught:
        verdict(model, case.kit, step_of(adjustment), [Entry(*each) for each in entries])
    assert str(caught.value) == message
