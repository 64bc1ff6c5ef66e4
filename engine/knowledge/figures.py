"""Figures of a family: what stands for `{name}` in texts of its blocks, and for their numbers."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import BaseModel

from engine.knowledge.schema import Between, Block, Check, Normal

FIGURE = re.compile(r"\{([a-z0-9]+(?:-[a-z0-9]+)*)\}")
_NUMBER = re.compile(r"\s*(-?\d+(?:\.\d+)?)")

Figures = Mapping[str, str]


def number_of(figure: str) -> float | None:
    """Return the number a figure begins with.

    >>> number_of("10.695 MHz"), number_of("about 8 V")
    (10.695, None)
    """
    found = _NUMBER.match(figure)
    return float(found[1]) if found else None


def figures_in(block: Block) -> set[str]:
    """Return the names of the figures a block asks for, in texts and for numbers."""
    return set(_in_texts(block)) | numbers_in(block)


def numbers_in(block: Block) -> set[str]:
    """Return the names of the figures that a block takes a number from."""
    named = ((check.nominal, check.scale) for check in block.checks.values())
    return {figure for each in named for figure in each if figure is not None}


def with_figures(block: Block, figures: Figures) -> Block:
    """Return a block with the figures of a family in its texts and numbers; it gives them all."""
    checks = {name: _numbered(check, figures) for name, check in block.checks.items()}
    filled: Block = _filled(block.model_copy(update={"checks": checks}), figures)
    return filled


def with_known(text: str, figures: Figures) -> str:
    """Return a text with the figures that are known in it.

    >>> with_known("{rail} and {fuse}", {"rail": "8 V"})
    '8 V and {fuse}'
    """
    return FIGURE.sub(lambda found: figures.get(found[1], found[0]), text)


def _in_texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield from FIGURE.findall(value)
    else:
        for each in _parts(value):
            yield from _in_texts(each)


def _parts(value: Any) -> Iterator[Any]:
    if isinstance(value, BaseModel):
        yield from (getattr(value, name) for name in type(value).model_fields)
    elif isinstance(value, Mapping):
        yield from value.values()
    elif isinstance(value, tuple):
        yield from value


def _filled(value: Any, figures: Figures) -> Any:
    if isinstance(value, str):
        return FIGURE.sub(lambda found: figures[found[1]], value)
    if isinstance(value, BaseModel):
        fields = type(value).model_fields
        return value.model_copy(update={k: _filled(getattr(value, k), figures) for k in fields})
    if isinstance(value, Mapping):
        return {name: _filled(each, figures) for name, each in value.items()}
    if isinstance(value, tuple):
        return tuple(_filled(each, figures) for each in value)
    return value


def _numbered(check: Check, figures: Figures) -> Check:
    """Return a check with its right frequency, and its readings times what they are counted in."""
    changes: dict[str, Any] = {}
    if check.nominal is not None:
        changes["nominal_mhz"] = number_of(figures[check.nominal])
    times = number_of(figures[check.scale]) if check.scale is not None else None
    if times is not None and check.span is not None:
        changes["reads"] = {state: _times(times, read) for state, read in check.reads.items()}
        changes["span"] = (check.span[0] * times, check.span[1] * times)
    return check.model_copy(update=changes)


def _times(factor: float, read: Normal | Between) -> Normal | Between:
    fields = ("typical", "spread") if isinstance(read, Normal) else ("low", "high")
    return read.model_copy(update={name: factor * getattr(read, name) for name in fields})
