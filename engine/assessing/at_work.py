"""A set on the bench while somebody works on it: what it is, what was found, what was done."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from engine.assessing.adjustments import Adjustable
from engine.assessing.faulty_set import FaultySet, Way
from engine.assessing.manual import Manual
from engine.assessing.mended import Mended, Minutes
from engine.assessing.trial import Plan
from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel, past_roots
from engine.proving.sheet import ProofSheet
from engine.setting_up.guiding import Visit


@dataclass(frozen=True, slots=True)
class Shop:
    """What is the same for every set of a run; without a sheet nothing is proved."""

    model: SetModel  # what the tool believes
    manual: Manual
    plan: Plan
    sheet: ProofSheet | None = None


@dataclass(frozen=True, slots=True)
class Work:
    """One set, and how far it has come.

    `watched` are checks that have to come out right before anybody stops: the symptoms, and what
    would not come right while setting up or proving. `since` counts checks since the last repair,
    `blind` repairs in a row that no verdict named; `to_set` are adjustments that what failed in the
    proof is set by.
    """

    shop: Shop
    set: Adjustable
    case: Case
    done: Mended
    watched: tuple[str, ...]
    since: int = 0
    blind: int = 0
    visits: tuple[Visit, ...] = ()
    to_set: tuple[str, ...] = ()

    @property
    def bench(self) -> FaultySet:
        """Return the set itself."""
        return self.set.bench

    @property
    def is_content(self) -> bool:
        """Whether every signal that a watched check looks at is right."""
        looked_at = {self.bench.model.checks[name].looks_at for name in self.watched}
        return not any(self.bench.truth.get(signal, 0) for signal in looked_at)

    def watching(self, checks: Iterable[str]) -> "Work":
        """Return the work with more checks that have to come out right."""
        return replace(self, watched=tuple(dict.fromkeys((*self.watched, *checks))))


def spent(done: Mended, kind: str, minutes: float) -> Mended:
    """Return what was done with minutes more of a kind, a field of `Minutes`."""
    now: Minutes = replace(done.minutes, **{kind: getattr(done.minutes, kind) + minutes})
    return replace(done, minutes=now)


def latent(bench: FaultySet) -> tuple[Way, ...]:
    """Return causes that are there and that no signal shows, as it is now.

    Of several behind one another all but one, so that something is left where a signal is wrong.
    """
    events = past_roots(bench.model)
    shown = {name: bench.truth[name] for name in bench.model.signals if name in bench.truth}
    hidden: list[Way] = []
    for cause, way in bench.there:
        without = bench.turned({name: 0 for name, _ in (*hidden, (cause, way))}).truth
        if all(without[name] == state for name, state in shown.items() if name not in events):
            hidden.append((cause, way))
    return tuple(hidden)
