from itertools import product

import pytest

from engine.diagnosis.making.building import build_network, global_name, unlisted_signals
from engine.inference.cut_sets import evaluate
from engine.inference.network import Network
from engine.knowledge.library import Library
from tests.diagnosis.conftest import small_library

RAIL = {"fine": 0, "weak": 1, "low": 1, "empty": 2, "present": 2, "absent": 2}


@pytest.fixture(scope="module")
def small() -> Library:
    """Return the tiny knowledge base."""
    return small_library()


@pytest.fixture(scope="module")
def net(small: Library) -> Network:
    """Return the network of its one family."""
    return build_network(small, small.families["beacon"])


def test_signals_are_the_worst_of_what_reaches_them(net: Network) -> None:
    """Every combination of the causes, against the rules of the blocks written out by hand."""
    causes = [
        "supply.flat-battery",
        "supply.fuse-joint",
        "supply.unlisted-rail",
        "sender.output-transistor",
        "sender.preset",
        "sender.unlisted-drive",
        "sender.unlisted-output",
    ]
    for states in product(*(net.nodes[cause].states for cause in causes)):
        events = dict(zip(causes, states, strict=True))
        battery, joint, supply_else, transistor, preset, drive_else, output_else = states
        rail = max(RAIL[battery], RAIL[joint], RAIL[supply_else])
        drive = int(rail > 0 or preset == "present" or drive_else == "low")
        output = max(rail, drive, RAIL[output_else], {"shorted": 2, "opened": 1}.get(transistor, 0))
        if drive and preset == "present":
            output = 2
        found = evaluate(net, events)
        assert (found["supply.rail"], found["sender.drive"], found["sender.output"]) == (
            rail,
            drive,
            output,
        ), events


def test_an_event_is_a_state_of_the_past(net: Network) -> None:
    """The gate of its name reads it off; the prior is the author's."""
    past = net.nodes["past.past"]
    assert past.states == ("quiet", "drop")
    assert past.table == {(0,): 0.95, (1,): 0.05}
    assert net.nodes["past.drop"].parents == ("past.past",)


def test_an_event_harms_on_top_of_age(net: Network) -> None:
    """The joint has its own prior, and one more chance when the set was dropped."""
    joint = net.nodes["supply.fuse-joint"]
    assert joint.parents == ("past.past",)
    own = joint.table[0, 1]
    assert own == pytest.approx(2e-4, rel=1e-3)  # 0.01 per 1e6 h, 10 000 h, two joints
    assert joint.table[1, 1] == pytest.approx(1.0 - (1.0 - own) * 0.9, rel=1e-12)


def test_what_is_not_listed_has_a_share_of_the_block(net: Network) -> None:
    """A twentieth of the priors of the block, even over all bad states of its signals."""
    own = 0.002 * 1.0 + 0.01  # the transistor in both modes, and the preset
    drive, output = net.nodes["sender.unlisted-drive"], net.nodes["sender.unlisted-output"]
    assert drive.states == ("fine", "low")
    assert output.states == ("fine", "low", "absent")
    each = 0.05 * own / 3
    bad = [drive.table[1,], output.table[1,], output.table[2,]]
    assert bad == pytest.approx([each] * 3, rel=2e-3)


def test_a_block_of_events_hides_nothing(small: Library) -> None:
    """Something not listed can harm all signals of a stage, and none of a past."""
    assert unlisted_signals(small.blocks["past"]) == ()
    assert unlisted_signals(small.blocks["sender"]) == ("drive", "output")


def test_what_only_gathers_has_nothing_hidden_of_its_own() -> None:
    """A signal of its block's signals alone is harmed through them; one state more, and by itself.

    The tiny sender gets such a signal; what reaches it from another block may be harmed on its way.
    """
    summary = "makes:\n  sum:\n    title: Sum\n    carries: rf\n    states: [right, low{}]\n"
    for more, takes, hidden in (
        ("", "{drive: {low: low}}", ("drive", "output")),
        ("", "{drive: same}", ("drive", "output")),
        (", absent", "{drive: same}", ("sum", "drive", "output")),
        ("", "{drive: same, rail: {low: low}}", ("sum", "drive", "output")),
    ):
        text = f"{summary.format(more)}    takes: {takes}\n  drive:\n"
        library = small_library(("blocks/sender.yaml", "makes:\n  drive:\n", text))
        assert unlisted_signals(library.blocks["sender"]) == hidden


def test_a_need_has_the_name_of_its_maker(small: Library) -> None:
    """What a block needs is the other block's signal; what it makes is its own."""
    family, sender = small.families["beacon"], small.blocks["sender"]
    assert global_name(family, "sender", sender, "rail") == "supply.rail"
    assert global_name(family, "sender", sender, "drive") == "sender.drive"


def test_every_cause_of_the_whole_family_shows(library: Library) -> None:
    """Alone in the set, whatever its way, it changes what some check looks at."""
    family, library = library.families["three-crystal-fm"], library.of("three-crystal-fm")
    net = build_network(library, family)
    looked_at = {
        global_name(family, name, library.blocks[name], check.looks_at)
        for name in family.blocks
        for check in library.blocks[name].checks.values()
    }
    for name in family.blocks:
        for cause_id, cause in library.blocks[name].causes.items():
            for way in cause.ways or ("present",):
                if cause.kind == "event":
                    continue
                truth = evaluate(net, {f"{name}.{cause_id}": way})
                assert any(truth[signal] for signal in looked_at), f"{name}.{cause_id} {way}"
