"""In which order to try repairs when each is its own proof, where to stop, and what it all costs.

With one fault, independent costs and sure repairs, falling p/c is the cheapest order. A last resort
that always helps, at a price, ends it: the cheapest plan is then a beginning of that order. (Were a
repair left out with a better p/c than one that is tried and worth it, trying it just before that
one would be worth it too.)

References:
    Heckerman, Breese & Rommelse, Communications of the ACM 38(3) (1995) 49-57.
    Kadane & Simon, Annals of Statistics 5 (1977) 237-255.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Trial:
    """One repair that may be tried.

    `p` is the chance that it ends the trouble, `cost`, above 0, what trying it costs. Where a look
    comes before the repair, `cost` is that of the look, and `found_cost` what is to be expected
    besides for the repair, as it is paid only where something is found.
    """

    name: str
    p: float
    cost: float
    found_cost: float = 0.0


@dataclass(frozen=True, slots=True)
class Plan:
    """Repairs in the order in which to try them, before the last resort, and the expected cost."""

    order: tuple[Trial, ...]
    cost: float


def by_probability_over_cost(trials: Iterable[Trial]) -> list[Trial]:
    """Return repairs in falling p/c, the order of least expected cost; ties by name.

    >>> [each.name for each in by_probability_over_cost([Trial("a", 0.5, 6), Trial("b", 0.3, 2)])]
    ['b', 'a']
    """
    return sorted(trials, key=lambda each: (-each.p / each.cost, each.name))


def expected_cost(order: Sequence[Trial], last_resort: float = 0.0, faults: float = 1.0) -> float:
    """Return the expected cost of trying repairs in `order` until the trouble is gone.

    Args:
        order: each repair once.
        last_resort: what is paid when all of `order` failed.
        faults: how many faults are expected behind the trouble. With 1 they exclude each other.
            With more the trouble is taken to last with the chance of any fault that is left, at
            most their sum: too dear where two may be there together, never too cheap.

    >>> expected_cost([Trial("b", 0.3, 2), Trial("a", 0.5, 6)], last_resort=10)
    8.2
    """
    return _running(order, last_resort, faults)[-1]


def cheapest_plan(trials: Iterable[Trial], last_resort: float, faults: float = 1.0) -> Plan:
    """Return the cheapest beginning of the order of falling p/c; the other arguments as above.

    Where several faults are expected, neighbours change places as long as that makes it cheaper.

    >>> cheapest_plan([Trial("a", 0.6, 6), Trial("b", 0.01, 50)], last_resort=100).cost
    46.0
    """
    order = by_probability_over_cost(trials)
    totals = _running(order, last_resort, faults)
    order = _exchanged(order[: totals.index(min(totals))], faults)
    totals = _running(order, last_resort, faults)
    count = totals.index(min(totals))
    return Plan(tuple(order[:count]), totals[count])


def _exchanged(order: Sequence[Trial], faults: float) -> list[Trial]:
    """Return `order` with neighbours in the places in which they cost less."""
    order, is_better = [*order], True
    while is_better:
        left, is_better = max(faults, 1.0), False
        for number in range(len(order) - 1):
            first, then = order[number], order[number + 1]
            if _pair(then, first, left) < _pair(first, then, left) - 1e-9:
                order[number : number + 2] = then, first
                is_better = True
            left -= order[number].p
    return order


def _pair(first: Trial, then: Trial, left: float) -> float:
    return _chance(left) * first.cost + _chance(left - first.p) * then.cost


def _chance(left: float) -> float:
    """Return the chance, at most, that one of the faults expected to be left is there."""
    return min(max(left, 0.0), 1.0)


def _running(order: Sequence[Trial], last_resort: float, faults: float) -> list[float]:
    """Return the expected cost of trying none of `order`, then the first, the first two ..."""
    left, spent = max(faults, 1.0), 0.0
    totals = [last_resort]
    for each in order:
        spent += _chance(left) * each.cost + each.found_cost
        left -= each.p
        totals.append(spent + _chance(left) * last_resort)
    return totals
