"""A set as the advice sees it: compiled tables, and the words that go with them.

Frozen values and the standard library only: this is what a browser loads, from text made ahead.
"""

from dataclasses import dataclass, field, replace
from functools import cached_property

from engine.diagnosis.frequencies.model import AtPoint, FrequencyModel
from engine.diagnosis.limits import LimitText as LimitText
from engine.diagnosis.readings import Meter
from engine.diagnosis.settings import SettingUpText
from engine.inference.gain import Channel
from engine.inference.past import AnyTree
from engine.radio.plans.plan import Plan
from engine.words.lexicon import Concept

Presumed = tuple[tuple[str, tuple[str, ...]], ...]  # signals by global name, and their states


@dataclass(frozen=True, slots=True)
class FamilyText:
    """A kind of set in words."""

    id: str
    title: str
    about: str
    recognise: tuple[str, ...]
    channels: str
    rules: str
    source: str
    plan: str = ""  # id of its frequency plan, or empty
    rules_title: str = ""


@dataclass(frozen=True, slots=True)
class BlockText:
    """A stage of the set; `at` is its column and row in the drawing."""

    id: str
    title: str
    about: str
    at: tuple[int, int]


@dataclass(frozen=True, slots=True)
class CauseText:
    """A cause in words, with its prior (before any finding, events included)."""

    id: str
    block: str
    title: str
    kind: str  # fault, adjustment, modification, outside, control, event, unlisted
    about: str
    act: str
    cautions: tuple[str, ...]
    source: str
    prior: float
    ways: dict[str, str]  # state -> title; the one state `present` when there is only one way
    prove_first: tuple[str, ...] = ()  # checks to be made before anybody acts on it
    work_min: float = 0.0  # of putting it right
    part_min: float = 0.0  # what a new part is worth in minutes of work
    does_it: float = 0.0  # chance that a repair puts it right; 0 where it cannot be repaired
    inside: bool = True  # the lid has to come off


@dataclass(frozen=True, slots=True)
class CheckText:
    """A check in words, and how the states of what it looks at show in it."""

    id: str
    block: str
    kind: str
    title: str
    asks: str
    where: str
    how: str
    mode: str
    load: str
    lid: str
    needs: tuple[str, ...]
    right: str
    may_see: str
    plain: str
    minutes: float
    cautions: tuple[str, ...]
    source: str
    looks_at: str  # global name of a signal or cause
    outcomes: dict[str, str]  # outcome -> title; empty for a reading
    unit: str | None
    span: tuple[float, float] | None
    channel: Channel  # what can come out, for the information gain
    meter: Meter | None  # for a reading
    quantity: str | None = None  # deviation, sensitivity, swr, power, am-depth, frequency-error
    nominal_mhz: float | None = None  # the right frequency of an error
    limit: str | None = None  # of the family's rules
    accuracy: tuple[float, float] | None = None  # of the instrument, as sd: percent, and fixed
    at: AtPoint | None = None  # which frequency it reads, where the set's plan is known
    presumes: Presumed = ()  # it makes no sense unless they may well be so
    safe_while: Presumed = ()  # it may do harm unless they surely are so
    said: dict[str, tuple[str, ...]] = field(default_factory=dict)  # answer -> owners' phrases

    @property
    def is_asked(self) -> bool:
        """Whether whoever brings the set answers it, from what is noticed there."""
        return self.kind in ("symptom", "question")

    @property
    def lead_in(self) -> str:
        """The title in front of what was found; one that asks keeps its own mark."""
        return self.title if self.title.endswith("?") else f"{self.title}:"

    def likeliest(self, state: int = 0) -> str:
        """Return the outcome that a state most likely gives; the first state is the right one."""
        row = self.channel.rows[state]
        return list(self.outcomes)[row.index(max(row))]


@dataclass(frozen=True, slots=True)
class SignalText:
    """A signal in words; states from best to worst."""

    id: str
    title: str
    carries: str
    states: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class InstrumentText:
    """An instrument in words."""

    id: str
    title: str
    plain: str
    said: tuple[str, ...] = ()  # what owners call it
    ready_min: float = 0.0  # the first time it is needed


@dataclass(frozen=True, slots=True)
class Handling:
    """Minutes a check takes beside its own: every one at the bench, and the first without lid."""

    each_min: float = 0.0
    lid_min: float = 0.0


@dataclass(frozen=True, slots=True)
class Mending:
    """Minutes of trying whether a repair did it, and what it is worth not to need somebody else."""

    prove_min: float
    hand_over_min: float


@dataclass(frozen=True, slots=True)
class CautionText:
    """A warning in words."""

    id: str
    title: str
    text: str
    source: str


@dataclass(frozen=True, eq=False)
class SetModel:
    """Everything about one kind of set. Compared by identity: one is loaded, once."""

    family: FamilyText
    version: str
    blocks: dict[str, BlockText]
    edges: tuple[tuple[str, str, str], ...]  # making block, needing block, what it carries
    signals: dict[str, SignalText]
    causes: dict[str, CauseText]
    checks: dict[str, CheckText]
    instruments: dict[str, InstrumentText]
    cautions: dict[str, CautionText]
    cut_sets: dict[str, tuple[tuple[tuple[str, str], ...], ...]]  # symptom -> sets of cause, way
    p_all_fine: float  # P(no cause is there) before any finding
    tree: AnyTree = field(repr=False)
    limits: dict[str, LimitText] = field(default_factory=dict)  # those of the family's rules
    carriers_mhz: tuple[tuple[int, float], ...] = ()  # by channel, in order
    plan: Plan | None = None  # how the set makes its frequencies, when that is known
    frequencies: FrequencyModel | None = None  # what readings of them tell
    concepts: dict[str, Concept] = field(default_factory=dict)  # words that mean the same
    kinds: dict[str, str] = field(default_factory=dict)  # of a mixture: family -> title
    same_in: dict[str, frozenset[str]] = field(default_factory=dict)  # check -> its families
    fine_by_kind: tuple[float, ...] = ()  # P(kind, no cause is there) before any finding
    takes: dict[str, tuple[str, ...]] = field(default_factory=dict)  # block -> signals it is fed
    handling: Handling = Handling()
    mending: Mending | None = None  # where the knowledge tells what repairs take
    setting_up: SettingUpText | None = None  # how it is set up, where that is known
    counted_sets: int = 0  # of one's own, that its priors were sharpened by

    @cached_property
    def symptoms(self) -> tuple[str, ...]:
        """Return the ids of the checks that are symptoms, in order of knowledge."""
        return tuple(name for name, check in self.checks.items() if check.kind == "symptom")


def past_roots(model: SetModel) -> tuple[str, ...]:
    """Return the roots that events are states of: what a set went through."""
    events = {cause.id for cause in model.causes.values() if cause.kind == "event"}
    return tuple(
        name
        for name, signal in model.signals.items()
        if any(f"{name.partition('.')[0]}.{state}" in events for state in signal.states)
    )


def with_tree(model: SetModel, tree: AnyTree) -> SetModel:
    """Return the model with other tables."""
    return replace(model, tree=tree)
