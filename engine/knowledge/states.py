"""The states that the names of a block can be in."""

from engine.knowledge.schema import Block, Cause, Check

FINE = "fine"
PRESENT = "present"
UNLISTED = "unlisted"  # begins the names of causes that stand for all a block does not list


def states_of_cause(cause: Cause) -> tuple[str, ...]:
    """Return the states of a cause: `fine`, then its ways or plain `present`."""
    return (FINE, *(cause.ways or (PRESENT,)))


def effects(cause: Cause) -> dict[str, dict[str, str]]:
    """Return what a cause makes of the signals of its block, by its state other than `fine`."""
    if cause.ways:
        return {name: way.makes for name, way in cause.ways.items()}
    return {PRESENT: cause.makes}


def signals_of(block: Block) -> dict[str, tuple[str, ...]]:
    """Return the states of every signal that a block needs or makes."""
    needed = {name: need.states for name, need in block.needs.items()}
    return needed | {name: signal.states for name, signal in block.makes.items()}


def states_in(block: Block) -> dict[str, tuple[str, ...]]:
    """Return the states of every signal and every cause of a block: all a check can look at."""
    causes = {name: states_of_cause(cause) for name, cause in block.causes.items()}
    return causes | signals_of(block)


def shows(check: Check, state: str) -> object:
    """Return how a state shows in a check; two states that show alike give equal values."""
    if check.yes:
        return check.yes.get(state)
    if check.reads:
        return check.reads.get(state)
    return frozenset(name for name, outcome in check.outcomes.items() if state in outcome.means)
