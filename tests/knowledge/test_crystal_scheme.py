"""Fourteen crystals make twenty-three channels: the arithmetic of the crystal-bank family."""

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest

from engine.knowledge.library import Library

FAMILY = "crystal-bank-am"
PLANS = Path(__file__).resolve().parents[1] / "data" / "channel-plans.csv"
SECOND_IF_MHZ = Fraction("0.455")


def crystals_mhz(library: Library, row: str) -> list[Fraction]:
    """Return the crystals of one row as the figures of the family give them, in MHz."""
    text = library.families[FAMILY].figures[row]
    return [Fraction(number) for number in re.findall(r"\d+\.\d+", text)]


def places() -> list[tuple[int, int, int]]:
    """Return channel, master crystal and place in the other two rows, as the switch is wired."""
    in_rows = [(n, (n - 1) // 4, (n - 1) % 4) for n in range(1, 23)]
    return [*in_rows, (23, 5, 3)]  # out of the row: the fourth crystal, not the third


def read_carriers_mhz() -> dict[int, Fraction]:
    """Return the first 23 carriers of the table from outside, each of them read there."""
    with PLANS.open(encoding="utf-8") as file:
        rows = [row for row in csv.DictReader(file) if row["plan"] == "us_47cfr95d"]
    assert {row["confidence"] for row in rows} == {"read"}
    return {
        int(row["channel"]): Fraction(row["tx_mhz"]) for row in rows if int(row["channel"]) < 24
    }


def test_there_are_fourteen_crystals(library: Library) -> None:
    """Six master, four receive and four transmit crystals, no two alike."""
    rows = [crystals_mhz(library, row) for row in ("masters", "receivers", "transmitters")]
    assert [len(row) for row in rows] == [6, 4, 4]
    assert len({crystal for row in rows for crystal in row}) == 14


def test_the_carriers_are_those_of_the_rules(library: Library) -> None:
    """Master less transmit crystal is the carrier, 47 CFR 95.963 for all 23 channels."""
    masters = crystals_mhz(library, "masters")
    transmitters = crystals_mhz(library, "transmitters")
    made = {n: masters[block] - transmitters[column] for n, block, column in places()}
    assert made == read_carriers_mhz()


def test_every_channel_comes_to_455_khz(library: Library) -> None:
    """Master less carrier is the first IF, and that less the receive crystal the second."""
    masters, receivers = crystals_mhz(library, "masters"), crystals_mhz(library, "receivers")
    carriers = read_carriers_mhz()
    second = {masters[block] - carriers[n] - receivers[column] for n, block, column in places()}
    assert second == {SECOND_IF_MHZ}


def test_the_third_crystal_would_send_on_channel_24(library: Library) -> None:
    """Wired in its row the last position would send 27.235 MHz, which is 20 kHz too low."""
    masters = crystals_mhz(library, "masters")
    transmitters = crystals_mhz(library, "transmitters")
    assert masters[5] - transmitters[2] == read_carriers_mhz()[23] - Fraction("0.020")


def test_the_channel_plan_is_the_same_table(library: Library) -> None:
    """The plan of the family holds the 23 carriers of the rules and no more."""
    plan = library.channels[library.families[FAMILY].channels].carriers_mhz
    assert {n: Fraction(str(mhz)) for n, mhz in plan.items()} == read_carriers_mhz()


@pytest.mark.parametrize(
    ("at", "crystal", "gone"),
    [
        (1, 0, [1, 2, 3, 4]),
        (1, 5, [21, 22, 23]),
        (2, 0, [1, 5, 9, 13, 17, 21]),
        (2, 3, [4, 8, 12, 16, 20, 23]),
    ],
    ids=["first master", "last master", "first of four", "fourth of four"],
)
def test_one_dead_crystal_takes_a_row_or_a_column(at: int, crystal: int, gone: list[int]) -> None:
    """What the check 'which channels fail' asks for: four neighbours, or every fourth."""
    assert [place[0] for place in places() if place[at] == crystal] == gone
