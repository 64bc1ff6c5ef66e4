"""The limits of kb/tables/limits.yaml against the sheet in tests/data/limits.csv.

The sheet names the source of every row: 47 CFR 95 D, ECC/DEC/(11)03, EN 300 135, guides to MPT 1382
with remarks on MPT 1320, and the licence schedule of 1981.
"""

import csv
from pathlib import Path

import pytest

from engine.knowledge.library import Library
from engine.radio.units import is_unit
from tests.conftest import FAMILY

SHEET = Path(__file__).parents[1] / "data" / "limits.csv"

# Rule set of the sheet and its parameter: where it stands in the table, and which side is right.
ROWS = {
    ("us_47cfr95d", "carrier power AM/FM max"): ("us", "carrier-power", "at-most"),
    ("us_47cfr95d", "SSB power max"): ("us", "ssb-power", "at-most"),
    ("us_47cfr95d", "frequency tolerance"): ("us", "frequency-error", "at-most"),
    ("us_47cfr95d", "AM modulation min"): ("us", "am-modulation-min", "at-least"),
    ("us_47cfr95d", "AM modulation max"): ("us", "am-modulation-max", "at-most"),
    ("us_47cfr95d", "FM peak deviation max"): ("us", "deviation", "at-most"),
    ("us_47cfr95d", "authorised bandwidth AM and FM"): ("us", "bandwidth", "at-most"),
    ("us_47cfr95d", "authorised bandwidth SSB"): ("us", "ssb-bandwidth", "at-most"),
    ("us_47cfr95d", "unwanted 50-100 % of bandwidth"): ("us", "unwanted-near", "at-least"),
    ("us_47cfr95d", "unwanted 100-250 % of bandwidth"): ("us", "unwanted-middle", "at-least"),
    ("us_47cfr95d", "unwanted beyond 250 %"): ("us", "unwanted-far", None),
    ("us_47cfr95d", "harmonics (2f and above)"): ("us", "harmonics", "at-least"),
    ("us_47cfr95d", "final stage dissipation rating max"): ("us", "dissipation-rating", "at-most"),
    ("cept_ecc1103", "power FM max"): ("cept", "carrier-power", "at-most"),
    ("cept_ecc1103", "power AM DSB max"): ("cept", "am-power", "at-most"),
    ("cept_ecc1103", "power SSB max"): ("cept", "ssb-power", "at-most"),
    ("cept_ecc1103", "channel spacing"): ("cept", "channel-spacing", "at-least"),
    ("en300135", "carrier power max"): ("cept", "carrier-power", "at-most"),
    ("en300135", "frequency error max"): ("cept", "frequency-error", "at-most"),
    ("en300135", "frequency deviation max"): ("cept", "deviation", "at-most"),
    ("en300135", "adjacent channel power max"): ("cept", "adjacent-channel-power", "at-most"),
    ("en300135", "conducted spurious, general"): ("cept", "spurious", "at-most"),
    ("en300135", "conducted spurious, protected bands"): ("cept", "spurious-protected", "at-most"),
    ("en300135", "spurious standby / receiver"): ("cept", "spurious-receive", "at-most"),
    ("uk_mpt1382", "power max"): ("uk-1997", "carrier-power", "at-most"),
    ("uk_mpt1382", "deviation max"): ("uk-1997", "deviation", "at-most"),
    ("uk_mpt1382", "frequency tolerance"): ("uk-1997", "frequency-error", "at-most"),
    ("uk_mpt1382", "adjacent channel power max"): ("uk-1997", "adjacent-channel-power", "at-most"),
    ("uk_mpt1382", "receiver sensitivity limit"): ("uk-1997", "sensitivity", "at-most"),
    ("uk_mpt1382", "adjacent channel selectivity min"): ("uk-1997", "selectivity", "at-least"),
    ("uk_mpt1382", "transmit inhibit when loop unlocked"): ("uk-1997", "transmit-inhibit", None),
    ("uk_mpt1320", "deviation max"): ("uk-1981", "deviation", "at-most"),
    ("uk_mpt1320", "carrier power max"): ("uk-1981", "carrier-power", "at-most"),
    ("uk_mpt1320", "effective radiated power max"): ("uk-1981", "radiated-power", "at-most"),
    ("uk_mpt1320", "low-power attenuator"): ("uk-1981", "low-power-attenuator", "at-least"),
    ("uk_mpt1320", "frequency tolerance"): ("uk-1981", "frequency-error", "at-most"),
}
ELSEWHERE = {"ets300433_1995", "de_80"}  # rule sets of no set that is known here
READ = {"read": "read", "read (secondary)": "second-hand", "memory": "memory"}
# Rows of two sources: the table keeps the one that was read.
BETTER_READ = {("en300135", "carrier power max")}


def rows() -> list[dict[str, str]]:
    """Return the rows of the sheet that apply."""
    with SHEET.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["regime"] not in ELSEWHERE]


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['regime']} {row['parameter']}")
def test_a_row_of_the_sheet_stands_in_the_table(row: dict[str, str], library: Library) -> None:
    """Its value, its unit, which side is right, and how well it was read."""
    rules, name, direction = ROWS[row["regime"], row["parameter"]]
    limit = library.limits[rules][name]
    figure = row["value"].replace(".", "", 1).isdecimal()
    assert limit.value == (float(row["value"]) if figure else None)
    assert limit.unit == row["unit"].split(" ")[0]
    assert limit.direction == direction
    if (row["regime"], row["parameter"]) not in BETTER_READ:
        assert limit.read == READ[row["confidence"].removesuffix(" (low)")]


def test_no_row_of_the_sheet_is_passed_over() -> None:
    """The rows named above are those of the sheet."""
    assert set(ROWS) == {(row["regime"], row["parameter"]) for row in rows()}


def test_what_is_no_figure_is_told(library: Library) -> None:
    """A formula and a requirement cannot be judged by machine; they stand in the condition."""
    assert "53 + 10 log10(P/1 W)" in library.limits["us"]["unwanted-far"].condition
    assert library.limits["uk-1997"]["transmit-inhibit"].condition == "required"


def test_low_confidence_is_told(library: Library) -> None:
    """What the sheet holds for little says so where it is shown."""
    low = [ROWS[row["regime"], row["parameter"]] for row in rows() if "(low)" in row["confidence"]]
    assert low == [("uk-1981", "frequency-error", "at-most")]
    condition = library.limits["uk-1981"]["frequency-error"].condition
    assert condition == "low confidence: check before it decides anything"


def test_the_units_of_limits_are_known(library: Library) -> None:
    """Every figure has a unit that readings can have."""
    units = {one.unit for rules in library.limits.values() for one in rules.values() if one.value}
    assert {unit for unit in units if not is_unit(unit)} == set()


def test_every_limit_that_is_named_exists(library: Library) -> None:
    """A check names a limit of the family's rules; some check does."""
    family = library.families[FAMILY]
    named = {
        f"{block}.{name}": check.limit
        for block in family.blocks
        for name, check in library.blocks[block].checks.items()
        if check.limit is not None
    }
    assert named == {
        "aerial-switching.power-at-socket": "carrier-power",
        "aerial-switching.volts-at-load": "carrier-power",
        "deviation-limiter.deviation-voice": "deviation",
        "deviation-limiter.deviation-carrier-null": "deviation",
        "operating.transmit-error": "frequency-error",
    }
    assert set(named.values()) <= set(library.limits[family.rules])
