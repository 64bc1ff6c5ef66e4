"""Minimal cut sets of two blocks, worked by hand from their files.

Read top down: what makes the top signal absent, then what makes each of those inputs absent, and
so on, until only causes of the block and its inputs are left.
"""

import pytest

from engine.inference.cut_sets import minimal_cut_sets
from engine.inference.network import Network

# Drive is absent when a part in its path is open or shorted. Lost gain and a coil off tune make it
# low, and two lows are no absence, so there is no set of two.
DRIVER = {
    ("driver-transistor", "shorted"),
    ("driver-transistor", "open"),
    ("driver-coupling", "present"),
    ("driver-emitter-resistor", "present"),
    ("driver-joint", "present"),
    ("unlisted-drive", "absent"),
}
# The main rail is absent when the contact is open, for one of four reasons, or the wire behind it
# is; a contact that only resists makes it sag.
SWITCH = {
    ("switched-off", "present"),
    ("switch-open", "present"),
    ("switch-fitful", "present"),
    ("switch-not-turned", "present"),
    ("switch-wiring", "present"),
    ("unlisted-switch-contact", "open"),
    ("unlisted-dc-main", "absent"),
    ("unlisted-main", "absent"),
}


@pytest.mark.parametrize(
    ("block", "signal", "expected"),
    [("driver", "drive", DRIVER), ("on-off-switch", "main", SWITCH)],
)
def test_cut_sets_within_a_block(
    net: Network, block: str, signal: str, expected: set[tuple[str, str]]
) -> None:
    """Sets of one and two causes of the block itself that make its output absent."""
    found = minimal_cut_sets(net, f"{block}.{signal}", ["absent"], 2)
    own = [each for each in found if all(name.startswith(f"{block}.") for name, _ in each)]
    single = {(name.partition(".")[2], way) for events in own for name, way in events}
    assert single == expected
    assert all(len(events) == 1 for events in own)
