"""The words for an entry that cannot be used."""

from engine.errors import UnknownReading


def refused_words(problem: UnknownReading) -> str:
    """Return what was found, what was expected, and what to do."""
    return f"That cannot be used: {problem.found}. Expected: {problem.expected}. {problem.remedy}"
