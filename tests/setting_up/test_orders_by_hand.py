"""Orders of setting up worked out by hand, from the plan and by common practice.

Each row is an adjustment, in the order in which the hand would go, with what has to be right
before it and why. Rows were written down from the frequency plans P1, P4 and P5 (crystals, sums
and counts as in the tables of `tests/data/`, P1 and P4 read, P5 a generic construction) and from
what the trade does; the reasons are common practice. The engine may go another way where nothing
decides, but it has to put first whatever stands first here, and must ask for nothing that this
order does not keep.
"""

from collections.abc import Callable

import pytest

from engine.diagnosis.case import Case, full_kit
from engine.diagnosis.model import SetModel
from engine.diagnosis.settings import SettingUpText
from engine.setting_up.sheet import Step, steps

Row = tuple[str, tuple[str, ...], str]
ModelOf = Callable[[str], SetModel]

P1: tuple[Row, ...] = (
    ("rail-preset", (), "everything that oscillates hangs on it"),
    ("ref-trimmer-set", ("rail-preset",), "regulator before reference"),
    ("switch-one-step-out", (), "the code is right before the loop is judged by it"),
    ("doubler-coils", ("rail-preset",), "twice the reference feeds loop and up-mixer"),
    ("loop-mix-coil", ("doubler-coils",), "the divider counts 2 R less the VCO"),
    (
        "vco-core",
        ("ref-trimmer-set", "loop-mix-coil", "switch-one-step-out", "rail-preset"),
        "reference, mix and code before the tune voltage of a loop that uses all three",
    ),
    ("buffer-coil", ("vco-core",), "peaked in lock"),
    ("up-band-pass", ("buffer-coil", "doubler-coils"), "VCO and 2 R make the local oscillator"),
    ("crossover-bias", (), "the amplifier before what is heard through it"),
    ("level-preset", ("crossover-bias",), "clipping is judged on a clean amplifier"),
    ("if-coils", (), "the last IF first: from the detector forward"),
    ("interstage-coil", ("if-coils",), "from the back to the front"),
    ("second-lo-coil", ("rail-preset",), "injection before the mixer it drives"),
    ("second-coil", ("interstage-coil", "second-lo-coil"), "from the back to the front"),
    ("first-matching", ("second-coil",), "from the back to the front"),
    ("mixer-coil", ("first-matching", "up-band-pass"), "oscillators before IF, back to front"),
    ("front-cores", ("mixer-coil",), "IF before front end"),
    ("input-coil", ("mixer-coil",), "IF before front end; in turn with the coupled coils"),
    ("front-gain-preset", ("front-cores", "input-coil"), "no more gain than tuned coils ask for"),
    ("blanker-threshold", ("front-gain-preset",), "works on the level of the finished receiver"),
    ("squelch-preset", ("front-gain-preset",), "opens at a level of the finished receiver"),
    ("mixer-coil-core", ("up-band-pass",), "oscillators before the transmit mixer"),
    ("mixer-balance", ("mixer-coil-core",), "the wanted line stands before the other is nulled"),
    ("band-pass-cores", ("mixer-coil-core", "mixer-balance"), "from the front to the back"),
    ("driver-core", ("band-pass-cores",), "from the front to the back"),
    ("output-matching", ("driver-core",), "driver before final"),
    ("filter-coils-bent", ("output-matching",), "harmonics of a matched final"),
    ("harmonic-trap", ("filter-coils-bent",), "the trap last, it takes what is left"),
    ("stages-peaked", ("driver-core", "output-matching"), "for the envelope, once tuned"),
    (
        "tx-trimmer",
        ("ref-trimmer-set", "vco-core"),
        "the carrier is LO less this crystal, and 2 R is in the LO",
    ),
    ("gain-preset", (), "the microphone before what limits it"),
    (
        "depth-preset",
        ("gain-preset", "stages-peaked", "output-matching", "crossover-bias"),
        "power before modulation; the audio amplifier modulates",
    ),
    ("receive-preset", ("front-gain-preset", "if-coils"), "IF and front end before the S-meter"),
    ("transmit-preset", ("output-matching", "stages-peaked"), "power before its meter"),
    ("matcher-misset", (), "out of the line before the whip is judged"),
    ("aerial-length", ("matcher-misset",), "the whip alone"),
)

P5: tuple[Row, ...] = (
    ("rail-preset", (), "everything that oscillates hangs on it"),
    ("ref-trimmer-set", ("rail-preset",), "regulator before reference"),
    ("loop-lo-coil", ("rail-preset",), "the loop crystal starts surely before it is trimmed"),
    ("loop-trimmer-set", ("loop-lo-coil", "rail-preset"), "its coil pulls it a little"),
    ("switch-one-step-out", (), "the code is right before the loop is judged by it"),
    ("loop-mix-coil", ("loop-lo-coil",), "the divider counts VCO less loop crystal"),
    (
        "vco-core",
        ("ref-trimmer-set", "loop-trimmer-set", "loop-mix-coil", "switch-one-step-out"),
        "reference, loop crystal, mix and code before the tune voltage",
    ),
    ("buffer-coil", ("vco-core",), "peaked in lock"),
    (
        "quadrature-coil",
        ("ref-trimmer-set", "loop-trimmer-set"),
        "oscillators before IF: a carrier on the channel is in the middle only then",
    ),
    ("crossover-bias", (), "the amplifier before what is heard through it"),
    ("level-preset", ("quadrature-coil", "crossover-bias"), "audio level of a centred detector"),
    ("interstage-coil", ("quadrature-coil",), "from the back to the front"),
    ("second-lo-coil", ("rail-preset",), "injection before the mixer it drives"),
    ("second-coil", ("interstage-coil", "second-lo-coil"), "from the back to the front"),
    ("first-matching", ("second-coil",), "from the back to the front"),
    ("mixer-coil", ("first-matching", "buffer-coil"), "oscillators before IF, back to front"),
    ("front-cores", ("mixer-coil",), "IF before front end"),
    ("input-coil", ("mixer-coil",), "IF before front end; in turn with the coupled coils"),
    ("front-gain-preset", ("front-cores", "input-coil"), "no more gain than tuned coils ask for"),
    ("squelch-preset", ("front-gain-preset", "interstage-coil"), "noise of the finished receiver"),
    ("mixer-coil-core", ("buffer-coil",), "oscillators before the transmit mixer"),
    ("mixer-balance", ("mixer-coil-core",), "the wanted line stands before the other is nulled"),
    ("band-pass-cores", ("mixer-coil-core", "mixer-balance"), "from the front to the back"),
    ("driver-core", ("band-pass-cores",), "from the front to the back"),
    ("output-matching", ("driver-core",), "driver before final"),
    ("filter-coils-bent", ("output-matching",), "harmonics of a matched final"),
    ("harmonic-trap", ("filter-coils-bent",), "the trap last, it takes what is left"),
    (
        "tx-trimmer",
        ("ref-trimmer-set", "loop-trimmer-set", "vco-core"),
        "the carrier is VCO and this crystal, and the loop crystal is in the VCO",
    ),
    ("high-power-preset", ("output-matching", "filter-coils-bent"), "tuned before it is set"),
    ("low-power-preset", ("high-power-preset",), "low power is a part of high power"),
    ("gain-preset", (), "the microphone before what limits it"),
    ("limiter-symmetry", ("gain-preset",), "cut evenly only when driven into cutting"),
    ("deviation-preset", ("limiter-symmetry", "vco-core"), "deviation last of the speech chain"),
    ("receive-preset", ("front-gain-preset",), "IF and front end before the S-meter"),
    ("transmit-preset", ("high-power-preset",), "power before its meter"),
    ("matcher-misset", ("high-power-preset",), "out of the line before the whip is judged"),
    ("aerial-length", ("matcher-misset",), "the whip alone"),
)

P4: tuple[Row, ...] = (
    ("rail-preset", (), "everything that oscillates hangs on it"),
    ("ref-trimmer-set", ("rail-preset",), "regulator before reference"),
    ("loop-lo-coil", ("rail-preset",), "the loop crystal starts surely before it is trimmed"),
    ("loop-trimmer-set", ("loop-lo-coil",), "counts twice in the local oscillator"),
    ("lower-loop-trimmer", ("loop-lo-coil",), "the same crystal, in turn with the other trimmer"),
    ("carrier-trimmer", (), "carriers before anything a sideband goes through"),
    ("lower-trimmer", (), "the same crystal, in turn with the other trimmer"),
    ("switch-one-step-out", (), "the code is right before the loop is judged by it"),
    ("loop-mix-coil", ("loop-lo-coil",), "the divider counts loop crystal less VCO"),
    (
        "vco-core",
        ("ref-trimmer-set", "loop-trimmer-set", "loop-mix-coil", "switch-one-step-out"),
        "reference, loop crystal, mix and code before the tune voltage",
    ),
    ("buffer-coil", ("vco-core",), "peaked in lock"),
    ("up-band-pass", ("buffer-coil", "loop-lo-coil"), "VCO and loop crystal make the LO"),
    ("quadrature-coil", ("ref-trimmer-set", "loop-trimmer-set"), "oscillators before IF"),
    ("crossover-bias", (), "the amplifier before what is heard through it"),
    ("level-preset", ("quadrature-coil", "crossover-bias"), "audio level of a centred detector"),
    ("if-coils", (), "the last IF first: from the detector forward"),
    ("interstage-coil", ("if-coils",), "from the back to the front"),
    ("sideband-if-coil", ("carrier-trimmer", "lower-trimmer"), "heard against the carrier"),
    ("sideband-matching", ("sideband-if-coil", "carrier-trimmer"), "the filter by its carriers"),
    ("second-lo-coil", ("rail-preset",), "injection before the mixer it drives"),
    ("second-coil", ("interstage-coil", "second-lo-coil"), "from the back to the front"),
    ("first-matching", ("second-coil",), "from the back to the front"),
    ("mixer-coil", ("first-matching", "up-band-pass"), "oscillators before IF, back to front"),
    ("front-cores", ("mixer-coil",), "IF before front end"),
    ("input-coil", ("mixer-coil",), "IF before front end; in turn with the coupled coils"),
    ("front-gain-preset", ("front-cores", "input-coil"), "no more gain than tuned coils ask for"),
    ("blanker-coil", ("front-gain-preset",), "works on the level of the finished receiver"),
    ("squelch-preset", ("front-gain-preset",), "opens at a level of the finished receiver"),
    ("null-preset", ("carrier-trimmer",), "another carrier frequency nulls elsewhere"),
    ("modulator-coil", ("null-preset",), "peaked on a sideband, not on carrier that leaks"),
    ("mixer-coil-core", ("up-band-pass",), "oscillators before the transmit mixer"),
    ("mixer-balance", ("mixer-coil-core",), "the wanted line stands before the other is nulled"),
    ("band-pass-cores", ("mixer-coil-core", "mixer-balance"), "from the front to the back"),
    ("bias-preset", (), "resting current before a linear stage is tuned"),
    ("driver-core", ("band-pass-cores", "bias-preset"), "from the front to the back"),
    ("output-matching", ("driver-core", "bias-preset"), "driver before final"),
    ("filter-coils-bent", ("output-matching",), "harmonics of a matched final"),
    ("harmonic-trap", ("filter-coils-bent",), "the trap last, it takes what is left"),
    ("stages-peaked", ("driver-core", "output-matching"), "for the envelope, once tuned"),
    (
        "clarifier-centre",
        ("loop-trimmer-set", "lower-loop-trimmer", "carrier-trimmer", "lower-trimmer"),
        "all crystals before the voltage that makes transmit meet receive",
    ),
    ("carrier-preset", ("stages-peaked", "output-matching"), "tuned before its power is set"),
    ("alc-preset", ("bias-preset", "modulator-coil", "output-matching"), "holds a tuned chain"),
    ("gain-preset", (), "the microphone before what limits it"),
    ("limiter-symmetry", ("gain-preset",), "cut evenly only when driven into cutting"),
    ("deviation-preset", ("limiter-symmetry", "gain-preset"), "deviation last of its chain"),
    (
        "depth-preset",
        ("gain-preset", "carrier-preset", "stages-peaked"),
        "power before modulation",
    ),
    ("receive-preset", ("front-gain-preset", "if-coils"), "IF and front end before the S-meter"),
    ("transmit-preset", ("carrier-preset", "alc-preset"), "power before its meter"),
    ("matcher-misset", ("carrier-preset",), "out of the line before the whip is judged"),
    ("aerial-length", ("matcher-misset",), "the whip alone"),
)
BY_HAND = {"two-crystal-up-mixed-am": P1, "loop-crystal-multimode": P4, "three-crystal-fm": P5}


def sheet_of(model: SetModel) -> tuple[Step, ...]:
    """Return everything that is set up, with every instrument."""
    return steps(model, Case(model.family.id, full_kit(model)))


def short(name: str) -> str:
    """Return an adjustment without its block; no two of a set have one name."""
    return name.partition(".")[2]


@pytest.mark.parametrize("family", BY_HAND)
def test_the_hand_knows_every_adjustment(family: str, model_of: ModelOf) -> None:
    """And no two blocks of a set call theirs alike, so the short names are clear."""
    named = [short(step.id) for step in sheet_of(model_of(family))]
    rows = [name for name, _, _ in BY_HAND[family]]
    assert sorted(named) == sorted(rows)
    assert len(set(named)) == len(named)


@pytest.mark.parametrize("family", BY_HAND)
def test_the_order_keeps_what_the_hand_puts_first(family: str, model_of: ModelOf) -> None:
    """Every row's forerunners come earlier on the sheet."""
    place = {short(step.id): step.number for step in sheet_of(model_of(family))}
    late = [
        f"{one} after {name}: {reason}"
        for name, before, reason in BY_HAND[family]
        for one in before
        if place[one] > place[name]
    ]
    assert late == []


@pytest.mark.parametrize("family", BY_HAND)
def test_the_hand_keeps_what_the_knowledge_asks(family: str, model_of: ModelOf) -> None:
    """Nothing that must be right first comes later in the order by hand."""
    text = model_of(family).setting_up
    assert isinstance(text, SettingUpText)
    place = {name: number for number, (name, _, _) in enumerate(BY_HAND[family])}
    late = [
        f"{one} before {name}"
        for name, setting in text.settings.items()
        for one in setting.first
        if place[short(one)] > place[short(name)]
    ]
    assert late == []


@pytest.mark.parametrize(
    ("family", "adjustment", "mhz"),
    [
        ("loop-crystal-multimode", "loop-crystal-oscillator.loop-trimmer-set", 20.105),
        ("loop-crystal-multimode", "lower-sideband-shift.lower-loop-trimmer", 20.1035),
        ("loop-crystal-multimode", "carrier-oscillator.carrier-trimmer", 10.695),
        ("loop-crystal-multimode", "carrier-oscillator.lower-trimmer", 10.692),
        ("two-crystal-up-mixed-am", "transmit-crystal-oscillator.tx-trimmer", 27.205),
        ("three-crystal-fm", "transmit-crystal-oscillator.tx-trimmer", 27.79125),
    ],
)
def test_what_a_counter_must_show(
    family: str, adjustment: str, mhz: float, model_of: ModelOf
) -> None:
    """Trimmed crystals as read in an alignment sheet of such a set; channel 20 as in the tables.

    Channels: 47 CFR 95.963 and the UK plan of 1981, both read.
    """
    step = next(one for one in sheet_of(model_of(family)) if one.id == adjustment)
    assert step.wanted[0].right_mhz == mhz
