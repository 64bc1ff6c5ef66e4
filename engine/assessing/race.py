"""The same step by our tree and by another library, in turns, in a process of its own.

A step is what follows when one finding changes and three others stay: the posteriors of all causes
and the information gain of every check on a signal or cause. The gains are worked out by the same
function from either's posteriors. A process of its own, because a library may end it, or take
more time or memory than there is.
"""

import multiprocessing
import resource
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import islice
from multiprocessing.connection import Connection
from statistics import median
from warnings import simplefilter

from engine.assessing.speed import ROUNDS, timed
from engine.assessing.synthetic import STATES, synthetic
from engine.diagnosis.model import SetModel
from engine.inference.gain import Channel, channel, information_gain
from engine.inference.junction import junction_tree
from engine.inference.network import Network
from engine.inference.noisy_or import NoisyTree
from engine.inference.past import as_built
from engine.inference.propagation import calibrate
from engine.inference.tree import JunctionTree

HELD = 3  # findings that stay
LIMIT_S = 90.0
MEMORY_BYTES = 6 * 2**30
YES_OR_NO = channel([(0.95, 0.05), *[(0.1, 0.9)] * (len(STATES) - 1)])
Row = Sequence[float]
Posteriors = Mapping[str, Sequence[float]]
Answer = Callable[[Row], Posteriors]  # from the likelihoods of the finding that changes


@dataclass(frozen=True, slots=True)
class Job:
    """A network, what was found, the variable whose finding changes, and what is asked for."""

    title: str
    network: Network
    tree: JunctionTree
    held: Mapping[str, Row]
    changing: str
    causes: tuple[str, ...]
    looks: tuple[tuple[str, Channel], ...]  # what each check looks at, and how that shows

    @property
    def wanted(self) -> tuple[str, ...]:
        """The variables whose posteriors are needed."""
        return tuple(dict.fromkeys((*self.causes, *(name for name, _ in self.looks))))

    def rows(self) -> Iterator[Row]:
        """Yield likelihoods for the finding that changes, no two alike."""
        states = len(self.network.nodes[self.changing].states)
        for number in range(1, 50):
            yield [number / 100.0, *[0.9 - number / 200.0] * (states - 1)]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of it, in milliseconds; `trouble` says why there is nothing to compare."""

    theirs_ms: float = 0.0
    ours_ms: float = 0.0
    apart: float = 0.0  # the largest difference of any posterior or gain
    trouble: str = ""


def family_job(model: SetModel, network: Network) -> Job:
    """Return the job of a kind of set: its first symptoms stay, the next one changes."""
    built = as_built(model.tree)
    inner = built.inner if isinstance(built, NoisyTree) else built
    assert isinstance(inner, JunctionTree), "one kind of set"
    checks = [c for c in model.checks.values() if c.at is None and c.looks_at in inner.homes]
    seen = {c.looks_at: c for c in reversed(checks) if c.id in set(model.symptoms)}
    *first, last = islice(reversed(seen.values()), HELD + 1)
    held = {c.looks_at: [row[0] for row in c.channel.rows] for c in first}
    looks = tuple((check.looks_at, check.channel) for check in checks)
    tree = JunctionTree(inner.cliques, inner.homes)  # nothing kept of earlier passes
    return Job(model.family.id, network, tree, held, last.looks_at, tuple(model.causes), looks)


def size_job(causes: int) -> Job:
    """Return the job of a made-up set: three signals were found right, the last one changes."""
    net = synthetic(causes)
    signals = [name for name, node in net.nodes.items() if name.startswith("signal-")]
    named = tuple(name for name in net.nodes if name.startswith("cause-"))
    held = {name: [0.9, 0.1, 0.1] for name in signals[: min(HELD, len(signals) - 1)]}
    looks = tuple((name, YES_OR_NO) for name in signals)
    title = f"made-up set of {len(named)} causes"
    return Job(title, net, junction_tree(net), held, next(reversed(net.nodes)), named, looks)


def race(job: Job, ready: Callable[[Job], Answer], limit_s: float = LIMIT_S) -> Outcome:
    """Return the times of both for one step, the median of some in turns.

    Args:
        job: what to work out.
        ready: makes the other library ready for the job; a function of a module.
        limit_s: after so many seconds it is given up.
    """
    context = multiprocessing.get_context("spawn")
    here, there = context.Pipe(duplex=False)
    process = context.Process(target=_run, args=(job, ready, there), daemon=True)
    process.start()
    there.close()
    try:
        if not here.poll(limit_s):
            return Outcome(trouble=f"not done in {limit_s:.0f} s")
        found: Outcome = here.recv()
        return found
    except EOFError:
        process.join()
        return Outcome(trouble=f"ended its process, exit code {process.exitcode}")
    finally:
        process.kill()
        process.join()
        here.close()


def _run(job: Job, ready: Callable[[Job], Answer], answer: Connection) -> None:
    """Time both in turns, and send what came of it."""
    simplefilter("ignore")  # what a library says of its own future
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))
    try:
        answer.send(_timed(job, ready(job)))
    except MemoryError:
        answer.send(Outcome(trouble=f"more than {MEMORY_BYTES / 2**30:.0f} GB of memory"))
    except Exception as problem:  # whatever a library may raise: it is told, not hidden
        answer.send(Outcome(trouble=f"{type(problem).__name__}: {problem}"[:80]))


def _timed(job: Job, theirs: Answer) -> Outcome:
    ours, rows = _ours(job), job.rows()
    first = next(rows)
    pairs = zip(_step(job, ours, first), _step(job, theirs, first), strict=True)
    apart = max(abs(a - b) for a, b in pairs)
    our_ms, their_ms = [], []
    for row in islice(rows, ROUNDS):
        their_ms.append(timed(partial(_step, job, theirs, row)))
        our_ms.append(timed(partial(_step, job, ours, row)))
    return Outcome(median(their_ms), median(our_ms), apart)


def _step(job: Job, answer: Answer, row: Row) -> list[float]:
    """Return every chance of every cause, then every gain."""
    found = answer(row)
    chances = [p for name in job.causes for p in found[name]]
    return chances + [information_gain(found[name], through) for name, through in job.looks]


def _ours(job: Job) -> Answer:
    wanted = job.wanted

    def answer(row: Row) -> Posteriors:
        known = calibrate(job.tree, {**job.held, job.changing: row})
        return {name: known.posterior(name) for name in wanted}

    return answer
