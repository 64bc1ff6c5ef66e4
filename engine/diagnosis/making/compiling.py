"""From checked knowledge to a set model: once for each family, at build time."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import prod

from engine.diagnosis.frequencies.checks import on_every_channel
from engine.diagnosis.frequencies.making import make_frequencies
from engine.diagnosis.frequencies.model import FrequencyModel
from engine.diagnosis.making import texts
from engine.diagnosis.making.building import build_network
from engine.diagnosis.making.cause_texts import cause_texts
from engine.diagnosis.making.rules_texts import limit_texts
from engine.diagnosis.making.settings_making import setting_up_text
from engine.diagnosis.making.vocabulary import concepts
from engine.diagnosis.making.wavering import wavering_texts, with_nodes
from engine.diagnosis.making.wires import edges, takes
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.storage import fingerprint
from engine.inference.cut_sets import minimal_cut_sets
from engine.inference.junction import junction_tree
from engine.inference.network import Network
from engine.inference.propagation import JunctionTree, calibrate
from engine.knowledge.library import Library
from engine.knowledge.plan_making import with_signals
from engine.knowledge.schema import Family
from engine.radio.plans.plan import Plan

LARGEST_CUT_SET = 2
Telling = Callable[[str, float], object]
CutSets = dict[str, tuple[tuple[tuple[str, str], ...], ...]]


@dataclass(frozen=True, slots=True)
class Search:
    """How hard to look for small tables: elimination orders tried, and how many are compiled."""

    tries: int
    keep: int


THOROUGH = Search(60, 8)  # once, at build time; more hardly help
QUICK = Search(12, 1)  # somebody waits


def silence(_doing: str, _share: float) -> None:
    """Hear what is being done, and keep it."""


def compile_family(
    library: Library, family_id: str, search: Search = THOROUGH, tell: Telling = silence
) -> SetModel:
    """Return the model of one family of a checked library.

    Args:
        library: the whole of it.
        family_id: which family.
        search: how hard to look for small tables.
        tell: hears what is being done and the share that is behind, in [0, 1].
    """
    family, library = library.families[family_id], library.of(family_id)
    net = build_network(library, family)
    tree = _tree(net, search, tell)
    plan, frequencies = _frequencies(library, family, net)
    checks = _checks(library, family, net, plan if frequencies else None, tell)
    occasions, whole_set = wavering_texts(library, family)
    unsigned = SetModel(
        family=texts.family_text(family_id, family, library),
        version="",
        blocks=texts.block_texts(family, library.blocks),
        edges=edges(family, library.blocks),
        signals=texts.signal_texts(library.blocks) | occasions,
        causes=cause_texts(library, calibrate(tree, {})),
        checks=on_every_channel(checks, frequencies) | whole_set,
        instruments=texts.instrument_texts(library),
        cautions=texts.caution_texts(library),
        cut_sets=_all_cut_sets(net, checks, tell),
        p_all_fine=_p_all_fine(net),
        tree=with_nodes(library, tree),
        limits=limit_texts(library, family),
        carriers_mhz=tuple(sorted(library.channels[family.channels].carriers_mhz.items())),
        plan=plan,
        frequencies=frequencies,
        concepts=concepts(library),
        takes=takes(family),
        handling=texts.handling(library),
        mending=texts.mending(library),
        setting_up=setting_up_text(library, family, plan),
    )
    return _named(unsigned, tell)


def _frequencies(
    library: Library, family: Family, net: Network
) -> tuple[Plan | None, FrequencyModel | None]:
    plan = plan_of(library, family)
    return plan, make_frequencies(library, family, plan, net) if plan else None


def _named(unsigned: SetModel, tell: Telling) -> SetModel:
    tell("Naming the knowledge", 0.8)
    return replace(unsigned, version=fingerprint(unsigned))


def _tree(net: Network, search: Search, tell: Telling) -> JunctionTree:
    tell("Looking for small tables", 0.05)
    return junction_tree(net, search.tries, search.keep)


def _checks(
    library: Library, family: Family, net: Network, plan: Plan | None, tell: Telling
) -> dict[str, CheckText]:
    tell("Working out what readings tell", 0.4)
    return texts.check_texts(library, family, library.blocks, net, plan)


def plan_of(library: Library, family: Family) -> Plan | None:
    """Return the frequency plan of a family, its oscillators tied to the signals of the network."""
    if family.plan is None:
        return None
    return with_signals(library.plans[family.plan], family.oscillators)


def _all_cut_sets(net: Network, checks: Mapping[str, CheckText], tell: Telling) -> CutSets:
    tell("Drawing up the fault trees", 0.6)
    return {name: cut_sets(net, check) for name, check in checks.items() if _is_top(check)}


def cut_sets(net: Network, check: CheckText) -> tuple[tuple[tuple[str, str], ...], ...]:
    """Return the minimal cut sets of a symptom: what makes a yes likelier than not.

    Each set is a tuple of (cause, way), smallest sets first.
    """
    yes = [row[0] for row in check.channel.rows]
    states = net.nodes[check.looks_at].states
    shown = [state for state, p in zip(states, yes, strict=True) if p > 0.5 and p > yes[0]]
    found = minimal_cut_sets(net, check.looks_at, shown, LARGEST_CUT_SET) if shown else ()
    return tuple(tuple(sorted(events)) for events in found)


def _p_all_fine(net: Network) -> float:
    """Return the probability that every variable is in its first state: the product of tables."""
    return prod(node.table[(0,) * (len(node.parents) + 1)] for node in net.nodes.values())


def _is_top(check: CheckText) -> bool:
    return check.kind == "symptom" and "yes" in check.outcomes
