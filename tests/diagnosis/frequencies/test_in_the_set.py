"""Frequency readings as findings on the real family: told, ranked, foreseen, reported."""

from dataclasses import replace

import pytest

from engine.diagnosis.advising.advice import frequencies_told, step
from engine.diagnosis.advising.conflict import doubts
from engine.diagnosis.advising.explaining import why
from engine.diagnosis.advising.foresight import what_if
from engine.diagnosis.advising.steps import Step
from engine.diagnosis.case import Case, Finding, add_finding, full_kit
from engine.diagnosis.entry import read_answer, understood
from engine.diagnosis.evidence import frequency_readings, likelihoods
from engine.diagnosis.frequencies.checks import on_every_channel, once
from engine.diagnosis.frequencies.model import FREQUENCIES
from engine.diagnosis.model import SetModel
from engine.diagnosis.opening import case_file, open_case
from engine.diagnosis.storage import dump_model, load_model
from engine.errors import CaseError, UnknownReading
from engine.knowledge.casefile import read_case

LOOP_TRIMMER = "loop-crystal-oscillator.loop-trimmer-set"
TX_TRIMMER = "transmit-crystal-oscillator.tx-trimmer"


def told(model: SetModel, *answers: tuple[str, str]) -> Case:
    """Return a case with a full kit and these findings."""
    case = Case(model.family.id, full_kit(model))
    for check, said in answers:
        case = add_finding(case, read_answer(model, check, said))
    return case


def chance(answer: Step, cause: str) -> float:
    """Return how likely a cause is."""
    return next(each.probability for each in answer.causes if each.id == cause)


@pytest.mark.parametrize(
    ("check", "said", "found"),
    [
        ("operating.transmit-error@20", "27.79205", ("operating.transmit-error@20", 0.8)),
        ("operating.transmit-error@20", "+0.8 kHz", ("operating.transmit-error@20", 0.8)),
        ("operating.transmit-error", "27.60205 on channel 1", ("operating.transmit-error@1", 0.8)),
        ("operating.transmit-error@9", "-300 Hz on ch 5", ("operating.transmit-error@5", -0.3)),
        ("vco.vco-error@1", "16906.25 kHz", ("vco.vco-error@1", 0.0)),
        (
            "operating.channel-found-on-second-set@3",
            "channel 5",
            ("operating.channel-found-on-second-set@3", 20.0),
        ),
        (
            "loop-crystal-oscillator.loop-lo-error",
            "15.99641",
            ("loop-crystal-oscillator.loop-lo-error", 10.0023),
        ),
        (
            "reference-oscillator.ref-error",
            "10.240100 MHz",
            ("reference-oscillator.ref-error", 9.765625),
        ),
    ],
)
def test_a_frequency_is_told_as_people_read_it(
    model: SetModel, check: str, said: str, found: tuple[str, float]
) -> None:
    """As the counter shows it, as an error, with the channel or without."""
    finding = read_answer(model, check, said)
    assert finding.check == found[0]
    assert finding.value == pytest.approx(found[1], abs=2e-3)


def test_a_channel_that_was_heard_is_kept_as_it_was_said(model: SetModel) -> None:
    """It is read again from its own words, and said to be a frequency."""
    finding = read_answer(model, "operating.channel-found-on-second-set@3", "channel 5")
    assert finding.said == "channel 5"
    assert understood(model, finding) == "27.64125 MHz, to be 27.62125 MHz, is +20 kHz"
    assert read_answer(model, finding.check, finding.said) == finding


def test_a_channel_that_is_not_there_is_no_channel(model: SetModel) -> None:
    """It is said which there are."""
    with pytest.raises(UnknownReading) as error:
        read_answer(model, "operating.transmit-error@20", "27.79205 on channel 41")
    assert str(error.value) == (
        "operating.transmit-error@20: found channel 41, expected one of channels 1 to 40\n"
        "  Write the channel that the knob stood on."
    )


def test_transmit_off_and_receive_right_is_the_transmit_crystal(model: SetModel) -> None:
    """The loop crystal would move both."""
    answer = step(
        model,
        told(
            model,
            ("operating.transmit-error@20", "+0.8 kHz"),
            ("vco.vco-error@20", "0 kHz"),
        ),
    )
    assert answer.causes[0].id == TX_TRIMMER
    assert chance(answer, LOOP_TRIMMER) < 0.02 * chance(answer, TX_TRIMMER)


def test_both_off_alike_is_the_loop_crystal(model: SetModel) -> None:
    """The transmit crystal is silent in receive."""
    case = told(
        model,
        ("operating.transmit-error@20", "+0.8 kHz"),
        ("vco.vco-error@7", "+0.78 kHz"),
    )
    answer = step(model, case)
    assert answer.causes[0].id == LOOP_TRIMMER
    told_us = frequencies_told(model, case)
    assert told_us is not None
    (loop,) = [each for each in told_us.oscillators if each.id == "loop"]
    assert loop.right_mhz == 15.99625
    assert loop.low_ppm < 0.78e3 / 15.99625 < loop.high_ppm
    assert loop.turn.startswith("lower it by about 7")
    assert loop.turn.endswith("Hz: more capacitance in its trimmer")


def test_a_step_on_some_channels_is_a_line(model: SetModel) -> None:
    """N 92 on channel 2 has P0 low, N 93 on channel 3 has it high."""
    case = told(
        model,
        ("operating.transmit-error@2", "0 kHz"),
        ("operating.transmit-error@3", "-10 kHz"),
    )
    answer = step(model, case)
    told_us = frequencies_told(model, case)
    assert told_us is not None
    assert told_us.lines[0].words == "line P0 stuck low"
    assert told_us.lines[0].probability > 0.9
    assert answer.causes[0].block == "channel-switch"


def test_no_frequency_read_says_nothing(model: SetModel) -> None:
    """The report is there only after a reading."""
    assert frequencies_told(model, told(model)) is None


def test_advice_names_a_channel_not_read_yet(model: SetModel) -> None:
    """One channel for each point, and another one after that was read."""
    case = told(model)
    first = [each.id for each in step(model, case).checks if "transmit-error@" in each.id]
    assert len(first) == 1
    case = add_finding(case, read_answer(model, first[0], "0 kHz"))
    second = [each.id for each in step(model, case).checks if "transmit-error@" in each.id]
    assert len(second) == 1
    assert second != first


def test_readings_are_one_likelihood_together(model: SetModel) -> None:
    """However many there are, the tree gets one vector, in the order of the joint states."""
    case = told(
        model,
        ("operating.transmit-error@2", "0.1 kHz"),
        ("operating.transmit-error@3", "0.1 kHz"),
    )
    found = likelihoods(model, case.findings)
    assert list(found) == ["aerial-switching.tx-power", FREQUENCIES]
    assert found["aerial-switching.tx-power"][-1] == pytest.approx(0.02**2)
    assert model.frequencies is not None
    assert len(found[FREQUENCIES]) == 5 * 5 * 5 * 5 * 4
    assert [each.channel for each in frequency_readings(model, case.findings)] == [2, 3]


def test_a_better_counter_tells_more(model: SetModel) -> None:
    """A timebase of 0.5 ppm narrows the offset; one of 50 ppm leaves it open."""
    readings = (
        ("operating.transmit-error@20", "0 kHz"),
        ("vco.vco-error@20", "0 kHz"),
    )
    widths = []
    for ppm in (0.5, 5.0, 50.0):
        case = told(model, *readings)
        case = replace(case, kit=replace(case.kit, counter_ppm=ppm))
        found = frequencies_told(model, case)
        assert found is not None
        (loop,) = [each for each in found.oscillators if each.id == "loop"]
        widths.append(loop.high_ppm - loop.low_ppm)
    assert widths == sorted(widths)
    assert widths[0] < 0.7 * widths[2]


def test_what_a_reading_would_do_is_what_it_does(model: SetModel) -> None:
    """Each reading foreseen gives the causes that entering it gives."""
    case = told(model, ("operating.transmit-error@20", "+0.8 kHz"))
    effects = what_if(model, case, "vco.vco-error@20")
    assert {effect.label.partition(":")[0] for effect in effects[:3]} == {
        "about right",
        "high",
        "low",
    }
    high = next(effect for effect in effects if effect.label.startswith("high"))
    value = float(high.label.partition("(")[2].split()[0])
    after = step(model, add_finding(case, Finding("vco.vco-error@20", None, value, "")))
    assert high.causes[0][0] == after.causes[0].id
    assert high.causes[0][1] == pytest.approx(after.causes[0].probability, abs=0.02)
    assert sum(effect.probability for effect in effects) == pytest.approx(1.0, abs=0.1)


def test_a_misread_frequency_is_doubted(model: SetModel) -> None:
    """Two readings agree in transmit; the third would have to show in them."""
    case = told(
        model,
        ("operating.transmit-error@20", "0.02 kHz"),
        ("operating.transmit-error@21", "0.01 kHz"),
        ("vco.vco-error@22", "1.3 kHz"),
    )
    worst, bits = doubts(model, case.findings)[0]
    assert worst.check == "vco.vco-error@22"
    assert bits > 2.0


def test_weights_of_frequencies_add_up(model: SetModel) -> None:
    """Prior and weights of the readings make the posterior, though they are not independent."""
    case = told(
        model,
        ("operating.transmit-error@20", "+0.8 kHz"),
        ("vco.vco-error@20", "+0.8 kHz"),
    )
    reasons = why(model, case, LOOP_TRIMMER)
    total = reasons.prior_decibans + sum(weight for _, weight in reasons.findings)
    assert total == pytest.approx(reasons.posterior_decibans)
    assert all(weight > 3.0 for _, weight in reasons.findings)


def test_a_model_keeps_each_frequency_check_once(model: SetModel) -> None:
    """Forty channels are made on loading, and the same ones."""
    assert "operating.transmit-error" in once(model.checks)
    assert on_every_channel(once(model.checks), model.frequencies).keys() == model.checks.keys()
    again = load_model(dump_model(model))
    assert again.checks.keys() == model.checks.keys()
    assert again.checks["operating.transmit-error@7"] == model.checks["operating.transmit-error@7"]
    assert again.frequencies is not None
    assert model.frequencies is not None
    assert again.frequencies.divisions == model.frequencies.divisions
    assert again.frequencies.oscillators == model.frequencies.oscillators


FILE = """\
format: 1
family: three-crystal-fm
kit: {instruments: everything, lid: "off", counter-ppm: 2}
findings:
  - {check: operating.transmit-error, answer: 27.79205 on channel 20}
  - {check: operating.transmit-error, answer: +0.8 kHz on channel 1}
"""


def test_a_case_file_holds_one_check_on_several_channels(model: SetModel) -> None:
    """It is opened, written and opened again as the same case."""
    case = open_case(model, *read_case("sheep-dip.yaml", FILE))
    assert [each.check for each in case.findings] == [
        "operating.transmit-error@20",
        "operating.transmit-error@1",
    ]
    assert case.kit.counter_ppm == 2.0
    assert open_case(model, *read_case("again.yaml", case_file(case))) == case


def test_one_channel_is_read_once(model: SetModel) -> None:
    """Two readings of one channel are one too many, however the channel is told."""
    twice = FILE.replace("on channel 1}", "on channel 20}")
    with pytest.raises(CaseError) as caught:
        open_case(model, *read_case("sheep-dip.yaml", twice))
    words = "found 'operating.transmit-error@20' again, expected each check once"
    assert str(caught.value) == "\n".join(
        f"sheep-dip.yaml:{line}: findings.{number}.check: {words}\n  Keep the finding that holds."
        for number, line in ((0, 5), (1, 6))
    )
