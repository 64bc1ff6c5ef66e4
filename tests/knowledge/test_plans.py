"""Frequency plans and channel tables as authors write them, the real ones included."""

from fractions import Fraction

import pytest

from engine.knowledge.library import Library, examine, load, read_texts
from tests.conftest import KB
from tests.radio.plans.conftest import rows

PLAN = "plans/beacon-mixing.yaml"
CHANNELS = {"us_47cfr95d": "us-40", "cept_40": "cept-40", "uk_27_81": "uk-27-81", "de_80": "de-80"}
GAPS = {Fraction(mhz) for mhz in ("26.995", "27.045", "27.095", "27.145", "27.195")}


def test_a_table_says_what_a_rule_says(small: dict[str, str]) -> None:
    """Counts written out are the counts of the rule."""
    text = small[PLAN].replace("first: 91, per-slot: 1", "by-channel: {1: 91, 2: 92}")
    assert load(small | {PLAN: text}).plans == load(small).plans


def test_a_table_of_codes_says_what_a_rule_says(small: dict[str, str]) -> None:
    """Codes written out are the codes of the rule, by the place of a channel on the dial."""
    written = []
    for codes in ("{first: 3, per-channel: 2}", "{by-channel: {1: 3, 2: 5}}"):
        lines = f"coding: rom\n  codes: {codes}"
        text = small[PLAN].replace("coding: binary", lines)
        written.append(load(small | {PLAN: text}).plans["beacon-mixing"])
    assert written[0] == written[1]
    assert written[0].lines is not None
    assert written[0].lines.codes == {1: 3, 2: 5}


def test_counts_of_transmit_may_differ(small: dict[str, str]) -> None:
    """Without its own rule transmit counts as receive does."""
    rule = "receive: {divide: 1024, first: 91, per-slot: 1}"
    finer = "transmit: {divide: 2048, first: 182, per-slot: 2}"
    text = (
        small[PLAN]
        .replace(rule, f"{rule}\n  {finer}")
        .replace("lines:", "lines:\n  codes: {first: 1, per-channel: 1}")
        .replace("coding: binary", "coding: rom")
    )
    both = load(small | {PLAN: text}).plans["beacon-mixing"].counts
    assert (both["transmit"].divide, both["transmit"].by_channel) == (2048, {1: 182, 2: 184})
    alike = load(small).plans["beacon-mixing"].counts
    assert alike["transmit"] == alike["receive"]


def test_an_unreadable_table_of_channels_brings_no_other_problems(small: dict[str, str]) -> None:
    """The arithmetic of a plan is not tried without its channels."""
    problems = examine(small | {"tables/channels.yaml": "plans: [\n"})[1]
    assert {problem.file for problem in problems} == {"tables/channels.yaml"}


@pytest.mark.parametrize(
    ("plan", "edits", "counts"),
    [
        (
            "two-crystal-up-mixed",
            {"us-40": "uk-27-81", "first: 330": "first: 266"},
            [
                "266.375 counts for channel 1 to be received",
                "266.375 counts for channel 1 to be sent",
            ],
        ),
        (
            "one-crystal-direct-us",
            {"us-40": "uk-27-81", "divide: 4096": "divide: 8192"},
            [
                "11040.5 counts for channel 1 to be sent",
                "3381.25 counts for channel 1 to be received",
            ],
        ),
    ],
)
def test_uk_channels_are_refused_with_the_count_they_would_need(
    plan: str, edits: dict[str, str], counts: list[str]
) -> None:
    """No half or quarter is counted: 266.375, 3381.25 and 11040.5."""
    file, texts = f"plans/{plan}.yaml", read_texts(KB)
    for before, after in edits.items():
        texts[file] = texts[file].replace(before, after)
    found = sorted(each.found for each in examine(texts)[1] if each.file == file)
    whole = [f"{words} on 27.60125 MHz (39 more channels alike)" for words in counts]
    assert [each for each in found if "counts for" in each] == whole


@pytest.mark.parametrize("name", CHANNELS)
def test_channels_are_those_of_the_table(name: str, library: Library) -> None:
    """Every carrier of the four channel plans, against the table from outside."""
    table = {
        int(row["channel"]): float(row["tx_mhz"])
        for row in rows("channel-plans.csv")
        if row["plan"] == name
    }
    assert library.channels[CHANNELS[name]].carriers_mhz == table


def test_the_rule_of_the_forty_channels(library: Library) -> None:
    """45 slots, five gaps dropped, then 27.255 moved to channel 23."""
    slots = [Fraction("26.965") + Fraction(k, 100) for k in range(45)]
    kept = [mhz for mhz in slots if mhz not in GAPS]
    kept.remove(Fraction("27.255"))
    kept.insert(22, Fraction("27.255"))
    carriers = library.channels["us-40"].carriers_mhz
    assert [Fraction(str(mhz)) for mhz in carriers.values()] == kept
    assert round(1e6 * (carriers[23] - carriers[24])) == 20_000


def test_the_rule_of_the_uk_channels(library: Library) -> None:
    """27.60125 + 0.01 (n - 1): whole multiples of 1.25 kHz, of 2.5 kHz never."""
    carriers = library.channels["uk-27-81"].carriers_mhz
    exact = {channel: Fraction(str(mhz)) * 1_000_000 for channel, mhz in carriers.items()}
    assert exact == {n: 27_601_250 + 10_000 * (n - 1) for n in range(1, 41)}
    assert all(hz % 1_250 == 0 and hz % 2_500 != 0 for hz in exact.values())


def test_the_rule_of_the_german_channels(library: Library) -> None:
    """1 to 40 as everywhere, 41 to 80 below them: the lowest is 41."""
    carriers = library.channels["de-80"].carriers_mhz
    assert {n: carriers[n] for n in range(1, 41)} == library.channels["cept-40"].carriers_mhz
    lower = {n: Fraction("26.565") + Fraction(n - 41, 100) for n in range(41, 81)}
    assert {n: Fraction(str(carriers[n])) for n in range(41, 81)} == lower
    assert min(carriers, key=lambda n: carriers[n]) == 41


def test_the_rule_of_the_marine_channels(library: Library) -> None:
    """A ship's frequencies step by 50 kHz from 156.050 MHz; 16 is 156.800 MHz."""
    carriers = library.channels["vhf-marine-simplex"].carriers_mhz
    rule = {n: Fraction("156.05") + Fraction(n - 1, 20) for n in (6, *range(8, 18))}
    assert {n: Fraction(str(carriers[n])) for n in carriers} == rule
    assert carriers[16] == 156.8


def test_every_plan_tells_how_it_works_and_its_origin(library: Library) -> None:
    """Eight plans by kind, each with its arrangement, source, lines and what to mind in words."""
    assert len(library.plans) == 8
    for plan in library.plans.values():
        assert plan.about
        assert plan.source
        assert plan.notes
        assert plan.lines is not None
