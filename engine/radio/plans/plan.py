"""A frequency plan: crystals, counts and mixing, as exact numbers.

Every frequency of a channelised set is a sum of multiples of its oscillators. A formula is a `Mix`:
multiples by role, where a role is an oscillator of the mode or `vco`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

VCO = "vco"
Mix = Mapping[str, int]  # role -> multiple
Direction = Literal["receive", "transmit"]
Coding = Literal["binary", "bcd", "rom"]
Sideband = Literal["", "upper", "lower"]


@dataclass(frozen=True, slots=True)
class Oscillator:
    """A crystal with its circuit; `signal` is the network's name for its frequency, or empty."""

    id: str
    title: str
    hz: Fraction
    signal: str = ""


@dataclass(frozen=True, slots=True)
class Mode:
    """A kind of emission; `instead` names the oscillators that take over a role in it.

    With `second_if` the receiver converts twice in this mode; otherwise the carrier oscillator,
    or a plain detector brings the first intermediate frequency straight to speech. `sideband` is
    the one that is sent, or empty where the carrier goes out as well.
    """

    id: str
    title: str
    instead: Mapping[str, str]
    second_if: bool
    sideband: Sideband = ""


@dataclass(frozen=True, slots=True)
class Counts:
    """What the programmable divider counts, and what the reference is divided by for the step."""

    by_channel: Mapping[int, int]
    divide: int


@dataclass(frozen=True, slots=True)
class Lines:
    """The programming lines: weight of each, those wired for good, and how they are read.

    `binary` and `bcd` lines add up to the count; `rom` lines carry `codes`, a number for each
    channel that the chip looks up. An open line reads as `open_state`.
    """

    coding: Coding
    weights: Mapping[str, int]
    fixed: Mapping[str, int]
    open_state: int
    codes: Mapping[int, int]  # channel -> what the lines add up to


@dataclass(frozen=True, slots=True)
class Plan:
    """One plan. Frequencies in Hz, exact; `carriers` by channel, in the order of the dial."""

    id: str
    title: str
    source: str
    carriers: Mapping[int, Fraction]
    grid_hz: Fraction
    oscillators: Mapping[str, Oscillator]
    modes: Mapping[str, Mode]
    reference: str  # the role that is divided down to the step
    divider_input: Mix
    counts: Mapping[Direction, Counts]
    lo: Mix  # first local oscillator
    second_lo: Mix
    if1_hz: Fraction  # the middle of the first filter, where no carrier oscillator is beaten with
    if2_hz: Fraction
    carrier: str  # the role of the carrier oscillator, or empty
    transmit: Mix
    lines: Lines | None = None
    vco_reach_hz: tuple[Fraction, Fraction] | None = None
    notes: tuple[str, ...] = field(default=())
    about: str = ""
    filter_hz: Fraction | None = None  # the middle of the sideband filter

    def oscillator(self, role: str, mode: str) -> Oscillator:
        """Return the oscillator that has a role in a mode."""
        return self.oscillators[self.modes[mode].instead.get(role, role)]
