"""Lauritzen & Spiegelhalter 1988, J. R. Statist. Soc. B 50, 157-224: the chest clinic.

Tables as printed there; results by full enumeration of its 256 states.
"""

import pytest

from engine.inference.gain import channel, information_gain
from engine.inference.junction import junction_tree
from engine.inference.propagation import Calibration, calibrate
from tests.textbook.chest_clinic import CLINIC, NO_YES

TREE = junction_tree(CLINIC)

# Evidence: P(evidence), then P(yes) of t, l, b, e, x, s, d.
ROWS = {
    "": (1, 0.0104, 0.055, 0.45, 0.064828, 0.110290, 0.5, 0.435971),
    "a": (0.01, 0.05, 0.055, 0.45, 0.10225, 0.145093, 0.5, 0.450138),
    "s": (0.5, 0.0104, 0.1, 0.6, 0.10936, 0.151705, 1, 0.552808),
    "d": (0.43597060, 0.018845, 0.102759, 0.833967, 0.120536, 0.162098, 0.633997, 1),
    "x": (0.11029004, 0.092411, 0.488711, 0.506326, 0.576040, 1, 0.687754, 0.640766),
    "a d": (0.00450138, 0.087751, 0.099525, 0.811402, 0.182300, 0.219539, 0.625920, 1),
    "a d x": (0.00098823, 0.391712, 0.444271, 0.628822, 0.813769, 1, 0.702025, 1),
    "a d -x": (0.00351315, 0.002249, 0.002550, 0.862761, 0.004672, 0, 0.604512, 1),
    "a -s d x": (0.00029447, 0.632329, 0.126466, 0.458960, 0.752472, 1, 0, 1),
    "x d": (0.07067010, 0.113933, 0.621253, 0.681869, 0.728725, 1, 0.785610, 1),
}

# What is asked, about what, under which evidence: bits.
INFORMATION = {
    ("x", "e", ""): 0.22379,
    ("d", "e", ""): 0.02955,
    ("s", "e", ""): 0.02578,
    ("a", "e", ""): 0.000145,  # the list has 0.00015: by enumeration 0.00014495, rounded twice
    ("d", "b", ""): 0.36156,
    ("s", "b", ""): 0.06665,
    ("x", "b", ""): 0.00114,
    ("a", "b", ""): 0.0,
    ("x", "e", "d"): 0.37038,
    ("s", "e", "d"): 0.02319,
    ("a", "e", "d"): 0.00024,
}


def after(evidence: str) -> Calibration:
    """Return the tree after words such as `a -x`: a is yes, x is no."""
    found = {word.strip("-"): word.startswith("-") for word in evidence.split()}
    return calibrate(TREE, {name: [float(no), float(not no)] for name, no in found.items()})


def named(evidence: str) -> str:
    """Return a test id."""
    return evidence or "nothing known"


@pytest.mark.parametrize("evidence", ROWS, ids=named)
def test_probability_of_the_evidence(evidence: str) -> None:
    """P(evidence) to the eight digits of the table; one row, 0.004501375, is a tie in rounding."""
    assert 2.0 ** after(evidence).log2_evidence == pytest.approx(ROWS[evidence][0], abs=5.1e-9)


@pytest.mark.parametrize("evidence", ROWS, ids=named)
def test_posteriors(evidence: str) -> None:
    """Every posterior to the six digits of the table."""
    calibration = after(evidence)
    found = [calibration.posterior(name)[1] for name in "tlbexsd"]
    assert found == pytest.approx(ROWS[evidence][1:], abs=5e-7)


@pytest.mark.parametrize("asked", INFORMATION, ids=" ".join)
def test_information(asked: tuple[str, str, str]) -> None:
    """The gain of asking one variable about another, to the five digits of the list."""
    variable, about, evidence = asked
    given = [f"{evidence} {'-' if word == 'no' else ''}{about}" for word in NO_YES]
    shows = channel([after(words).posterior(variable) for words in given])
    gain = information_gain(after(evidence).posterior(about), shows)
    assert gain == pytest.approx(INFORMATION[asked], abs=5e-6)


def test_smoking_screens_bronchitis_from_the_x_ray() -> None:
    """Given s, the X-ray tells nothing about bronchitis: 0.6 exactly."""
    assert after("x s").posterior("b")[1] == pytest.approx(0.6, abs=1e-15)


def test_explaining_away() -> None:
    """The X-ray explains the dyspnoea: P(b | d) = 0.8340 falls to P(b | x, d) = 0.6819."""
    assert after("d").posterior("b")[1] == pytest.approx(0.8340, abs=5e-5)
    assert after("x d").posterior("b")[1] == pytest.approx(0.6819, abs=5e-5)
    assert after("x").posterior("b")[1] == pytest.approx(0.5063, abs=5e-5)
