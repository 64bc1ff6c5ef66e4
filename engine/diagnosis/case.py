"""A case: which set, which kit, what was found so far. A value; each step returns a new one."""

from dataclasses import dataclass, replace

from engine.diagnosis.model import CheckText, SetModel

CANNOT_CHECK = "cannot-check"
HOWS = ("replaced", "adjusted", "cleaned", "put-back")
USUAL_HOWS = {"adjustment": "adjusted", "control": "adjusted", "outside": "put-back"}  # by kind


@dataclass(frozen=True, slots=True)
class Kit:
    """What can be used: instruments by id, and whether the case may be opened.

    `counter_ppm` is the tolerance of the frequency counter's timebase, where it is known;
    `accuracies` are those of instruments by id, as they were told.
    """

    instruments: frozenset[str]
    lid: str  # "on": closed; "off": it may be opened
    counter_ppm: float | None = None
    accuracies: tuple[tuple[str, str], ...] = ()

    def allows(self, check: CheckText) -> bool:
        """Whether a check can be made with this kit."""
        return self.instruments.issuperset(check.needs) and (self.lid == "off" or check.lid == "on")


def full_kit(model: SetModel) -> Kit:
    """Return every instrument the knowledge knows, and the lid off."""
    return Kit(frozenset(model.instruments), "off")


@dataclass(frozen=True, slots=True)
class Finding:
    """What came out of a check: a named outcome, or a value in the check's unit.

    The outcome `cannot-check` is no evidence; it only keeps the check from being asked again.
    """

    check: str
    outcome: str | None
    value: float | None
    said: str  # as it was entered

    @property
    def is_evidence(self) -> bool:
        """Whether the finding says anything about the set."""
        return self.outcome != CANNOT_CHECK


@dataclass(frozen=True, slots=True)
class Repair:
    """A cause that was put right, and how: one of `HOWS`. From then on it is not there.

    `is_settled` says that readings before and after it told whether it had been wrong, as they do
    where an adjustment was seen to come right.
    """

    cause: str
    how: str
    is_settled: bool = False


def usual_how(kind: str) -> str:
    """Return how a cause of some kind is put right as a rule.

    >>> usual_how("adjustment"), usual_how("fault")
    ('adjusted', 'replaced')
    """
    return USUAL_HOWS.get(kind, HOWS[0])


@dataclass(frozen=True, slots=True)
class Stretch:
    """The findings up to a repair, since the one before it, and the repair."""

    findings: tuple[Finding, ...]
    repair: Repair


@dataclass(frozen=True, slots=True)
class Case:
    """A set on the bench; findings in the order in which they were made.

    `findings` are those since the last repair; `past` holds all before, in order of time.
    """

    family: str
    kit: Kit
    findings: tuple[Finding, ...] = ()
    past: tuple[Stretch, ...] = ()

    def evidence(self) -> tuple[Finding, ...]:
        """Return the findings that say something."""
        return tuple(finding for finding in self.findings if finding.is_evidence)

    def all_findings(self) -> tuple[Finding, ...]:
        """Return every finding, those before repairs too, in order of time."""
        before = (finding for stretch in self.past for finding in stretch.findings)
        return (*before, *self.findings)


def add_finding(case: Case, finding: Finding) -> Case:
    """Return the case with `finding`; one of the same check gives way, in its place."""
    if any(earlier.check == finding.check for earlier in case.findings):
        changed = tuple(finding if f.check == finding.check else f for f in case.findings)
        return replace(case, findings=changed)
    return replace(case, findings=(*case.findings, finding))


def repaired(case: Case, repair: Repair) -> Case:
    """Return the case after a repair; what is found from now on is of the set as it is then."""
    return replace(case, findings=(), past=(*case.past, Stretch(case.findings, repair)))


def withdraw(case: Case, check: str) -> Case:
    """Return the case without the latest finding of `check`."""
    kept = tuple(f for f in case.findings if f.check != check)
    if len(kept) < len(case.findings) or not case.past:
        return replace(case, findings=kept)
    *past, last = case.past
    earlier = withdraw(Case(case.family, case.kit, last.findings, tuple(past)), check)
    stretch = Stretch(earlier.findings, last.repair)
    return replace(case, past=(*earlier.past, stretch))
