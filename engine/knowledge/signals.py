"""Rules inside a block: what its signals take, what its causes make, which names it gives."""

from collections.abc import Iterator, Mapping

from engine.errors import Problem
from engine.knowledge.draft import Page
from engine.knowledge.naming import unknown
from engine.knowledge.reading import Source
from engine.knowledge.schema import Block, Rule
from engine.knowledge.states import FINE, UNLISTED, effects, signals_of, states_in
from engine.knowledge.wording import Path

States = Mapping[str, tuple[str, ...]]


def signal_problems(page: Page[Block]) -> Iterator[Problem]:
    """Yield what is wrong with the names, signals and effects of a block."""
    yield from _names_given_twice(page)
    yield from _states_given_twice(page)
    states, signals = states_in(page.model), signals_of(page.model)
    for name, signal in page.model.makes.items():
        for taken, passes in signal.takes.items():
            path: Path = ("makes", name, "takes", taken)
            yield from _taken(page.source, path, passes, signals, signal.states)
        for index, rule in enumerate(signal.rules):
            yield from _rule(page.source, ("makes", name, "rules", index), rule, states, name)
    yield from _made(page)


def _names_given_twice(page: Page[Block]) -> Iterator[Problem]:
    """Yield names with two meanings: a check would not know what it looks at."""
    block, expected = page.model, "a name of its own"
    for name in block.makes:
        if name in block.needs:
            found, remedy = f"'{name}', also needed", "Rename one; a signal is needed or made."
            yield page.source.problem(("makes", name), found, expected, remedy)
    for part, names in (("makes", block.makes), ("causes", block.causes)):
        for name in (name for name in names if name.partition("-")[0] == UNLISTED):
            remedy = "Rename it; every block gets such causes by itself."
            yield page.source.problem((part, name), f"'{name}'", expected, remedy)
    for name, cause in block.causes.items():
        if name in block.needs or name in block.makes:
            found, remedy = f"'{name}', also a signal", f"Rename the cause, such as '{name}-fault'."
            yield page.source.problem(("causes", name), found, expected, remedy)
        if FINE in cause.ways:
            remedy = "Rename the way; 'fine' is the cause not being there."
            yield page.source.problem(("causes", name, "ways", FINE), "'fine'", expected, remedy)


def _states_given_twice(page: Page[Block]) -> Iterator[Problem]:
    for part, signals in (("needs", page.model.needs), ("makes", page.model.makes)):
        for name, signal in signals.items():
            twice = sorted({s for s in signal.states if signal.states.count(s) > 1})
            for state in twice:
                path, remedy = (part, name, "states"), "Remove one of them."
                yield page.source.problem(path, f"'{state}' twice", "each state once", remedy)


def _taken(
    source: Source, path: Path, passes: object, signals: States, states: tuple[str, ...]
) -> Iterator[Problem]:
    """Hold to the rules what one signal takes from another."""
    taken = str(path[-1])
    if taken not in signals:
        yield from unknown(source, path, taken, signals, "a signal this block needs or makes")
    elif isinstance(passes, dict):
        yield from _mapped(source, path, passes, signals[taken], states)
    elif lacking := [state for state in signals[taken] if state not in states]:
        found = f"'same', but {', '.join(lacking)} of '{taken}' is no state here"
        remedy = "Map each state instead, such as {low: low}."
        yield source.problem(path, found, f"states of '{path[1]}'", remedy)


def _mapped(
    source: Source,
    path: Path,
    passes: Mapping[str, str],
    taken: tuple[str, ...],
    states: tuple[str, ...],
) -> Iterator[Problem]:
    for state, becomes in passes.items():
        below = (*path, state)
        yield from unknown(source, below, state, taken, f"a state of '{path[-1]}'")
        yield from unknown(source, below, becomes, states, f"a state of '{path[1]}'")
        if state == taken[0] and becomes in states[1:]:
            found, expected = f"'{becomes}' from a right input", f"'{states[0]}', or no such line"
            remedy = "Remove the line: what is right passes on nothing wrong."
            yield source.problem(below, found, expected, remedy)


def _rule(source: Source, path: Path, rule: Rule, states: States, made: str) -> Iterator[Problem]:
    """Hold one rule of the signal `made` to the names and states of the block."""
    for name, wanted in rule.when.items():
        below = (*path, "when", name)
        yield from unknown(source, below, name, states, "a signal or cause of this block")
        for state in (wanted,) if isinstance(wanted, str) else wanted:
            if name in states:
                yield from unknown(source, below, state, states[name], f"a state of '{name}'")
    yield from unknown(source, (*path, "then"), rule.then, states[made], f"a state of '{made}'")
    if rule.then in states[made][1:] and all(
        name in states and _allows(wanted, states[name][0]) for name, wanted in rule.when.items()
    ):
        found = f"'{rule.then}' even when everything in 'when' is right"
        remedy = "Name a state in 'when' that is not right."
        yield source.problem((*path, "when"), found, "a rule that needs something wrong", remedy)


def _allows(wanted: object, state: str) -> bool:
    """Whether one state, or several, of a condition are met by `state`."""
    return state == wanted or (isinstance(wanted, tuple) and state in wanted)


def _made(page: Page[Block]) -> Iterator[Problem]:
    """Hold what causes make to the signals the block makes."""
    makes = page.model.makes
    for name, cause in page.model.causes.items():
        for way, effect in effects(cause).items():
            start: Path = ("causes", name, "ways", way) if cause.ways else ("causes", name)
            for signal, state in effect.items():
                path = (*start, "makes", signal)
                yield from unknown(page.source, path, signal, makes, "a signal this block makes")
                if signal in makes:
                    known = makes[signal].states
                    yield from unknown(page.source, path, state, known, f"a state of '{signal}'")
