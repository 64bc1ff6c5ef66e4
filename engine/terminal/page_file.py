"""Cases saved by the page: the log of its inputs, replayed here as it is there."""

import json
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from engine.diagnosis.case import Case
from engine.diagnosis.model import SetModel
from engine.errors import CaseError, Problem, suggest
from engine.terminal.models import families, open_model
from web.replaying import FORMAT, is_replayable, replay


def page_log(text: str) -> Mapping[str, Any] | None:
    """Return the log in a file that the page saved, None when it is another kind of file."""
    try:
        data = json.loads(text)
    except ValueError:
        return None
    return data if isinstance(data, dict) and "inputs" in data else None


def load_log(path: Path, log: Mapping[str, Any], kb: Path) -> tuple[SetModel, Case]:
    """Return the model and the case of a log; inputs that cannot be used are told.

    Raises:
        CaseError: it is of another format, of an unknown set, or damaged.
    """
    if log.get("format") != FORMAT:
        remedy = "Save it again with a page of the same age as this program."
        raise _refusal(path, "format", log.get("format"), str(FORMAT), remedy)
    family = str(log.get("family"))
    model = open_model(kb, family) if family in families(kb) else None
    if model is None:
        raise _refusal(path, "family", family, "a kind of set", suggest(family, families(kb)))
    if not is_replayable(log["inputs"]):
        remedy = "The file is damaged: save the case again with the page."
        raise _refusal(path, "inputs", "something else", "inputs of the page", remedy)
    state = replay(model, log["inputs"])
    for words in state.set_aside:
        print(f"{path}: left out, as this knowledge cannot use it: {words}", file=sys.stderr)
    return model, state.case


def _refusal(path: Path, key: str, found: object, expected: str, remedy: str) -> CaseError:
    return CaseError([Problem(str(path), 1, key, str(found), expected, remedy)])
