"""Likelihood vectors: what findings say about the states of a variable."""

from collections.abc import Mapping, Sequence
from math import frexp, isfinite, ldexp
from operator import mul

from engine.errors import EvidenceError

Likelihoods = Mapping[str, Sequence[float]]
Held = dict[str, Sequence[float]]


def check_likelihoods(likelihoods: Likelihoods, states: Mapping[str, int]) -> None:
    """Refuse vectors that say nothing about a variable; `states` counts the states of each.

    Raises:
        EvidenceError: no such variable, or not one number, finite and at least 0, for each state.
    """
    for variable, likelihood in likelihoods.items():
        if variable not in states:
            raise EvidenceError(f"{variable}: found a likelihood, expected a variable of the tree")
        count = states[variable]
        if len(likelihood) != count or not all(isfinite(p) and p >= 0.0 for p in likelihood):
            found = ", ".join(f"{p:g}" for p in likelihood)
            expected = f"{count} likelihoods, each finite and at least 0"
            raise EvidenceError(f"{variable}: found [{found}], expected {expected}")


def times(held: Likelihoods, more: Likelihoods) -> Held:
    """Return the product of two sets of likelihoods, variable by variable."""
    product: Held = dict(held)
    for name, row in more.items():
        before = product.get(name)
        product[name] = list(map(mul, before, row)) if before is not None else row
    return product


def sure(count: int, state: int) -> tuple[float, ...]:
    """Return what says of a variable of `count` states that it is in one of them.

    >>> sure(3, 1)
    (0.0, 1.0, 0.0)
    """
    return tuple(float(number == state) for number in range(count))


def exponent_of(likelihood: Sequence[float]) -> int:
    """Return the power of 2 that scales the largest entry to one from 0.5 to 1; 0 without any.

    >>> exponent_of([6.0, 0.0, 3.0])
    3
    """
    return frexp(max(likelihood))[1]


def scaled(likelihood: Sequence[float]) -> tuple[list[float], float]:
    """Return a vector over 2 ** `exponent_of` it, and the smallest entry above 0 of that.

    No digit changes. That floor is 1 when there is no such entry; it is 0 when scaling made an
    entry vanish.

    >>> scaled([6.0, 0.0, 3.0])
    ([0.75, 0.0, 0.375], 0.375)
    """
    exponent = exponent_of(likelihood)
    least = min(filter(None, likelihood), default=None)
    floor = 1.0 if least is None else ldexp(least, -exponent)
    return [ldexp(p, -exponent) for p in likelihood], floor
