"""From a checked plan file to the plan that arithmetic works with."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from engine.knowledge.plans import (
    CodesDocument,
    CountRule,
    LinesDocument,
    ModeDocument,
    PlanDocument,
)
from engine.knowledge.tables import ChannelPlan
from engine.radio.plans.plan import Counts, Direction, Lines, Mode, Oscillator, Plan

MHZ, KHZ = 1_000_000, 1_000


def carriers_of(channels: ChannelPlan) -> dict[int, Fraction]:
    """Return the carriers in Hz, exactly as they are written."""
    rows = channels.carriers_mhz.items()
    return {channel: Fraction(str(mhz)) * MHZ for channel, mhz in rows}


def slots(carriers: Mapping[int, Fraction], grid_hz: Fraction) -> dict[int, Fraction]:
    """Return how many slots of the grid each channel is above the first; a part of one is wrong."""
    first = next(iter(carriers.values()))
    return {channel: (hz - first) / grid_hz for channel, hz in carriers.items()}


def make_plan(name: str, document: PlanDocument, channels: ChannelPlan) -> Plan:
    """Return the plan of a document without problems."""
    carriers = carriers_of(channels)
    receiver, reach = document.receiver, document.vco_reach
    counts = _counts(document, slots(carriers, document.grid_khz * KHZ))
    return Plan(
        id=name,
        title=document.title,
        source=document.source,
        carriers=carriers,
        grid_hz=document.grid_khz * KHZ,
        oscillators={
            key: Oscillator(key, each.title, each.mhz * MHZ)
            for key, each in document.oscillators.items()
        },
        modes={key: _mode(key, each) for key, each in document.modes.items()},
        reference=document.synthesiser.reference,
        divider_input=document.synthesiser.divider_input,
        counts=counts,
        lo=receiver.first_oscillator,
        second_lo=receiver.second_oscillator or {},
        if1_hz=receiver.first_if_mhz * MHZ,
        if2_hz=(receiver.second_if_khz or Fraction(0)) * KHZ,
        carrier=receiver.carrier_oscillator or "",
        transmit=document.transmitter.carrier,
        lines=_lines(document.lines, counts["receive"]) if document.lines else None,
        vco_reach_hz=(reach.from_mhz * MHZ, reach.to_mhz * MHZ) if reach else None,
        notes=document.notes,
        about=document.about,
        filter_hz=receiver.sideband_filter_mhz * MHZ if receiver.sideband_filter_mhz else None,
    )


def with_signals(plan: Plan, signals: Mapping[str, str]) -> Plan:
    """Return a plan whose oscillators know the network's names for their frequencies."""
    oscillators = {
        key: replace(each, signal=signals.get(key, "")) for key, each in plan.oscillators.items()
    }
    return replace(plan, oscillators=oscillators)


def _mode(name: str, mode: ModeDocument) -> Mode:
    return Mode(name, mode.title, mode.instead, mode.conversions == 2, mode.sideband or "")


def _counts(document: PlanDocument, by_slot: Mapping[int, Fraction]) -> Mapping[Direction, Counts]:
    receive = document.counts.receive
    transmit = document.counts.transmit or receive
    return {
        "receive": Counts(counted(receive, by_slot), receive.divide),
        "transmit": Counts(counted(transmit, by_slot), transmit.divide),
    }


def counted(rule: CountRule, by_slot: Mapping[int, Fraction]) -> Mapping[int, int]:
    """Return N for every channel."""
    if rule.by_channel is not None:
        return {channel: rule.by_channel[channel] for channel in by_slot}
    assert rule.first is not None
    assert rule.per_slot is not None
    return {channel: rule.first + rule.per_slot * int(slot) for channel, slot in by_slot.items()}


def _lines(lines: LinesDocument, counts: Counts) -> Lines:
    """Return the lines; those that add up carry the count itself."""
    codes = dict(counts.by_channel)
    if lines.codes is not None:
        codes = _codes(lines.codes, list(codes))
    return Lines(lines.coding, lines.weights, lines.wired, lines.open_reads, codes)


def _codes(codes: CodesDocument, channels: list[int]) -> dict[int, int]:
    if codes.by_channel is not None:
        return {channel: codes.by_channel[channel] for channel in channels}
    assert codes.first is not None
    assert codes.per_channel is not None
    return {each: codes.first + codes.per_channel * row for row, each in enumerate(channels)}
