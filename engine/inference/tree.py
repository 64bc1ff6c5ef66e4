"""A compiled junction tree: flat tables, and what a pass over them needs, worked out once."""

from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import log2
from operator import itemgetter
from typing import Any

KEPT = 16  # passes up that a tree keeps: those of a step that confirms a cause, each twice

Spread = Callable[[Sequence[float]], Sequence[float]]


@dataclass(frozen=True, slots=True)
class Clique:
    """A table over some variables, as the flat list of its non-zero entries.

    `to_separator[i]` is the separator entry that entry i belongs to; `children` holds for each
    child its number and, for each entry here, the entry of the child's separator.
    """

    weights: tuple[float, ...]
    parent: int  # -1 at a root of the forest; its separator is empty, with the one entry ()
    separator_size: int
    to_separator: tuple[int, ...]
    children: tuple[tuple[int, tuple[int, ...]], ...]


@dataclass(frozen=True, slots=True)
class Home:
    """Where a variable lives: a clique, and its state in each entry of it."""

    clique: int
    states: int
    state_of: tuple[int, ...]


@dataclass(frozen=True, eq=False)
class JunctionTree:
    """Cliques, children before parents, and the home of every variable."""

    cliques: tuple[Clique, ...]
    homes: dict[str, Home]

    @property
    def size(self) -> int:
        """How many non-zero entries all cliques have."""
        return sum(len(clique.weights) for clique in self.cliques)

    @property
    def work(self) -> int:
        """What one pass has to visit: every entry once for itself and once for each child."""
        return sum(len(clique.weights) * (1 + len(clique.children)) for clique in self.cliques)

    @cached_property
    def floors(self) -> tuple[float, ...]:
        """The smallest weight above 0 of each clique."""
        return tuple(min(filter(None, clique.weights), default=1.0) for clique in self.cliques)

    @cached_property
    def states(self) -> dict[str, int]:
        """How many states each variable has."""
        return {variable: home.states for variable, home in self.homes.items()}

    @cached_property
    def passes(self) -> deque[Any]:
        """The last passes up this tree, for the next one to start from."""
        return deque(maxlen=KEPT)

    @cached_property
    def in_parent(self) -> dict[int, tuple[int, ...]]:
        """For each clique below another, the entry of its separator for each entry there."""
        return {child: index for clique in self.cliques for child, index in clique.children}

    @cached_property
    def over_parent(self) -> dict[int, Spread]:
        """For each clique below another, what spreads numbers on its separator over that one."""
        return {child: _spreader(index) for child, index in self.in_parent.items()}

    @cached_property
    def from_separator(self) -> tuple[Spread, ...]:
        """For each clique, what spreads numbers on its separator over its entries."""
        return tuple(_spreader(clique.to_separator) for clique in self.cliques)

    @cached_property
    def log_weights(self) -> tuple[tuple[int, tuple[float, ...]], ...]:
        """The log2 of the weights of each clique that has any but ones, by number."""
        return tuple(
            (number, tuple(map(log2, clique.weights)))
            for number, clique in enumerate(self.cliques)
            if any(weight != 1.0 for weight in clique.weights)
        )


def _spreader(index: tuple[int, ...]) -> Spread:
    """Return what picks the numbers at `index`: in C, which a browser runs much faster."""
    if len(index) == 1:
        return lambda numbers: (numbers[index[0]],)
    return itemgetter(*index)
