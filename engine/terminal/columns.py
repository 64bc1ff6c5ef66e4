"""Plain tables for the terminal."""

from collections.abc import Sequence


def columns(head: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """Return rows under a head, each column as wide as its longest cell; numbers to the right.

    >>> print(columns(("check", "minutes"), [("driver.coil-look", 2), ("vco.level", 10)]))
    check             minutes
    driver.coil-look        2
    vco.level              10
    """
    cells = [tuple(head), *(tuple(str(cell) for cell in row) for row in rows)]
    widths = [max(len(line[column]) for line in cells) for column in range(len(head))]
    right = [
        bool(rows) and all(_is_number(row[column]) for row in rows) for column in range(len(head))
    ]
    return "\n".join(
        "  ".join(
            cell.rjust(width) if to_right else cell.ljust(width)
            for cell, width, to_right in zip(line, widths, right, strict=True)
        ).rstrip()
        for line in cells
    )


def _is_number(cell: object) -> bool:
    return isinstance(cell, int | float)
