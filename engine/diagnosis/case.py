"""A case: which set, which kit, what was found so far. A value; each step returns a new one."""

from dataclasses import dataclass, replace

from engine.diagnosis.model import CheckText, SetModel

CANNOT_CHECK = "cannot-check"


@dataclass(frozen=True, slots=True)
class Kit:
    """What can be used: instruments by id, and whether the case may be opened.

    `counter_ppm` is the tolerance of the frequency counter's timebase, where it is known.
    """

    instruments: frozenset[str]
    lid: str  # "on": closed; "off": it may be opened
    counter_ppm: float | None = None

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
class Case:
    """A set on the bench; findings in the order in which they were made."""

    family: str
    kit: Kit
    findings: tuple[Finding, ...] = ()

    def evidence(self) -> tuple[Finding, ...]:
        """Return the findings that say something."""
        return tuple(finding for finding in self.findings if finding.is_evidence)


def add_finding(case: Case, finding: Finding) -> Case:
    """Return the case with `finding`; one of the same check gives way, in its place."""
    if any(earlier.check == finding.check for earlier in case.findings):
        changed = tuple(finding if f.check == finding.check else f for f in case.findings)
        return replace(case, findings=changed)
    return replace(case, findings=(*case.findings, finding))


def withdraw(case: Case, check: str) -> Case:
    """Return the case without the finding of `check`."""
    return replace(case, findings=tuple(f for f in case.findings if f.check != check))
