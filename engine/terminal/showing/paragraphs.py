"""Words for a mechanic at the terminal: wrapped lines, chances, states."""

import textwrap
from collections.abc import Iterable, Mapping

WIDTH = 98


def filled(text: str, indent: int = 0, further: int | None = None) -> str:
    """Return a text in lines; those after the first are indented by `further`.

    >>> filled("one two", 2)
    '  one two'
    """
    below = indent if further is None else further
    return textwrap.fill(
        " ".join(text.split()),
        WIDTH,
        initial_indent=" " * indent,
        subsequent_indent=" " * below,
        break_long_words=False,
        break_on_hyphens=False,
    )


def labelled(rows: Mapping[str, str], indent: int = 2) -> str:
    """Return texts behind their labels, one below the other; empty texts are left out.

    >>> print(labelled({"where": "At the fuse.", "how": "", "right": "13 V."}))
      where  At the fuse.
      right  13 V.
    """
    told = {label: text for label, text in rows.items() if text}
    wide = max(map(len, told), default=0) + 2
    return "\n".join(_hung(label, text, wide, indent) for label, text in told.items())


def _hung(label: str, text: str, wide: int, indent: int) -> str:
    """Return a text hung behind its label."""
    lines = filled(text, indent + wide).split("\n")
    lines[0] = " " * indent + label.ljust(wide) + lines[0].lstrip()
    return "\n".join(lines)


def section(heading: str, lines: Iterable[str]) -> str:
    """Return lines under a heading; nothing when there are none.

    >>> section("Causes", [])
    ''
    """
    told = [line for line in lines if line]
    return "\n".join([heading, *told]) if told else ""


def one_in(chance: float) -> str:
    """Word the chance of something in a set as a mechanic would count it.

    >>> [one_in(p) for p in (0.0, 0.00012, 0.0123, 0.3, 0.62, 1.0)]
    ['none', '1 in 8300 sets', '1 in 81 sets', '1 in 3 sets', '62 of 100 sets', 'every set']
    """
    if chance <= 0.0:
        return "none"
    if chance > 0.4:
        return "every set" if chance > 0.995 else f"{100 * chance:.0f} of 100 sets"
    sets = 1.0 / chance
    return f"1 in {float(f'{sets:.2g}' if sets >= 100.0 else f'{sets:.0f}'):.0f} sets"
