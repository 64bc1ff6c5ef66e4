import json
from pathlib import Path

import pytest

from engine.__main__ import main
from engine.terminal.show import FACTS

FAMILY = """\
Hill-farm beacon, an invented set
family beacon

A supply and a sender.

How to know it
  - It has one knob.

channels  hill-farm
rules     hill-farm
plan      none

Blocks
block   causes  checks  title
supply       2       2  Supply
sender       2       3  Sender
past         1       1  What the set has been through

Wiring
block   needs  from
sender  rail   supply.rail

Limits
  carrier-power: at most 4 W

Source: estimate
"""

BLOCK = """\
Sender
block sender of beacon

Makes the carrier.

Takes
  rail from supply.rail: Supply rail (right, low, absent)

Makes
  sender.drive: Drive of the output transistor (right, low); to no other block
  sender.output: Power at the socket (right, low, absent); to no other block

Causes
  sender.output-transistor: Output transistor failed; failed part, 1 in 500 sets
      Shorted, 1 in 830 sets: makes output absent
      Open, 1 in 1300 sets: makes output low
      Mend: Replace it by one of the same class.
  sender.preset: Drive preset turned down; out of adjustment, 1 in 100 sets
      makes drive low
      Mend: Set it to the power of the rule set.

sender.weak: Others hear the set weakly
  asks   Do others hear you weakly?
  what   symptom, 2 minutes, lid stays on, set as it is
  right  Others hear you clearly.

sender.power: Power into the dummy load
  asks    What power does the meter show?
  what    reading, 3 minutes, lid stays on, transmitting
  needs   Power meter, Dummy load
  beware  Dummy load before keying
  right   3.5 to 4 W.

sender.transistor-junctions: Junctions of the output transistor
  asks   Do both junctions read as diodes?
  what   look, 6 minutes, lid off, set off
  needs  Multimeter
  right  Both junctions read as diodes.
"""

CAUSE = """\
Output transistor failed
cause sender.output-transistor of beacon

failed part: 1 in 500 sets

Shorted (shorted): 1 in 830 sets
  harms
    sender.output absent: Power at the socket
  shows
    90 % (else 6.9 %): Do others hear you weakly? nothing
  its owner tells
    Do others hear you weakly? nothing
  then it may be
    1.8 % this
    15 % sender.preset: Drive preset turned down
    1.4 % supply.flat-battery: Battery flat
    0.3 % sender.unlisted-output: Sender: something not listed here that harms: Power at the
        socket
    0.2 % supply.fuse-joint: Dry joint at the fuse holder
    under 0.1 % supply.unlisted-rail: Supply: something not listed here that harms: Supply rail
    under 0.1 % sender.unlisted-drive: Sender: something not listed here that harms: Drive of the
        output transistor
  best told from all else, at even odds, by
    0.71 bits sender.transistor-junctions: Junctions of the output transistor
    0.63 bits sender.power: Power into the dummy load

Open (opened): 1 in 1300 sets
  harms
    sender.output low: Power at the socket
  shows
    88 % (else 6.3 %): Do others hear you weakly? faint
  its owner tells
    Do others hear you weakly? faint
  then it may be
    1.2 % this
    17 % supply.flat-battery: Battery flat
    0.8 % sender.preset: Drive preset turned down
    0.6 % supply.unlisted-rail: Supply: something not listed here that harms: Supply rail
    0.3 % sender.unlisted-output: Sender: something not listed here that harms: Power at the
        socket
    0.3 % sender.unlisted-drive: Sender: something not listed here that harms: Drive of the output
        transistor
    under 0.1 % supply.fuse-joint: Dry joint at the fuse holder
  best told from all else, at even odds, by
    0.71 bits sender.transistor-junctions: Junctions of the output transistor
    0.59 bits sender.power: Power into the dummy load
    0.06 bits supply.rail-volts: Volts on the rail

Mend
  ! Switch off first
  Replace it by one of the same class.

Source: bench-book
"""

EVENT = """\
The set was dropped
cause past.drop of beacon

something it went through: 1 in 20 sets

Brings about
  supply.fuse-joint: 10 %

By itself: 1 in 20 sets
  harms
    past.past drop: A quiet past
  shows
    12 % (else 3.4 %): Is the set dark and silent? yes
    15 % (else 6.9 %): Do others hear you weakly? nothing
  its owner tells
    nothing out of order
  then it may be
    4.5 % this
    under 0.1 % supply.flat-battery: Battery flat
    under 0.1 % sender.preset: Drive preset turned down
    under 0.1 % sender.output-transistor: Output transistor failed
    under 0.1 % supply.unlisted-rail: Supply: something not listed here that harms: Supply rail
    under 0.1 % sender.unlisted-output: Sender: something not listed here that harms: Power at the
        socket
    under 0.1 % sender.unlisted-drive: Sender: something not listed here that harms: Drive of the
        output transistor
  best told from all else, at even odds, by
    0.37 bits past.fell: The set has fallen

Mend
  Look for loose parts.

Source: estimate
"""

SYMPTOM = """\
sender.weak: Others hear the set weakly
  asks   Do others hear you weakly?
  what   symptom, 2 minutes, lid stays on, set as it is
  right  Others hear you clearly.

How each state shows
  sender.output right: As loud as ever
  sender.output low: Faint
  sender.output absent: Nothing at all

Source: common practice

Fault tree
  sender.output low or absent, 1 in 26 sets, by any of
    sender.output-transistor shorted or opened, 1 in 500 sets
    sender.unlisted-output low or absent, 1 in 2500 sets
    sender.drive low, 1 in 28 sets, by any of
      sender.preset present, 1 in 100 sets
      sender.unlisted-drive low, 1 in 5000 sets
      supply.rail low or absent, 1 in 38 sets, by any of
        supply.flat-battery weak or empty, 1 in 50 sets
        supply.fuse-joint present, 1 in 190 sets
        supply.unlisted-rail low or absent, 1 in 990 sets
    supply.rail low or absent, 1 in 38 sets (drawn above)
    all of these together, making it absent, 1 in 100 sets:
      sender.drive low, 1 in 28 sets (drawn above)
      sender.preset present, 1 in 100 sets

Minimal cut sets
  one cause: 11
    supply.flat-battery (weak), 1 in 71 sets
    sender.preset (present), 1 in 100 sets
    supply.flat-battery (empty), 1 in 170 sets
    supply.fuse-joint (present), 1 in 190 sets
    sender.output-transistor (shorted), 1 in 830 sets
    sender.output-transistor (opened), 1 in 1300 sets
    supply.unlisted-rail (absent), 1 in 2000 sets
    supply.unlisted-rail (low), 1 in 2000 sets
    sender.unlisted-drive (low), 1 in 5000 sets
    sender.unlisted-output (absent), 1 in 5000 sets
    sender.unlisted-output (low), 1 in 5000 sets
"""

SIGNAL = """\
Supply rail
signal supply.rail of beacon

It goes to sender.

States, from right to worst
  right: 97 of 100 sets
  low: 1 in 69 sets
  absent: 1 in 86 sets

Fault tree
  supply.rail low or absent, 1 in 38 sets, by any of
    supply.flat-battery weak or empty, 1 in 50 sets
    supply.fuse-joint present, 1 in 190 sets
    supply.unlisted-rail low or absent, 1 in 990 sets

Minimal cut sets
  one cause: 5
    supply.flat-battery (weak), 1 in 71 sets
    supply.flat-battery (empty), 1 in 170 sets
    supply.fuse-joint (present), 1 in 190 sets
    supply.unlisted-rail (absent), 1 in 2000 sets
    supply.unlisted-rail (low), 1 in 2000 sets
"""

READING = """\
supply.rail-volts: Volts on the rail
  asks   What voltage is on the rail?
  what   reading, 3 minutes, lid off, receiving
  needs  Multimeter
  right  12.5 to 13.8 V.

How each state shows
  supply.rail right: about 13 V, give or take 0.4
  supply.rail low: 6 to 12 V
  supply.rail absent: 0 to 0.5 V

Source: bench-book
"""


def shown(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """Return what `dryjoint show` prints."""
    assert main(["show", *words, "--kb", "kb"]) == 0
    return capsys.readouterr().out


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("beacon", FAMILY),
        ("sender", BLOCK),
        ("sender.output-transistor", CAUSE),
        ("drop", EVENT),
        ("sender.weak", SYMPTOM),
        ("supply.rail", SIGNAL),
        ("rail-volts", READING),
    ],
)
def test_a_thing_is_shown_as_a_mechanic_reads_it(
    name: str, text: str, bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Word for word; no line has more than a hundred characters."""
    assert shown(capsys, name) == text
    assert max(map(len, text.splitlines())) <= 100


@pytest.mark.parametrize(
    "name", ["beacon", "sender", "sender.preset", "sender.weak", "past.fell", "supply.rail"]
)
def test_json_has_the_same_and_more(
    name: str, bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Kind, id and title, and everything that stands in the text."""
    facts = json.loads(shown(capsys, name, "--json"))
    assert (facts["kind"], facts["id"]) in {(kind, name) for kind in FACTS}
    assert facts["title"] in shown(capsys, name)


def test_json_of_a_cause_holds_the_figures(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A script gets chances as numbers, not in words."""
    facts = json.loads(shown(capsys, "fuse-joint", "--json"))
    assert facts["harmed_by"] == {"drop": 0.1}
    (way,) = facts["ways"]
    assert [one["id"] for one in way["harms"]] == ["supply.rail", "sender.drive", "sender.output"]
    assert [one["id"] for one in way["told"]] == ["supply.dark", "sender.weak"]
    assert way["rivals"][0]["id"] == "supply.flat-battery"
    assert 0.0 < way["chance"] < 0.5


def test_json_of_a_symptom_holds_the_tree(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every branch with its chance, every cut set with its causes."""
    facts = json.loads(shown(capsys, "supply.dark", "--json"))
    assert (facts["tree"]["name"], facts["tree"]["states"]) == ("supply.rail", ["absent"])
    causes = {tuple(map(tuple, one["causes"])) for one in facts["cut_sets"]}
    assert causes == {
        (("supply.flat-battery", "empty"),),
        (("supply.fuse-joint", "present"),),
        (("supply.unlisted-rail", "absent"),),
    }


def test_a_symptom_that_never_shows_has_no_tree(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where no state makes it noticeably likelier there is nothing to draw."""
    supply = bench / "blocks" / "supply.yaml"
    text = supply.read_text(encoding="utf-8")
    text = text.replace(
        "{right: 0.02, low: 0.2, absent: 0.97}", "{right: 0.1, low: 0.1, absent: 0.12}"
    )
    supply.write_text(text, encoding="utf-8")
    assert "Fault tree" not in shown(capsys, "supply.dark")
    facts = json.loads(shown(capsys, "supply.dark", "--json"))
    assert (facts["tree"], facts["cut_sets"]) == (None, [])


def test_a_symptom_of_a_cause_is_a_tree_of_one_leaf(
    bench: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It looks at the cause itself."""
    sender = bench / "blocks" / "sender.yaml"
    text = sender.read_text(encoding="utf-8")
    text = text.replace("kind: look\n", "kind: symptom\n").replace('lid: "off"\n', 'lid: "on"\n')
    text = text.replace("    needs: [multimeter]\n", "")
    sender.write_text(text, encoding="utf-8")
    told = shown(capsys, "transistor-junctions")
    assert told.endswith(
        "Fault tree\n"
        "  sender.output-transistor shorted or opened, 1 in 500 sets\n"
        "\n"
        "Minimal cut sets\n"
        "  one cause: 2\n"
        "    sender.output-transistor (shorted), 1 in 830 sets\n"
        "    sender.output-transistor (opened), 1 in 1300 sets\n"
    )


def test_a_slip_is_a_wrong_command(bench: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The code is 2, and the likely name is offered."""
    assert main(["show", "sender.wek", "--kb", "kb"]) == 2
    said = "dryjoint: nothing is called 'sender.wek'. Did you mean 'sender.weak'?\n"
    assert capsys.readouterr().err == said
