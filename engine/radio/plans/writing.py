"""How frequencies and channels of a plan are written."""

from collections.abc import Iterable, Sequence
from fractions import Fraction


def figure(number: Fraction | float, places: int = 6) -> str:
    """Return a number with at most `places` decimals and no idle zero.

    >>> figure(Fraction(533, 2)), figure(Fraction(1, 3)), figure(-0.0)
    ('266.5', '0.333333', '0')
    """
    written = f"{float(number):.{places}f}"
    written = written.rstrip("0").rstrip(".") if "." in written else written
    return "0" if written == "-0" else written


def mhz(hz: Fraction) -> str:
    """Return a frequency in MHz, to the Hz.

    >>> mhz(Fraction(27_601_250))
    '27.60125'
    """
    return figure(hz / 1_000_000)


def evenly_mhz(hz: Sequence[Fraction]) -> list[str]:
    """Return a column of frequencies in MHz, each with as many decimals as the longest needs.

    >>> evenly_mhz([Fraction(38_100_000), Fraction(38_090_000)])
    ['38.10', '38.09']
    """
    places = max((len(mhz(each).partition(".")[2]) for each in hz), default=0)
    return [f"{float(each / 1_000_000):.{places}f}" for each in hz]


def runs(channels: Iterable[int]) -> str:
    """Return channels as a person writes them.

    >>> runs([1, 2, 3, 7, 9, 10])
    '1 to 3, 7, 9, 10'
    """
    groups: list[list[int]] = []
    for channel in sorted(channels):
        if groups and channel == groups[-1][-1] + 1:
            groups[-1].append(channel)
        else:
            groups.append([channel])
    return ", ".join(word for group in groups for word in _run(group))


def _run(group: Sequence[int]) -> list[str]:
    return [f"{group[0]} to {group[-1]}"] if len(group) > 2 else [str(each) for each in group]
