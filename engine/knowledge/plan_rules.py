"""Rules on frequency plans: names are there, tables are whole, and the arithmetic comes out."""

from collections.abc import Collection, Iterator, Mapping
from fractions import Fraction

from engine.errors import Problem
from engine.knowledge.draft import Draft, Page
from engine.knowledge.naming import unknown
from engine.knowledge.plan_making import KHZ, carriers_of, make_plan, slots
from engine.knowledge.plans import CodesDocument, CountRule, PlanDocument
from engine.knowledge.tables import ChannelPlan, ChannelPlans
from engine.knowledge.wording import Path
from engine.radio.plans.checking import faults
from engine.radio.plans.plan import VCO

PlanPage = Page[PlanDocument]
ROLE = "an oscillator of this plan, or 'vco'"
CRYSTAL = "an oscillator of this plan"


def plan_problems(page: PlanPage, draft: Draft) -> Iterator[Problem]:
    """Yield what is wrong with one plan; its arithmetic is tried when nothing else is."""
    table = draft.table("tables/channels.yaml", ChannelPlans)
    found = [*_roles(page), *_modes(page), *_wired(page)]
    if table is not None:
        chosen = page.model.channels
        found += unknown(page.source, ("channels",), chosen, table.plans, "a channel plan")
        if chosen in table.plans:
            found += _tables(page, table.plans[chosen])
            if not found:
                found += _faults(page, table.plans[chosen])
    yield from found


def _roles(page: PlanPage) -> Iterator[Problem]:
    """Yield formulas that name no oscillator, or leave the VCO out where it must be."""
    source, plan = page.source, page.model
    receiver = plan.receiver
    crystals = list(plan.oscillators)
    if VCO in crystals:
        remedy = "Give the crystal another id; 'vco' is the oscillator that the loop tunes."
        yield source.problem(("oscillators", VCO), "'vco'", "an id of a crystal", remedy)
    tuned = {
        ("synthesiser", "divider-input"): plan.synthesiser.divider_input,
        ("receiver", "first-oscillator"): receiver.first_oscillator,
        ("transmitter", "carrier"): plan.transmitter.carrier,
    }
    for path, multiples in tuned.items():
        for role in multiples:
            yield from unknown(source, (*path, role), role, [*crystals, VCO], ROLE)
        if VCO not in multiples:
            remedy = "Write how often the VCO is in it, such as 'vco: 1'."
            yield source.problem(path, "no 'vco'", "a multiple of the VCO", remedy)
    path = ("receiver", "second-oscillator")
    for role in receiver.second_oscillator or {}:
        yield from unknown(source, (*path, role), role, crystals, CRYSTAL)
    path, role = ("synthesiser", "reference"), plan.synthesiser.reference
    yield from unknown(source, path, role, crystals, CRYSTAL)
    if receiver.carrier_oscillator is not None:
        path = ("receiver", "carrier-oscillator")
        yield from unknown(source, path, receiver.carrier_oscillator, crystals, CRYSTAL)


def _modes(page: PlanPage) -> Iterator[Problem]:
    """Yield modes that name no oscillator, or lack what they need in the receiver."""
    receiver = page.model.receiver
    has_second = receiver.second_oscillator is not None and receiver.second_if_khz is not None
    has_carrier = (
        receiver.carrier_oscillator is not None and receiver.sideband_filter_mhz is not None
    )
    for name, mode in page.model.modes.items():
        path = ("modes", name)
        for role, other in mode.instead.items():
            for each in (role, other):
                below = (*path, "instead", role)
                yield from unknown(page.source, below, each, page.model.oscillators, CRYSTAL)
        if mode.conversions == 2 and mode.sideband:
            remedy = "Write 'conversions: 1'; a sideband is beaten with the carrier crystal."
            yield page.source.problem(path, "a sideband with two conversions", "one", remedy)
        elif mode.conversions == 2 and not has_second:
            remedy = "Add them under 'receiver', or write 'conversions: 1'."
            expected = "'second-oscillator' and 'second-if-khz' for two conversions"
            yield page.source.problem(path, "not both", expected, remedy)
        elif mode.sideband and not has_carrier:
            remedy = "Add them under 'receiver'."
            expected = "'carrier-oscillator' and 'sideband-filter-mhz' for a sideband"
            yield page.source.problem(path, "not both", expected, remedy)


def _wired(page: PlanPage) -> Iterator[Problem]:
    """Yield wired lines that are none, and lines that cannot add up to two counts."""
    plan, lines = page.model, page.model.lines
    if lines is None:
        return
    for name in lines.wired:
        yield from unknown(page.source, ("lines", "wired", name), name, lines.weights, "a line")
    if lines.coding != "rom" and plan.counts.transmit is not None:
        found = f"'{lines.coding}' beside counts of their own in transmit"
        remedy = "Lines that add up make one count; a code that is looked up can stand for two."
        yield page.source.problem(("lines", "coding"), found, "'rom'", remedy)


def _tables(page: PlanPage, channels: ChannelPlan) -> Iterator[Problem]:
    """Yield tables by channel with gaps, and a grid that the channels do not stand on."""
    plan, counts = page.model, page.model.counts
    carriers = carriers_of(channels)
    for path, table in (
        (("counts", "receive"), counts.receive),
        (("counts", "transmit"), counts.transmit),
        (("lines", "codes"), plan.lines.codes if plan.lines else None),
    ):
        yield from _gaps(page, (*path, "by-channel"), table, carriers)
    off = [
        each for each, slot in slots(carriers, plan.grid_khz * KHZ).items() if slot.denominator > 1
    ]
    if off:
        found = f"{float(plan.grid_khz):g} kHz, on which channel {off[0]} is no whole slot"
        remedy = "Write the spacing of which all channels are whole multiples from the first."
        yield page.source.problem(("grid-khz",), found, "a grid of all channels", remedy)


def _gaps(
    page: PlanPage,
    path: Path,
    table: CountRule | CodesDocument | None,
    carriers: Mapping[int, Fraction],
) -> Iterator[Problem]:
    """Yield channels that a table leaves out, and those it has too many."""
    if table is None or table.by_channel is None:
        return
    for channel in table.by_channel:
        expected = f"a channel of '{page.model.channels}'"
        yield from unknown(page.source, (*path, channel), str(channel), _words(carriers), expected)
    missing = [channel for channel in carriers if channel not in table.by_channel]
    if missing:
        remedy = "Write every channel, or give a rule."
        yield page.source.problem(path, f"no channel {missing[0]}", "every channel", remedy)


def _faults(page: PlanPage, channels: ChannelPlan) -> Iterator[Problem]:
    """Yield why a plan that is written right cannot work."""
    for fault in faults(make_plan("", page.model, channels)):
        is_shared = fault.part[0] == "counts" and page.model.counts.transmit is None
        path = ("counts", "receive") if is_shared else fault.part
        yield page.source.problem(path, fault.found, fault.expected, fault.remedy)


def _words(carriers: Collection[int]) -> list[str]:
    return [str(channel) for channel in carriers]
