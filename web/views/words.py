"""How numbers and kinds are worded, the same everywhere on the page."""

import math

KINDS = {
    "fault": "failed part",
    "adjustment": "out of adjustment",
    "modification": "earlier alteration",
    "outside": "outside the set",
    "control": "knob or switch",
    "event": "something it went through",
    "unlisted": "not in the knowledge",
}
MODES = {
    "off": "Set off",
    "receive": "Receiving",
    "transmit": "Transmitting",
    "any": "Set as it is",
}
LIDS = {"on": "lid stays on", "off": "lid off"}


def percent(probability: float) -> str:
    """Word a probability, never rounding to certainty.

    >>> [percent(p) for p in (0.0, 0.0004, 0.034, 0.5, 0.9996, 1.0)]
    ['0 %', 'under 0.1 %', '3.4 %', '50 %', 'over 99.9 %', '100 %']
    """
    if probability in (0.0, 1.0):
        return f"{probability * 100:.0f} %"
    if probability < 0.001:
        return "under 0.1 %"
    if probability > 0.999:
        return "over 99.9 %"
    figure = 100 * probability
    return f"{figure:.1f} %" if figure < 9.95 or figure > 98.95 else f"{figure:.0f} %"


def short_percent(probability: float) -> str:
    """Word a probability where there is little room.

    >>> [short_percent(p) for p in (0.0004, 0.034, 0.9996)]
    ['<0.1 %', '3.4 %', '>99.9 %']
    """
    return percent(probability).replace("under ", "<").replace("over ", ">")


def change(points: float) -> str:
    """Word a change of probability in percentage points.

    >>> [change(p) for p in (0.123, -0.04, 0.0001)]
    ['up 12', 'down 4', 'as before']
    """
    rounded = round(100 * points)
    if rounded == 0:
        return "as before"
    return f"{'up' if rounded > 0 else 'down'} {abs(rounded)}"


def minutes(time_min: float) -> str:
    """Word a time.

    >>> minutes(1), minutes(0.5), minutes(90)
    ('1 minute', '0.5 minutes', '90 minutes')
    """
    return f"{time_min:g} minute{'' if time_min == 1 else 's'}"


def bits(gain_bits: float) -> str:
    """Word an information gain.

    >>> bits(0.5), bits(0.0004)
    ('0.50 bits', 'under 0.01 bits')
    """
    return f"{gain_bits:.2f} bits" if gain_bits >= 0.005 else "under 0.01 bits"


def worth(gain_bits: float) -> str:
    """Word an information gain for somebody who does not count in bits.

    >>> [worth(g) for g in (0.8, 0.3, 0.1, 0.004)]
    ['tells a lot', 'tells a fair amount', 'tells a little', 'tells hardly anything']
    """
    steps = ((0.5, "tells a lot"), (0.2, "tells a fair amount"), (0.05, "tells a little"))
    return next((words for least, words in steps if gain_bits >= least), "tells hardly anything")


def strength(weight: float) -> str:
    """Word a weight of evidence in decibans, for or against a cause.

    >>> [strength(w) for w in (12, 4, 1, 0.01, -1, -4, -12, -math.inf)][:5]
    ['speaks strongly for it', 'speaks for it', 'speaks a little for it', 'says nothing', \
'speaks a little against it']
    """
    if math.isinf(weight):
        return decibans(weight)
    side = "for it" if weight > 0 else "against it"
    steps = ((10, "speaks strongly"), (3, "speaks"), (0.05, "speaks a little"))
    word = next((words for least, words in steps if abs(weight) >= least), "")
    return f"{word} {side}" if word else "says nothing"


def decibans(weight: float) -> str:
    """Word a weight of evidence, with its sign.

    >>> decibans(3.14), decibans(-12), decibans(-math.inf)
    ('+3.1', '−12.0', 'rules it out')
    """
    if math.isinf(weight):
        return "settles it" if weight > 0 else "rules it out"
    return f"{'−' if weight < -0.05 else '+'}{abs(weight):.1f}"


def listed(items: tuple[str, ...] | list[str]) -> str:
    """Join words as in a sentence.

    >>> listed(["a"]), listed(["a", "b", "c"])
    ('a', 'a, b and c')
    """
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"
