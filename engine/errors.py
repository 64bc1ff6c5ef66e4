"""What can go wrong, sorted by who must act.

EngineError
├── KnowledgeError            the knowledge base is wrong: its author must act
├── NetworkError              a network is no network: whoever built it must act
└── EvidenceError             a finding is wrong: the person at the bench must act
    ├── CaseError             the case file cannot be read as it stands
    ├── ChartError            the printed chart cannot be read as it stands
    └── UnknownReading        the check has no such outcome, or the number makes no sense

Findings that no combination of causes explains are no error: the advice names the smallest set of
them that cannot all be true.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing an author must put right.

    `line` counts from 1; `path` is dotted, such as `causes.core-broken.prior`.
    """

    file: str
    line: int
    path: str
    found: str
    expected: str
    remedy: str

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}: {self.path}"
        return f"{where}: found {self.found}, expected {self.expected}\n  {self.remedy}"


class EngineError(Exception):
    """Anything the engine refuses to carry on with."""


class KnowledgeError(EngineError):
    """The knowledge base is wrong. Carries every `Problem` that was found, in file order."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(problems))
        super().__init__("\n".join(str(problem) for problem in self.problems))


class NetworkError(EngineError):
    """Variables and tables that do not make a Bayesian network."""


class EvidenceError(EngineError):
    """Something entered at the bench cannot be used."""


class CaseError(EvidenceError):
    """A case file is wrong. Carries every `Problem` that was found, in file order."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(problems))
        super().__init__("\n".join(str(problem) for problem in self.problems))


class ChartError(EvidenceError):
    """A printed chart is written down wrong. Carries every `Problem`, in order of its rows."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(problems))
        super().__init__("\n".join(str(problem) for problem in self.problems))


class UnknownReading(EvidenceError):
    """A check has no such outcome, or a number does not fit it."""

    def __init__(self, check: str, found: str, expected: str, remedy: str) -> None:
        self.check, self.found, self.expected, self.remedy = check, found, expected, remedy
        super().__init__(f"{check}: found {found}, expected {expected}\n  {remedy}")


def suggest(wrong: str, known: Iterable[str]) -> str:
    """Return a sentence that names the likeliest id meant by a slip of the fingers.

    >>> suggest("drver", ["driver", "squelch"])
    "Did you mean 'driver'?"
    """
    names = sorted(known)
    close = get_close_matches(wrong, names, n=1)
    if close:
        return f"Did you mean '{close[0]}'?"
    return f"Known: {', '.join(names)}." if names else "None is known here."
