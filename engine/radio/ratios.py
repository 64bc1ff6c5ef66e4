"""Ratios told by two sizes: SWR by forward and reflected power, AM by the largest and smallest."""

import re

from engine.radio.figures import Unclear, figure, shown, three, tidy
from engine.radio.modulation import am_depth
from engine.radio.power import swr_from_powers, swr_from_return_loss
from engine.radio.quantities import Asked, Understood, read_quantity
from engine.radio.units import spoken

RATIO = re.compile(r"([\d.,]+) ?(?::|to) ?([\d.,]+)", re.IGNORECASE)
NAMED = re.compile(r"^v?swr:? ?", re.IGNORECASE)
DECIBELS = re.compile(r"-?([\d.,]+) ?dB", re.IGNORECASE)
RETURN_LOSS = re.compile(r"(?:return loss|rl)(?: of)?:? ?-?([\d.,]+) ?(?:dB)?", re.IGNORECASE)
LOSS_LAST = re.compile(r"-?([\d.,]+) ?dB (?:return loss|rl)", re.IGNORECASE)
SLASHED = re.compile(r"([^/]+?) ?/ ?([^/]+)")
FORWARD_BACK = re.compile(
    r"(?:forward |fwd )?(.+?)(?: forward| fwd)?(?:,| and)? (?:reflected |back |refl )?"
    r"([-+\d.,]+ ?\w*)(?: reflected| back| refl)?",
    re.IGNORECASE,
)
LARGEST_SMALLEST = re.compile(
    r"max(?:imum)?:? ([\d.,]+ ?\w*?),? min(?:imum)?:? ([\d.,]+ ?\w*)", re.IGNORECASE
)


def read_swr(text: str, asked: Asked) -> Understood:
    """Return an SWR told as a number, a ratio, a return loss or two powers.

    Raises:
        Unclear: the two sizes make no SWR, or it may be read in two ways.

    >>> read_swr("4 W / 0.44 W", Asked("SWR")).words
    '4 W forward and 0.44 W back is SWR 1.99'
    """
    tidied = NAMED.sub("", tidy(text))
    if matched := RATIO.fullmatch(tidied):
        return _ratio(_number(matched[1]), _number(matched[2]))
    if matched := RETURN_LOSS.fullmatch(tidied) or LOSS_LAST.fullmatch(tidied):
        return _return_loss(_number(matched[1]))
    if matched := SLASHED.fullmatch(tidied):
        return _two_powers(*_plain_names(matched[1], matched[2]), tidied)
    if re.search("back|refl", tidied, re.IGNORECASE) and (
        matched := FORWARD_BACK.fullmatch(tidied)
    ):
        return _two_powers(matched[1], matched[2], tidied)
    if DECIBELS.fullmatch(tidied):
        raise Unclear(f"'{tidied}' is no SWR", f"Did you mean 'return loss {tidied}'?")
    swr = read_quantity(tidied, asked)
    if swr.value < 1.0:
        raise Unclear(f"SWR {shown(swr.value)}: an SWR is never below 1", "Write it as 2:1.")
    return swr


def read_depth(text: str, asked: Asked) -> Understood | None:
    """Return a depth of AM told by the scope's maximum and minimum; None when it is not.

    Raises:
        Unclear: the two sizes make no depth.

    >>> read_depth("max 74 min 6 Vpp", Asked("%")).words
    'maximum 74 and minimum 6 is 85.0 %'
    """
    tidied = tidy(text)
    matched = LARGEST_SMALLEST.fullmatch(tidied) or SLASHED.fullmatch(tidied)
    if matched is None:
        return None
    largest, smallest = (_bare(one, matched[2]) for one in (matched[1], matched[2]))
    told = f"maximum {shown(largest)} and minimum {shown(smallest)}"
    if not 0.0 <= smallest <= largest or largest == 0.0:
        raise Unclear(f"{told} make no depth", "Write the larger size first, such as 74/6.")
    depth = 100.0 * am_depth(largest, smallest)
    return Understood(depth, f"{three(depth)} %", told)


def _ratio(one: float, other: float) -> Understood:
    if 1.0 not in (one, other):
        told = f"{shown(one)}:{shown(other)}"
        raise Unclear(
            f"'{told}' has no side that is 1", "Write it as 2:1, or two powers as 4/0.44."
        )
    larger = max(one, other)
    return Understood(larger, f"SWR {shown(larger)}", f"{shown(one)}:{shown(other)}")


def _return_loss(loss_db: float) -> Understood:
    if loss_db == 0.0:
        raise Unclear(
            "a return loss of 0 dB is an SWR without end", "Look at the cable and the meter."
        )
    swr = swr_from_return_loss(loss_db)
    return Understood(swr, f"SWR {three(swr)}", f"a return loss of {shown(loss_db)} dB")


def _two_powers(forward_text: str, back_text: str, whole: str) -> Understood:
    """Return the SWR from two powers; the unit of one holds for a bare other."""
    last = figure(back_text).rest
    first = figure(forward_text).rest
    if not first and not last and 1.0 in map(_number, (forward_text, back_text)):
        remedy = "Write 2:1 for the ratio, or 2 W / 1 W for the powers."
        raise Unclear(f"'{whole}' may be a ratio or two powers", remedy)
    powers = [
        read_quantity(f"{figure(one).sign}{figure(one).digits} {figure(one).rest or spare}", POWER)
        for one, spare in ((forward_text, last or "W"), (back_text, first or "W"))
    ]
    forward, back = powers
    told = f"{forward.shown} forward and {back.shown} back"
    if not 0.0 <= back.value < forward.value:
        remedy = "Write the forward power first; if that is how they are, look at the meter."
        raise Unclear(f"{told}: not more can come back than was sent", remedy)
    swr = swr_from_powers(forward.value, back.value)
    return Understood(swr, f"SWR {three(swr)}", told)


POWER = Asked("W", "power")


def _plain_names(forward: str, back: str) -> tuple[str, str]:
    """Return two powers without the words that name them."""
    names = re.compile(r" ?\b(?:forward|fwd|back|reflected|refl)\b ?", re.IGNORECASE)
    return names.sub("", forward), names.sub("", back)


def _bare(text: str, other: str) -> float:
    """Return a size without its unit, which must be one of voltage and that of the other."""
    told, beside = figure(text.strip()), figure(other.strip())
    for rest in (told.rest, beside.rest):
        unit = spoken(rest) if rest else None
        if rest and (unit is None or not unit.base.startswith("V")):
            raise Unclear(f"'{rest}' is no unit of a picture on a scope", "Write it as 74/6.")
    if told.rest and beside.rest and told.rest != beside.rest:
        raise Unclear(f"{told.rest} beside {beside.rest}", "Write both in one unit, such as 74/6.")
    return told.meanings[0]


def _number(text: str) -> float:
    return figure(text).meanings[0]
