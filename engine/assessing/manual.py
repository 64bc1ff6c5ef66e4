"""What stands on paper about a set: which signal follows from which, and a printed chart.

The chart goes through the set in a fixed order: supply, audio, receiver, synthesiser, transmitter,
each along the signal path, with the quickest check of every signal.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from engine.diagnosis.frequencies.model import FREQUENCIES
from engine.diagnosis.model import CheckText, SetModel
from engine.inference.network import Network

SECTIONS = ("supply", "audio", "receiver", "synthesiser", "transmitter")


@dataclass(frozen=True, slots=True)
class Manual:
    """For each variable all it follows from, itself too; for each block its causes; the chart."""

    before: Mapping[str, frozenset[str]]
    chart: tuple[str, ...]


def manual_of(model: SetModel, network: Network) -> Manual:
    """Return what can be drawn from the circuit alone, without any chance."""
    before: dict[str, frozenset[str]] = {}
    for name, node in network.nodes.items():
        before[name] = frozenset({name}).union(*(before[parent] for parent in node.parents))
    return Manual(before, _chart(model, network, before))


def is_main(model: SetModel, check: CheckText) -> bool:
    """Whether a check measures a signal of the set, rather than a part, and is no symptom."""
    return check.kind != "symptom" and (check.at is not None or check.looks_at in model.signals)


def stage(check: CheckText) -> str:
    """Return the block whose work a check judges."""
    return check.block if check.at is not None else check.looks_at.partition(".")[0]


def _chart(
    model: SetModel, network: Network, before: Mapping[str, frozenset[str]]
) -> tuple[str, ...]:
    quickest: dict[str, CheckText] = {}
    for check in sorted(model.checks.values(), key=lambda each: (each.minutes, each.id)):
        if is_main(model, check) and check.looks_at in before:
            quickest.setdefault(check.at.check if check.at else check.looks_at, check)
    sections = sections_of(model, before)
    place = {name: number for number, name in enumerate(network.nodes)}

    def key(check: CheckText) -> tuple[int, int, str]:
        return SECTIONS.index(sections[stage(check)]), place[check.looks_at], check.id

    return tuple(check.id for check in sorted(quickest.values(), key=key))


def sections_of(model: SetModel, before: Mapping[str, frozenset[str]]) -> dict[str, str]:
    """Return the section of each block, by what its signals carry and when it is checked.

    Mostly power is supply, mostly audio is audio; of the others, what the frequencies of the set
    follow from is the synthesiser, and the rest works in transmit or in receive.
    """
    synthesiser = {name.partition(".")[0] for name in before.get(FREQUENCIES, ())}
    return {block: _section(model, block, block in synthesiser) for block in model.blocks}


def _section(model: SetModel, block: str, makes_frequencies: bool) -> str:
    made = [text.carries for name, text in model.signals.items() if _of(name, block)]
    for carried, section in (("power", "supply"), ("audio", "audio")):
        if 2 * made.count(carried) > len(made):
            return section
    if makes_frequencies:
        return "synthesiser"
    modes = Counter(check.mode for check in model.checks.values() if check.block == block)
    return "transmitter" if modes["transmit"] > modes["receive"] else "receiver"


def _of(name: str, block: str) -> bool:
    return name.partition(".")[0] == block
