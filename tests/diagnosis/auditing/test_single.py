from engine.diagnosis.auditing.single import alone, audited
from tests.diagnosis.conftest import small_library


def test_each_way_by_itself_decides_every_signal() -> None:
    """A weak battery makes the rail low, and with it drive and output; nothing else is wrong."""
    seen = audited(small_library(), "beacon")
    truth = seen.truths["supply.flat-battery", "weak"]
    states = {name: seen.net.nodes[name].states[truth[name]] for name in seen.net.nodes}
    assert (states["supply.rail"], states["sender.drive"]) == ("low", "low")
    assert states["sender.output"] == "low"
    assert states["sender.preset"] == states["supply.fuse-joint"] == "fine"


def test_ways_are_those_found_at_the_bench() -> None:
    """Neither events nor what is not listed."""
    seen = audited(small_library(), "beacon")
    assert list(seen.truths) == [
        ("supply.flat-battery", "weak"),
        ("supply.flat-battery", "empty"),
        ("supply.fuse-joint", "present"),
        ("sender.output-transistor", "shorted"),
        ("sender.output-transistor", "opened"),
        ("sender.preset", "present"),
    ]
    assert list(seen.happened) == [("past.drop", "present")]


def test_an_event_is_read_off_the_past() -> None:
    """The event and its signal change, the parts it may harm are fine."""
    seen = audited(small_library(), "beacon")
    truth = alone(seen.net, "past.drop", "present")
    assert {name for name in truth if truth[name]} == {"past.past", "past.drop"}


def test_a_cause_is_found_as_it_was_written() -> None:
    """By its global name."""
    seen = audited(small_library(), "beacon")
    assert seen.cause("sender.preset").title == "Drive preset turned down"
