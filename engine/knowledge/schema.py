"""The shape of every kind of knowledge file: one frozen model each.

Units stand in the names of fields; probabilities and shares are numbers from 0 to 1. Every figure
carries a `source`: an id of `kb/sources.yaml`, `common practice`, or `estimate`.
"""

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag, model_validator

from engine.knowledge.document import Chance, Document, GlobalId, Id, Share, Text, refusal
from engine.knowledge.families import Family as Family
from engine.knowledge.families import Placed as Placed
from engine.knowledge.fitted import Fitted
from engine.knowledge.measured import Measured
from engine.knowledge.presumed import Presumed
from engine.knowledge.repairs import RepairFigures
from engine.knowledge.setting import Setting
from engine.knowledge.tables import Cautions as Cautions
from engine.knowledge.tables import ChannelPlans as ChannelPlans
from engine.knowledge.tables import Instruments as Instruments
from engine.knowledge.tables import Limits as Limits
from engine.knowledge.tables import Parts as Parts
from engine.knowledge.tables import Sources as Sources
from engine.knowledge.told import Told

CauseKind = Literal["fault", "adjustment", "modification", "outside", "control", "event"]
CheckKind = Literal["symptom", "question", "look", "reading"]
Carries = Literal["power", "rf", "audio", "control", "frequency", "quality"]


def _is_word(value: Any) -> str:
    """Tell one word from several, so that a slip is reported once and not for both forms."""
    return "<word>" if isinstance(value, str) else "<several>"


def _is_typical(value: Any) -> str:
    """Tell a `typical` reading from one anywhere between two ends."""
    typical = isinstance(value, Normal) or (isinstance(value, dict) and "typical" in value)
    return "<typical>" if typical else "<between>"


class Need(Document):
    """A signal a block receives from another one."""

    title: Text
    states: Annotated[tuple[Id, ...], Field(min_length=2)]  # same as those of the maker
    optional: bool = False  # a family may leave it unwired: then it is right


OneOrSeveral = Annotated[
    Annotated[Id, Tag("<word>")] | Annotated[tuple[Id, ...], Field(min_length=1), Tag("<several>")],
    Discriminator(_is_word),
]
SameOrMapped = Annotated[
    Annotated[Literal["same"], Tag("<word>")] | Annotated[dict[Id, Id], Tag("<several>")],
    Discriminator(_is_word),
]


class Rule(Document):
    """If everything in `when` holds, the signal is at least as bad as `then`."""

    when: Annotated[dict[Id, OneOrSeveral], Field(min_length=1)]
    then: Id


class Signal(Document):
    """One quality of one signal or rail; states from best to worst, the first one is right.

    Its state is the worst of: what each need or other signal in `takes` passes on, what each
    cause of the block makes it, and every rule that holds.
    """

    title: Text
    carries: Carries
    states: Annotated[tuple[Id, ...], Field(min_length=2)]
    takes: dict[Id, SameOrMapped] = Field(default_factory=dict)
    rules: tuple[Rule, ...] = ()


class Way(Document):
    """One of several ways in which one cause can be wrong; they exclude one another."""

    title: Text
    share: Share | None = None  # of the cause's prior; all ways together 1
    mode: OneOrSeveral | None = None  # or: modes of the cause's part class that show alike
    makes: dict[Id, Id] = Field(default_factory=dict)

    @property
    def modes(self) -> tuple[str, ...]:
        """The modes of the part class that come to this way."""
        return (self.mode,) if isinstance(self.mode, str) else self.mode or ()


class Cause(Fitted):
    """One independent way to be wrong.

    The prior comes from `part` and `mode` (or the modes of its ways), `count` such parts together,
    unless the cause states `prior` itself.
    """

    title: Text
    kind: CauseKind
    source: Text
    part: Id | None = None
    mode: Id | None = None
    count: Annotated[int, Field(ge=1)] = 1
    prior: Annotated[float, Field(gt=0, lt=0.5)] | None = None
    makes: dict[Id, Id] = Field(default_factory=dict)
    ways: dict[Id, Way] = Field(default_factory=dict)
    harmed_by: dict[Id, Share] = Field(default_factory=dict)  # chance that this event does it
    comes_and_goes: dict[Id, Share] | None = None  # occasion -> chance; else as its part does
    about: str = ""  # how it comes about, what tells it from its neighbours
    act: Text  # what to do once it is found
    prove_first: tuple[GlobalId, ...] = ()  # checks to be made before anybody acts on it
    cautions: tuple[Id, ...] = ()
    setting: Setting | None = None  # of an adjustment: how it is set
    repair: RepairFigures | None = None  # where it takes something else than its kind and part

    @model_validator(mode="after")
    def one_origin_of_the_prior(self) -> "Cause":
        """Take the prior from a part class or from the author, never from both."""
        if (self.part is None) == (self.prior is None):
            found = "neither" if self.part is None else "both"
            remedy = "Keep 'part' with its mode for what a part does by itself, else write 'prior'."
            raise refusal(found, "one of 'part' and 'prior'", remedy)
        if self.part is not None and not self.ways and self.mode is None:
            remedy = "Write 'mode: ...', or 'ways' with a mode each."
            raise refusal("a 'part' without 'mode'", "a mode of the part class", remedy)
        if self.ways and self.makes:
            remedy = "Move 'makes' into each of the ways."
            raise refusal("'makes' beside 'ways'", "one of the two", remedy)
        return self


class Normal(Document):
    """Readings spread about `typical` with standard deviation `spread`, in the check's unit."""

    typical: float
    spread: Annotated[float, Field(gt=0)]


class Between(Document):
    """Readings anywhere from `from` to `to`, in the check's unit."""

    low: float = Field(alias="from")
    high: float = Field(alias="to")

    @model_validator(mode="after")
    def in_order(self) -> "Between":
        """Refuse ends that are equal or the wrong way round."""
        if self.low >= self.high:
            found = f"from {self.low:g} to {self.high:g}"
            raise refusal(found, "'from' below 'to'", "Swap them, or widen the range.")
        return self


NormalOrBetween = Annotated[
    Annotated[Normal, Tag("<typical>")] | Annotated[Between, Tag("<between>")],
    Discriminator(_is_typical),
]


class Outcome(Document):
    """One thing that can come out of a check, and the states of the signal it stands for."""

    title: Text
    means: Annotated[tuple[Id, ...], Field(min_length=1)]


class Check(Measured, Presumed, Told, Fitted):
    """Anything that can be learned: a symptom, a question, a look, a reading.

    It looks at exactly one signal (made or needed by its block) or one cause of its block.
    How a state shows is given in one of three ways: `yes` (chance of a yes, for each state),
    `outcomes` with `wrong` (chance that another outcome is seen), or `reads` with a `unit`.
    """

    kind: CheckKind
    title: Text
    asks: Text  # the question put to the person, ending in "?"
    looks_at: Id
    source: Text
    minutes: Annotated[float, Field(gt=0, le=120)]
    lid: Literal["on", "off"] = "on"
    mode: Literal["off", "receive", "transmit", "any"] = "any"
    load: str = ""  # what the aerial socket works into, when it matters
    needs: tuple[Id, ...] = ()  # instruments
    where: str = ""  # where the probe goes
    how: str = ""  # instrument setting, control positions, step by step
    right: Text  # what is right
    may_see: str = ""  # what else may be seen, and what it points to
    plain: str = ""  # the same for somebody who has never done it
    cautions: tuple[Id, ...] = ()
    yes: dict[Id, Chance] = Field(default_factory=dict)
    outcomes: dict[Id, Outcome] = Field(default_factory=dict)
    wrong: Chance | None = None
    unit: str | None = None
    span: tuple[float, float] | None = None  # a reading outside of it is a slip
    reads: dict[Id, NormalOrBetween] = Field(default_factory=dict)
    slip: Share = 0.02  # chance that a reading is misread: then anything in the span

    @model_validator(mode="after")
    def one_way_to_answer(self) -> "Check":
        """Refuse a check that is answered in no way, or in more than one."""
        forms = {"yes": self.yes, "outcomes": self.outcomes, "reads": self.reads}
        given = [name for name, form in forms.items() if form]
        if len(given) != 1:
            remedy = "Say in one way only how each state shows."
            found = " and ".join(given) or "none of them"
            raise refusal(found, "exactly one of 'yes', 'outcomes', 'reads'", remedy)
        if bool(self.reads) != (self.kind == "reading"):
            remedy = "Change 'kind', or the way the check is answered."
            raise refusal(f"kind '{self.kind}' with '{given[0]}'", "'reads' for a reading", remedy)
        return self

    @model_validator(mode="after")
    def figures_of_the_answer(self) -> "Check":
        """Refuse outcomes without their error rate, and readings without unit and span."""
        if self.outcomes and self.wrong is None:
            remedy = "Write the chance that another outcome is seen, such as 'wrong: 0.05'."
            raise refusal("'outcomes' without 'wrong'", "both", remedy)
        if len(self.outcomes) == 1:
            raise refusal("one outcome", "two or more", "Name what else may come out.")
        if self.reads and (self.unit is None or self.span is None):
            remedy = "Write both, such as 'unit: V' and 'span: [0, 20]'."
            raise refusal("'reads' without 'unit' or 'span'", "both", remedy)
        return self


class Block(Document):
    """A stage of a set: the signals it needs and makes, its causes, its checks."""

    title: Text
    about: Text
    needs: dict[Id, Need] = Field(default_factory=dict)
    makes: Annotated[dict[Id, Signal], Field(min_length=1)]
    causes: Annotated[dict[Id, Cause], Field(min_length=1)]
    checks: dict[Id, Check] = Field(default_factory=dict)
    unlisted: Share = 0.05  # prior of "something not listed here", as a share of the block's own
