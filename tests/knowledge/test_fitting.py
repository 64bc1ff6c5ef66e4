"""A block as each family has it: optional needs, features, figures."""

import pytest

from engine.knowledge.library import Library, load
from engine.knowledge.loader import AuthorLoader, compose
from engine.knowledge.schema import Between, Normal

PLAIN = "    states: [right, low, absent]\nmakes:\n  drive:"


@pytest.fixture
def adapted(small: dict[str, str]) -> Library:
    """Return the small knowledge base with a sender that adapts, in two kinds of set."""
    sender = small["blocks/sender.yaml"]
    for old, new in (
        (PLAIN, PLAIN.replace("makes:", "    optional: true\nmakes:")),
        ("title: Power into the dummy load", "title: Power into the dummy load, {power}"),
        ("span: [0, 10]", "scale: power\n    span: [0, 2.5]"),
        ("right: {typical: 3.8, spread: 0.3}", "right: {typical: 0.95, spread: 0.075}"),
        ("low: {from: 0.2, to: 2.5}", "low: {from: 0.05, to: 0.625}"),
        ("absent: {from: 0, to: 0.1}", "absent: {from: 0, to: 0.025}"),
        (
            "    title: Drive preset turned down",
            "    fitted-with: [preset]\n    title: Preset down",
        ),
        (
            "    looks-at: output\n    mode: transmit",
            "    looks-at: output\n    mode: transmit\n    presumes: {rail: [right, low]}",
        ),
    ):
        assert sender.count(old) == 1, old
        sender = sender.replace(old, new)
    family = small["families/beacon.yaml"]
    whole = family + "figures: {power: 4 W}\nfeatures: [preset]\n"
    bare = family.replace("  sender: {rail: supply.rail}", "  sender: {}")
    assert bare != family
    added = {
        "blocks/sender.yaml": sender,
        "families/beacon.yaml": whole,
        "families/bare.yaml": bare + "figures: {power: 0.4 W at low power}\n",
    }
    return load(small | added)


def test_a_family_has_what_it_asks_for(adapted: Library) -> None:
    """With the feature and the wire, everything is there and figures stand in the texts."""
    sender = adapted.of("beacon").blocks["sender"]
    assert list(sender.causes) == ["output-transistor", "preset"]
    assert list(sender.needs) == ["rail"]
    assert sender.checks["power"].title == "Power into the dummy load, 4 W"
    assert sender.checks["power"].span == (0, 10)
    assert sender.checks["power"].reads["right"] == Normal(typical=3.8, spread=0.3)
    assert sender.checks["power"].presumes == {"rail": ("right", "low")}


def test_what_is_not_fitted_goes(adapted: Library) -> None:
    """Without them the cause, the rule on it, what takes the need and what presumes it are gone."""
    sender = adapted.of("bare").blocks["sender"]
    assert list(sender.causes) == ["output-transistor"]
    assert not sender.needs
    assert dict(sender.makes["drive"].takes) == {}
    assert dict(sender.makes["output"].takes) == {"drive": "same"}
    assert sender.makes["output"].rules == ()
    assert sender.checks["power"].title == "Power into the dummy load, 0.4 W at low power"
    assert sender.checks["power"].presumes == {}
    low = sender.checks["power"].reads["low"]
    assert isinstance(low, Between)
    assert (low.low, low.high) == pytest.approx((0.02, 0.25))


def test_blocks_of_other_families_are_left_out(adapted: Library) -> None:
    """A library fitted to a family holds its blocks, and the library itself is as it was."""
    assert set(adapted.of("bare").blocks) == {"past", "sender", "supply"}
    assert adapted.blocks["sender"].checks["power"].title == "Power into the dummy load, {power}"


@pytest.mark.parametrize(
    "text",
    [
        "a: yes\nb: [on, 12:30, 010, 1e3, -.5]\nc: ~\nd: true\n",
        "a: &b 1\n",
        "f: >-\n  two\n  lines\ng: {h: \"a: b\", i: 'x'}\n",
    ],
)
def test_both_parsers_agree(text: str) -> None:
    """The parser in C gives the same values and lines as the one in Python."""
    fast, made = compose(text)
    slow = AuthorLoader(text)
    node = slow.get_single_node()
    assert made.construct_document(fast) == slow.construct_document(node)
    assert [key.start_mark.line for key, _ in fast.value] == [  # type: ignore[union-attr]
        key.start_mark.line for key, _ in node.value
    ]
