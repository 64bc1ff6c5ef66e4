"""Times a whole step against a general library: `python tests/bench/step_against_pyagrum.py`.

Ours is the whole step: posteriors of all causes, gains of all checks, entropy, doubts, verdict.
  cold: nothing kept from an earlier step, not even the pass without findings
  next: as at the bench, the last finding is new
Theirs is posteriors of all causes only, by LazyPropagation with the findings as soft evidence.
  plain: a new engine, used as it comes
  told: a new engine, told that only the causes are asked for
  kept: one engine for all, told so too; only the last finding is new
Medians in milliseconds, one run, the same network.
"""

import argparse
import sys
from collections.abc import Callable
from itertools import product
from pathlib import Path
from statistics import median
from time import perf_counter

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import pyagrum as gum  # noqa: E402

from engine.diagnosis.advising.advice import step  # noqa: E402
from engine.diagnosis.case import Case  # noqa: E402
from engine.diagnosis.evidence import calibrated, likelihoods  # noqa: E402
from engine.diagnosis.frequencies import (  # noqa: E402
    choosing,
    gaussians,
    hypotheses,
    likelihood,
)
from engine.diagnosis.making.building import build_network  # noqa: E402
from engine.diagnosis.making.compiling import compile_family  # noqa: E402
from engine.diagnosis.model import SetModel  # noqa: E402
from engine.diagnosis.opening import open_case  # noqa: E402
from engine.inference.network import Network  # noqa: E402
from engine.knowledge.casefile import read_case  # noqa: E402
from engine.knowledge.library import read_library  # noqa: E402
from engine.terminal.columns import columns  # noqa: E402
from tests.oracles import tables  # noqa: E402

FAMILY = "three-crystal-fm"
WAYS = ("cold", "next", "plain", "told", "kept")
Posteriors = dict[str, float]


def main() -> None:
    """Compile, time both on every worked case, and print the table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition(":")[0])
    parser.add_argument("--repeat", type=int, default=7, metavar="N", help="runs of each")
    repeat = parser.parse_args().repeat
    library = read_library(ROOT / "kb")
    started = perf_counter()
    model = compile_family(library, FAMILY)
    print(f"compiled in {perf_counter() - started:.2f} s: {model.tree.size} entries", end=", ")
    print(f"{len(tables(model).cliques)} cliques, {len(model.causes)} causes, ", end="")
    print(f"{len(model.checks)} checks")
    net = bayes_net(build_network(library.of(FAMILY), library.families[FAMILY]))
    rows = [row(model, net, name, case, repeat) for name, case in cases(model).items()]
    print(columns(("findings", "number", *WAYS, "largest difference"), rows))
    middle = {way: median(float(str(line[n])) for line in rows) for n, way in enumerate(WAYS, 2)}
    print("medians: " + ", ".join(f"{way} {ms:.1f} ms" for way, ms in middle.items()))
    for ours, way in product(WAYS[:2], WAYS[2:]):
        print(f"  {way} / {ours}: {middle[way] / middle[ours]:.1f} times")


def bayes_net(network: Network) -> gum.BayesNet:
    """Return the network in the library's own form."""
    net = gum.BayesNet()
    for node in network.nodes.values():
        net.add(gum.LabelizedVariable(node.name, node.name, list(node.states)))
        for parent in node.parents:
            net.addArc(parent, node.name)
    for node in network.nodes.values():
        table = net.cpt(node.name)
        table.fillWith(0.0)
        names = (*node.parents, node.name)
        for assignment, p in node.table.items():
            table[dict(zip(names, assignment, strict=True))] = p
    return net


def cases(model: SetModel) -> dict[str, Case]:
    """Return the findings to time: those of every worked case of this kind of set."""
    found = {}
    for path in sorted((ROOT / "kb" / "cases").glob("*.yaml")):
        document, source = read_case(path.name, path.read_text(encoding="utf-8"))
        if document.family != model.family.id:
            continue
        found[path.stem] = open_case(model, document, source)
    return found


def row(
    model: SetModel, net: gum.BayesNet, name: str, case: Case, repeat: int
) -> tuple[object, ...]:
    """Return a line of the table: all times, and how far apart the posteriors are."""
    before = Case(case.family, case.kit, case.findings[:-1])
    evidence = likelihoods(model, case.evidence())
    kept = engine(net, model)

    def earlier() -> None:
        forget()
        step(model, before)

    def without_last() -> None:
        posteriors(kept, model, likelihoods(model, before.evidence()))

    runs: tuple[tuple[Callable[[], object], Callable[[], Posteriors]], ...] = (
        (forget, lambda: whole_step(model, case)),
        (earlier, lambda: whole_step(model, case)),
        (nothing, lambda: posteriors(gum.LazyPropagation(net), model, evidence)),
        (nothing, lambda: posteriors(engine(net, model), model, evidence)),
        (without_last, lambda: posteriors(kept, model, evidence)),
    )
    results = [timed(prepare, run, repeat) for prepare, run in runs]
    mine, others = results[0][0], results[2][0]
    apart = max(abs(mine[cause] - others[cause]) for cause in model.causes)
    return name, len(case.evidence()), *(f"{ms:.1f}" for _, ms in results), f"{apart:.1e}"


def forget() -> None:
    """Drop everything that is kept from one step to the next."""
    for kept in (calibrated, likelihood._by_oscillators, likelihood.likelihood, choosing._distance):
        kept.cache_clear()
    for kept in (hypotheses.explained, hypotheses._explained, hypotheses._beliefs):
        kept.cache_clear()
    gaussians.narrowing.cache_clear()


def whole_step(model: SetModel, case: Case) -> Posteriors:
    """Run our step; return how likely each cause is."""
    return {cause.id: cause.probability for cause in step(model, case).causes}


def engine(net: gum.BayesNet, model: SetModel) -> gum.LazyPropagation:
    """Return an engine that knows that only the causes are asked for."""
    made = gum.LazyPropagation(net)
    made.setTargets(set(model.causes))
    return made


def posteriors(
    theirs: gum.LazyPropagation, model: SetModel, evidence: dict[str, list[float]]
) -> Posteriors:
    """Run theirs; return how likely each cause is."""
    theirs.setEvidence(evidence)
    theirs.makeInference()
    return {cause: 1.0 - float(theirs.posterior(cause)[0]) for cause in model.causes}


def nothing() -> None:
    """Prepare nothing."""


def timed(
    prepare: Callable[[], object], run: Callable[[], Posteriors], repeat: int
) -> tuple[Posteriors, float]:
    """Return what `run` returns, and the median of its times in milliseconds."""
    times = []
    for _ in range(repeat):
        prepare()
        started = perf_counter()
        result = run()
        times.append(1000.0 * (perf_counter() - started))
    return result, median(times)


if __name__ == "__main__":
    main()
