"""Numbers as they are written: `3.5`, `3,5`, `.5`, `1,234.5`, `27 601 250`; and back again."""

import re
from dataclasses import dataclass
from math import floor, isfinite, log10

# Whole numbers in groups of three, by the mark between the groups and the decimal mark.
COMMA_GROUPS = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?(?![.,]?\d)")
DOT_GROUPS = re.compile(r"\d{1,3}(?:(?:\.\d{3})+,\d+|(?:\.\d{3}){2,})(?![.,]?\d)")
SPACE_GROUPS = re.compile(r"\d{1,3}(?:[ '’]\d{3})+(?:[.,]\d+)?(?![.,]?\d)")
PLAIN = re.compile(r"(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?")
ONE_GROUP = re.compile(r"[1-9]\d{0,2},\d{3}")
ABOUT = re.compile(r"^(?:~|≈|about|approx\.?|ca\.?)\s*", re.IGNORECASE)
DIGITS = {ord("−"): "-", ord("\u00a0"): " ", ord("\u202f"): " ", ord("\u2009"): " "}


class Unclear(ValueError):
    """What was written cannot be used; `remedy` says what to write instead, if that is known."""

    def __init__(self, found: str, remedy: str = "") -> None:
        self.remedy = remedy
        super().__init__(found)


@dataclass(frozen=True, slots=True)
class Figure:
    """A number at the head of a text: what it may mean, how it was signed, and what follows it.

    There are two meanings where a comma may be a decimal one or stand between thousands.
    """

    meanings: tuple[float, ...]
    sign: str
    digits: str
    rest: str


def tidy(text: str) -> str:
    """Return text with one kind of minus, single spaces, and no full stop at its end.

    >>> tidy("  −300  Hz. ")
    '-300 Hz'
    """
    return " ".join(text.translate(DIGITS).split()).removesuffix(".").rstrip()


def figure(text: str) -> Figure:
    """Return the number a tidy text begins with.

    Raises:
        Unclear: it begins with none, or with one that is too large.

    >>> figure("1,200 Hz")
    Figure(meanings=(1.2, 1200.0), sign='', digits='1,200', rest='Hz')
    """
    told = ABOUT.sub("", text)
    sign = told[:1] if told[:1] in ("+", "-") else ""
    digits, plain = _digits(told[len(sign) :])
    if not digits:
        raise Unclear(f"'{text}' does not begin with a number")
    written = [digits.replace(",", "."), plain] if ONE_GROUP.fullmatch(digits) else [plain]
    meanings = tuple(-float(one) if sign == "-" else float(one) for one in written)
    if not all(map(isfinite, meanings)):
        raise Unclear(f"'{text}' is too large a number")
    return Figure(meanings, sign, digits, told[len(sign) + len(digits) :].strip())


def shown(value: float) -> str:
    """Return a number without noise in its last digits.

    >>> shown(27792500.0), shown(0.1 + 0.2)
    ('27792500', '0.3')
    """
    return f"{value:.10g}"


def three(value: float) -> str:
    """Return a number that was worked out, to three figures.

    >>> three(4.0), three(3.9811), three(0.04444), three(250.4), three(0.09999)
    ('4.00', '3.98', '0.0444', '250', '0.100')
    """
    if value == 0.0:
        return "0"
    value = float(f"{value:.3g}")  # first, or 0.09999 would get a figure too many
    size = floor(log10(abs(value)))
    return f"{value:.{max(2 - size, 0)}f}" if -5 < size < 7 else f"{value:.3g}"


def _digits(text: str) -> tuple[str, str]:
    """Return the digits at the head of a text, as written and as Python reads them."""
    for groups, mark in ((COMMA_GROUPS, ","), (DOT_GROUPS, "."), (SPACE_GROUPS, " '’")):
        if matched := groups.match(text):
            plain = "".join(c for c in matched[0] if c not in mark)
            # A number that begins with 0 has no thousands: 0,125 is an eighth.
            if mark == "," and matched[0].startswith("0"):
                plain = matched[0]
            return matched[0], plain.replace(",", ".")
    matched = PLAIN.match(text)
    return (matched[0], matched[0].replace(",", ".")) if matched else ("", "")
