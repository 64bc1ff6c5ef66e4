"""De Kleer & Williams 1987, Artificial Intelligence 32, 97-130: three multipliers, two adders.

Circuit, inputs and observations as printed there; results by enumeration of all 32 candidates.
A faulty part may give any of 16 outputs. Sums and products are taken mod 16, so that an adder gives
every output equally often when one of its inputs does: what nothing predicts has chance 1/16.
"""

from collections.abc import Callable
from functools import cache
from itertools import combinations, islice

import pytest

from engine.inference.diagnoses import assignments, states
from engine.inference.gain import channel, entropy, information_gain
from engine.inference.junction import junction_tree
from engine.inference.network import Network, Node, chance, gate, network, root
from engine.inference.propagation import Calibration, calibrate, log2_evidence

INPUTS = {"A": 3, "B": 2, "C": 2, "D": 3, "E": 3}
VALUES = tuple(str(value) for value in range(16))
PARTS = ("A1", "A2", "M1", "M2", "M3")
NAMES = tuple(" ".join(some) or "none" for size in range(6) for some in combinations(PARTS, size))


def circuit(prior: float) -> Network:
    """Return parts, signals, and a gate `faulty` that names the parts that are faulty."""
    parts = {name: root(name, ["ok", "faulty"], [1.0 - prior, prior]) for name in PARTS}
    a, b, c, d, e = INPUTS.values()
    x = output("X", parts["M1"], [], lambda: a * c)
    y = output("Y", parts["M2"], [], lambda: b * d)
    z = output("Z", parts["M3"], [], lambda: c * e)
    f = output("F", parts["A1"], [x, y], lambda x, y: x + y)
    g = output("G", parts["A2"], [y, z], lambda y, z: y + z)
    faulty = gate("faulty", NAMES, list(parts.values()), name_of)
    return network([*parts.values(), x, y, z, f, g, faulty])


def name_of(*words: str) -> str:
    """Return the candidate in which the parts with the word `faulty` are faulty."""
    return " ".join(p for p, word in zip(PARTS, words, strict=True) if word == "faulty") or "none"


def output(name: str, part: Node, inputs: list[Node], does: Callable[..., int]) -> Node:
    """Return what a part gives: what it should when ok, anything when faulty."""
    anything = [1.0 / 16.0] * 16
    points = [()]
    for _ in inputs:
        points = [(*point, value) for point in points for value in range(16)]
    right = [[float(value == does(*point) % 16) for value in range(16)] for point in points]
    return chance(name, VALUES, [part, *inputs], [*right, *[anything] * len(points)])


TREE = junction_tree(circuit(0.01))


@cache
def after(seen: str, candidate: str = "") -> Calibration:
    """Return the tree after words such as `F=10`, and of one candidate if any."""
    found = {word[0]: one_hot(VALUES, word[2:]) for word in seen.split()}
    if candidate:
        found["faulty"] = one_hot(NAMES, candidate)
    return calibrate(TREE, found)


def one_hot(words: tuple[str, ...], word: str) -> list[float]:
    """Return the likelihood that makes one state certain."""
    return [float(other == word) for other in words]


def candidates(seen: str) -> dict[str, float]:
    """Return the posterior of every candidate that is possible."""
    posterior = zip(NAMES, after(seen).posterior("faulty"), strict=True)
    return {name: p for name, p in posterior if p > 0.0}


def smallest(sets: list[str]) -> set[str]:
    """Return the sets that hold no other."""
    split = {name: set() if name == "none" else set(name.split()) for name in sets}
    return {
        name for name, held in split.items() if not any(other < held for other in split.values())
    }


# What was seen: minimal conflicts, minimal diagnoses, consistent candidates of 32.
SETS = {
    "F=10": ("A1 M1 M2", "A1, M1, M2", 28),
    "F=10 G=12": ("A1 M1 M2, A1 A2 M1 M3", "A1, M1, A2 M2, M2 M3", 27),
    "F=10 G=12 X=4": ("M1", "M1", 16),
    "F=10 G=12 X=6": ("A1 M2, A1 A2 M3", "A1, A2 M2, M2 M3", 22),
    "F=10 G=12 X=6 Y=6": ("A1", "A1", 16),
    "F=10 G=12 Y=4": ("M2, A2 M3", "A2 M2, M2 M3", 12),
    "F=10 G=12 Z=8": ("M3, A2 M2, A1 M1 M2", "M2 M3, A1 A2 M3, A2 M1 M3", 11),
    "F=10 G=10": ("A1 M1 M2, A2 M2 M3", "M2, A1 A2, A1 M3, A2 M1, M1 M3", 25),
}


@pytest.mark.parametrize("seen", SETS)
def test_consistent_candidates(seen: str) -> None:
    """So many candidates keep a probability above 0."""
    assert len(candidates(seen)) == SETS[seen][2]


@pytest.mark.parametrize("seen", SETS)
def test_minimal_diagnoses(seen: str) -> None:
    """The smallest sets of parts that may be faulty with all others ok."""
    assert smallest(list(candidates(seen))) == set(SETS[seen][1].split(", "))


@pytest.mark.parametrize("seen", SETS)
def test_minimal_conflicts(seen: str) -> None:
    """The smallest sets of parts that cannot all be ok: what is seen has probability 0 then."""
    found = {word[0]: one_hot(VALUES, word[2:]) for word in seen.split()}
    conflicts = [
        name
        for name in NAMES[1:]
        if log2_evidence(TREE, found | {part: [1.0, 0.0] for part in name.split()}) == float("-inf")
    ]
    assert smallest(conflicts) == set(SETS[seen][0].split(", "))


# What was seen: P(candidate), P(part), entropy of the candidates in bits; part prior 0.01.
CHANCES = {
    "F=10": (
        {"A1": 0.3234, "M1": 0.3234, "M2": 0.3234},
        {"A1": 0.3367, "M1": 0.3367, "M2": 0.3367, "A2": 0.0100, "M3": 0.0100},
        1.828,
    ),
    "F=10 G=12": (
        {"A1": 0.4962, "M1": 0.4962, "A1 M1": 0.0050},
        {"A1": 0.5022, "M1": 0.5022, "M2": 0.0013, "A2": 0.0010, "M3": 0.0010},
        1.071,
    ),
    "F=10 G=12 X=4": ({"M1": 0.9975}, {"M1": 1.000}, 0.031),
    "F=10 G=12 X=6": ({"A1": 0.9962}, {"A1": 0.9987}, 0.046),
}


@pytest.mark.parametrize("seen", CHANCES)
def test_posteriors_of_candidates(seen: str) -> None:
    """The likeliest candidates, each as a whole: these parts faulty, all others ok."""
    found, expected = candidates(seen), CHANCES[seen][0]
    assert {name: found[name] for name in expected} == pytest.approx(expected, abs=5e-5)
    assert set(sorted(found, key=found.__getitem__)[-len(expected) :]) == set(expected)


@pytest.mark.parametrize("seen", CHANCES)
def test_posteriors_of_parts(seen: str) -> None:
    """How likely each part is faulty, alone or beside others."""
    found, expected = after(seen), CHANCES[seen][1]
    parts = {name: found.posterior(name)[1] for name in expected}
    assert parts == pytest.approx(expected, abs=5e-5)


@pytest.mark.parametrize("seen", CHANCES)
def test_entropy_of_the_candidates(seen: str) -> None:
    """How much is left to learn, in bits."""
    assert entropy([*candidates(seen).values()]) == pytest.approx(CHANCES[seen][2], abs=5e-4)


def gain(point: str, seen: str, weights: dict[str, float]) -> float:
    """Return what measuring `point` tells about the candidates, in bits."""
    shows = channel([after(seen, name).posterior(point) for name in weights])
    return information_gain([*weights.values()], shows)


@pytest.mark.parametrize(
    ("point", "bits", "left"), [("X", 1.033, 0.038), ("Y", 0.008, 1.064), ("Z", 0.004, 1.067)]
)
def test_best_next_measurement(point: str, bits: float, left: float) -> None:
    """After F = 10, G = 12 measure X: it tells 1.033 bits of 1.071, Y and Z next to nothing."""
    weights = candidates("F=10 G=12")
    found = gain(point, "F=10 G=12", weights)
    assert found == pytest.approx(bits, abs=5e-4)
    assert entropy([*weights.values()]) - found == pytest.approx(left, abs=5e-4)


@pytest.mark.parametrize(("point", "bits"), [("X", 1.0), ("Y", 0.0), ("Z", 0.0)])
def test_best_next_measurement_with_one_fault(point: str, bits: float) -> None:
    """Were there one fault only, A1 or M1, X would tell exactly one bit, Y and Z nothing."""
    single = {name: p for name, p in candidates("F=10 G=12").items() if name in PARTS}
    weights = {name: p / sum(single.values()) for name, p in single.items()}
    assert gain(point, "F=10 G=12", weights) == pytest.approx(bits, abs=1e-12)


def test_best_joint_explanations() -> None:
    """The two likeliest assignments of everything are the two single faults, each 0.4962."""
    found = {"F": one_hot(VALUES, "10"), "G": one_hot(VALUES, "12")}
    total = log2_evidence(TREE, found)
    best = list(islice(assignments(TREE, found), 2))
    names = [NAMES[states(TREE, one, ["faulty"])[0]] for one in best]
    assert sorted(names) == ["A1", "M1"]
    assert [2.0 ** (one.log2_joint - total) for one in best] == pytest.approx(
        [0.4962] * 2, abs=5e-5
    )
