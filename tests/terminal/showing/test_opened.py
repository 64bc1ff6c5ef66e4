from pathlib import Path

import pytest

from engine.knowledge.library import Library
from engine.terminal.knowledge_base import UsageError, open_library
from engine.terminal.showing.opened import Named, find, set_of

NOWHERE = "nothing is called '{}'. `dryjoint list` has the names of all blocks, causes, checks and signals."  # noqa: E501


@pytest.fixture
def library(kb: Path) -> Library:
    """Return the tiny knowledge base."""
    return open_library(kb)


@pytest.mark.parametrize(
    ("typed", "kind", "name"),
    [
        ("beacon", "family", "beacon"),
        ("sender", "block", "sender"),
        ("sender.preset", "cause", "sender.preset"),
        ("preset", "cause", "sender.preset"),
        ("unlisted-drive", "cause", "sender.unlisted-drive"),
        ("sender.weak", "check", "sender.weak"),
        ("dark", "check", "supply.dark"),
        ("rail", "signal", "supply.rail"),
        ("past", "block", "past"),
        ("past.past", "signal", "past.past"),
    ],
)
def test_a_thing_is_found_by_its_name(typed: str, kind: str, name: str, library: Library) -> None:
    """In full, or by its own name alone; a block goes before a signal of the same name."""
    assert find(library, typed) == Named(kind, name)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("sendr", "nothing is called 'sendr'. Did you mean 'sender'?"),
        (
            "sender.presett",
            "nothing is called 'sender.presett'. Did you mean 'sender.preset'?",
        ),
        ("rail-volt", "nothing is called 'rail-volt'. Did you mean 'rail-volts'?"),
        ("xyz", NOWHERE.format("xyz")),
    ],
)
def test_a_slip_is_guessed(typed: str, said: str, library: Library) -> None:
    """The likeliest name is offered, else where names are listed."""
    with pytest.raises(UsageError) as caught:
        find(library, typed)
    assert str(caught.value) == said


def test_a_name_in_several_blocks_is_asked_back(kb: Path) -> None:
    """All of them are named."""
    past = kb / "blocks" / "past.yaml"
    text = past.read_text(encoding="utf-8").replace("  fell:\n", "  dark:\n")
    past.write_text(text, encoding="utf-8")
    with pytest.raises(UsageError) as caught:
        find(open_library(kb), "dark")
    said = "'dark' is in several blocks. Write one of past.dark, supply.dark."
    assert str(caught.value) == said


def test_a_thing_is_shown_in_the_first_set_that_has_it(kb: Path) -> None:
    """Or in the one asked for, if it has it."""
    other = (kb / "families" / "beacon.yaml").read_text(encoding="utf-8")
    other = other.replace("  sender: {at: [1, 0]}\n", "").replace(
        "wiring:\n  sender: {rail: supply.rail}", "wiring: {}"
    )
    (kb / "families" / "a-lamp.yaml").write_text(other, encoding="utf-8")
    library = open_library(kb)
    assert set_of(kb, library, Named("block", "supply"), None).id == "a-lamp"
    assert set_of(kb, library, Named("block", "supply"), "beacon").id == "beacon"
    assert set_of(kb, library, Named("check", "sender.weak"), None).id == "beacon"
    with pytest.raises(UsageError) as caught:
        set_of(kb, library, Named("block", "sender"), "a-lamp")
    assert str(caught.value) == "'sender' is no block of 'a-lamp', but of beacon"


def test_a_block_without_a_set_and_a_set_that_is_not_there(kb: Path) -> None:
    """A block is shown as part of a set; an unknown set is a slip."""
    text = (kb / "blocks" / "past.yaml").read_text(encoding="utf-8")
    (kb / "blocks" / "spare.yaml").write_text(text.replace("drop", "fall"), encoding="utf-8")
    library = open_library(kb)
    with pytest.raises(UsageError) as caught:
        set_of(kb, library, Named("block", "spare"), None)
    said = "'spare' is in no family yet; kb/families lists the blocks of each"
    assert str(caught.value) == said
    with pytest.raises(UsageError) as caught:
        set_of(kb, library, Named("block", "past"), "becon")
    assert str(caught.value) == "no family 'becon'. Did you mean 'beacon'?"
