"""A run in shards, each a value that any worker can take: the same seed, the same trials."""

import pickle
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, Future, as_completed
from dataclasses import dataclass
from functools import lru_cache
from gzip import compress, decompress

from engine.assessing.at_work import Shop
from engine.assessing.drawing import drawn_set
from engine.assessing.known_wrongly import Knowledge
from engine.assessing.manual import Manual, manual_of
from engine.assessing.mended import Mended
from engine.assessing.restoring import restored
from engine.assessing.trial import Plan, Trial, run_trial
from engine.assessing.ways import WAYS
from engine.diagnosis.evidence import forget_calibrations
from engine.diagnosis.storage import dump_model, load_model

SETS_A_SHARD = 2
Heard = Callable[[int, int], object]
Result = Trial | Mended


@dataclass(frozen=True, slots=True)
class Shard:
    """Some sets of one kind, worked on in one way; `packed` is the knowledge, as bytes."""

    packed: bytes
    faults: str
    plan: Plan
    seed: int
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Opened:
    """The knowledge of a shard, unpacked."""

    knowledge: Knowledge
    manual: Manual


def packed(knowledge: Knowledge) -> bytes:
    """Return knowledge as bytes that a worker on any machine can unpack."""
    tool, truth = dump_model(knowledge.tool), dump_model(knowledge.truth)
    return compress(pickle.dumps((tool, truth, knowledge.network, knowledge.proof)), 1)


@lru_cache(maxsize=2)
def unpacked(stored: bytes) -> Opened:
    """Return what `packed` was given; kept, because shards of one kind of set come together."""
    tool_text, truth_text, network, proof = pickle.loads(decompress(stored))
    tool = load_model(tool_text)
    truth = tool if truth_text == tool_text else load_model(truth_text)
    return Opened(Knowledge(tool, truth, network, proof), manual_of(truth, network))


def run_shard(shard: Shard) -> list[Result]:
    """Return what came of the sets of a shard, in order of its numbers."""
    opened = unpacked(shard.packed)
    known, trials = opened.knowledge, list[Result]()
    shop = Shop(known.tool, opened.manual, shard.plan, known.proof)
    for number in shard.numbers:
        seed = f"{shard.seed} {known.truth.family.id} {number}"
        bench = drawn_set(known.truth, known.network, shard.faults, seed)
        forget_calibrations()  # those of the set before are of no use
        if shard.plan.policy in WAYS:
            trials.append(restored(shop, bench))
        else:
            trials.append(run_trial(known.tool, opened.manual, bench, shard.plan))
    return trials


def shards(
    knowledge: Knowledge, faults: str, plan: Plan, seed: int, numbers: Sequence[int]
) -> list[Shard]:
    """Return a run of so many sets in shards of a few."""
    stored = packed(knowledge)
    parts = [tuple(numbers[n : n + SETS_A_SHARD]) for n in range(0, len(numbers), SETS_A_SHARD)]
    return [Shard(stored, faults, plan, seed, part) for part in parts]


def run_all(pool: Executor, parts: Sequence[Shard], hear: Heard) -> list[Result]:
    """Return the trials of all shards in order, whatever order they are finished in.

    Args:
        pool: processes, or machines behind the same interface.
        parts: what to run.
        hear: is told how many sets are done, and of how many.
    """
    futures: dict[Future[list[Result]], int] = {
        pool.submit(run_shard, part): number for number, part in enumerate(parts)
    }
    total, done = sum(len(part.numbers) for part in parts), 0
    found: list[list[Result]] = [[] for _ in parts]
    for future in as_completed(futures):
        found[futures[future]] = future.result()
        done += len(found[futures[future]])
        hear(done, total)
    return list(_chained(found))


def _chained(found: Sequence[Sequence[Result]]) -> Iterator[Result]:
    for trials in found:
        yield from trials
