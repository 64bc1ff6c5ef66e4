"""How long things take, and how the work grows with a set; compare figures of one run only."""

import gc
import gzip
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from math import log
from statistics import fmean, median
from time import perf_counter, process_time

from engine.assessing.synthetic import synthetic
from engine.diagnosis.advising.advice import step
from engine.diagnosis.case import Case, add_finding, full_kit
from engine.diagnosis.entry import read_answer
from engine.diagnosis.evidence import forget_calibrations
from engine.diagnosis.model import SetModel
from engine.diagnosis.storage import dump_model, load_model
from engine.inference.junction import junction_tree
from engine.inference.noisy_or import NoisyTree
from engine.inference.past import as_built
from engine.inference.propagation import calibrate
from engine.inference.tree import JunctionTree

SAID = (
    ("operating.hears-only-near", "yes"),
    ("operating.all-sound-quiet", "no"),
    ("operating.reach-short", "yes"),
    ("set.changes-with-a-knock", "no"),
)
FEW = 12  # checks that a screen looks at
SIZES = (10, 100, 1000, 4000, 10_000)
ROUNDS = 5


@dataclass(frozen=True, slots=True)
class FamilySpeed:
    """What one kind of set costs."""

    family: str
    causes: int
    checks: int
    work: int  # table entries visited in one pass
    packed_bytes: int
    load_ms: float
    first_ms: float  # the first step, nothing kept
    next_ms: float  # the median of those that follow


@dataclass(frozen=True, slots=True)
class SizeSpeed:
    """What a made-up set of so many causes costs."""

    causes: int
    work: int
    compile_ms: float
    pass_ms: float  # every posterior table, after a new finding


def timed(run: Callable[[], object], clock: Callable[[], float] = perf_counter) -> float:
    """Return how long a call takes, in milliseconds, by a clock in seconds.

    The collector of garbage waits meanwhile, as in the standard library's `timeit`.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        started = clock()
        run()
        return 1e3 * (clock() - started)
    finally:
        if was_on:
            gc.enable()


def counted_work(model: SetModel) -> int:
    """Return the table entries that one pass over all tables of a set visits."""
    tree = as_built(model.tree)
    inner = tree.inner if isinstance(tree, NoisyTree) else tree
    assert isinstance(inner, JunctionTree), "one kind of set"
    return inner.work


def packed_bytes(model: SetModel) -> int:
    """Return how many bytes of one kind of set go over the line, packed."""
    return len(gzip.compress(dump_model(model).encode(), 9, mtime=0))


def family_speed(model: SetModel) -> FamilySpeed:
    """Return what loading and the first answers of one kind of set take."""
    text = dump_model(model)
    load_ms = timed(lambda: load_model(text))
    case, times = Case(model.family.id, full_kit(model)), []
    forget_calibrations()
    for check, said in SAID:
        if check in model.checks:
            case = add_finding(case, read_answer(model, check, said))
        times.append(timed(partial(step, model, case, FEW)))
    sizes = (len(model.causes), len(model.checks), counted_work(model), packed_bytes(model))
    return FamilySpeed(model.family.id, *sizes, load_ms, times[0], median(times[1:]))


def size_speed(causes: int) -> SizeSpeed:
    """Return the processor time that compiling a made-up set and a pass over it take."""
    net = synthetic(causes)
    started = process_time()
    tree = junction_tree(net)
    compile_ms = 1e3 * (process_time() - started)
    last = next(reversed(net.nodes))
    calibrate(tree, {})  # the pass without findings is kept, as it is at the bench
    rows = [{last: [0.1, 0.5, 0.4 + n / 100]} for n in range(ROUNDS)]
    times = [timed(partial(_all, tree, held), process_time) for held in rows]
    return SizeSpeed(causes, tree.work, compile_ms, median(times))


def _all(tree: JunctionTree, held: Mapping[str, Sequence[float]]) -> None:
    """Work out every posterior there is."""
    calibration = calibrate(tree, held)
    for name in tree.homes:
        calibration.posterior(name)


def exponent(sizes: Sequence[float], costs: Sequence[float]) -> float:
    """Return the power of the size that the cost grows with: the slope of their logarithms.

    >>> round(exponent([10, 100, 1000], [3, 300, 30000]), 9)
    2.0
    """
    across, up = list(map(log, sizes)), list(map(log, costs))
    middle, level = fmean(across), fmean(up)
    spread = sum((x - middle) ** 2 for x in across)
    return sum((x - middle) * (y - level) for x, y in zip(across, up, strict=True)) / spread
