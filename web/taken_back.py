"""Repairs taken back out of the middle of a case: as if they had never been entered."""

from collections.abc import Mapping, Sequence
from typing import Any

TAKE_BACK = "unrepair"
Input = Mapping[str, Any]


def standing(inputs: Sequence[Input]) -> list[Input]:
    """Return the inputs of a log without the repairs that were taken back, each by its own input.

    Of a cause that was put right more than once the latest repair goes. What takes back nothing
    stays, so that it can be told.

    >>> repair = {"do": "repair", "cause": "a.b", "how": "replaced"}
    >>> standing([repair, {"do": "lid", "lid": "off"}, {"do": "unrepair", "cause": "a.b"}])
    [{'do': 'lid', 'lid': 'off'}]
    """
    kept: list[Input] = []
    for given in inputs:
        places = [n for n, each in enumerate(kept) if _is_repair_of(each, given)]
        if given.get("do") == TAKE_BACK and places:
            del kept[places[-1]]
        else:
            kept.append(given)
    return kept


def _is_repair_of(each: Input, given: Input) -> bool:
    return each.get("do") == "repair" and each.get("cause") == given.get("cause")
