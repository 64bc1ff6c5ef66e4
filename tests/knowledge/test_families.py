"""Every family against values from outside, and its figures against its own frequency plan.

Each fact names its published source beside it; all rest on rows that were read. What a family says
in a figure must be what its crystals and counts come to.
"""

import csv
import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from engine.knowledge.families import Family
from engine.knowledge.figures import number_of
from engine.knowledge.library import Library
from engine.radio.plans.arithmetic import (
    count,
    first_if,
    local_oscillator,
    second_oscillator,
    transmitted,
    vco,
)
from engine.radio.plans.plan import Plan
from tests.conftest import FAMILIES

DATA = Path(__file__).parents[1] / "data"
PLACES = {"1": "low-channel", "20": "test-channel", "40": "high-channel"}
MHZ = Fraction(1_000_000)


def _rows(file: str) -> list[dict[str, str]]:
    with (DATA / file).open(encoding="utf-8", newline="") as text:
        return list(csv.DictReader(text))


def _carriers(plan: str) -> dict[str, str]:
    """Return the carriers of a published plan that were read, by channel."""
    rows = [row for row in _rows("channel-plans.csv") if row["plan"] == plan]
    return {row["channel"]: row["tx_mhz"] for row in rows if row["confidence"] == "read"}


def _limit(regime: str, parameter: str) -> float:
    (row,) = [
        row
        for row in _rows("limits.csv")
        if (row["regime"], row["parameter"], row["confidence"]) == (regime, parameter, "read")
    ]
    return float(row["value"])


def _synth(plan: str, channel: str, column: str) -> str:
    """Return a figure of a synthesiser chart that was read."""
    (row, *_) = [
        row for row in _rows("synth-plans.csv") if (row["plan"], row["channel"]) == (plan, channel)
    ]
    assert row["confidence"].startswith("read")
    return row[column]


US, UK, CEPT = _carriers("us_47cfr95d"), _carriers("uk_27_81"), _carriers("cept_40")
US_POWER_W = _limit("us_47cfr95d", "carrier power AM/FM max")  # 47 CFR 95.967(a)
US_PEP_W = _limit("us_47cfr95d", "SSB power max")  # 47 CFR 95.967(b)
US_PPM = _limit("us_47cfr95d", "frequency tolerance")  # 47 CFR 95.965
US_FM_KHZ = _limit("us_47cfr95d", "FM peak deviation max")  # 47 CFR 95.975(c)
CEPT_POWER_W = _limit("cept_ecc1103", "power FM max")  # ECC/DEC/(11)03, decides 5

Facts = Callable[[Library, Family], list[tuple[object, object]]]


def _figure(family: Family, name: str) -> float:
    number = number_of(family.figures[name])
    assert number is not None, family.figures[name]
    return number


def _us_limits(library: Library, family: Family) -> list[tuple[object, object]]:
    limits = library.limits[family.rules]
    return [
        (limits["carrier-power"].value, US_POWER_W),
        (limits["frequency-error"].value, US_PPM),
    ]


def _crystal_bank(library: Library, family: Family) -> list[tuple[object, object]]:
    carriers = library.channels[family.channels].carriers_mhz
    read = {int(channel): float(mhz) for channel, mhz in US.items() if int(channel) <= 23}
    return [*_us_limits(library, family), (dict(carriers), read)]


def _hand_held(library: Library, family: Family) -> list[tuple[object, object]]:
    # 27.125 MHz is channel 14 (47 CFR 95.963).
    return [*_us_limits(library, family), (_figure(family, "channel-a"), float(US["14"]))]


def _up_mixed(library: Library, family: Family) -> list[tuple[object, object]]:
    # The printed chart of the two-crystal chip: N, VCO and local oscillator of channel 1.
    found = [("count-list", "n_rx"), ("vco-1", "vco_rx_mhz"), ("lo-1", "lo1_mhz")]
    rows = [(family.figures[name], _synth("P1_2xtal_upmix", "1", column)) for name, column in found]
    return [*_us_limits(library, family), *[(number_of(a), float(b)) for a, b in rows]]


def _sideband(library: Library, family: Family) -> list[tuple[object, object]]:
    # The service manual of the base set: 910 to 1350 kHz at the divider, N 91 to 135.
    pep = library.limits[family.rules]["ssb-power"].value
    low, high = (_synth("P3_bcd_amssb", channel, "divider_in_mhz") for channel in ("1", "40"))
    divider = re.findall(r"\d+\.\d+", family.figures["divider-input"])
    own = [(pep, US_PEP_W), ([float(f) for f in divider], [float(low), float(high)])]
    return [*_us_limits(library, family), *own]


def _multimode(library: Library, family: Family) -> list[tuple[object, object]]:
    # The alignment sheet: loop crystal, carriers of both sidebands.
    plan = library.plans[str(family.plan)]
    crystals = {name: float(one.hz / MHZ) for name, one in plan.oscillators.items()}
    limits = library.limits[family.rules]
    return [
        (limits["ssb-power"].value, US_PEP_W),
        (limits["deviation"].value, US_FM_KHZ),
        (crystals["loop"], 20.105),
        ((crystals["carrier"], crystals["carrier-lower"]), (10.695, 10.692)),
    ]


def _one_crystal(library: Library, family: Family) -> list[tuple[object, object]]:
    # A note on the table chip: N 1206 and 1297 on channel 1, 1258 and 1349 on 22; the CEPT raster.
    plan = library.plans[str(family.plan)]
    carriers = library.channels[family.channels].carriers_mhz
    return [
        ({str(n): mhz for n, mhz in carriers.items()}, {n: float(f) for n, f in CEPT.items()}),
        ((count(plan, "receive", 1), count(plan, "transmit", 1)), (1206, 1297)),
        ((count(plan, "receive", 22), count(plan, "transmit", 22)), (1258, 1349)),
        (library.limits[family.rules]["carrier-power"].value, CEPT_POWER_W),
    ]


def _three_crystal(library: Library, family: Family) -> list[tuple[object, object]]:
    # The band plan of 1981; that a reference of 10.240 MHz over 1024 is 10 kHz: chip data sheet.
    carriers = library.channels[family.channels].carriers_mhz
    return [
        ({str(n): mhz for n, mhz in carriers.items()}, {n: float(f) for n, f in UK.items()}),
        (_figure(family, "channel-20"), float(UK["20"])),
        (1000 * _figure(family, "reference") / _figure(family, "reference-division"), 10.0),
    ]


def _vhf(library: Library, family: Family) -> list[tuple[object, object]]:
    # Makers' tables of marine channels: ship's frequency of channels 6, 16 and 22.
    carriers = library.channels[family.channels].carriers_mhz
    step = {n: 156.050 + 0.05 * (n - 1) for n in carriers if n <= 28}
    return [
        (_figure(family, "channel-1"), 156.300),
        (carriers.get(16, 156.800), 156.800),
        ({n: round(mhz, 6) for n, mhz in carriers.items() if n in step},
         {n: round(mhz, 6) for n, mhz in step.items()}),
    ]  # fmt: skip


FACTS: dict[str, Facts] = {
    "crystal-bank-am": _crystal_bank,
    "crystal-handheld": _hand_held,
    "loop-crystal-multimode": _multimode,
    "multi-crystal-sideband": _sideband,
    "one-crystal-fm": _one_crystal,
    "three-crystal-fm": _three_crystal,
    "two-crystal-up-mixed-am": _up_mixed,
    "vhf-fm-mobile": _vhf,
}


@pytest.mark.parametrize("name", FAMILIES)
def test_a_family_keeps_to_what_was_read(library: Library, name: str) -> None:
    """At least three facts of each family are as published."""
    facts = FACTS[name](library, library.families[name])
    assert len(facts) >= 3
    for ours, published in facts:
        assert ours == published


def _derived(plan: Plan, channel: int) -> dict[str, Fraction]:
    """Return what the figures of a place on the dial must be, in Hz."""
    mode = next(iter(plan.modes))
    n = count(plan, "receive", channel)
    sent = count(plan, "transmit", channel)
    return {
        "channel": transmitted(plan, mode, sent).hz(plan),
        "lo": local_oscillator(plan, mode, n).hz(plan),
        "vco": vco(plan, mode, "receive", n).hz(plan),
    }


@pytest.mark.parametrize("name", FAMILIES)
def test_figures_are_what_the_plan_comes_to(library: Library, name: str) -> None:
    """Carriers, oscillators, intermediate frequencies and crystals, to half the last digit."""
    family = library.families[name]
    if family.plan is None:
        assert "crystals" in family.features
        return
    plan = library.plans[family.plan]
    mode = next(iter(plan.modes))
    right: dict[str, Fraction] = {"first-if": first_if(plan, mode).hz(plan)}
    if "second-lo" in family.figures:
        right["second-lo"] = second_oscillator(plan, mode).hz(plan)
    right["reference"] = plan.oscillators["reference"].hz
    for place, key in PLACES.items():
        channel = number_of(family.figures[key].removeprefix("channel "))
        assert channel is not None
        derived = _derived(plan, int(channel)).items()
        right |= {f"{what}-{place}": hz for what, hz in derived}
    checked = 0
    for figure, hz in right.items():
        if figure in family.figures:
            text = family.figures[figure].split()[0]
            half = Fraction(1, 2) / 10 ** len(text.partition(".")[2])
            assert abs(Fraction(text) - hz / MHZ) <= half, (figure, text, float(hz / MHZ))
            checked += 1
    assert checked >= 7
