"""Limits with guard bands of one expanded uncertainty, twice the standard deviation."""

from dataclasses import replace

import pytest

from engine.diagnosis.entry import read_answer
from engine.diagnosis.judging import in_words, judge, judged
from engine.diagnosis.model import LimitText, SetModel
from tests.diagnosis.conftest import Edited

MOST = LimitText("carrier-power", "uk-1981", 4.0, "W", "at-most", "", "MPT 1320 of 1981", "memory")
LEAST = LimitText(
    "selectivity", "uk-1997", 60.0, "dB", "at-least", "external aerial", "a guide", "second-hand"
)
ERROR = LimitText("frequency-error", "eu", 0.6, "kHz", "at-most", "", "EN 300 135", "memory")
PPM = LimitText("frequency-error", "us", 50.0, "ppm", "at-most", "", "47 CFR 95.965", "read")

# Limit, value, standard deviation, carrier in MHz: verdict, guard band, what is needed to tell.
WORKED = [
    # 4 W, an instrument of +-10 % (two standard deviations): 3.9 + 0.39 > 4 > 3.9 - 0.39.
    (MOST, 3.9, 0.195, None, "cannot-tell", 0.39, 0.1),
    (MOST, 3.5, 0.175, None, "within", 0.35, 0.5),  # 3.5 + 0.35 = 3.85
    (MOST, 3.7, 0.185, None, "cannot-tell", 0.37, 0.3),  # 3.7 + 0.37 = 4.07
    (MOST, 4.4, 0.22, None, "cannot-tell", 0.44, 0.4),  # 4.4 - 0.44 = 3.96
    (MOST, 4.5, 0.225, None, "beyond", 0.45, 0.5),  # 4.5 - 0.45 = 4.05
    (MOST, 4.0, 0.0, None, "within", 0.0, 0.0),  # a limit may be reached
    (MOST, 4.25, 0.125, None, "cannot-tell", 0.25, 0.25),  # on the edge: 4.25 - 0.25 = 4
    (MOST, 3.75, 0.125, None, "within", 0.25, 0.25),  # on the edge: 3.75 + 0.25 = 4
    (LEAST, 64.0, 1.5, None, "within", 3.0, 4.0),
    (LEAST, 62.0, 1.5, None, "cannot-tell", 3.0, 2.0),
    (LEAST, 58.0, 1.5, None, "cannot-tell", 3.0, 2.0),
    (LEAST, 56.0, 1.5, None, "beyond", 3.0, 4.0),
    # An error counts by its size, on both sides of the channel.
    (ERROR, -0.7, 0.1, None, "cannot-tell", 0.2, 0.1),
    (ERROR, -0.9, 0.1, None, "beyond", 0.2, 0.3),
    (ERROR, 0.3, 0.1, None, "within", 0.2, 0.3),
    # 50 ppm of 27.185 MHz are 1.35925 kHz.
    (PPM, 0.7, 0.1, 27.185, "within", 0.2, 0.65925),
    (PPM, -1.3, 0.1, 27.185, "cannot-tell", 0.2, 0.05925),
    (PPM, 1.6, 0.1, 27.185, "beyond", 0.2, 0.24075),
    (PPM, -60.0, 3.0, None, "beyond", 6.0, 10.0),  # already in ppm
]


@pytest.mark.parametrize(
    ("limit", "value", "sd", "carrier", "verdict", "guard", "needed"), WORKED, ids=str
)
def test_guard_bands(
    limit: LimitText,
    value: float,
    sd: float,
    carrier: float | None,
    verdict: str,
    guard: float,
    needed: float,
) -> None:
    """Within or beyond only where the whole guard band is; worked by hand."""
    judgement = judge(limit, value, sd, carrier)
    assert judgement.verdict == verdict
    assert judgement.guard == pytest.approx(guard, rel=1e-12)
    assert judgement.needed == pytest.approx(needed, rel=1e-9)


# Limit, value, standard deviation, carrier in MHz: the sentence.
SENTENCES = [
    (MOST, 3.5, 0.1, None,
     "3.5 W: within the 4 W limit (MPT 1320 of 1981, from memory)"),
    (MOST, 5.0, 0.1, None,
     "5 W: beyond the 4 W limit (MPT 1320 of 1981, from memory)"),
    (MOST, 3.9, 0.195, None,
     "3.9 W: cannot tell whether it keeps the 4 W limit (MPT 1320 of 1981, from memory):"
     " the instrument is good to ±0.390 W, ±0.100 W would tell"),
    (MOST, 4.0, 0.2, None,
     "4 W: cannot tell whether it keeps the 4 W limit (MPT 1320 of 1981, from memory):"
     " the instrument is good to ±0.400 W, it stands on the limit, and no instrument would tell"),
    (LEAST, 70.0, 1.5, None,
     "70 dB: within the 60 dB limit (a guide, second-hand; external aerial)"),
    (PPM, 0.7, 0.1, 27.185, "0.7 kHz: within the 50 ppm limit (47 CFR 95.965, as read)"),
]  # fmt: skip


@pytest.mark.parametrize(("limit", "value", "sd", "carrier", "sentence"), SENTENCES, ids=str)
def test_the_sentence(
    limit: LimitText, value: float, sd: float, carrier: float | None, sentence: str
) -> None:
    """The value, the limit, its source and how well that was read; what accuracy would tell."""
    assert in_words(judge(limit, value, sd, carrier)) == sentence


@pytest.fixture(scope="module")
def held(edited: Edited) -> SetModel:
    """Return the tiny set, the power of its sender held to the limit of its rules."""
    return edited(("blocks/sender.yaml", "unit: W", "unit: W\n    limit: carrier-power"))


def said_of(model: SetModel, check: str, text: str) -> str | None:
    """Return what the limit says of an answer."""
    judgement = judged(model, read_answer(model, check, text))
    return in_words(judgement) if judgement else None


def test_the_instrument_of_the_check_decides(held: SetModel) -> None:
    """Its accuracy is that of the table of instruments: here 8 % and 0.05 W."""
    assert held.checks["sender.power"].accuracy == (8.0, 0.05)
    judgement = judged(held, read_answer(held, "sender.power", "3 W"))
    assert judgement is not None
    assert judgement.guard == pytest.approx(2 * (0.08 * 3 + 0.05), rel=1e-12)
    assert judgement.verdict == "within"


def test_a_check_without_limit_is_not_judged(held: SetModel) -> None:
    """Nor is what could not be checked, nor a limit that these rules do not hold."""
    assert said_of(held, "supply.rail-volts", "12 V") is None
    assert said_of(held, "sender.power", "cannot-check") is None
    assert said_of(held, "supply.dark", "yes") is None
    assert said_of(replace(held, limits={}), "sender.power", "3 W") is None


def test_a_voltage_is_held_to_a_power(held: SetModel) -> None:
    """60 Vpp across 50 ohm are 9 W, 30 Vpp are 2.25 W: 5 % and 0.02 V, twice that in power."""
    power = held.checks["sender.power"]
    volts = replace(power, unit="Vpp", span=(0.0, 120.0), quantity=None, accuracy=(5.0, 0.02))
    model = replace(held, checks={**held.checks, "sender.power": volts})
    finding = replace(read_answer(held, "sender.power", "1"), value=30.0)
    judgement = judged(model, finding)
    assert judgement is not None
    assert (judgement.verdict, judgement.unit) == ("within", "W")
    assert judgement.value == pytest.approx(2.25, rel=1e-12)
    # sd = ((30 + 1.52)^2 - (30 - 1.52)^2) / 2 / 400 = 30 x 1.52 x 2 / 400
    assert judgement.guard == pytest.approx(2 * 30 * 1.52 * 2 / 400, rel=1e-9)
    far = judged(model, replace(finding, value=60.0))
    assert far is not None
    assert far.verdict == "beyond"


def test_parts_per_million_are_of_the_lowest_channel(held: SetModel) -> None:
    """50 ppm of 27.6 MHz are 1.38 kHz; where it is known that 28 MHz is right, 1.4 kHz."""
    error = replace(held.checks["sender.power"], unit="kHz", span=(-9.0, 9.0), accuracy=(0.0, 0.0))
    limits = {"carrier-power": replace(PPM, id="carrier-power")}
    model = replace(
        held,
        limits=limits,
        checks={**held.checks, "sender.power": error},
        carriers_mhz=((1, 27.6), (40, 28.0)),
    )
    finding = replace(read_answer(held, "sender.power", "1"), value=-1.39)
    judgement = judged(model, finding)
    assert judgement is not None
    assert judgement.bound == pytest.approx(1.38, rel=1e-12)
    assert judgement.verdict == "beyond"
    known = replace(error, nominal_mhz=28.0)
    there = judged(replace(model, checks={**model.checks, "sender.power": known}), finding)
    assert there is not None
    assert (there.bound, there.verdict) == (pytest.approx(1.4, rel=1e-12), "within")


def test_a_limit_in_a_unit_that_does_not_fit_says_nothing(held: SetModel) -> None:
    """Watts are not held to decibels."""
    model = replace(held, limits={"carrier-power": replace(LEAST, id="carrier-power")})
    assert said_of(model, "sender.power", "3 W") is None
