"""The shape of a frequency plan: kb/plans/*.yaml.

A crystal's frequency is exact: a decimal in MHz, or a decimal over a whole number, "33.8575/3". A
formula is a mapping of multiples by role; a role is an oscillator of this file or `vco`.
"""

import re
from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, PlainValidator, WithJsonSchema, model_validator

from engine.knowledge.document import Document, Id, Text, refusal

_EXACT = re.compile(r"^(\d+(?:\.\d+)?)(?:\s*/\s*([1-9]\d*))?$")
_SCHEMA = {"anyOf": [{"type": "number", "exclusiveMinimum": 0}, {"type": "string"}]}


def exact(value: Any) -> Fraction:
    """Return what an author wrote as an exact number.

    >>> exact(15.99625), exact("33.8575/3")
    (Fraction(12797, 800), Fraction(13543, 1200))
    """
    matched = None if isinstance(value, bool) else _EXACT.match(str(value))
    number = Fraction(matched[1]) / int(matched[2] or 1) if matched else Fraction(0)
    if number <= 0:
        remedy = 'Write it such as 10.24 or "33.8575/3".'
        raise refusal(f"'{value}'", "a number above 0, or one over a whole number", remedy)
    return number


def _turning(multiples: dict[str, int]) -> dict[str, int]:
    if 0 in multiples.values():
        raise refusal("a multiple of 0", "whole multiples other than 0", "Leave that one out.")
    return multiples


Exact = Annotated[Fraction, PlainValidator(exact), WithJsonSchema(_SCHEMA)]
Multiples = Annotated[dict[Id, int], Field(min_length=1), AfterValidator(_turning)]
State = Annotated[int, Field(ge=0, le=1)]
Channel = Annotated[int, Field(ge=1)]
Number = Annotated[int, Field(ge=1)]


class OscillatorDocument(Document):
    """A crystal oscillator, on its nominal frequency."""

    title: Text
    mhz: Exact
    source: Text


class ModeDocument(Document):
    """A kind of emission: which oscillators take over in it, how often the receiver converts."""

    title: Annotated[str, Field(min_length=2)]
    conversions: Literal[1, 2]
    sideband: Literal["upper", "lower"] | None = None  # none where the carrier goes out as well
    instead: dict[Id, Id] = Field(default_factory=dict)


class CountRule(Document):
    """What is counted on each channel, and what the reference is divided by for one step.

    Either `first` on the first channel and `per-slot` more for each slot of the grid above it, or
    a table `by-channel`.
    """

    divide: Number
    first: Number | None = None
    per_slot: int | None = None
    by_channel: dict[Channel, Number] | None = None

    @model_validator(mode="after")
    def rule_or_table(self) -> "CountRule":
        """Refuse half a rule, and a rule beside a table."""
        rule = (self.first is not None) + (self.per_slot is not None)
        if rule != (2 if self.by_channel is None else 0):
            expected = "'first' with 'per-slot', or 'by-channel'"
            remedy = "Write the rule such as 'first: 91' and 'per-slot: 1', or the whole table."
            raise refusal(_given(self, "first", "per_slot", "by_channel"), expected, remedy)
        return self


class CountsDocument(Document):
    """The counts in receive and, where they differ, in transmit."""

    receive: CountRule
    transmit: CountRule | None = None
    source: Text


class SynthesiserDocument(Document):
    """The loop: which oscillator is its reference, and what the programmable divider is given."""

    reference: Id
    divider_input: Multiples
    source: Text


class ReceiverDocument(Document):
    """From the aerial to speech. `first-if-mhz` is the middle of the first filter."""

    first_oscillator: Multiples
    first_if_mhz: Exact
    second_oscillator: Multiples | None = None
    second_if_khz: Exact | None = None
    carrier_oscillator: Id | None = None
    sideband_filter_mhz: Exact | None = None  # its middle
    source: Text


class TransmitterDocument(Document):
    """How the carrier is made."""

    carrier: Multiples
    source: Text


class ReachDocument(Document):
    """Between which frequencies the VCO can be pulled by its control voltage."""

    from_mhz: Exact
    to_mhz: Exact
    source: Text

    @model_validator(mode="after")
    def in_order(self) -> "ReachDocument":
        """Refuse ends that are equal or the wrong way round."""
        if self.from_mhz >= self.to_mhz:
            found = f"from {float(self.from_mhz):g} to {float(self.to_mhz):g}"
            raise refusal(found, "'from-mhz' below 'to-mhz'", "Swap them, or widen the reach.")
        return self


class CodesDocument(Document):
    """The code of each channel: by its place on the dial, or in a table."""

    first: Annotated[int, Field(ge=0)] | None = None
    per_channel: int | None = None
    by_channel: dict[Channel, Annotated[int, Field(ge=0)]] | None = None

    @model_validator(mode="after")
    def rule_or_table(self) -> "CodesDocument":
        """Refuse half a rule, and a rule beside a table."""
        rule = (self.first is not None) + (self.per_channel is not None)
        if rule != (2 if self.by_channel is None else 0):
            expected = "'first' with 'per-channel', or 'by-channel'"
            remedy = "Write the rule such as 'first: 1' and 'per-channel: 1', or the whole table."
            raise refusal(_given(self, "first", "per_channel", "by_channel"), expected, remedy)
        return self


class LinesDocument(Document):
    """The programming lines. `binary` and `bcd` add up to the count; `rom` is a code looked up."""

    coding: Literal["binary", "bcd", "rom"]
    weights: Annotated[dict[Id, Number], Field(min_length=1)]
    wired: dict[Id, State] = Field(default_factory=dict)  # for good, to 0 or 1
    open_reads: State  # what an open line is taken for
    codes: CodesDocument | None = None
    source: Text

    @model_validator(mode="after")
    def codes_where_looked_up(self) -> "LinesDocument":
        """Refuse codes beside lines that add up, and a look-up without codes."""
        if (self.coding == "rom") != (self.codes is not None):
            found = f"{'no ' if self.codes is None else ''}'codes' beside 'coding: {self.coding}'"
            remedy = "Write 'codes' for a chip that looks the code up; other lines add up to N."
            raise refusal(found, "'codes' with 'coding: rom' only", remedy)
        return self


class PlanDocument(Document):
    """How one kind of set makes its frequencies."""

    title: Text
    about: Text
    source: Text
    channels: Id  # channel plan
    grid_khz: Exact
    oscillators: Annotated[dict[Id, OscillatorDocument], Field(min_length=1)]
    modes: Annotated[dict[Id, ModeDocument], Field(min_length=1)]
    synthesiser: SynthesiserDocument
    counts: CountsDocument
    vco_reach: ReachDocument | None = None
    receiver: ReceiverDocument
    transmitter: TransmitterDocument
    lines: LinesDocument | None = None
    notes: tuple[Text, ...] = ()


def _given(document: Document, *names: str) -> str:
    """Return the keys that were written, as an author wrote them."""
    keys = [f"'{name.replace('_', '-')}'" for name in names if getattr(document, name) is not None]
    return " with ".join(keys) or "neither"
