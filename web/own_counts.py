"""The model a case is worked out with: that of the knowledge, sharpened by counts, or by a past.

A log carries the counts only while the person has switched them on; they are never stored in it.
"""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from engine.diagnosis.kinds import NOT_SURE, KindTexts
from engine.diagnosis.mixing import mix
from engine.diagnosis.model import SetModel
from engine.diagnosis.sharpening import OwnCounts, sharpened
from web.history import with_history

NONE = OwnCounts(0, ())
AllCounts = tuple[tuple[str, OwnCounts], ...]  # by family, in order
KINDS: list[KindTexts] = []  # what tells the families apart, once it was loaded


def model_of(models: Mapping[str, SetModel], log: Mapping[str, Any]) -> SetModel:
    """Return the model to work a log out with; the same for the same family, counts and past."""
    family = str(log["family"])
    counts = read_counts(log.get("counts"))
    if family != NOT_SURE:
        model = sharpened(models[family], dict(counts).get(family, NONE))
        return with_history(model, log.get("inputs", ()))
    if not counts or not KINDS:
        return models[family]
    members = tuple((name, models[name]) for name in KINDS[-1].shares)
    return _mixed(members, KINDS[-1].block.id, counts)


def read_counts(given: Mapping[str, Any] | None) -> AllCounts:
    """Return the counts of all families that have any, as the page sends them."""
    return tuple(
        (family, OwnCounts(int(each["sets"]), tuple(sorted(each["times"].items()))))
        for family, each in sorted((given or {}).items())
        if each["sets"]
    )


@lru_cache(maxsize=2)
def _mixed(members: tuple[tuple[str, SetModel], ...], _kinds: str, counts: AllCounts) -> SetModel:
    """Return all families together, each sharpened by its own counts."""
    known = dict(counts)
    models = {name: sharpened(model, known.get(name, NONE)) for name, model in members}
    return mix(models, KINDS[-1])
