"""What a view is given: the case as it stands, and what the person wants to see of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from typing import Any

from engine.diagnosis.advising.steps import AdvisedCheck, Step
from engine.diagnosis.case import CANNOT_CHECK, Case, Finding
from engine.diagnosis.model import CheckText, SetModel
from engine.diagnosis.repairing.again import in_order
from engine.diagnosis.repairing.present import present
from engine.diagnosis.returning import History
from engine.errors import UnknownReading
from web.letter_log import Letters
from web.replaying import REPAIR, Times

OWN = "own/"  # begins the id of a set that was compiled in this browser, from its author's files


@dataclass(frozen=True, slots=True)
class Shown:
    """What the person chose to see; nothing here changes the case."""

    screen: str = "home"
    check: str | None = None  # a check picked by hand
    order: str = "worth"  # or "gain", "minutes"
    cause: str | None = None  # the cause that is opened
    block: str | None = None  # the block that is opened
    family: str | None = None  # the set whose frequency plan is on show
    plan_mode: str | None = None  # and the mode it is shown in
    all_checks: bool = False
    all_causes: bool = False
    area: str = ""  # the part of the symptoms that is on show
    filter: str = ""
    leaf: str = ""  # of the knowledge, such as `cause/driver.driver-core`; empty for the contents
    unfolded: str = ""  # of a fault tree drawn
    seek: str = ""  # words to find in the knowledge
    supposed_check: str = ""  # a check whose answer is only supposed
    supposed: str = ""  # and that answer
    lines: str = ""  # several readings in the person's own words, one a line
    last_kit: Mapping[str, Any] | None = None  # the kit this device had in the last case
    words: str = ""  # the complaint in the person's own words
    kept: tuple[Mapping[str, Any], ...] = ()
    case_id: str = ""  # of the case whose owner is written to
    base: str = ""  # address of the page, for links
    left_out: tuple[str, ...] = ()  # checks the owner is not to be asked for
    is_anew: bool = False  # other questions are wanted though some have no answer yet
    reply: str = ""  # what came back, as it was pasted
    has_qr: bool = False
    link: str = ""  # the fragment that was opened
    answers: Mapping[str, str] = field(default_factory=dict)  # on the owner's sheet, by check
    is_filled: bool = False  # that sheet
    editing: str = ""  # the case on the shelf whose form is open
    status: str = ""  # on the shelf, cases of this one alone
    is_lasting: bool | None = None  # whether the browser promised to keep what is stored
    closed: Mapping[str, Any] = field(default_factory=dict)  # how the case at hand ended
    counts: Mapping[str, Any] = field(default_factory=dict)  # of our own cases: in use, now
    about: Mapping[str, Any] = field(default_factory=dict)  # what the shelf has of the case at hand
    costs: str = ""  # the stage of the case of which the costs of a repair are wanted
    earlier: tuple[Mapping[str, Any], ...] = ()  # other cases that name an owner
    step: str = ""  # of setting up, unfolded by hand
    walk: int = 0  # the step of the walk through the invented case, from 0

    @classmethod
    def read(cls, given: Mapping[str, Any]) -> "Shown":
        """Return what `given` says, leaving out what this version does not know."""
        known = {each.name for each in fields(cls)}
        return cls(**{name: value for name, value in given.items() if name in known})


@dataclass(frozen=True, slots=True)
class Refused:
    """An entry that could not be used, with what was typed."""

    check: str
    typed: str
    problem: UnknownReading


@dataclass(frozen=True, slots=True)
class Bench:
    """The case and everything worked out from it; `before` is the step before the last finding."""

    model: SetModel
    case: Case
    step: Step
    before: Step | None
    times: Times
    note: str
    set_aside: tuple[str, ...]
    refused: Refused | None = None
    letters: Letters = field(default_factory=Letters)
    history: History = ()  # what counts of earlier cases of this set

    def finding(self, check: str) -> Finding | None:
        """Return what was found at a check of the set as it is, if anything."""
        return next((each for each in self.standing if each.check == check), None)

    @property
    def standing(self) -> tuple[Finding, ...]:
        """What speaks of the set as it is: findings no repair can have changed, then the new ones.

        Checks that could not be made since the last repair are among them, in their place.
        """
        carried = present(self.model, replace(self.case, findings=())).findings
        new = {each.check for each in self.case.findings}
        return (*(each for each in carried if each.check not in new), *self.case.findings)

    def found_before(self, check: str) -> Finding | None:
        """Return what was found at a check before a repair, where it may be otherwise now."""
        if self.finding(check):
            return None
        earlier = (each for stretch in self.case.past for each in stretch.findings)
        return next((each for each in reversed(tuple(earlier)) if each.check == check), None)

    def when(self, stretch: int, check: str = REPAIR) -> str:
        """Return the local time of a finding after so many repairs, or of that repair itself."""
        return self.times.get((stretch, check), "")[:16].replace("T", " ")

    def check_at_hand(self, shown: Shown) -> CheckText | None:
        """Return the check to show: the one picked by hand, or the best one."""
        if shown.check in self.model.checks:
            return self.model.checks[shown.check]
        first = next(iter(self.ordered(shown.order)), None)
        return self.model.checks[first.id] if first else None

    def ordered(self, order: str) -> tuple[AdvisedCheck, ...]:
        """Return the advised checks in one of the orders; an unknown one is `worth`."""
        return in_order(self.case, self.step, order)


def said(model: SetModel, finding: Finding) -> str:
    """Word what was found."""
    if finding.outcome == CANNOT_CHECK:
        return "could not be checked"
    check = model.checks[finding.check]
    if check.unit:
        sign = "+" if check.at is not None else ""  # how far off a frequency is
        return f"{finding.value:{sign}g} {check.unit}"
    return check.outcomes.get(finding.outcome or "", finding.said)
