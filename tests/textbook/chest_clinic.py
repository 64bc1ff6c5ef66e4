"""The chest clinic of Lauritzen & Spiegelhalter 1988, J. R. Statist. Soc. B 50, 157-224."""

from engine.inference.network import Network, chance, gate, network, root

NO_YES = ("no", "yes")


def row(yes: float) -> list[float]:
    """Return P(no), P(yes)."""
    return [1.0 - yes, yes]


def chest_clinic() -> Network:
    """Return the network: a visit to Asia, smoking, tuberculosis, lung cancer, bronchitis ...

    ... either of the first two, an X-ray, dyspnoea; by their first letters, the X-ray as x.
    """
    a, s = root("a", NO_YES, row(0.01)), root("s", NO_YES, row(0.5))
    t = chance("t", NO_YES, [a], [row(0.01), row(0.05)])
    l_ = chance("l", NO_YES, [s], [row(0.01), row(0.1)])
    b = chance("b", NO_YES, [s], [row(0.3), row(0.6)])
    e = gate("e", NO_YES, [t, l_], max)  # "yes" stands behind "no"
    x = chance("x", NO_YES, [e], [row(0.05), row(0.98)])
    d = chance("d", NO_YES, [e, b], [row(0.1), row(0.8), row(0.7), row(0.9)])
    return network([a, s, t, l_, b, e, x, d])


CLINIC = chest_clinic()
