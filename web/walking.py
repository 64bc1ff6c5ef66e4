"""The verb of the walk: which case the page is to show at a step."""

from collections.abc import Callable, Mapping
from typing import Any

from web.views.walk import walk_log


def _walk(args: Mapping[str, Any]) -> Mapping[str, Any]:
    return {"log": walk_log(int(args["step"]))}


WALK_VERBS: Mapping[str, Callable[[Mapping[str, Any]], Mapping[str, Any]]] = {"walk": _walk}
